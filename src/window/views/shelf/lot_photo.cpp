// A lot's colours off a photo: where the fibre lies, what is white, what was read.
#include <algorithm>
#include <filesystem>
#include <utility>

#include "recipe/tints.hpp"
#include "window/kit/palette.hpp"
#include "window/kit/photo_marks.hpp"
#include "window/kit/widgets.hpp"
#include "window/views/files/files.hpp"
#include "window/views/shelf/shelf.hpp"

namespace battwright::window {
namespace {

void ask_palette(const Ui& ui, LotPhotoState& state) {
    state.complaint.reset();
    state.reading = true;
    ui.ask.lot_palette = true;
}

void tools(const Ui& ui, LotPhotoState& state) {
    view_mark_tools(ui, "photo tool", state.marking);
    std::vector<std::string> words{"as many as there are"};
    for (int n = 1; n <= 6; ++n) words.push_back("at most " + std::to_string(n));
    const auto now = static_cast<std::size_t>(std::clamp(state.marking.marks.colours, 0, 6));
    if (const auto count = drop_down(ui, "photo colours", words, now, ImGui::GetContentRegionAvail().x)) {
        state.marking.marks.colours = static_cast<int>(*count);
        ask_palette(ui, state);
    }
}

void palette_read(const Ui& ui, LotPhotoState& state) {
    gap(ui, 4.0f);
    text_in(ui, ui.fonts.bold, ui.theme.ink, state.reading ? "Reading its colours\u2026" : "As read");
    if (state.complaint) paragraph(ui, measure::to_line(*state.complaint), ui.theme.spoils);
    for (std::size_t i = 0; i < state.palette.size(); ++i) {
        if (i % 4 != 0) ImGui::SameLine(0.0f, ui.px(10.0f));
        text_in(ui, ui.fonts.small, ui.theme.quiet,
                std::to_string(i + 1) + ": " + measure::print_percent(state.palette[i].share_pct));
    }
    if (const auto edit = view_palette(ui, state.palette, state.tint)) state.palette = closed(edit->palette);
}

void file_field(const Ui& ui, LotPhotoState& state) {
    const auto typed = file_field(ui, "lot photo file", state.path, ImGui::GetContentRegionAvail().x,
                                  {.hint = "a picture's file, or let it fall on this window"});
    if (typed && !typed->empty()) ui.ask.photos.push_back({PhotoOf::new_lot, *typed});
}

}  // namespace

void take_lot_photo(LotPhotoState& state, measure::Expected<Photo> photo, const std::filesystem::path& path) {
    if (!photo) {
        state.complaint = photo.error();
        return;
    }
    state.photo = std::move(*photo);
    state.path = path.string();
    state.marking = {};
    state.palette.clear();
    state.complaint.reset();
    state.reading = true;
}

void take_lot_palette(LotPhotoState& state, const PaletteRead& read, bool more) {
    if (read.photo != state.photo.read()) return;
    state.reading = more;
    state.tint = 0;
    if (read.palette)
        state.palette = *read.palette;
    else
        state.complaint = read.palette.error();
}

std::optional<std::vector<recipe::Tint>> view_lot_photo(const Ui& ui, LotPhotoState& state) {
    std::optional<std::vector<recipe::Tint>> kept;
    if (!begin_card(ui, "lot photo", "Colours from a photo",
                    card_size(ui, {ui.px(960.0f), ui.px(690.0f)}, {0.0f, 400.0f})))
        return kept;
    file_field(ui, state);
    const float foot = ImGui::GetFrameHeight() + ui.px(18.0f);
    const float side = ui.px(300.0f), between = ui.px(16.0f);
    const ImVec2 room{ImGui::GetContentRegionAvail().x - side - between,
                      ImGui::GetContentRegionAvail().y - foot};
    begin_child("photo side", room, false, ImGuiWindowFlags_NoScrollbar);
    if (state.photo.empty())
        paragraph(ui,
                  "Lay the fibre beside a sheet of white paper, out of the sun, and take a photo. Then say "
                  "here where the fibre is and where the paper is.",
                  ui.theme.ink);
    else if (view_photo_marks(ui, "lot photo area", state.photo, state.marking, room))
        ask_palette(ui, state);
    ImGui::EndChild();
    ImGui::SameLine(0.0f, between);
    begin_child("palette side", {side, room.y});
    if (!state.photo.empty()) tools(ui, state);
    if (!state.photo.empty() || state.complaint) palette_read(ui, state);
    ImGui::EndChild();
    const bool escape = escape_leaves(ui);
    ImGui::BeginDisabled(state.palette.empty() || state.reading);
    if (button(ui, "Keep these colours##keep palette", Tone::accent, ui.px(170.0f))) kept = state.palette;
    ImGui::EndDisabled();
    ImGui::SameLine();
    leave_button(ui, "Not now##lot photo leave", escape || kept, Tone::plain, ui.px(110.0f));
    end_card();
    return kept;
}

}  // namespace battwright::window
