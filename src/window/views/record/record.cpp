#include "window/views/record/record.hpp"

#include <algorithm>
#include <array>
#include <filesystem>
#include <utility>

#include "app/record/record_session.hpp"
#include "app/settings.hpp"
#include "app/shelf/stash_requests.hpp"
#include "app/state.hpp"
#include "text/words.hpp"
#include "window/kit/widgets.hpp"

namespace battwright::window {
namespace {

constexpr std::array<const char*, 5> record_pages{"Batts", "Skeins", "What was this?", "Reports", "Files"};

void go_on(const Ui& ui, RecordState& state, RecordAfter after, std::int64_t id) {
    if (after == RecordAfter::new_skein) start_skein(ui, state, 0);
    if (after == RecordAfter::show_skein) show_skein(ui, state, id != 0 ? id : state.form.id);
    if (after == RecordAfter::empty_table) ui.ask.act(ForgetTable{});
}

void take_answer(const Ui& ui, RecordState& state) {
    const auto* answer = ui.answer_to(Requester::record);
    if (answer == nullptr) return;
    state.sure_asked = false;
    complain_in_record(state, answer->complaint.value_or(measure::Complaint{}));
    state.said = answer->complaint ? "" : state.saying;
    const RecordAfter after = std::exchange(state.after, RecordAfter::nothing);
    if (!answer->complaint) go_on(ui, state, after, answer->id);
}

void foot(const Ui& ui, RecordState& state, bool escape) {
    leave_button(ui, "Back to the bench##record done", escape);
    const bool failed = !state.complaint.empty();
    if ((failed && state.told_at_field) || (!failed && state.said.empty())) return;
    ImGui::SameLine(0.0f, ui.px(18.0f));
    ImGui::AlignTextToFramePadding();
    text_within(ui, ui.fonts.body, failed ? ui.theme.spoils : ui.theme.ink,
                failed ? state.complaint : state.said, ImGui::GetContentRegionAvail().x);
}

void page(const Ui& ui, RecordState& state) {
    switch (state.page) {
        case RecordPage::batts:
            return view_record_batts(ui, state);
        case RecordPage::skeins:
            return view_record_skeins(ui, state);
        case RecordPage::lookup:
            return view_record_lookup(ui, state);
        case RecordPage::reports:
            return view_record_reports(ui);
        case RecordPage::files:
            return view_record_files(ui, state);
    }
}

}  // namespace

void prepare_record(RecordState& state, const Settings& settings) {
    state.said.clear();
    complain_in_record(state, {});
    state.sure_asked = false;
    if (state.form.id == 0 && state.form.from.empty() && typed_in(state.form, settings).empty())
        state.form = new_skein_form(settings);
}

void follow_record(RecordState& state, const app::State& app, PhotoLoader& photos,
                   BattPhotoReader& batt_photos) {
    const RecordBook& book = app.record.book();
    if (std::exchange(state.foretell, false))
        state.untold = foretell(state.form, book, app.stash.calibration(), *app.catalogue);
    if (std::exchange(state.draft.to_read, false)) {
        BattPhotoState& draft = state.draft;
        const stash::Batt* batt = book.batt(state.batt);
        draft.reading = batt != nullptr && !draft.photo.empty();
        if (draft.reading)
            batt_photos.ask({draft.photo.read(),
                             {draft.marking.marks, draft.taken, draft.width, app.settings.length},
                             state.batt,
                             batt->carding.recipe,
                             app.stash.hands().hands,
                             app.catalogue});
    }
    const std::string& wanted = state.page == RecordPage::batts ? state.batt_photo_path : state.form.photo;
    if (state.photo_path == wanted) return;
    state.photo_path = wanted;
    state.photo = {};
    if (!state.photo_path.empty()) photos.load(state.photo_path, static_cast<std::uint64_t>(PhotoOf::skein));
}

void take_record_photo(RecordState& state, measure::Expected<Photo> photo,
                       const std::filesystem::path& path) {
    if (path != state.photo_path) return;  // another skein is on show by now
    if (photo)
        state.photo.photo = std::move(*photo);
    else
        state.photo.trouble = measure::to_line(photo.error());
}

void view_record(const Ui& ui, const PanelHead& head, RecordState& state) {
    const ImVec2 whole = ImGui::GetIO().DisplaySize;
    if (!begin_card(ui, head,
                    card_size(ui, {ui.px(1360.0f), std::min(whole.y - ui.px(40.0f), ui.px(1000.0f))},
                              {0.0f, 400.0f})))
        return;
    take_answer(ui, state);
    const bool escape = record_escape(ui);
    if (choose(ui, "record page", {record_pages.begin(), record_pages.end()}, state.page)) {
        state.said.clear();
        complain_in_record(state, {});
        state.sure_asked = false;
    }
    gap(ui, 2.0f);
    begin_child("record page", {0.0f, -(ImGui::GetFrameHeight() + ui.px(10.0f))});
    state.told_at_field = false;
    page(ui, state);
    ImGui::EndChild();
    foot(ui, state, escape);
    end_card();
}

void expect_answer(RecordState& state, std::string saying, RecordAfter after) {
    state.saying = std::move(saying);
    state.after = after;
}

void ask_record(const Ui& ui, RecordState& state, StashAction action, std::string saying, RecordAfter after) {
    expect_answer(state, std::move(saying), after);
    ui.ask.of_stash(std::move(action), Requester::record);
}

void report_record(const RecordState& state, const app::State& app, Probe& probe) {
    auto& facts = probe.state;
    const RecordSession& record = app.record;
    facts["record page"] = record_pages[static_cast<std::size_t>(state.page)];
    facts["record complaint"] = state.complaint.empty() ? record.files.complaint : state.complaint;
    facts["record said"] = state.said.empty() ? record.files.said : state.said;
    facts["record batts"] = std::to_string(record.book().batts.size());
    facts["record skeins"] = std::to_string(record.book().skeins.size());
    facts["record photos"] = std::to_string(record.book().photos.size());
    facts["record odd photos"] = std::to_string(record.book().hands.questions.size());
    facts["batt photo complaint"] = state.draft.complaint;
    facts["record questions"] = std::to_string(record.book().questions.size());
    facts["record suspects"] = std::to_string(record.suspects().all.size());
    facts["record report rows"] = std::to_string(record.table().rows.size());
    if (!record.suspects().all.empty()) facts["record first suspect"] = record.suspects().all.front().name;
    if (!record.book().batts.empty()) facts["last batt"] = std::to_string(record.book().batts.back().id);
    if (!record.book().skeins.empty()) facts["last skein"] = std::to_string(record.book().skeins.back().id);
}

void view_shown_photo(const Ui& ui, const RecordState& state, float width, float high) {
    const Photo& photo = state.photo.photo;
    if (photo.empty()) return;
    const auto w = static_cast<float>(photo.width()), h = static_cast<float>(photo.height());
    const float scale = std::min({1.0f, width / w, high / h});
    if (scale * h < ui.px(30.0f)) return;
    ImGui::Image(photo.id(), {w * scale, h * scale});
    mark(ui, state.page == RecordPage::batts ? "batt picture" : "skein picture");
}

void view_two_colours(const Ui& ui, const std::string& label, const SideBySide& pair, ImVec2 size) {
    const ImVec2 at = ImGui::GetCursorScreenPos();
    ImDrawList& list = *ImGui::GetWindowDrawList();
    list.AddRectFilled(at, {at.x + 0.5f * size.x, at.y + size.y}, u32(pair.photo));
    list.AddRectFilled({at.x + 0.5f * size.x, at.y}, {at.x + size.x, at.y + size.y}, u32(pair.forecast));
    ImGui::Dummy(size);
    mark(ui, label);
}

RecordColumns record_columns(const Ui& ui) {
    constexpr float three_columns = 860.0f;
    const float room = ImGui::GetContentRegionAvail().x, between = ui.px(20.0f);
    if (!has_room(ui, three_columns)) return {room, room, between, true};
    const float list = std::clamp(0.25f * room, ui.px(200.0f), ui.px(330.0f));
    return {list, 0.5f * (room - list - 2.0f * between), between, false};
}

float stacked_list(const Ui& ui, std::size_t entries) {
    return ui.px(entry_height * static_cast<float>(std::clamp<std::size_t>(entries, 2, 3)));
}

bool record_escape(const Ui& ui) {
    return escape_pressed(ui) && !ImGui::IsPopupOpen("", ImGuiPopupFlags_AnyPopupId);
}

void complain_in_record(RecordState& state, const measure::Complaint& complaint) {
    state.complaint = complaint.what.empty() ? "" : measure::to_line(complaint);
    state.at = complaint.where;
    state.at_words = text::capitalised(complaint.what + "; " + complaint.mend);
}

void record_trouble(const Ui& ui, RecordState& state, bool typed, std::string_view field,
                    std::string_view or_field) {
    if (state.complaint.empty() || state.at.empty() || (state.at != field && state.at != or_field)) return;
    if (typed) return complain_in_record(state, {});
    trouble(ui, state.at_words);
    state.told_at_field = true;
}

void record_row(const Ui& ui, std::string_view words) {
    row_label(ui, words, 96.0f);
}

bool record_entry(const Ui& ui, const std::string& label, std::string_view name, std::string_view words,
                  bool chosen, bool faint) {
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const float width = ImGui::GetContentRegionAvail().x, height = ui.px(entry_height);
    ImGui::PushID(label.c_str());
    const bool pressed = ImGui::Selectable("##entry", chosen, 0, {0.0f, height - ui.px(4.0f)});
    mark(ui, label);
    ImGui::PopID();
    const float inside = width - ui.px(12.0f);
    const auto put = [&](ImFont* font, const colour::Srgb& colour, std::string_view text, float down) {
        ImGui::PushFont(font);
        const std::string cut = cut_to(text, inside);
        ImGui::PopFont();
        put_text(font, colour, {at.x + ui.px(6.0f), at.y + ui.px(down)}, cut);
    };
    put(ui.fonts.bold, faint ? ui.theme.quiet : ui.theme.ink, name, 2.0f);
    put(ui.fonts.small, ui.theme.quiet, words, 22.0f);
    return pressed;
}

}  // namespace battwright::window
