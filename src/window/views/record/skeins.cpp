// The record's skeins: the list, and what a skein is promised to.
#include <algorithm>

#include "app/half_typed.hpp"
#include "app/record/record_session.hpp"
#include "app/shelf/stash_requests.hpp"
#include "app/yarn/yarn_words.hpp"
#include "window/kit/widgets.hpp"
#include "window/views/record/record.hpp"

namespace battwright::window {
namespace {

void list_skeins(const Ui& ui, RecordState& state) {
    const auto& skeins = ui.record.book().skeins;
    if (skeins.empty()) {
        paragraph(ui,
                  "No skein is in the record yet. Log one when it is washed and dry: its length makes the "
                  "next forecast your own.",
                  ui.theme.ink);
        return;
    }
    ImGuiListClipper clipper;
    clipper.Begin(static_cast<int>(skeins.size()), ui.px(entry_height));
    while (clipper.Step()) {
        for (int i = clipper.DisplayStart; i < clipper.DisplayEnd; ++i) {
            const auto& skein = skeins[skeins.size() - 1 - static_cast<std::size_t>(i)];
            const bool asks = ui.record.book().question(skein.id) != nullptr;
            if (record_entry(ui, "record skein " + std::to_string(skein.id), name_of(skein),
                             (asks ? "a question \u00b7 " : "") + skein_in_short(skein, ui.settings),
                             skein.id == state.form.id) &&
                may_leave_form(ui, state)) {
                show_skein(ui, state, skein.id);
                state.sure_asked = false;
            }
        }
    }
}

}  // namespace

bool may_leave_form(const Ui& ui, RecordState& state) {
    state.complaint.clear();
    if (may_let_go(state.let_go_asked, typed_in(state.form, ui.settings))) return true;
    state.at.clear();
    state.complaint = "The skein in the form is not in the record yet; press again to let it go.";
    return false;
}

void start_skein(const Ui& ui, RecordState& state, std::int64_t batt) {
    state.form = new_skein_form(ui.settings);
    state.untold.clear();
    state.sure_asked = false;
    const auto* from = ui.record.book().batt(batt);
    if (from == nullptr) return;
    state.form.from = with_batt({}, batt);
    state.form.name = from->carding.name;
    state.foretell = ui.ask.another_frame = true;
}

void show_skein(const Ui& ui, RecordState& state, std::int64_t id) {
    const auto* skein = ui.record.book().skein(id);
    state.untold.clear();
    state.project.clear();
    state.promise.clear();
    state.form = skein != nullptr ? form_of(*skein, ui.settings) : new_skein_form(ui.settings);
}

void view_record_skeins(const Ui& ui, RecordState& state) {
    if (state.form.id != 0 && ui.record.book().skein(state.form.id) == nullptr) start_skein(ui, state, 0);
    const RecordColumns columns = record_columns(ui);
    const float tall = ImGui::GetFrameHeightWithSpacing() + stacked_list(ui, ui.record.book().skeins.size());
    begin_child("skeins left", {columns.list, columns.stacked ? tall : 0.0f});
    if (button(ui, "Log a skein##new skein", state.form.id == 0 ? Tone::on : Tone::plain,
               ImGui::GetContentRegionAvail().x) &&
        may_leave_form(ui, state))
        start_skein(ui, state, 0);
    begin_child("skeins", {0.0f, 0.0f});
    list_skeins(ui, state);
    ImGui::EndChild();
    ImGui::EndChild();
    next_column(ui, columns.between, columns.stacked);
    ImGui::PushID(static_cast<int>(state.form.id));
    view_record_form(ui, state, columns);
    ImGui::PopID();
}

void view_record_projects(const Ui& ui, RecordState& state, const stash::Skein& skein) {
    text_in(ui, ui.fonts.bold, ui.theme.ink, "Promised to projects");
    const float unit = ImGui::GetContentRegionAvail().x;
    for (const auto* one : ui.record.book().promised_of(skein.id)) {
        ImGui::PushID(static_cast<int>(one->id));
        ImGui::AlignTextToFramePadding();
        text_within(ui, ui.fonts.body, ui.theme.ink,
                    print_metres(one->metres, ui.settings) + "  " + one->project, unit - ui.px(96.0f));
        ImGui::SameLine(unit - ui.px(84.0f));
        if (button(ui, "Release##release " + std::to_string(one->id), Tone::plain, ui.px(84.0f)))
            ask_record(ui, state, Release{one->id}, "Released.");
        ImGui::PopID();
    }
    const double left = skein.metres - ui.record.book().promised_metres(skein.id);
    const bool project = edit_text(ui, "project", state.project, unit - ui.px(186.0f), "a project's name");
    ImGui::SameLine();
    const bool promise = edit_text(ui, "promise", state.promise, ui.px(78.0f), "length");
    ImGui::SameLine();
    const bool pressed = button(ui, "Promise##promise it", Tone::plain, ui.px(84.0f));
    record_trouble(ui, state, project || promise, "project", "promise");
    if (pressed) {
        const auto metres = parse_yarn_metres(state.promise, yarn_length_unit(ui.settings));
        if (!metres)
            complain_in_record(state, {metres.error().what, metres.error().mend, "promise"});
        else
            ask_record(ui, state, Allocate{{0, skein.id, state.project, *metres}},
                       "Promised: " + print_metres(*metres, ui.settings) + ".", RecordAfter::show_skein);
    }
    text_in(ui, ui.fonts.small, ui.theme.quiet, print_metres(std::max(0.0, left), ui.settings) + " are left");
}

}  // namespace battwright::window
