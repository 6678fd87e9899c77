// A folder's files: tiles with small pictures, or lines.
#include <algorithm>
#include <cmath>

#include "app/browse/browser.hpp"
#include "app/browse/file_kinds.hpp"
#include "app/browse/words.hpp"
#include "window/gl/thumbnails.hpp"
#include "window/views/files/files.hpp"

namespace battwright::window {
namespace {

struct Grid {
    bool pictured = false;
    int columns = 1;
    ImVec2 tile;  // in pixels
};

Grid grid_in(const Ui& ui, const FileBrowser& files) {
    const float room = ImGui::GetContentRegionAvail().x, between = ImGui::GetStyle().ItemSpacing.x;
    if (!row_for(files.ask().kind).pictured) return {false, 1, {room, ui.px(34.0f)}};
    const float least = ui.px(122.0f);
    const int columns = std::max(1, static_cast<int>((room + between) / (least + between)));
    const auto count = static_cast<float>(columns);
    return {true, columns, {std::floor((room - (count - 1.0f) * between) / count), ui.px(126.0f)}};
}

void draw_folder(const Ui& ui, ImDrawList& list, ImVec2 middle, float side) {
    const ImU32 ink = u32(ui.theme.quiet);
    const ImVec2 low{middle.x - 0.5f * side, middle.y - 0.32f * side};
    const ImVec2 high{middle.x + 0.5f * side, middle.y + 0.36f * side};
    list.AddRectFilled({low.x, low.y - 0.1f * side}, {low.x + 0.42f * side, low.y + 0.1f * side}, ink,
                       0.06f * side);
    list.AddRectFilled(low, high, ink, 0.08f * side);
    list.AddLine({low.x, low.y + 0.14f * side}, {high.x, low.y + 0.14f * side}, u32(ui.theme.field),
                 std::max(1.0f, 0.03f * side));
}

void draw_photo(const Ui& ui, ImDrawList& list, const Thumbnail& thumbnail, ImVec2 low, ImVec2 high) {
    const ImTextureID texture = ui.thumbnails.of(thumbnail);
    if (texture == nullptr) return;
    const auto wide = static_cast<float>(thumbnail.picture.width);
    const auto tall = static_cast<float>(thumbnail.picture.height);
    const float scale = std::min((high.x - low.x) / wide, (high.y - low.y) / tall);
    const ImVec2 middle{0.5f * (low.x + high.x), 0.5f * (low.y + high.y)};
    const ImVec2 half{0.5f * scale * wide, 0.5f * scale * tall};
    list.AddImage(texture, {middle.x - half.x, middle.y - half.y}, {middle.x + half.x, middle.y + half.y});
}

void draw_recipe(const Ui& ui, ImDrawList& list, const Thumbnail& thumbnail, ImVec2 low, ImVec2 high,
                 std::size_t number) {
    std::vector<colour::Srgb> colours;
    std::vector<double> shares;
    for (const auto& tint : thumbnail.colours) {
        colours.push_back(tint.colour);
        shares.push_back(tint.share_pct);
    }
    const float inset = 0.12f * (high.x - low.x);
    draw_wisp(list, {low.x + inset, low.y}, {high.x - inset, high.y}, colours, shares,
              static_cast<unsigned>(number), ui.theme.edge);
}

void words_in(const Ui& ui, ImDrawList& list, std::string_view words, const colour::Srgb& ink, ImVec2 low,
              ImVec2 high) {
    ImFont& font = *ui.fonts.small;
    const ImVec2 size = font.CalcTextSizeA(font.FontSize, high.x - low.x, high.x - low.x, words.data(),
                                           words.data() + words.size());
    list.AddText(&font, font.FontSize, {0.5f * (low.x + high.x - size.x), 0.5f * (low.y + high.y - size.y)},
                 u32(ink), words.data(), words.data() + words.size(), high.x - low.x);
}

// What a file looks like, or why that is not to be seen.
void draw_picture(const Ui& ui, const FileBrowser& files, std::size_t number, ImVec2 low, ImVec2 high) {
    ImDrawList& list = *ImGui::GetWindowDrawList();
    const FolderEntry& entry = files.listing()->entries[number];
    if (entry.is_folder)
        return draw_folder(ui, list, {0.5f * (low.x + high.x), 0.5f * (low.y + high.y)},
                           0.7f * (high.y - low.y));
    const Thumbnail* thumbnail = files.thumbnail_of(entry);
    if (thumbnail == nullptr) return words_in(ui, list, "\u2026", ui.theme.quiet, low, high);
    if (!thumbnail->trouble.empty()) return words_in(ui, list, "cannot be read", ui.theme.spoils, low, high);
    if (!thumbnail->colours.empty()) return draw_recipe(ui, list, *thumbnail, low, high, number);
    draw_photo(ui, list, *thumbnail, low, high);
}

void draw_tile(const Ui& ui, const FileBrowser& files, std::size_t number, ImVec2 at, ImVec2 size) {
    const float pad = ui.px(6.0f), line = ui.fonts.small->FontSize;
    const ImVec2 high{at.x + size.x, at.y + size.y};
    draw_picture(ui, files, number, {at.x + pad, at.y + pad},
                 {high.x - pad, high.y - pad - line - ui.px(4.0f)});
    ImGui::PushFont(ui.fonts.small);
    const std::string name = cut_to(files.listing()->entries[number].name, size.x - 2.0f * pad);
    ImGui::PopFont();
    const float left = at.x + 0.5f * (size.x - width_of(ui.fonts.small, name));
    ImGui::GetWindowDrawList()->AddText(ui.fonts.small, line, {left, high.y - pad - line}, u32(ui.theme.ink),
                                        name.c_str());
}

void draw_line(const Ui& ui, const FolderEntry& entry, ImVec2 at, ImVec2 size) {
    ImDrawList& list = *ImGui::GetWindowDrawList();
    const float icon = ui.px(30.0f), down = at.y + 0.5f * (size.y - ui.fonts.body->FontSize);
    if (entry.is_folder) draw_folder(ui, list, {at.x + 0.5f * icon, at.y + 0.5f * size.y}, ui.px(18.0f));
    const std::string about =
        entry.is_folder ? std::string() : print_bytes(entry.bytes) + "   " + print_day(entry.changed);
    const float about_wide = width_of(ui.fonts.small, about) + ui.px(10.0f);
    list.AddText(ui.fonts.small, ui.fonts.small->FontSize, {at.x + size.x - about_wide, down},
                 u32(ui.theme.quiet), about.c_str());
    const std::string name = cut_to(entry.name, size.x - icon - about_wide - ui.px(10.0f));
    list.AddText(ui.fonts.body, ui.fonts.body->FontSize, {at.x + icon, down}, u32(ui.theme.ink),
                 name.c_str());
}

void frame_of(const Ui& ui, ImVec2 at, ImVec2 size, bool named) {
    ImDrawList& list = *ImGui::GetWindowDrawList();
    const ImVec2 high{at.x + size.x, at.y + size.y};
    const bool live = ImGui::IsItemHovered() || ImGui::IsItemFocused();
    if (named || live)
        list.AddRectFilled(at, high, u32(named ? ui.theme.raised : ui.theme.hover), ui.px(7.0f));
    if (named) list.AddRect(at, high, u32(ui.theme.accent), ui.px(7.0f), 0, ui.px(2.0f));
}

// Tab comes to one of them: what has the keys, else the named one, else the first; the arrows go on from
// there.
void name_tile(const Ui& ui, const std::string& label, bool first) {
    const ImVec2 low = ImGui::GetItemRectMin(), high = ImGui::GetItemRectMax();
    if (first || ImGui::IsItemFocused())
        mark(ui, label);
    else
        ui.probe.mark(label, {low.x, low.y, high.x, high.y});
}

void pressed(const Ui& ui, const FileBrowser& files, const FolderEntry& entry) {
    if (entry.is_folder) {
        ui.ask.act(EnterFolder{files.folder() / entry.name});
        return;
    }
    ui.ask.act(NameFile{entry.name});
    const bool by_key = !ImGui::IsMouseReleased(ImGuiMouseButton_Left);
    const bool twice = ImGui::GetIO().MouseClickedLastCount[ImGuiMouseButton_Left] >= 2;
    if (files.ask().purpose == FilePurpose::open && (by_key || twice)) ui.ask.act(FinishFile{});
}

// What the tile has no room for.
std::string more_of(const Ui& ui, const FileBrowser& files, const FolderEntry& entry, const Grid& grid) {
    const Thumbnail* thumbnail = files.thumbnail_of(entry);
    if (thumbnail != nullptr && !thumbnail->trouble.empty()) return thumbnail->trouble;
    if (thumbnail != nullptr && !thumbnail->about.empty()) return entry.name + ": " + thumbnail->about;
    const bool whole = width_of(ui.fonts.body, entry.name) < grid.tile.x - ui.px(14.0f);
    return whole ? std::string() : entry.name;
}

void tile(const Ui& ui, const FileBrowser& files, std::size_t number, const Grid& grid, bool takes_keys) {
    const FolderEntry& entry = files.listing()->entries[number];
    ImGui::PushID(static_cast<int>(number));
    const ImVec2 at = ImGui::GetCursorScreenPos();
    if (ImGui::InvisibleButton("entry", grid.tile)) pressed(ui, files, entry);
    if (takes_keys) ImGui::SetKeyboardFocusHere(-1);
    const bool named = files.name() == entry.name;
    frame_of(ui, at, grid.tile, named);
    const bool any_named = !files.name().empty();
    name_tile(ui, "entry " + entry.name, named || (!any_named && number == 0));
    if (const std::string words = more_of(ui, files, entry, grid); !words.empty()) hover(ui, words);
    if (grid.pictured)
        draw_tile(ui, files, number, at, grid.tile);
    else
        draw_line(ui, entry, at, grid.tile);
    ImGui::PopID();
}

// Once a folder has been read the keys go to its first tile, unless something is being typed.
bool newly_read(const Ui& ui, const FileBrowser& files) {
    ImGuiStorage& kept = *ImGui::GetStateStorage();
    const ImGuiID seen = ImGui::GetID("seen folder");
    const auto now = static_cast<int>(ImGui::GetID(files.listing()->folder.string().c_str()));
    if (kept.GetInt(seen) == now) return false;
    const bool typing = ui.typing.id != 0;
    // The press that led here has to end first.
    if (!typing && (ImGui::IsAnyItemActive() || ImGui::IsMouseDown(ImGuiMouseButton_Left))) {
        ui.ask.another_frame = true;
        return false;
    }
    kept.SetInt(seen, now);
    return !typing;
}

void rows_of_tiles(const Ui& ui, const FileBrowser& files, bool to_first) {
    const auto count = files.listing()->entries.size();
    const Grid grid = grid_in(ui, files);
    const auto columns = static_cast<std::size_t>(grid.columns);
    std::size_t first = count, end = 0;
    ImGuiListClipper clipper;
    clipper.Begin(static_cast<int>((count + columns - 1) / columns),
                  grid.tile.y + ImGui::GetStyle().ItemSpacing.y);
    while (clipper.Step()) {
        const auto from = static_cast<std::size_t>(clipper.DisplayStart) * columns;
        const auto to = std::min(count, static_cast<std::size_t>(clipper.DisplayEnd) * columns);
        for (std::size_t i = from; i < to; ++i) {
            if (i % columns != 0) ImGui::SameLine();
            tile(ui, files, i, grid, to_first && i == 0);
        }
        first = std::min(first, from);
        end = std::max(end, to);
    }
    if (first < end && (first != files.seen_first() || end != files.seen_end()))
        ui.ask.act(LookAtFiles{first, end});
}

}  // namespace

void view_tiles(const Ui& ui, const FileBrowser& files, ImVec2 size) {
    ImGui::PushStyleColor(ImGuiCol_ChildBg, vec4(ui.theme.field));
    begin_child("listing", size, true,
                ImGuiWindowFlags_AlwaysUseWindowPadding | ImGuiWindowFlags_NavFlattened);
    ImGui::PopStyleColor();
    if (files.listing() != nullptr) {
        const bool to_first = newly_read(ui, files);  // of an empty folder, too
        if (!files.listing()->entries.empty()) rows_of_tiles(ui, files, to_first);
    }
    const bool up = ImGui::IsWindowFocused() && ui.typing.id == 0 &&
                    ImGui::IsKeyPressed(ImGui::GetKeyIndex(ImGuiKey_Backspace), false);
    if (up) ui.ask.act(EnterFolder{files.folder().parent_path()});
    ImGui::EndChild();
}

}  // namespace battwright::window
