#include "window/kit/ui.hpp"

#include <utility>

#include "app/bench/bench_actions.hpp"
#include "app/bench/sheet.hpp"
#include "app/shelf/stash_requests.hpp"
#include "app/shelf/stash_session.hpp"

namespace battwright::window {

void Requests::act(Action action) {
    actions.push_back(std::move(action));
}

void Requests::act_first(Action action) {
    actions.insert(actions.begin(), std::move(action));
}

void Requests::edit(Sheet sheet, std::string what, bool dragging) {
    std::erase_if(actions, [](const Action& action) { return action.get_if<Edit>() != nullptr; });
    act(Edit{std::move(sheet), std::move(what), dragging ? gesture : 0});
}

void Requests::edit(Change change, std::string what, bool dragging) {
    if (change.disagreement)
        act(Disagree{std::move(*change.disagreement), std::move(what)});
    else
        edit(std::move(change.sheet), std::move(what), dragging);
}

void Requests::of_stash(StashAction action, Requester from) {
    stash.push_back({std::move(action), static_cast<std::uint64_t>(from)});
}

void Requests::command(Command wanted) {
    commands.push_back(wanted);
}

void Requests::complain(measure::Complaint complaint) {
    act(Complain{std::move(complaint)});
}

bool Requests::any() const {
    return another_frame || show_lot || pasted || !actions.empty() || !stash.empty() || !commands.empty() ||
           !photos.empty() || lot_palette;
}

const StashAnswer* Ui::answer_to(Requester asker) const {
    return stash.answer_to(static_cast<std::uint64_t>(asker));
}

}  // namespace battwright::window
