// The record's batts: made when, of what, fed, off the drum, and what that taught.
#include <algorithm>

#include "app/record/record_session.hpp"
#include "app/settings.hpp"
#include "app/shelf/shelf_choice.hpp"
#include "app/shelf/stash_requests.hpp"
#include "app/shelf/stash_session.hpp"
#include "window/kit/widgets.hpp"
#include "window/views/record/record.hpp"

namespace battwright::window {
namespace {

// Newest first; only what can be seen is drawn.
void list_batts(const Ui& ui, RecordState& state) {
    const auto& batts = ui.record.book().batts;
    if (batts.empty()) {
        paragraph(
            ui,
            "No batt is in the record yet. Drag lots from the shelf onto the bench and press \u201cCard "
            "it\u201d on the drum: the weigh-out is taken from the shelf, and the batt stands here.",
            ui.theme.ink);
        return;
    }
    ImGuiListClipper clipper;
    clipper.Begin(static_cast<int>(batts.size()), ui.px(entry_height));
    while (clipper.Step()) {
        for (int i = clipper.DisplayStart; i < clipper.DisplayEnd; ++i) {
            const auto& batt = batts[batts.size() - 1 - static_cast<std::size_t>(i)];
            if (record_entry(ui, "record batt " + std::to_string(batt.id), name_of(batt),
                             batt_in_short(batt, ui.settings), batt.id == state.batt,
                             !batt.taken_back_on.empty())) {
                state.batt = batt.id;
                state.batt_photo = 0;
                state.sure_asked = false;
            }
        }
    }
}

void made_of(const Ui& ui, const stash::Batt& batt) {
    text_in(ui, ui.fonts.bold, ui.theme.ink, "Made of");
    const float left = ImGui::GetCursorPosX();
    for (const auto& line : batt.carding.lines) {
        text_in(ui, ui.fonts.body, ui.theme.ink, mass(ui, line.grams));
        ImGui::SameLine(left + ui.px(96.0f));
        text_in(ui, ui.fonts.body, ui.theme.quiet, line.mark);
        ImGui::SameLine(left + ui.px(180.0f));
        const auto* lot = ui.stash.find(line.mark);
        text_within(ui, ui.fonts.body, ui.theme.ink, lot != nullptr ? lot->lot.name : "",
                    ImGui::GetContentRegionAvail().x);
    }
    gap(ui, 2.0f);
}

void off_the_drum(const Ui& ui, RecordState& state, const stash::Batt& batt) {
    record_row(ui, "Fed");
    text_in(ui, ui.fonts.bold, ui.theme.ink, mass(ui, batt.fed_grams));
    record_row(ui, "Off the drum");
    const std::string shown = batt.off_drum_grams ? mass(ui, *batt.off_drum_grams) : "";
    const char* hint = batt.carding.batts == 1 ? "weigh the batt" : "weigh all of them together";
    if (const auto typed = field(ui, "off the drum", shown, ui.px(190.0f), hint)) {
        const auto weight = parse_weight(*typed, ui.settings.mass);
        if (!weight)
            refuse(ui, weight.error());
        else
            ask_record(ui, state, OffTheDrum{batt.id, weight->grams},
                       "Written down: " + mass(ui, weight->grams) + " off the drum.");
    }
    hover(ui, "All batts of this carding on the scale; the last weighing counts");
    if (std::string lost = loss_in_words(batt, ui.settings); !lost.empty()) {
        lost = "lost " + lost;
        beside_or_below(ui, 14.0f, width_of(ui.fonts.body, lost));
        text_in(ui, ui.fonts.body, ui.theme.quiet, lost);
    }
}

void cost(const Ui& ui, const stash::Batt& batt) {
    const auto found = ui.record.book().batt_costs.find(batt.id);
    record_row(ui, "Cost");
    text_within(ui, ui.fonts.body, ui.theme.ink,
                found == ui.record.book().batt_costs.end() ? "no price known"
                                                           : cost_in_words(found->second, ui.settings),
                ImGui::GetContentRegionAvail().x);
}

void skeins(const Ui& ui, RecordState& state, const std::vector<const stash::Skein*>& spun) {
    if (spun.empty()) return;
    text_in(ui, ui.fonts.bold, ui.theme.ink, "Spun from it");
    for (const auto* skein : spun) {
        if (record_entry(ui, "spun " + std::to_string(skein->id), name_of(*skein),
                         skein_in_short(*skein, ui.settings), false) &&
            may_leave_form(ui, state)) {
            show_skein(ui, state, skein->id);
            state.page = RecordPage::skeins;
        }
    }
}

void take_back_button(const Ui& ui, RecordState& state, const stash::Batt& batt, bool spun) {
    ImGui::BeginDisabled(spun);
    if (button(ui, state.sure_asked ? "Press again to take it back##batt back" : "Take back##batt back",
               Tone::plain, 0.0f,
               spun ? "A skein was spun from it. Remove the skein first, if it never was."
                    : "Puts the fibre back on the shelf, as if it had not been carded")) {
        if (state.sure_asked)
            ask_record(ui, state, TakeBack{batt.id, {}},
                       "Taken back: " + mass(ui, batt.fed_grams) + " are on the shelf again.");
        state.sure_asked = !state.sure_asked;
    }
    ImGui::EndDisabled();
}

void actions(const Ui& ui, RecordState& state, const stash::Batt& batt, bool spun) {
    if (button(ui, "Log a skein from it##batt skein", Tone::accent) && may_leave_form(ui, state)) {
        start_skein(ui, state, batt.id);
        state.page = RecordPage::skeins;
    }
    ImGui::SameLine();
    take_back_button(ui, state, batt, spun);
}

std::string carded_words(const stash::Batt& batt) {
    return "Carded on " + batt.carding.date + ", " +
           (batt.carding.batts == 1 ? "one batt" : std::to_string(batt.carding.batts) + " batts");
}

void details(const Ui& ui, RecordState& state, const stash::Batt& batt) {
    text_within(ui, ui.fonts.title, ui.theme.ink, name_of(batt), ImGui::GetContentRegionAvail().x);
    const bool stands = batt.taken_back_on.empty();
    text_in(ui, ui.fonts.body, ui.theme.quiet,
            carded_words(batt) + (stands ? "" : "; taken back on " + batt.taken_back_on));
    if (!batt.carding.notes.empty()) paragraph(ui, batt.carding.notes, ui.theme.ink);
    gap(ui, 2.0f);
    made_of(ui, batt);
    const auto spun = ui.record.book().spun_from(batt.id);
    if (stands) {
        off_the_drum(ui, state, batt);
        cost(ui, batt);
        gap(ui, 4.0f);
        if (const auto& lesson = ui.record.batt_lesson(batt))
            view_lesson(ui, "carding lesson", *lesson, "The next batt like this one, off the drum", "batt",
                        [&](double grams) { return mass(ui, grams); });
        gap(ui, 4.0f);
    }
    skeins(ui, state, spun);
    if (!stands) return;
    gap(ui, 2.0f);
    actions(ui, state, batt, !spun.empty());
}

}  // namespace

void view_record_batts(const Ui& ui, RecordState& state) {
    if (ui.record.book().batt(state.batt) == nullptr && !ui.record.book().batts.empty())
        state.batt = ui.record.book().batts.back().id;
    const RecordColumns columns = record_columns(ui);
    begin_child("batts",
                {columns.list, columns.stacked ? stacked_list(ui, ui.record.book().batts.size()) : 0.0f});
    list_batts(ui, state);
    ImGui::EndChild();
    const auto* batt = ui.record.book().batt(state.batt);
    if (batt == nullptr) return;
    next_column(ui, columns.between, columns.stacked);
    begin_column("batt", {columns.half, 0.0f}, columns.stacked);
    ImGui::PushID(static_cast<int>(batt->id));
    details(ui, state, *batt);
    ImGui::PopID();
    end_column(columns.stacked);
    next_column(ui, columns.between, columns.stacked);
    begin_column("batt photo column", {0.0f, 0.0f}, columns.stacked);
    ImGui::PushID(static_cast<int>(batt->id));
    view_batt_photos(ui, state, *batt);
    ImGui::PopID();
    end_column(columns.stacked);
}

}  // namespace battwright::window
