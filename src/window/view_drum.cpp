// The drum in cross-section with the layers as they are fed, and the machine's own settings.
#include <algorithm>
#include <cmath>

#include "window/edits.hpp"
#include "window/views.hpp"
#include "window/widgets.hpp"

namespace battwright::window {
namespace {

constexpr float turn = 6.2831853f;

struct Ring {
    std::size_t component = 0;
    float inner = 0.0f, outer = 0.0f;
    bool last = false;  // added on the last pass: lies on top, not in layers
};

// Layers by mass: what is fed first lies at the teeth. Late additions come after all others.
std::vector<Ring> rings_of(const Sheet& sheet, const forecast::Forecast& forecast, float core, float rim) {
    std::vector<Ring> rings;
    float at = core;
    for (const bool late : {false, true}) {
        for (std::size_t i = 0; i < forecast.components.size(); ++i) {
            const bool is_late = sheet.recipe.components[i].add_on_pass != 1;
            if (is_late != late) continue;
            const float thick = (rim - core) * static_cast<float>(forecast.components[i].mass_pct / 100.0);
            rings.push_back({i, at, at + thick, late});
            at += thick;
        }
    }
    return rings;
}

void draw_core(const Ui& ui, ImDrawList& list, ImVec2 c, float core) {
    list.AddCircleFilled(c, core, u32(ui.theme.raised), 96);
    list.AddCircle(c, core, u32(ui.theme.edge), 96, ui.px(1.5f));
    list.AddCircleFilled(c, ui.px(7.0f), u32(ui.theme.edge), 24);
    constexpr int teeth = 96;
    for (int k = 0; k < teeth; ++k) {
        const float angle = turn * static_cast<float>(k) / teeth;
        const float lean = angle + 0.06f;
        list.AddLine(
            {c.x + (core - ui.px(1.0f)) * std::cos(angle), c.y + (core - ui.px(1.0f)) * std::sin(angle)},
            {c.x + (core + ui.px(6.0f)) * std::cos(lean), c.y + (core + ui.px(6.0f)) * std::sin(lean)},
            u32(ui.theme.edge), ui.px(1.2f));
    }
}

void draw_ring(const Ui& ui, ImDrawList& list, ImVec2 c, const Ring& ring, const Shown& shown, bool pointed) {
    constexpr int strands = 9;
    const float thick = ring.outer - ring.inner;
    double all = 0.0;
    for (const double share : shown.shares) all += share;
    // Strand by strand, so that a palette shows as streaks within its layer.
    for (int k = 0; k < strands; ++k) {
        const double at = (k + 0.5) / strands * all;
        double sum = 0.0;
        std::size_t which = 0;
        for (std::size_t i = 0; i < shown.shares.size(); ++i) {
            sum += shown.shares[i];
            which = i;
            if (at <= sum) break;
        }
        const float radius = ring.inner + thick * (static_cast<float>(k) + 0.5f) / strands;
        if (ring.last) {
            // Laid on at the end: tufts, not a closed layer.
            for (int tuft = 0; tuft < 24; ++tuft) {
                const float start =
                    turn * (static_cast<float>(tuft) + 0.37f * static_cast<float>(k % 3)) / 24.0f;
                list.PathArcTo(c, radius, start, start + turn / 40.0f, 6);
                list.PathStroke(u32(shown.colours[which]), 0, thick / strands + ui.px(0.7f));
            }
        } else {
            list.AddCircle(c, radius, u32(shown.colours[which]), 96, thick / strands + ui.px(0.7f));
        }
    }
    if (pointed) list.AddCircle(c, 0.5f * (ring.inner + ring.outer), u32(ui.theme.accent), 96, ui.px(3.0f));
}

void cross_section(const Ui& ui, const Sheet& sheet, const forecast::Forecast& forecast, LookState& look,
                   float side) {
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const float width = ImGui::GetContentRegionAvail().x;
    const ImVec2 c{at.x + 0.5f * width, at.y + 0.5f * side};
    const float rim = 0.5f * side - ui.px(4.0f), core = 0.46f * rim;
    ImGui::InvisibleButton("drum", {width, side});
    mark(ui, "drum");
    const bool over = ImGui::IsItemHovered();
    ImDrawList& list = *ImGui::GetWindowDrawList();
    draw_core(ui, list, c, core);
    const ImVec2 mouse = ImGui::GetIO().MousePos;
    const float distance = std::hypot(mouse.x - c.x, mouse.y - c.y);
    for (const Ring& ring : rings_of(sheet, forecast, core + ui.px(7.0f), rim)) {
        const auto shown = shown_colours(sheet.recipe.components[ring.component], ui.catalogue);
        draw_ring(ui, list, c, ring, shown, look.pointed.count(ring.component) > 0);
        if (!over || distance < ring.inner || distance >= ring.outer) continue;
        look.pointed_next.insert(ring.component);
        const auto& line = forecast.components[ring.component];
        hover(ui, line.label + ", " + measure::print_mass(line.grams, ui.settings.mass) +
                      (ring.last ? ", laid on for the last pass"
                                 : ", fed in this order from the teeth outwards"));
    }
}

void load_gauge(const Ui& ui, const forecast::Forecast& forecast) {
    const auto& carder = forecast.carder;
    const double end = std::max(1.25 * carder.load_high_grams, 1.1 * forecast.total_grams);
    const float width = ImGui::GetContentRegionAvail().x, height = ui.px(14.0f);
    text_in(ui, ui.fonts.bold, ui.theme.ink, "Load");
    hover_term(ui, "Load");
    ImGui::SameLine();
    const bool over = forecast.total_grams > carder.load_high_grams;
    const bool under = forecast.total_grams < carder.load_low_grams;
    const int batts = static_cast<int>(std::ceil(forecast.total_grams / carder.load_high_grams - 1e-9));
    const std::string words = measure::print_mass(forecast.total_grams, ui.settings.mass) +
                              (over    ? ": make " + std::to_string(batts) + " batts of it"
                               : under ? ": a thin batt on this drum"
                                       : ": fits in one batt");
    text_in(ui, ui.fonts.body, over ? ui.theme.warning : ui.theme.ink, words);
    const ImVec2 at = ImGui::GetCursorScreenPos();
    ImDrawList& list = *ImGui::GetWindowDrawList();
    const auto x = [&](double grams) { return at.x + width * static_cast<float>(grams / end); };
    list.AddRectFilled(at, {at.x + width, at.y + height}, u32(ui.theme.raised), height / 2);
    list.AddRectFilled({x(carder.load_low_grams), at.y}, {x(carder.load_high_grams), at.y + height},
                       u32(ui.theme.hover));
    list.AddRectFilled({at.x, at.y + ui.px(3.0f)}, {x(forecast.total_grams), at.y + height - ui.px(3.0f)},
                       u32(over ? ui.theme.warning : ui.theme.accent), height / 2);
    list.AddRect(at, {at.x + width, at.y + height}, u32(ui.theme.edge), height / 2);
    ImGui::Dummy({width, height});
    for (const double grams : {carder.load_low_grams, carder.load_high_grams}) {
        const std::string label = measure::print_mass(grams, ui.settings.mass);
        ImGui::PushFont(ui.fonts.small);
        const float half = 0.5f * ImGui::CalcTextSize(label.c_str()).x;
        ImGui::PopFont();
        list.AddText(ui.fonts.small, ui.fonts.small->FontSize, {x(grams) - half, at.y + height + ui.px(2.0f)},
                     u32(ui.theme.quiet), label.c_str());
    }
    gap(ui, 12.0f);
}

void carder_choice(const Ui& ui, const Sheet& sheet, const recipe::Carder& carder) {
    ImGui::SetNextItemWidth(ImGui::GetContentRegionAvail().x);
    const bool open = ImGui::BeginCombo("##carder", carder.name.c_str(), ImGuiComboFlags_HeightLarge);
    mark(ui, "carder");
    if (!open) {
        hover(ui, measure::print_length(carder.width_mm, ui.settings.length) + " wide, " +
                      measure::print_length(carder.drum_circumference_mm, ui.settings.length) + " round, " +
                      measure::write_number(carder.teeth_per_square_inch) + " teeth per square inch");
        return;
    }
    for (const auto& preset : recipe::carder_presets()) {
        const bool chosen = !sheet.recipe.carding.own && sheet.recipe.carding.carder == preset.id;
        const std::string label =
            preset.name + ", " + measure::write_number(preset.teeth_per_square_inch) + " tpi";
        if (ImGui::Selectable(label.c_str(), chosen, 0, {0.0f, ui.px(28.0f)}))
            ui.ask.edit(set_carder(sheet, preset), "choose a carder");
        mark(ui, "carder " + preset.id);
    }
    ImGui::EndCombo();
}

void passes_and_strips(const Ui& ui, const Sheet& sheet) {
    ImGui::AlignTextToFramePadding();
    text_in(ui, ui.fonts.body, ui.theme.quiet, "Passes");
    hover_term(ui, "Passes");
    ImGui::SameLine();
    if (const auto passes = stepper(ui, "passes", sheet.recipe.carding.passes, 1, 6))
        ui.ask.edit(set_passes(sheet, *passes), "change the passes");
    ImGui::SameLine(0.0f, ui.px(22.0f));
    text_in(ui, ui.fonts.body, ui.theme.quiet, "Strips");
    hover_term(ui, "Strips");
    ImGui::SameLine();
    if (const auto strips = stepper(ui, "strips", sheet.recipe.carding.strips, 1, 12)) {
        Sheet changed = sheet;
        changed.recipe.carding.strips = *strips;
        changed.recipe.carding_written = true;
        ui.ask.edit(std::move(changed), "change the strips");
    }
}

// Where there is room: the order of feeding in words.
void feeding_order(const Ui& ui, const Sheet& sheet, const forecast::Forecast& forecast, LookState& look) {
    const float line = ImGui::GetTextLineHeightWithSpacing();
    const float room = ImGui::GetContentRegionAvail().y;
    if (room < 3.0f * line) return;
    gap(ui, 2.0f);
    text_in(ui, ui.fonts.bold, ui.theme.ink, "Feed in this order");
    const auto fits = static_cast<std::size_t>((room - 1.6f * line) / line);
    const auto rings = rings_of(sheet, forecast, 0.0f, 1.0f);
    for (std::size_t k = 0; k < std::min(fits, rings.size()); ++k) {
        const auto& component = forecast.components[rings[k].component];
        const ImVec2 at = ImGui::GetCursorScreenPos();
        const float high = ImGui::GetTextLineHeight();
        ImDrawList& list = *ImGui::GetWindowDrawList();
        list.AddCircleFilled({at.x + 0.5f * high, at.y + 0.5f * high}, 0.42f * high, u32(component.srgb));
        list.AddCircle({at.x + 0.5f * high, at.y + 0.5f * high}, 0.42f * high, u32(ui.theme.edge));
        ImGui::SetCursorScreenPos({at.x + 1.5f * high, at.y});
        const bool more = k + 1 == fits && rings.size() > fits;
        const std::string words = more ? std::to_string(rings.size() - k) + " more"
                                       : measure::print_mass(component.grams, ui.settings.mass) + " " +
                                             component.label + (rings[k].last ? ", on the last pass" : "");
        text_within(ui, ui.fonts.body, ui.theme.ink, words, ImGui::GetContentRegionAvail().x);
        if (ImGui::IsItemHovered()) look.pointed_next.insert(rings[k].component);
    }
}

}  // namespace

void view_drum(const Ui& ui, const Sheet& sheet, const Outcome& outcome, LookState& look, ImVec2 at,
               ImVec2 size) {
    begin_panel(ui, "drum panel", "On the drum", at, size);
    const auto& forecast = outcome.forecast;
    const bool matches = forecast && forecast->components.size() == sheet.recipe.components.size();
    if (!matches) {
        const float side =
            std::min(ImGui::GetContentRegionAvail().x, 0.62f * ImGui::GetContentRegionAvail().y);
        const ImVec2 from = ImGui::GetCursorScreenPos();
        const ImVec2 middle{from.x + 0.5f * ImGui::GetContentRegionAvail().x, from.y + 0.5f * side};
        draw_core(ui, *ImGui::GetWindowDrawList(), middle, 0.4f * side);
        ImGui::Dummy({side, side});
        paragraph(ui,
                  "The layers appear here as you add fibre: the first component lies at the teeth, the last "
                  "on the outside.",
                  ui.theme.ink);
        end_panel();
        return;
    }
    const float below =
        ui.px(58.0f) + 2.0f * (ImGui::GetFrameHeightWithSpacing() + ui.px(4.0f)) + ui.px(16.0f);
    // With height to spare the drum leaves room for the order of feeding in words.
    const float high = ImGui::GetContentRegionAvail().y;
    const auto lines = static_cast<float>(std::min<std::size_t>(forecast->components.size(), 6) + 2);
    const float words = high > ui.px(560.0f) ? lines * ImGui::GetTextLineHeightWithSpacing() : 0.0f;
    const float side = std::min(ImGui::GetContentRegionAvail().x, high - below - words);
    cross_section(ui, sheet, *forecast, look, std::max(side, ui.px(80.0f)));
    load_gauge(ui, *forecast);
    carder_choice(ui, sheet, forecast->carder);
    passes_and_strips(ui, sheet);
    feeding_order(ui, sheet, *forecast, look);
    end_panel();
}

}  // namespace battwright::window
