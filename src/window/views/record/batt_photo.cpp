// A batt's photos: each beside its forecast under one light, what it taught, and the card where one more is
// marked.
#include "app/record/batt_photo.hpp"

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <utility>

#include "app/browse/browser.hpp"
#include "app/browse/file_kinds.hpp"
#include "app/look.hpp"
#include "app/record/record_session.hpp"
#include "app/settings.hpp"
#include "app/shelf/stash_requests.hpp"
#include "stash/hands.hpp"
#include "window/kit/widgets.hpp"
#include "window/views/files/files.hpp"
#include "window/views/record/record.hpp"

namespace battwright::window {
namespace {

std::string print_places(double value, double each) {
    return measure::write_number(std::round(value / each) * each);
}

// The photo itself above; its mean and the forecast's side by side below.
void beside(const Ui& ui, const RecordState& state, const stash::BattPhoto& photo) {
    const SideBySide& pair = ui.record.photo_beside(photo, ui.look.light);
    const float whole = ImGui::GetContentRegionAvail().x, high = ui.px(64.0f);
    if (!state.photo.trouble.empty()) paragraph(ui, state.photo.trouble, ui.theme.warning);
    view_shown_photo(ui, state, whole, ui.px(120.0f));
    view_two_colours(ui, "batt photo beside", pair, {whole, high});
    hover(ui, "Left the photo's mean colour, right the forecast's, as they look by " +
                  std::string(colour::word_for(ui.look.light)) + ".");
    text_in(ui, ui.fonts.small, ui.theme.quiet, "left the photo, right the forecast");
    text_in(ui, ui.fonts.bold, ui.theme.ink, print_places(pair.apart_de00, 0.1) + " CIEDE2000 apart");
    hover(ui, "About 1 is just seen side by side.");
    paragraph(ui, app::places_in_words(photo, ui.settings.length), ui.theme.ink);
}

void ask_change(const Ui& ui, RecordState& state, stash::BattPhoto photo, const std::string& saying) {
    ask_record(ui, state, ChangeBattPhoto{std::move(photo)}, saying);
}

void odd_question(const Ui& ui, RecordState& state, const stash::BattPhoto& photo) {
    const auto why = stash::why_not(photo, ui.record.book().hands);
    if (!why || !why->asked) return;
    if (button(ui, "It is right##photo right", Tone::plain, 0.0f, "Learn from it, and ask no more")) {
        stash::BattPhoto changed = photo;
        changed.confirmed = true;
        ask_change(ui, state, std::move(changed), "Taken as right, and learnt from.");
    }
    ImGui::SameLine();
}

void photo_actions(const Ui& ui, RecordState& state, const stash::BattPhoto& photo) {
    odd_question(ui, state, photo);
    if (button(ui, photo.counts ? "Leave it out##photo counts" : "Take it in again##photo counts",
               Tone::plain, 0.0f, "Whether anything is learnt from this photo")) {
        stash::BattPhoto changed = photo;
        changed.counts = !photo.counts;
        ask_change(ui, state, std::move(changed),
                   !photo.counts ? "Learnt from again." : "Left out: nothing is learnt from it.");
    }
    ImGui::SameLine();
    if (button(ui, "Remove##photo remove", Tone::plain, 0.0f,
               "Out of the record, and what it taught with it; the picture's file stays"))
        ask_record(ui, state, RemoveBattPhoto{photo.id}, "The photo is out of the record.");
}

void taught(const Ui& ui, const stash::BattPhoto& photo) {
    if (const auto why = stash::why_not(photo, ui.record.book().hands)) {
        paragraph(ui, why->words, ui.theme.warning);
        return;
    }
    const auto& lesson = ui.record.photo_lesson(photo);
    view_lesson(ui, "m lesson", lesson.m, "How colours blend: m of Stearns and Noechel", "batt",
                [](double m) { return print_places(m, 0.001); });
    gap(ui, 2.0f);
    view_lesson(ui, "mixing lesson", lesson.mixing, "Left unmixed by a pass, against most", "batt",
                [](double mixing) { return print_places(mixing, 0.01); });
}

void form_fields(const Ui& ui, BattPhotoState& draft) {
    view_mark_tools(ui, "batt photo tool", draft.marking);
    gap(ui, 2.0f);
    text_in(ui, ui.fonts.bold, ui.theme.ink, "It shows");
    choose(ui, "batt photo of", {"the face", "a torn edge"}, draft.taken);
    gap(ui, 2.0f);
    text_in(ui, ui.fonts.bold, ui.theme.ink, "The frame is as wide as");
    edit_text(ui, "batt photo width", draft.width, ui.px(150.0f),
              example_of(ui.settings.length, "200 mm", "8 in"));
    if (!draft.complaint.empty()) paragraph(ui, draft.complaint, ui.theme.spoils);
}

void log_photo(const Ui& ui, RecordState& state) {
    if (!state.draft.read) return;
    state.batt_photo = 0;
    ask_record(ui, state, LogBattPhoto{*std::exchange(state.draft.read, std::nullopt)},
               "The photo is in the record beside its forecast.");
    ImGui::CloseCurrentPopup();
}

void photo_card(const Ui& ui, RecordState& state) {
    BattPhotoState& draft = state.draft;
    if (!begin_card(ui, "batt photo", "A photo of the batt",
                    card_size(ui, {ui.px(960.0f), ui.px(690.0f)}, {0.0f, 400.0f}))) {
        draft.to_read = draft.reading = false;
        draft.read.reset();
        return;
    }
    const auto typed = file_field(ui, "batt photo file", draft.path, ImGui::GetContentRegionAvail().x,
                                  {.hint = "a picture's file, or let it fall on this window"});
    if (typed && !typed->empty()) ui.ask.photos.push_back({PhotoOf::batt, *typed});
    const float foot = ImGui::GetFrameHeight() + ui.px(18.0f), side = ui.px(300.0f), between = ui.px(16.0f);
    const ImVec2 room{ImGui::GetContentRegionAvail().x - side - between,
                      ImGui::GetContentRegionAvail().y - foot};
    begin_child("batt photo side", room, false, ImGuiWindowFlags_NoScrollbar);
    if (draft.photo.empty())
        paragraph(ui,
                  "Lay the batt, or its torn edge, beside a sheet of white paper, by daylight and out of the "
                  "sun. Then say here where the fibre is, where the paper is, and how wide the frame is.",
                  ui.theme.ink);
    else if (view_photo_marks(ui, "batt photo area", draft.photo, draft.marking, room))
        draft.complaint.clear();
    ImGui::EndChild();
    ImGui::SameLine(0.0f, between);
    begin_child("batt photo form", {side, room.y});
    form_fields(ui, draft);
    ImGui::EndChild();
    const bool escape = escape_leaves(ui);
    ImGui::BeginDisabled(draft.photo.empty() || draft.width.empty() || draft.reading);
    if (button(ui,
               draft.reading ? "Looking at it\u2026##log photo" : "Hold it against the forecast##log photo",
               Tone::accent))
        draft.to_read = ui.ask.another_frame = true;
    ImGui::EndDisabled();
    ImGui::SameLine();
    leave_button(ui, "Not now##batt photo leave", escape, Tone::plain, ui.px(110.0f));
    log_photo(ui, state);
    end_card();
}

}  // namespace

void take_batt_photo(RecordState& state, measure::Expected<Photo> photo, const std::filesystem::path& path) {
    state.draft.complaint = photo ? "" : measure::to_line(photo.error());
    if (!photo) return;
    state.draft.photo = std::move(*photo);
    state.draft.path = path.string();
    state.draft.marking = {};
    state.draft.reading = false;
    state.draft.read.reset();
}

void take_batt_photo_seen(RecordState& state, const BattPhotoSeen& seen) {
    BattPhotoState& draft = state.draft;
    if (!draft.reading || draft.photo.empty() || draft.photo.read() != seen.photo) return;
    draft.reading = false;
    draft.complaint = seen.seen ? "" : measure::to_line(seen.seen.error());
    if (seen.seen) draft.read = *seen.seen;
}

void view_batt_photos(const Ui& ui, RecordState& state, const stash::Batt& batt) {
    const auto photos = ui.record.book().photos_of(batt.id);
    text_in(ui, ui.fonts.bold, ui.theme.ink, "As it came out");
    state.batt_photo_path.clear();
    if (!photos.empty()) {
        auto shown =
            std::ranges::find_if(photos, [&](const auto* one) { return one->id == state.batt_photo; });
        if (shown == photos.end()) shown = photos.end() - 1;
        const stash::BattPhoto& photo = **shown;
        state.batt_photo_path = photo.photo;
        std::vector<std::string> dates;
        dates.reserve(photos.size());
        for (const auto* one : photos) dates.push_back("photo " + std::to_string(one->id) + ", " + one->date);
        const auto at = static_cast<std::size_t>(shown - photos.begin());
        if (photos.size() > 1)
            if (const auto other = drop_down(ui, "batt photos", dates, at, ui.px(220.0f)))
                state.batt_photo = photos[*other]->id;
        beside(ui, state, photo);
        gap(ui, 2.0f);
        taught(ui, photo);
        photo_actions(ui, state, photo);
        ImGui::SameLine();
    }
    if (batt.taken_back_on.empty() &&
        button(ui, "Add a photo\u2026##batt photo", Tone::plain, 0.0f,
               "A photo of the batt or its torn edge, held against the forecast"))
        ImGui::OpenPopup("batt photo");
    if (batt.taken_back_on.empty()) {
        ui.ask.takers.push_back({"new batt photo", FileKind::photo});
        if (const auto dropped = ui.files.chosen_for("new batt photo")) {
            ui.ask.photos.push_back({PhotoOf::batt, dropped->string()});
            ImGui::OpenPopup("batt photo");
        }
    }
    photo_card(ui, state);
    gap(ui, 4.0f);
}

}  // namespace battwright::window
