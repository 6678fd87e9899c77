// "What was this?": what can still be told of a thing without a tag, and what it may be.
#include <cmath>

#include "app/shelf/shelf_choice.hpp"
#include "colour/spaces.hpp"
#include "window/kit/palette.hpp"
#include "window/kit/widgets.hpp"
#include "window/views/record/record.hpp"

namespace battwright::window {
namespace {

constexpr std::size_t most_suspects = 30;

bool is_blank(const std::string& text) {
    return text.find_first_not_of(" \t") == std::string::npos;
}

// The clue as typed, or what is wrong with it; nothing to go by is no complaint.
measure::Expected<std::optional<stash::Clue>> clue_of(const LookupState& lookup, const Settings& settings) {
    stash::Clue clue;
    if (lookup.by_colour) clue.colour = colour::lab(lookup.colour);
    if (!is_blank(lookup.weight)) {
        const auto weight = parse_weight(lookup.weight, settings.mass);
        if (!weight) return tl::make_unexpected(weight.error());
        clue.grams = weight->grams;
    }
    if (!is_blank(lookup.length)) {
        const auto metres = parse_yarn_metres(lookup.length, settings);
        if (!metres) return tl::make_unexpected(metres.error());
        clue.metres = *metres;
    }
    if (!is_blank(lookup.date)) clue.date = lookup.date;
    if (!clue.colour && !clue.grams && !clue.metres && clue.date.empty()) return std::optional<stash::Clue>();
    return std::optional(clue);
}

void look_up(const Ui& ui, LookupState& lookup) {
    if (!lookup.stale) return;
    lookup.stale = false;
    lookup.suspects.clear();
    lookup.complaint.clear();
    const auto clue = clue_of(lookup, ui.settings);
    if (!clue) {
        lookup.complaint = measure::to_line(clue.error());
        return;
    }
    if (!*clue || ui.desk.file() == nullptr) return;
    auto suspects = ui.desk.file()->look_up(**clue, most_suspects);
    if (suspects)
        lookup.suspects = std::move(*suspects);
    else
        lookup.complaint = measure::to_line(suspects.error());
}

void clue_line(const Ui& ui, LookupState& lookup, const char* words, const std::string& label,
               std::string& into, const char* hint) {
    record_row(ui, words);
    const auto typed = field(ui, label, into, ImGui::GetContentRegionAvail().x, hint);
    if (!typed) return;
    into = *typed;
    lookup.stale = true;
}

void clues(const Ui& ui, LookupState& lookup) {
    paragraph(ui, "A skein, a batt or a bag without a tag. Say what you can still tell of it.",
              ui.theme.quiet);
    clue_line(ui, lookup, "Weight", "clue weight", lookup.weight, "about");
    clue_line(ui, lookup, "Length", "clue length", lookup.length, "of a skein, about");
    clue_line(ui, lookup, "Date", "clue date", lookup.date, "2024-05-17, about");
    if (const auto on = tick(ui, "clue colour", "by its colour", lookup.by_colour)) {
        lookup.by_colour = *on;
        lookup.stale = true;
    }
    if (!lookup.by_colour) return;
    if (const auto edit = view_one_colour(ui, lookup.colour)) {
        lookup.colour = edit->colour;
        lookup.stale = true;
    }
}

std::string called(const stash::Suspect& suspect) {
    const std::string thing(stash::word_for(suspect.thing));
    const std::string id = suspect.mark.empty() ? "" : suspect.mark + "  ";
    return id + (suspect.name.empty() ? thing + " " + std::to_string(suspect.id) : suspect.name);
}

std::string reasons(const Ui& ui, const stash::Suspect& suspect) {
    std::string line = fit_in_words(suspect) + ": a " + std::string(stash::word_for(suspect.thing));
    for (const auto& reason : suspect.reasons) line += " \u00b7 " + reason_in_words(reason, ui.settings);
    return line;
}

void go_to(const Ui& ui, RecordState& state, const stash::Suspect& suspect) {
    switch (suspect.thing) {
        case stash::Thing::lot:
            ui.ask.show_lot = suspect.mark;
            ImGui::CloseCurrentPopup();
            return;
        case stash::Thing::batt:
            state.batt = suspect.id;
            state.page = RecordPage::batts;
            return;
        case stash::Thing::skein:
            show_skein(ui, state, suspect.id);
            state.page = RecordPage::skeins;
            return;
    }
}

}  // namespace

void view_record_lookup(const Ui& ui, RecordState& state) {
    LookupState& lookup = state.lookup;
    ImGui::BeginChild("clues", {ui.px(330.0f), 0.0f});
    clues(ui, lookup);
    ImGui::EndChild();
    look_up(ui, lookup);
    ImGui::SameLine(0.0f, ui.px(22.0f));
    bool left = false;
    ImGui::BeginChild("suspects", {0.0f, 0.0f});
    if (!lookup.complaint.empty()) paragraph(ui, lookup.complaint, ui.theme.spoils);
    for (std::size_t i = 0; i < lookup.suspects.size(); ++i) {
        const auto& suspect = lookup.suspects[i];
        left |= record_entry(ui, "suspect " + std::to_string(i + 1), called(suspect), reasons(ui, suspect),
                             false, suspect.deviations >= 2.5);
        hover(ui, reasons(ui, suspect) + "\nOn the whole " +
                      measure::write_number(std::round(suspect.deviations * 10.0) / 10.0) +
                      " standard deviations off.");
        if (left) {
            go_to(ui, state, suspect);
            break;
        }
    }
    if (lookup.suspects.empty() && lookup.complaint.empty())
        paragraph(ui, "What it may be stands here, likeliest first, each with why.", ui.theme.quiet);
    ImGui::EndChild();
}

}  // namespace battwright::window
