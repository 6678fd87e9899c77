// "What was this?": what can still be told of a thing without a tag, and what it may be.

#include <utility>

#include "app/record/record_session.hpp"
#include "window/kit/palette.hpp"
#include "window/kit/widgets.hpp"
#include "window/views/record/record.hpp"

namespace battwright::window {
namespace {

void clue_line(const Ui& ui, LookupChoice& lookup, const char* words, const std::string& label,
               std::string LookupChoice::*into, const char* hint) {
    record_row(ui, words);
    edit_text(ui, label, lookup.*into, ImGui::GetContentRegionAvail().x, hint);
}

void clues(const Ui& ui) {
    LookupChoice lookup = ui.record.lookup;
    paragraph(ui, "A skein, a batt or a bag without a tag. Say what you can still tell of it.",
              ui.theme.quiet);
    clue_line(ui, lookup, "Weight", "clue weight", &LookupChoice::weight, "about");
    clue_line(ui, lookup, "Length", "clue length", &LookupChoice::length, "of a skein, about");
    if (const auto on = tick(ui, "clue before wash", "measured before the wash", lookup.before_wash))
        lookup.before_wash = *on;
    hover(ui, "The record holds skeins washed and dry; the wash takes of a yarn as wound.");
    if (const std::string& washed = ui.record.suspects().washed; !washed.empty()) {
        paragraph(ui, washed, ui.theme.quiet);
        mark(ui, "clue washed");
    }
    clue_line(ui, lookup, "Date", "clue date", &LookupChoice::date, "2024-05-17, about");
    edit_tick(ui, "clue colour", "by its colour", lookup.by_colour);
    if (ui.record.lookup.by_colour) {
        if (const auto edit = view_one_colour(ui, lookup.colour)) lookup.colour = edit->colour;
    }
    if (!(lookup == ui.record.lookup)) ui.ask.act(LookUp{std::move(lookup)});
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
            if (!may_leave_form(ui, state)) return;
            show_skein(ui, state, suspect.id);
            state.page = RecordPage::skeins;
            return;
    }
}

}  // namespace

void view_record_lookup(const Ui& ui, RecordState& state) {
    const bool stacked = !has_room(ui, 680.0f);
    begin_column("clues", {ui.px(330.0f), 0.0f}, stacked);
    clues(ui);
    end_column(stacked);
    const auto& [suspects, washed, complaint] = ui.record.suspects();
    next_column(ui, ui.px(22.0f), stacked);
    bool left = false;
    begin_column("suspects", {0.0f, 0.0f}, stacked);
    if (!complaint.empty()) paragraph(ui, complaint, ui.theme.spoils);
    for (std::size_t i = 0; i < suspects.size(); ++i) {
        const auto& suspect = suspects[i];
        left |= record_entry(ui, "suspect " + std::to_string(i + 1), called(suspect), reasons(ui, suspect),
                             false, suspect.deviations >= 2.5);
        hover(ui, reasons(ui, suspect) + "\nOn the whole " + measure::print_number(suspect.deviations, 1) +
                      " standard deviations off.");
        if (left) {
            go_to(ui, state, suspect);
            break;
        }
    }
    if (suspects.empty() && complaint.empty())
        paragraph(ui, "What it may be stands here, likeliest first, each with why.", ui.theme.quiet);
    end_column(stacked);
}

}  // namespace battwright::window
