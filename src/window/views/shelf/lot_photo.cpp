// A lot's colours off a photo: where the fibre lies, what is white, what was read.
#include <algorithm>

#include "app/bench/edits.hpp"
#include "window/kit/palette.hpp"
#include "window/kit/widgets.hpp"
#include "window/views/shelf/shelf.hpp"

namespace battwright::window {
namespace {

using Tool = LotPhotoState::Tool;

void ask_palette(const Ui& ui, LotPhotoState& state) {
    state.complaint.reset();
    state.reading = true;
    ui.ask.lot_palette = true;
}

void draw_marks(const Ui& ui, const LotPhotoState& state, ImVec2 at, float scale) {
    ImDrawList& list = *ImGui::GetWindowDrawList();
    const auto on_screen = [&](double x, double y) {
        return ImVec2{at.x + scale * static_cast<float>(x), at.y + scale * static_cast<float>(y)};
    };
    const ImU32 ink = u32(ui.theme.accent), rim = u32({1.0, 1.0, 1.0});
    if (const auto& area = state.marks.fibre) {
        const ImVec2 low = on_screen(area->x, area->y);
        const ImVec2 high = on_screen(area->x + area->width, area->y + area->height);
        list.AddRect(low, high, rim, 0.0f, 0, ui.px(4.0f));
        list.AddRect(low, high, ink, 0.0f, 0, ui.px(2.0f));
    }
    if (const auto& white = state.marks.white) {
        const ImVec2 c = on_screen(white->x, white->y);
        list.AddCircle(c, ui.px(9.0f), u32({0.0, 0.0, 0.0}), 24, ui.px(4.0f));
        list.AddCircle(c, ui.px(9.0f), rim, 24, ui.px(2.0f));
    }
}

// Dragging marks the fibre, a press marks the white; the palette is read when the button is let go.
void photo_area(const Ui& ui, LotPhotoState& state, ImVec2 room) {
    const Photo& photo = state.photo;
    const float scale =
        std::min(room.x / static_cast<float>(photo.width()), room.y / static_cast<float>(photo.height()));
    const ImVec2 size{std::max(1.0f, scale * static_cast<float>(photo.width())),
                      std::max(1.0f, scale * static_cast<float>(photo.height()))};
    const ImVec2 at = ImGui::GetCursorScreenPos();
    ImGui::InvisibleButton("lot photo area", size);
    mark(ui, "lot photo area");
    ImGui::GetWindowDrawList()->AddImage(photo.id(), at, {at.x + size.x, at.y + size.y});
    const ImVec2 mouse = ImGui::GetIO().MousePos;
    const colour::Point here{static_cast<double>((mouse.x - at.x) / scale),
                             static_cast<double>((mouse.y - at.y) / scale)};
    if (ImGui::IsItemHovered()) ImGui::SetMouseCursor(ImGuiMouseCursor_Hand);
    if (ImGui::IsItemActivated() && state.tool == Tool::white) {
        state.marks.white = here;
        state.tool = Tool::fibre;
        ask_palette(ui, state);
    } else if (ImGui::IsItemActivated()) {
        state.drag_from = here;
    }
    if (state.drag_from) {
        const auto area = patch_between(*state.drag_from, here, photo.width(), photo.height());
        const bool large_enough = area.width >= 3.0 && area.height >= 3.0;
        if (large_enough) state.marks.fibre = area;
        if (!ImGui::IsMouseDown(ImGuiMouseButton_Left)) {
            state.drag_from.reset();
            if (large_enough) ask_palette(ui, state);
        }
    }
    draw_marks(ui, state, at, scale);
}

void tools(const Ui& ui, LotPhotoState& state) {
    const auto chosen =
        choices(ui, "photo tool", {"mark the fibre", "point at white"}, state.tool == Tool::white ? 1 : 0);
    if (chosen) state.tool = *chosen == 1 ? Tool::white : Tool::fibre;
    paragraph(
        ui,
        state.tool == Tool::white
            ? "Press on something that is white in truth: a sheet of paper beside the fibre. The photo's "
              "light is then taken out."
            : "Drag a frame over the fibre and nothing but the fibre. Without one the whole photo counts.",
        ui.theme.quiet);
    std::vector<std::string> words{"as many as there are"};
    for (int n = 1; n <= 6; ++n) words.push_back("at most " + std::to_string(n));
    const auto now = static_cast<std::size_t>(std::clamp(state.marks.colours, 0, 6));
    if (const auto count = drop_down(ui, "photo colours", words, now, ImGui::GetContentRegionAvail().x)) {
        state.marks.colours = static_cast<int>(*count);
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
    const auto typed = field(ui, "lot photo file", state.path, ImGui::GetContentRegionAvail().x,
                             "the picture's file, or let the picture fall on this window");
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
    state.marks = PhotoMarks{};
    state.tool = Tool::fibre;
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
    if (!begin_card(ui, "lot photo", "Colours from a photo", {ui.px(960.0f), ui.px(690.0f)})) return kept;
    file_field(ui, state);
    const float foot = ImGui::GetFrameHeight() + ui.px(18.0f);
    const float side = ui.px(300.0f), between = ui.px(16.0f);
    const ImVec2 room{ImGui::GetContentRegionAvail().x - side - between,
                      ImGui::GetContentRegionAvail().y - foot};
    ImGui::BeginChild("photo side", room, false, ImGuiWindowFlags_NoScrollbar);
    if (state.photo.empty())
        paragraph(ui,
                  "Lay the fibre beside a sheet of white paper, out of the sun, and take a photo. Then say "
                  "here where the fibre is and where the paper is.",
                  ui.theme.ink);
    else
        photo_area(ui, state, room);
    ImGui::EndChild();
    ImGui::SameLine(0.0f, between);
    ImGui::BeginChild("palette side", {side, room.y});
    if (!state.photo.empty()) tools(ui, state);
    if (!state.photo.empty() || state.complaint) palette_read(ui, state);
    ImGui::EndChild();
    const bool escape = escape_leaves(ui);
    ImGui::BeginDisabled(state.palette.empty() || state.reading);
    if (button(ui, "Keep these colours##keep palette", Tone::accent, ui.px(170.0f))) kept = state.palette;
    ImGui::EndDisabled();
    ImGui::SameLine();
    if (button(ui, "Not now##lot photo leave", Tone::plain, ui.px(110.0f)) || escape || kept)
        ImGui::CloseCurrentPopup();
    end_card();
    return kept;
}

}  // namespace battwright::window
