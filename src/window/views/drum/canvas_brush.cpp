// What the next stroke is: the fibre with what is left of it, and how, how thick and where it is laid.
#include <algorithm>
#include <array>
#include <cmath>

#include "app/bench/shown_colours.hpp"
#include "app/lay/place_words.hpp"
#include "app/settings.hpp"
#include "app/shelf/shelf_choice.hpp"
#include "window/views/drum/canvas.hpp"
#include "window/views/views.hpp"

namespace battwright::window {
namespace {

constexpr float least_tile = 128.0f, most_tile = 176.0f, tile_high = 46.0f;

Shown colours_of_tile(const OnCanvas& on, const Tile& tile) {
    if (tile.colour) return {{*tile.colour}, {100.0}};
    if (!tile.is_blend) return shown_colours(on.sheet().recipe.components[tile.component], on.ui.catalogue);
    Shown blended;
    for (std::size_t c = 0; c < tile.parts.size(); ++c) {
        if (tile.parts[c] <= 0.0) continue;
        const Shown part = shown_colours(on.sheet().recipe.components[c], on.ui.catalogue);
        double all = 0.0;
        for (const double share : part.shares) all += share;
        for (std::size_t k = 0; k < part.colours.size(); ++k) {
            blended.colours.push_back(part.colours[k]);
            blended.shares.push_back(tile.parts[c] * part.shares[k] / all);
        }
    }
    return blended;
}

void one_tile(OnCanvas& on, std::size_t index, float wide) {
    const Ui& ui = on.ui;
    const Tile& tile = on.listed.tiles[index];
    const bool chosen = tile.what == on.canvas.brush.what && tile.colour == on.canvas.brush.colour;
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const ImVec2 size{wide, ui.px(tile_high)};
    if (ImGui::InvisibleButton("tile", size)) {
        on.canvas.brush.what = tile.what;
        on.canvas.brush.colour = tile.colour;
        on.canvas.line.clear();
    }
    mark(ui, "lay tile " + std::to_string(index + 1));
    const bool live = ImGui::IsItemHovered() || ImGui::IsItemFocused();
    ImDrawList& list = *ImGui::GetWindowDrawList();
    const ImVec2 end{at.x + size.x, at.y + size.y};
    list.AddRectFilled(at, end,
                       u32(chosen ? ui.theme.chosen
                           : live ? ui.theme.hover
                                  : ui.theme.raised),
                       ui.px(7.0f));
    list.AddRect(at, end,
                 u32(chosen ? ui.theme.ink
                     : live ? ui.theme.accent
                            : ui.theme.edge),
                 ui.px(7.0f), 0, ui.px(chosen ? 2.0f : 1.0f));
    const float side = ui.px(30.0f), pad = ui.px(6.0f);
    const Shown shown = colours_of_tile(on, tile);
    draw_wisp(list, {at.x + pad, at.y + pad}, {at.x + pad + side, at.y + pad + side}, shown.colours,
              shown.shares, static_cast<unsigned>(index), ui.theme.edge);
    const std::string name = tile_name(on, tile);
    const float left = at.x + side + 2.0f * pad, room = end.x - left - pad;
    ImGui::PushFont(ui.fonts.body);
    list.AddText({left, at.y + ui.px(4.0f)}, u32(ui.theme.ink), cut_to(name, room).c_str());
    ImGui::PopFont();
    const double many = static_cast<double>(on.batts);
    const std::string rest = mass(ui, tile.left / many) + " left";
    list.AddText(ui.fonts.small, ui.fonts.small->FontSize, {left, at.y + ui.px(22.0f)}, u32(ui.theme.quiet),
                 rest.c_str());
    // What is left, running down.
    const float part = tile.grams > 0.0 ? static_cast<float>(tile.left / tile.grams) : 0.0f;
    const float low = end.y - ui.px(6.0f);
    list.AddRectFilled({at.x + pad, low}, {end.x - pad, low + ui.px(3.0f)}, u32(ui.theme.line), ui.px(1.5f));
    list.AddRectFilled({at.x + pad, low}, {at.x + pad + part * (size.x - 2.0f * pad), low + ui.px(3.0f)},
                       u32(ui.theme.accent), ui.px(1.5f));
    hover(ui, name + ": " + mass(ui, tile.grams / many) + (on.batts > 1 ? " a batt" : "") + ", " + rest +
                  ". What no stroke has placed goes in evenly, through the tray.");
}

void choose_how(OnCanvas& on) {
    const Ui& ui = on.ui;
    Brush& brush = on.canvas.brush;
    std::vector<std::string> words;
    words.reserve(recipe::spreadings.size());
    for (const auto& row : recipe::spreadings) words.emplace_back(row.word);
    if (const auto how =
            drop_down(ui, "lay how", words, static_cast<std::size_t>(brush.how), ui.px(112.0f))) {
        brush.how = static_cast<recipe::Spreading>(*how);
        brush.size.reset();
    }
    if (brush.how == recipe::Spreading::even) return;
    beside_or_below(ui, 10.0f, ui.px(78.0f));
    const std::string shown = measure::print_length(dab_mm(brush), ui.settings.length);
    const auto typed = field(ui, "lay size", shown, ui.px(72.0f));
    hover(ui, "How large one of them is.");
    if (!typed) return;
    const auto size = typed_length(*typed, ui.settings);
    if (size && size->millimetres >= 3.0 && size->millimetres <= 400.0)
        brush.size = *size;
    else
        refuse(ui,
               size ? measure::Complaint{"that size cannot be laid",
                                         "write one from " + measure::print_length(3.0, ui.settings.length) +
                                             " to " + measure::print_length(400.0, ui.settings.length)}
                    : size.error());
}

void choose_way(OnCanvas& on) {
    if (!on.surface.has_tray) return;
    const Ui& ui = on.ui;
    const auto way = choices(ui, "lay way", {"onto the " + std::string(on.surface.name), "by the tray"},
                             on.canvas.brush.way == recipe::Way::drum ? 0 : 1);
    hover(ui,
          "Straight onto the drum fibre lies where it is put and is hardly carded on this pass. Through the "
          "tray it goes all round, carded and drawn out.");
    if (way) on.canvas.brush.way = *way == 0 ? recipe::Way::drum : recipe::Way::tray;
}

void choose_lay_pass(OnCanvas& on) {
    const int passes = std::max(1, on.sheet().recipe.carding.passes);
    Brush& brush = on.canvas.brush;
    if (passes == 1) {
        brush.pass = 1;
        return;
    }
    const Ui& ui = on.ui;
    beside_or_below(ui, 10.0f, ui.px(140.0f));
    ImGui::AlignTextToFramePadding();
    text_in(ui, ui.fonts.body, ui.theme.quiet, on.surface.pass);
    ImGui::SameLine();
    if (const auto pass = stepper(ui, "lay pass", std::clamp(brush.pass, 1, passes), 1, passes))
        brush.pass = *pass;
    if (brush.pass < 2) return;
    beside_or_below(ui, 10.0f, ui.px(110.0f));
    std::vector<std::string> words;
    words.reserve(recipe::lies_words.size());
    for (const auto& row : recipe::lies_words) words.emplace_back(row.word);
    if (const auto lies =
            drop_down(ui, "lay lies", words, static_cast<std::size_t>(brush.lies), ui.px(104.0f)))
        brush.lies = static_cast<recipe::Lies>(*lies);
    hover(ui, "Under the batt that goes back, between its halves, or on top of it.");
}

void choose_load(OnCanvas& on) {
    const Ui& ui = on.ui;
    Brush& brush = on.canvas.brush;
    const auto by = choices(ui, "lay by", {"by thickness", "by weight"}, brush.by_weight ? 1 : 0);
    hover(ui, "By thickness a stroke weighs what its area takes; by weight each weighs the same.");
    if (by) brush.by_weight = *by == 1;
    beside_or_below(ui, 10.0f, ui.px(100.0f));
    if (brush.by_weight) {
        const auto typed = field(ui, "lay grams", mass(ui, brush.grams), ui.px(92.0f));
        hover(ui, "What one stroke weighs.");
        if (!typed) return;
        const auto weight = parse_weight(*typed, ui.settings.mass);
        if (weight && weight->grams >= 0.05 && weight->grams <= 500.0)
            brush.grams = weight->grams;
        else
            refuse(ui, weight ? measure::Complaint{"no stroke weighs that",
                                                   "write a weight such as " + mass(ui, 2.0)}
                              : weight.error());
        return;
    }
    const bool inches = ui.settings.length == measure::LengthUnit::inch;
    const std::string shown = cover_in_words(brush.grams_per_cm2, ui.settings.length);
    const auto typed = field(ui, "lay thickness", shown, ui.px(92.0f));
    hover(ui, inches
                  ? "How thick it lies, in ounces on a square foot: 0.65 is a good cover, 0.15 a veil."
                  : "How thick it lies, in milligrams on a square centimetre: 20 is a good cover, 5 a veil.");
    if (!typed) return;
    const auto cover = parse_cover(*typed, ui.settings.length);
    if (cover && *cover >= thinnest_g_cm2 && *cover <= thickest_g_cm2)
        brush.grams_per_cm2 = *cover;
    else
        refuse(ui, cover ? measure::Complaint{"nobody lays it so",
                                              inches ? "write 0.04 to 6.5 oz/ft2" : "write 1 to 200 mg/cm2"}
                         : cover.error());
}

void choose_place(OnCanvas& on, bool across) {
    const Ui& ui = on.ui;
    Brush& brush = on.canvas.brush;
    recipe::Stretch& place = across ? brush.across : brush.round;
    ImGui::AlignTextToFramePadding();
    text_in(ui, ui.fonts.body, ui.theme.quiet, across ? "across" : std::string(on.surface.along));
    ImGui::SameLine();
    const auto unit = ui.settings.length;
    const std::string shown = across ? across_in_words(place, unit) : round_in_words(place, unit);
    const auto typed = field(ui, across ? "lay across" : "lay round", shown, ui.px(126.0f));
    hover(ui, across
                  ? "From the left edge: 0-60 mm, 25-50 %, left third, full width."
                  : "From the " + std::string(on.surface.begins) + ": 0-280 mm, 25-50 %, first half, all.");
    if (!typed) return;
    const auto read = typed_place(*typed, across, ui.settings);
    if (read)
        place = *read;
    else
        refuse(ui, read.error());
}

}  // namespace

std::string tile_name(const OnCanvas& on, const Tile& tile) {
    if (tile.is_blend) return tile.what;
    const std::string name = label_of(on.sheet().recipe.components[tile.component], on.ui.catalogue);
    return tile.colour ? colour::hex(*tile.colour) + " " + name : name;
}

void view_tiles(OnCanvas& on, float width) {
    const Ui& ui = on.ui;
    const auto& tiles = on.listed.tiles;
    const float space = ui.px(6.0f), count = static_cast<float>(std::max<std::size_t>(1, tiles.size()));
    const float wide =
        std::clamp(std::floor((width + space) / count - space), ui.px(least_tile), ui.px(most_tile));
    const auto in_row =
        std::max<std::size_t>(1, static_cast<std::size_t>((width + space + 0.5f) / (wide + space)));
    const std::size_t rows = std::max<std::size_t>(1, (tiles.size() + in_row - 1) / in_row);
    const float high = (ui.px(tile_high) + space) * static_cast<float>(std::min<std::size_t>(rows, 2));
    ImGui::PushStyleVar(ImGuiStyleVar_ItemSpacing, {space, space});
    begin_child("tiles", {width, high}, false, ImGuiWindowFlags_NavFlattened);
    for (std::size_t i = 0; i < tiles.size(); ++i) {
        ImGui::PushID(static_cast<int>(i));
        if (i % in_row != 0) ImGui::SameLine();
        one_tile(on, i, wide);
        ImGui::PopID();
    }
    ImGui::EndChild();
    ImGui::PopStyleVar();
}

void view_brush(OnCanvas& on) {
    const Ui& ui = on.ui;
    choose_how(on);
    if (on.surface.has_tray) beside_or_below(ui, 10.0f, ui.px(210.0f));
    choose_way(on);
    choose_lay_pass(on);
    beside_or_below(ui, 10.0f, ui.px(220.0f));
    choose_load(on);
    beside_or_below(ui, 10.0f, ui.px(220.0f));
    if (const auto snap = choices(ui, "lay snap", {"free", "quarters", "thirds"},
                                  static_cast<std::size_t>(on.canvas.brush.snap))) {
        on.canvas.brush.snap = static_cast<Snap>(*snap);
        on.canvas.brush = placed(on.canvas.brush, region_of(on.canvas.brush, on.surface), on.surface);
    }
    hover(ui, "What a stroke keeps to.");
    beside_or_below(ui, 10.0f, ui.px(190.0f));
    choose_place(on, true);
    if (on.surface.places_along && (on.canvas.brush.way == recipe::Way::drum || !on.surface.has_tray)) {
        beside_or_below(ui, 10.0f, ui.px(190.0f));
        choose_place(on, false);
    }
    beside_or_below(ui, 10.0f, ui.px(80.0f));
    if (button(ui, "Lay it", Tone::accent, ui.px(76.0f), "Lays a stroke at the place that is written here."))
        on.take(lay_stroke(on.sheet(), on.canvas.brush, on.batts), "lay a stroke");
    beside_or_below(ui, 10.0f, ui.px(122.0f));
    view_blend_maker(on);
}

}  // namespace battwright::window
