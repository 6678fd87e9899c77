#include "command/stash.hpp"

#include <filesystem>
#include <ostream>

#include "command/commands.hpp"
#include "command/complain.hpp"
#include "command/stash_parts.hpp"
#include "stash/stash.hpp"
#include "text/words.hpp"

namespace battwright::command {

namespace {

void declare(Command& app, StashCommands& commands) {
    commands.stash = app;
    commands.stash.require_subcommand(1, 1);
    add_lot_verbs(commands);
    add_shelf_verbs(commands);
    add_weight_verbs(commands);
    add_batt_verbs(commands);
    add_batt_photo_verbs(commands);
    add_skein_verbs(commands);
    add_project_verbs(commands);
    add_report_verbs(commands);
    add_file_verbs(commands);
}

int run_stash(const StashCommands& commands, const Context& context) {
    for (const Verb& verb : commands.verbs) {
        if (!verb.app.chosen()) continue;
        const auto answer = verb.work(context);
        *context.s.out << answer.text;
        return answer.code;
    }
    return exit_bad_input;  // the parser asks for a verb, so one was there
}

Taught taught_by(const stash::Stash& stash) {
    const auto calibration = value_of(stash.calibration());
    const auto hands = value_of(stash.hands());
    auto shelf = value_of(stash.shelf());
    return Taught{calibration, hands.hands, std::move(shelf)};
}

}  // namespace

void add_stash_commands(Commands& commands) {
    commands.add<StashCommands>("stash", "what is on the shelf, what was made of it, what it taught", declare,
                                run_stash);
}

Taught taught_from(const std::string& file, const fibre::Catalogue& catalogue, const Surroundings& s) {
    const std::filesystem::path path = file.empty() ? stash::default_path() : std::filesystem::path(file);
    std::error_code ignored;
    if (!std::filesystem::exists(path, ignored)) return Taught{};
    stash::OpenOptions how;
    how.create = false;
    how.read_only = true;
    how.catalogue = &catalogue;
    auto learnt = guarded([&] { return taught_by(value_of(stash::Stash::open(path, how))); });
    if (learnt || !file.empty()) return value_of(std::move(learnt));
    *s.err << "note: nothing is learnt from your skeins and batts: " << measure::to_line(learnt.error())
           << "\n";
    return Taught{};
}

std::string skeins_words(int skeins) {
    if (skeins <= 0) return {};
    return "rests on " + text::counted(skeins, "skein", "skeins") + " of yours";
}

}  // namespace battwright::command
