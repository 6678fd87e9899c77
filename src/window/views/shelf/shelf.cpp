#include "window/views/shelf/shelf.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <utility>

#include "app/bench/document.hpp"
#include "app/bench/outcome.hpp"
#include "app/bench/shown_colours.hpp"
#include "app/settings.hpp"
#include "app/shelf/lot_edits.hpp"
#include "app/shelf/shelf_choice.hpp"
#include "app/shelf/stash_requests.hpp"
#include "app/shelf/stash_session.hpp"
#include "window/kit/widgets.hpp"
#include "window/views/views.hpp"

namespace battwright::window {
namespace {

constexpr float least_tile = 88.0f, tile_height = 104.0f;  // design pixels
constexpr std::size_t most_name_bytes = 160;

// Right in the middle of the tile.
void line_in(ImFont* font, ImVec2 at, float width, const colour::Srgb& colour, std::string_view words) {
    ImGui::PushFont(font);
    const std::string shown = cut_to(words, width);
    ImGui::PopFont();
    at.x += std::max(0.0f, 0.5f * (width - width_of(font, shown)));
    put_text(font, colour, at, shown);
}

void bench_keys(const Ui& ui, const stash::Shelved& shelved) {
    if (!ImGui::IsItemFocused() || !ImGui::GetIO().KeyCtrl || !key_pressed(ImGuiKey_Enter)) return;
    ui.ask.act(LotToBench{shelved.lot.mark, std::nullopt});
}

void tile(const Ui& ui, const stash::Shelved& shelved, ShelfState& state, ImVec2 at, ImVec2 size) {
    const std::string& lot_mark = shelved.lot.mark;
    ImGui::SetCursorScreenPos(at);
    ImGui::PushID(lot_mark.c_str());
    const bool pressed = ImGui::InvisibleButton("lot", size);
    ImGui::PopID();
    mark(ui, "lot " + lot_mark);
    const bool live = ImGui::IsItemHovered() || ImGui::IsItemFocused();
    if (pressed && state.dragged.empty()) ui.ask.show_lot = lot_mark;
    if (ImGui::IsItemActive() && ImGui::IsMouseDragging(ImGuiMouseButton_Left, ui.px(6.0f)))
        state.dragged = lot_mark;
    bench_keys(ui, shelved);
    ImDrawList& list = *ImGui::GetWindowDrawList();
    const ImVec2 high{at.x + size.x, at.y + size.y};
    if (live || state.dragged == lot_mark) list.AddRectFilled(at, high, u32(ui.theme.hover), ui.px(8.0f));
    if (ImGui::IsItemFocused()) list.AddRect(at, high, u32(ui.theme.accent), ui.px(8.0f));
    const float inset = ui.px(6.0f), wide = size.x - 2.0f * inset;
    draw_lot(ui, list, {at.x + inset, at.y + ui.px(6.0f)}, {high.x - inset, at.y + ui.px(60.0f)}, shelved.lot,
             live ? ui.theme.accent : ui.theme.edge);
    std::string weight =
        shelved.grams > 0.0 ? measure::print_mass(shelved.grams, ui.settings.mass) : "used up";
    if (const auto away = ui.stash.away(shelved)) weight += " \u00b7 " + measure::print_number(*away, 1);
    line_in(ui.fonts.body, {at.x + inset, at.y + ui.px(61.0f)}, wide, ui.theme.ink, weight);
    line_in(ui.fonts.small, {at.x + inset, at.y + ui.px(81.0f)}, wide, ui.theme.quiet,
            std::string_view(shelved.lot.name).substr(0, most_name_bytes));
    if (!ImGui::IsItemHovered() || !state.dragged.empty()) return;
    std::string words = lot_in_words(shelved, ui.catalogue, ui.settings.mass);
    if (ui.stash.choice().filter.near)
        words += "\nThe second figure is how far its colour is from the one looked for (CIEDE2000).";
    hover(ui, words + "\nPress for its card; drag it to the drum; Ctrl+Enter puts it on the bench.");
}

// Only what is in view is drawn, and a row more on either side for the arrow keys to go to.
void wall(const Ui& ui, const std::vector<ShelvedPtr>& lots, ShelfState& state) {
    const float width = ImGui::GetContentRegionAvail().x;
    const auto columns = static_cast<std::size_t>(std::max(1.0f, std::floor(width / ui.px(least_tile))));
    const ImVec2 size{width / static_cast<float>(columns), ui.px(tile_height)};
    const ImVec2 from = ImGui::GetCursorScreenPos();
    const float top = ImGui::GetWindowPos().y, bottom = top + ImGui::GetWindowHeight();
    const std::size_t rows = (lots.size() + columns - 1) / columns;
    const auto row_at = [&](float y) {
        return static_cast<std::size_t>(
            std::clamp(std::floor((y - from.y) / size.y), 0.0f, static_cast<float>(rows)));
    };
    const std::size_t first = row_at(top) > 0 ? row_at(top) - 1 : 0;
    const std::size_t last = std::min(rows, row_at(bottom) + 2);
    for (std::size_t row = first; row < last; ++row) {
        for (std::size_t column = 0; column < columns && row * columns + column < lots.size(); ++column) {
            tile(ui, *lots[row * columns + column], state,
                 {from.x + size.x * static_cast<float>(column), from.y + size.y * static_cast<float>(row)},
                 size);
        }
    }
    ImGui::SetCursorScreenPos({from.x, from.y + size.y * static_cast<float>(rows)});
    ImGui::Dummy({width, 0.0f});
}

void scraps_head(const Ui& ui) {
    ShelfChoice choice = ui.stash.choice();
    gap(ui, 2.0f);
    rule(ui);
    ImGui::AlignTextToFramePadding();
    text_in(ui, ui.fonts.bold, ui.theme.ink, "Scraps");
    ImGui::SameLine();
    text_in(ui, ui.fonts.body, ui.theme.quiet,
            std::to_string(ui.stash.scraps().size()) + (ui.stash.scraps().size() == 1 ? " lot" : " lots") +
                " under");
    ImGui::SameLine();
    const auto typed = field(ui, "scrap threshold",
                             measure::print_mass(choice.filter.scrap_grams, ui.settings.mass), ui.px(76.0f));
    hover(ui, "Less than this is too little for a batt of its own. Change it here.");
    if (!typed) return;
    const auto weight = parse_weight(*typed, ui.settings.mass);
    if (!weight) {
        refuse(ui, weight.error());
        return;
    }
    choice.filter.scrap_grams = weight->grams;
    ui.ask.act(ChooseShelf{std::move(choice)});
}

void nothing_here(const Ui& ui) {
    gap(ui, 8.0f);
    if (ui.stash.shelf().lots.empty()) {
        paragraph(ui,
                  "The shelf is empty. Weigh what you have, or lay it on something white and take a photo: "
                  "the shelf then knows its colours, and every batt can say what is left.",
                  ui.theme.ink);
        return;
    }
    paragraph(ui, "Nothing on the shelf is like that.", ui.theme.ink);
    if (button(ui, "Show everything##show everything")) {
        ShelfChoice choice = without_conditions(ui.stash.choice());
        choice.filter.text.clear();
        ui.ask.act(ChooseShelf{std::move(choice)});
    }
}

std::string count_words(const Ui& ui) {
    const std::size_t count = ui.stash.whole().size() + ui.stash.scraps().size();
    return std::to_string(count) + (count == 1 ? " lot, " : " lots, ") +
           measure::print_mass(ui.stash.shown_grams(), ui.settings.mass);
}

}  // namespace

void draw_lot(const Ui& ui, ImDrawList& list, ImVec2 low, ImVec2 high, const stash::Lot& lot,
              const colour::Srgb& edge) {
    recipe::Component bare;
    bare.content = lot.content;
    bare.palette = lot.palette;
    const Shown shown = shown_colours(bare, ui.catalogue);
    draw_wisp(list, low, high, shown.colours, shown.shares,
              static_cast<unsigned>(std::hash<std::string>{}(lot.mark)), edge);
}

void complaint_line(const Ui& ui, const std::optional<measure::Complaint>& complaint) {
    text_within(ui, ui.fonts.body, ui.theme.spoils, complaint ? measure::to_line(*complaint) : " ",
                ImGui::GetContentRegionAvail().x);
    mark(ui, complaint ? "lot complaint" : "no lot complaint");
}

void view_left_head(const Ui& ui, ShelfState& state) {
    const float width = ui.px(98.0f);
    state.batt_low = ImGui::GetCursorScreenPos();
    state.batt_high = {state.batt_low.x + width, state.batt_low.y + ImGui::GetFrameHeight()};
    if (choose(ui, "left", {"This batt", "The shelf"}, state.open, width)) ui.ask.another_frame = true;
}

void view_shelf(const Ui& ui, const Outcome& outcome, ShelfState& state, ImVec2 at, ImVec2 size) {
    // The same panel as the batt's, so that the keys stay where they are when the page is turned.
    begin_panel(ui, "in", "", at, size);
    view_left_head(ui, state);
    if (!ui.stash.shelf().lots.empty()) {
        ImGui::SameLine(0.0f, ui.px(12.0f));
        ImGui::AlignTextToFramePadding();
        text_within(ui, ui.fonts.body, ui.theme.quiet, count_words(ui), ImGui::GetContentRegionAvail().x);
        view_shelf_choice(ui, outcome, state);
    }
    const float foot = ImGui::GetFrameHeight() + ui.px(12.0f);
    begin_child("wall", {0.0f, ImGui::GetContentRegionAvail().y - foot});
    mark(ui, "wall");
    if (ui.stash.whole().empty() && ui.stash.scraps().empty()) nothing_here(ui);
    wall(ui, ui.stash.whole(), state);
    if (!ui.stash.scraps().empty()) {
        scraps_head(ui);
        wall(ui, ui.stash.scraps(), state);
    }
    ImGui::EndChild();
    gap(ui, 2.0f);
    const float whole = ImGui::GetContentRegionAvail().x, photo = ui.px(150.0f), between = ui.px(6.0f);
    const bool lots = !ui.stash.shelf().lots.empty();
    if (button(ui, "Put something on the shelf##put on the shelf", Tone::accent,
               lots ? whole - photo - between : whole, "A bag you have: its kind, its weight, its colours"))
        state.open_new = true;
    if (lots) {
        ImGui::SameLine(0.0f, between);
        if (button(ui, "Colours by photo\u2026##lots from a photo", Tone::plain, photo,
                   "Several lots in one photo: their colours in one go")) {
            ui.ask.colour_for = ui.document.sheet().recipe.components.size();
            ui.ask.command(Command::photo_colours);
        }
    }
    end_panel();
}

void view_carried_lot(const Ui& ui, ShelfState& state, ImVec2 drum, ImVec2 drum_size) {
    if (state.dragged.empty()) return;
    const stash::Shelved* shelved = ui.stash.find(state.dragged);
    if (shelved == nullptr || key_pressed(ImGuiKey_Escape)) {
        state.dragged.clear();
        return;
    }
    ImDrawList& list = *ImGui::GetForegroundDrawList();
    const ImVec2 mouse = ImGui::GetIO().MousePos;
    const auto over = [&](const char* label, ImVec2 low, ImVec2 high) {
        ui.probe.mark(label, {low.x, low.y, high.x, high.y});
        const bool there = mouse.x >= low.x && mouse.x < high.x && mouse.y >= low.y && mouse.y < high.y;
        list.AddRectFilled(low, high, u32(ui.theme.accent, there ? 0.25f : 0.10f), ui.px(10.0f));
        list.AddRect(low, high, u32(ui.theme.accent), ui.px(10.0f), 0, ui.px(there ? 4.0f : 2.0f));
        return there;
    };
    const bool on_drum = over("drop on the drum", drum, {drum.x + drum_size.x, drum.y + drum_size.y});
    const bool on_button = over("drop on the batt", state.batt_low, state.batt_high);
    const float half_x = ui.px(38.0f), half_y = ui.px(27.0f);
    draw_lot(ui, list, {mouse.x - half_x, mouse.y - half_y}, {mouse.x + half_x, mouse.y + half_y},
             shelved->lot, ui.theme.accent);
    ui.ask.another_frame = true;
    if (ImGui::IsMouseDown(ImGuiMouseButton_Left)) return;
    if (on_drum || on_button) ui.ask.act(LotToBench{state.dragged, std::nullopt});
    if (on_button) state.open = false;
    state.dragged.clear();
}

}  // namespace battwright::window
