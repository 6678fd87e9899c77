#include "window/shell/half_typed.hpp"

#include <string>

#include "app/bench/bench_actions.hpp"
#include "app/half_typed.hpp"
#include "app/shelf/lot_edits.hpp"
#include "window/shell/commands.hpp"
#include "window/shell/shell.hpp"

namespace battwright::window {
namespace {

constexpr const char* close_again = "close the window again to let it go";

// A form that is begun: what is in it, and how it is said where it stands.
struct HalfTyped {
    std::string typed;
    void (*say)(Shell& shell);
};

HalfTyped of_lot(const Shell& shell) {
    return {shell.shelf.adding ? typed_in(shell.shelf.fresh, shell.shelf.fresh_weight) : std::string(),
            [](Shell& at) {
                at.shelf.complaint = measure::Complaint{"this lot is not on the shelf yet", close_again};
            }};
}

HalfTyped of_movement(const Shell& shell) {
    return {
        shell.shelf.card.empty() ? std::string() : draft_typed(shell.shelf.draft), [](Shell& at) {
            at.shelf.complaint = measure::Complaint{"what became of it is not written down yet", close_again};
        }};
}

HalfTyped of_carding(const Shell& shell) {
    const bool waits = panel_is_open(shell, Command::card_it) && !shell.card_it.taken;
    return {waits ? typed_in({shell.card_it.words.note}) : std::string(), [](Shell& at) {
                at.card_it.complaint = std::string("nothing is taken from the shelf yet; ") + close_again;
            }};
}

HalfTyped of_skein(const Shell& shell) {
    return {typed_in(shell.record.form, shell.app.settings) +
                typed_in({shell.record.project, shell.record.promise}),
            [](Shell& at) {
                if (!panel_is_open(at, Command::record)) open_panel(at, Command::record);
                at.record.page = RecordPage::skeins;
                at.record.complaint =
                    std::string("This skein is not in the record yet; ") + close_again + ".";
            }};
}

HalfTyped of_field(const Shell& shell) {
    return {shell.typing.id != 0 && shell.typing.text != shell.typing.shown ? shell.typing.text : "",
            [](Shell& at) {
                act(at, Complain{{"what is being typed is not written down yet",
                                  std::string("press Enter, or ") + close_again}});
            }};
}

}  // namespace

void close_window(Shell& shell) {
    const HalfTyped forms[]{of_lot(shell), of_movement(shell), of_carding(shell), of_skein(shell),
                            of_field(shell)};
    std::string all;
    for (const HalfTyped& form : forms) all += form.typed;
    if (may_let_go(shell.close_asked, all)) return act(shell, Leave{});
    for (const HalfTyped& form : forms) {
        if (form.typed.empty()) continue;
        form.say(shell);
        return;
    }
}

}  // namespace battwright::window
