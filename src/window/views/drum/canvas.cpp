#include "window/views/drum/canvas.hpp"

#include <GLFW/glfw3.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "app/bench/disagreement.hpp"
#include "app/bench/document.hpp"
#include "app/bench/outcome.hpp"
#include "app/bench/sheet.hpp"
#include "app/lay/canvas.hpp"
#include "app/lay/place_words.hpp"
#include "app/settings.hpp"
#include "app/state.hpp"
#include "window/views/views.hpp"

namespace battwright::window {
namespace {

constexpr float list_gap = 16.0f, least_list = 240.0f;

bool key_pressed_once(int key) {
    return ImGui::IsKeyPressed(key, false);
}

// Undo and redo reach the recipe from here, too.
void go(OnCanvas& on, Command command) {
    on.ui.ask.command(command);
    on.canvas.chosen.clear();  // it may be another step then
    on.canvas.line.clear();
}

void history_keys(OnCanvas& on) {
    const ImGuiIO& io = ImGui::GetIO();
    if (!io.KeyCtrl || io.WantTextInput) return;
    if (key_pressed_once(GLFW_KEY_Z)) go(on, io.KeyShift ? Command::redo : Command::undo);
    if (key_pressed_once(GLFW_KEY_Y)) go(on, Command::redo);
}

// A key by itself works on the chosen step, wherever the focus is.
void step_keys(OnCanvas& on) {
    const ImGuiIO& io = ImGui::GetIO();
    if (on.state.blend.open || io.WantTextInput || on.ui.tabs.on_field || io.KeyCtrl || io.KeyAlt ||
        on.canvas.chosen.empty())
        return;
    const Layings& chosen = on.canvas.chosen;
    if (key_pressed_once(GLFW_KEY_DELETE)) {
        on.take(take_off(on.sheet(), chosen), "take a step off");
        on.canvas.chosen.clear();
    } else if (key_pressed_once(GLFW_KEY_D)) {
        on.take(double_layings(on.sheet(), chosen), "lay a step twice");
    } else if (key_pressed_once(GLFW_KEY_M)) {
        on.take(mirror_layings(on.sheet(), chosen), "mirror a step");
    } else if (key_pressed_once(GLFW_KEY_E)) {
        on.take(spread_evenly(on.sheet(), chosen), "spread a step evenly");
    } else if (key_pressed_once(GLFW_KEY_H)) {
        on.canvas = hidden_or_shown(on.canvas, on.sheet().recipe, chosen);
    }
}

void head_row(OnCanvas& on, const PanelHead&) {
    const Ui& ui = on.ui;
    text_in(ui, ui.fonts.title, ui.theme.ink, "Laid by hand");
    const float wide = ui.px(92.0f), space = ImGui::GetStyle().ItemSpacing.x;
    ImGui::SameLine(ImGui::GetContentRegionMax().x - 3.0f * wide - 2.0f * space);
    const auto& history = ui.document.history();
    ImGui::BeginDisabled(!history.can_undo());
    if (button(ui, "Undo##canvas undo", Tone::plain, wide, "Ctrl+Z")) go(on, Command::undo);
    ImGui::EndDisabled();
    ImGui::SameLine();
    ImGui::BeginDisabled(!history.can_redo());
    if (button(ui, "Redo##canvas redo", Tone::plain, wide, "Ctrl+Shift+Z")) go(on, Command::redo);
    ImGui::EndDisabled();
    ImGui::SameLine();
    if (button(ui, "Done##canvas done", Tone::accent, wide) || escape_leaves(ui)) ImGui::CloseCurrentPopup();
}

// As it is typed, else with the unit behind it.
template <class Unit, class Parse>
auto in_own_unit(const std::string& text, Unit unit, Parse parse) {
    auto read = parse(text);
    if (read) return read;
    auto bare = parse(text + " " + std::string(measure::word_for(unit)));
    return bare ? bare : read;
}

// What was said of the last thing done, else what the next stroke will be.
void line_below(OnCanvas& on, float width) {
    const Ui& ui = on.ui;
    const Brush& brush = on.canvas.brush;
    std::string words = on.canvas.line;
    if (words.empty() && tile_of(on.listed.tiles, brush) == nullptr)
        words = "Choose a fibre above, then drag over the " + std::string(on.surface.name) +
                " where it is to lie.";
    if (words.empty()) {
        words = "The next stroke: " + mass(ui, stroke_grams(brush, on.surface)) + ", " +
                across_in_words(brush.across, ui.settings.length) + " across, ";
        words +=
            on.surface.places_along && (brush.way == recipe::Way::drum || !on.surface.has_tray)
                ? round_in_words(brush.round, ui.settings.length) + " " + std::string(on.surface.along) + "."
                : "all " + std::string(on.surface.along) + ".";
    }
    if (on.here_g_cm2)
        words += " Here lie " + cover_in_words(*on.here_g_cm2, ui.settings.length) + " of fibre.";
    text_within(ui, ui.fonts.body, on.canvas.line.empty() ? ui.theme.quiet : ui.theme.ink, words, width);
    mark(ui, "canvas line");
}

// Not closed any more, since something else on the bench was changed.
void complaint_row(OnCanvas& on, const Outcome& outcome) {
    if (!outcome.complaint) return;
    const Ui& ui = on.ui;
    paragraph(ui, measure::to_line(*outcome.complaint), ui.theme.spoils);
    if (button(ui, "Make the lay fit", Tone::accent, 0.0f,
               "What is laid is laid in proportion to what there is, within the edges, on passes there are."))
        on.take(made_to_fit(on.sheet()), "make the lay fit");
}

void left_side(OnCanvas& on, float whole, float height) {
    const Ui& ui = on.ui;
    begin_child("laying", {whole, height}, false, ImGuiWindowFlags_NavFlattened);
    // As wide with the scroll bar as without, else each of the two heights would call for the other.
    const float width = whole - ImGui::GetStyle().ScrollbarSize;
    view_tiles(on, width);
    view_brush(on);
    // Both to scale: the surface as wide as there is room for, the passes in what that leaves.
    const float space = ui.px(8.0f), ratio = static_cast<float>(on.surface.across_mm / on.surface.along_mm);
    const float words = ImGui::GetTextLineHeightWithSpacing() + ui.fonts.small->FontSize + ui.px(16.0f);
    const float left = ImGui::GetContentRegionAvail().y - words - surface_margins(ui).y;
    const int passes = std::clamp(std::max(1, on.sheet().recipe.carding.passes), 2, 4);
    const float surface = ratio * (width - surface_margins(ui).x);
    const float columns = static_cast<float>(passes);
    const float pass_wide = std::floor((width - (columns - 1.0f) * space) / columns);
    const float pass =
        std::max(ui.px(44.0f), std::min(ratio * pass_wide, std::max(0.3f * left, left - surface)));
    view_surface(on, width, std::max(ui.px(90.0f), std::min(surface, left - pass)) + surface_margins(ui).y);
    line_below(on, width);
    view_pass_pictures(on, ui.app.carded, width, std::floor(pass));
    ImGui::EndChild();
}

void beside_the_steps(OnCanvas& on, const Outcome& outcome, float card_width) {
    const Ui& ui = on.ui;
    const ImVec2 room = ImGui::GetContentRegionAvail();
    const float list = std::clamp(0.30f * card_width, ui.px(least_list), ui.px(430.0f));
    const float bar = ImGui::GetStyle().ScrollbarSize;  // has its place in the gap
    left_side(on, room.x - list - ui.px(list_gap) + bar, room.y);
    ImGui::SameLine(0.0f, ui.px(list_gap) - bar);
    view_laid_steps(on, outcome, {list, room.y});
}

// In a narrow window, which then scrolls.
void above_the_steps(OnCanvas& on, const Outcome& outcome) {
    const Ui& ui = on.ui;
    begin_child("canvas all", {0.0f, 0.0f}, false, ImGuiWindowFlags_NavFlattened);
    const float width = ImGui::GetContentRegionAvail().x;
    left_side(on, width, ui.px(560.0f));
    view_laid_steps(on, outcome, {width, ui.px(360.0f)});
    ImGui::EndChild();
}

}  // namespace

void OnCanvas::take(Laid laid, const std::string& what, bool dragging) {
    canvas.line = std::move(laid.line);
    if (!laid.layings.empty()) canvas.chosen = std::move(laid.layings);
    if (!(laid.sheet == sheet())) ui.ask.edit(std::move(laid.sheet), what, dragging);
    ui.ask.another_frame = true;
}

Canvas opened_canvas(const State& state) {
    Canvas canvas = state.canvas;
    canvas.open = true;
    canvas.line.clear();
    canvas.chosen.clear();
    canvas.brush.mass_unit = state.settings.mass;
    if (canvas.brush.length_unit != state.settings.length) {
        canvas.brush.length_unit = state.settings.length;
        const Surface surface = surface_of(state.document.sheet().recipe);
        canvas.brush = placed(canvas.brush, region_of(canvas.brush, surface), surface);
    }
    return canvas;
}

measure::Expected<recipe::Stretch> typed_place(const std::string& text, bool across,
                                               const Settings& settings) {
    return in_own_unit(text, settings.length, across ? recipe::parse_across : recipe::parse_round);
}

measure::Expected<recipe::Extent> typed_extent(const std::string& text, const Settings& settings) {
    return in_own_unit(text, settings.length, recipe::parse_extent);
}

measure::Expected<measure::Length> typed_length(const std::string& text, const Settings& settings) {
    return in_own_unit(text, settings.length, measure::parse_length);
}

void view_canvas(const Ui& ui, const PanelHead& head, CanvasState& state) {
    const ImVec2 size = card_size(ui, ImGui::GetIO().DisplaySize, {0.0f, 400.0f});
    if (!begin_card(ui, head.id, "", size)) return;
    OnCanvas on{ui, ui.app.listed.value(), state, ui.app.canvas, surface_of(ui.document.sheet().recipe), 1};
    const Outcome& outcome = ui.app.outcome();
    if (outcome.forecast) on.batts = std::max<std::size_t>(1, outcome.forecast->plan.batts);
    if (tile_of(on.listed.tiles, on.canvas.brush) == nullptr && !on.listed.tiles.empty()) {
        on.canvas.brush.what = on.listed.tiles.front().what;
        on.canvas.brush.colour = on.listed.tiles.front().colour;
    }
    head_row(on, head);
    complaint_row(on, outcome);
    if (has_room(ui, 780.0f))
        beside_the_steps(on, outcome, size.x);
    else
        above_the_steps(on, outcome);
    history_keys(on);
    step_keys(on);
    if (!ImGui::IsMouseDown(ImGuiMouseButton_Left)) state.dragged.reset();
    if (!(on.canvas == ui.app.canvas)) ui.ask.act(ChangeCanvas{on.canvas});
    end_card();
}

void report_canvas(const CanvasState& canvas, const State& app, bool open, Probe& probe) {
    if (!open) return;
    auto& facts = probe.state;
    facts["canvas line"] = app.canvas.line;
    facts["canvas across"] = recipe::write_across(app.canvas.brush.across);
    facts["canvas round"] = recipe::write_round(app.canvas.brush.round);
    facts["canvas chosen"] = std::to_string(app.canvas.chosen.size());
    facts["canvas hidden"] = std::to_string(app.canvas.hidden.size());
    facts["canvas faces"] = std::to_string(canvas.pictures.passes());
    const auto& tiles = app.listed.value().tiles;
    for (std::size_t i = 0; i < tiles.size(); ++i)
        facts["left " + std::to_string(i + 1)] = measure::print_mass(tiles[i].left, measure::MassUnit::gram);
}

}  // namespace battwright::window
