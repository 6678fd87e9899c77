// The drum in cross-section as the simulation leaves it, and below it the machine or what to do at it.
#include <algorithm>
#include <cmath>

#include "app/bench/carding_worker.hpp"
#include "app/bench/outcome.hpp"
#include "app/bench/sheet.hpp"
#include "forecast/forecast.hpp"
#include "window/kit/widgets.hpp"
#include "window/views/shelf/card_it.hpp"
#include "window/views/views.hpp"

namespace battwright::window {
namespace {

constexpr float turn = 6.2831853f;

// A ring of cells between two radii round a middle; cell 0 begins at the top, clockwise. Of what lies flat a
// slab from its left edge, the teeth below.
struct Round {
    ImVec2 middle;
    float inner = 0.0f, outer = 0.0f;
    bool flat = false;
    ImVec2 low{}, high{};  // the slab

    ImVec2 at(float part_round, float part_deep) const {
        if (flat) return {low.x + (high.x - low.x) * part_round, high.y - (high.y - low.y) * part_deep};
        const float angle = turn * (part_round - 0.25f), radius = inner + (outer - inner) * part_deep;
        return {middle.x + radius * std::cos(angle), middle.y + radius * std::sin(angle)};
    }
};

colour::Srgb mixed(const colour::Srgb& a, const colour::Srgb& b, double part) {
    return {a.r + part * (b.r - a.r), a.g + part * (b.g - a.g), a.b + part * (b.b - a.b)};
}

// Where none of what is pointed at lies, the cell fades into the panel.
std::vector<colour::Srgb> cell_colours(const Ui& ui, const strip::DrumPicture& drum,
                                       const Pointing& pointing) {
    if (pointing.now.empty()) return drum.colours;
    std::vector<float> there(drum.colours.size(), 0.0f);
    for (const std::size_t component : pointing.now) {
        if (component >= drum.components) continue;
        for (std::size_t cell = 0; cell < there.size(); ++cell)
            there[cell] += drum.shares[cell * drum.components + component];
    }
    const float most = std::max(1e-6f, *std::max_element(there.begin(), there.end()));
    auto colours = drum.colours;
    for (std::size_t cell = 0; cell < there.size(); ++cell)
        colours[cell] = mixed(ui.theme.panel, colours[cell], 0.2 + 0.8 * double{there[cell] / most});
    return colours;
}

// One layer of cells: each slice runs from its own colour into the next one's, as fibre does.
void draw_layer(ImDrawList& list, const Round& round, const strip::DrumPicture& drum,
                const std::vector<colour::Srgb>& colours, std::size_t z) {
    constexpr std::size_t slices = 96;
    const ImVec2 white = ImGui::GetFontTexUvWhitePixel();
    const auto n = static_cast<float>(drum.round);
    const auto colour_at = [&](float part) {
        // Cell colours hold at the middles of cells.
        const float cell = (drum.flat ? std::clamp(part * n, 0.5f, n - 0.5f) : part * n) - 0.5f + n;
        const auto low = static_cast<std::size_t>(cell);
        const auto* row = colours.data() + z * drum.round;
        return u32(mixed(row[low % drum.round], row[(low + 1) % drum.round],
                         double{cell - static_cast<float>(low)}));
    };
    const auto deep = static_cast<float>(drum.depth);
    const float from = static_cast<float>(z) / deep, to = static_cast<float>(z + 1) / deep;
    list.PrimReserve(6 * static_cast<int>(slices), 4 * static_cast<int>(slices));
    for (std::size_t k = 0; k < slices; ++k) {
        const float a = static_cast<float>(k) / slices, b = static_cast<float>(k + 1) / slices;
        const ImU32 first = colour_at(a), second = colour_at(b);
        const auto index = static_cast<ImDrawIdx>(list._VtxCurrentIdx);
        for (const int corner : {0, 1, 2, 0, 2, 3}) list.PrimWriteIdx(static_cast<ImDrawIdx>(index + corner));
        list.PrimWriteVtx(round.at(a, from), white, first);
        list.PrimWriteVtx(round.at(b, from), white, second);
        list.PrimWriteVtx(round.at(b, to), white, second);
        list.PrimWriteVtx(round.at(a, to), white, first);
    }
}

// Under the pointer: what there is most of, and how much.
void explain_cell(const Ui& ui, const Round& round, const forecast::Forecast& forecast, const Carded& carded,
                  Pointing& pointing) {
    const strip::DrumPicture& drum = carded.drum;
    const ImVec2 mouse = ImGui::GetIO().MousePos;
    const float x = mouse.x - round.middle.x, y = mouse.y - round.middle.y;
    const float deep = round.flat ? (round.high.y - mouse.y) / (round.high.y - round.low.y)
                                  : (std::hypot(x, y) - round.inner) / (round.outer - round.inner);
    if (deep < 0.0f || deep >= 1.0f || drum.components != forecast.components.size()) return;
    const float part = round.flat
                           ? std::clamp((mouse.x - round.low.x) / (round.high.x - round.low.x), 0.0f, 0.999f)
                           : std::atan2(y, x) / turn + 1.25f;
    const auto& tool = recipe::words_of(forecast.carder);
    const auto most = drum.most_at(double{part}, double{deep});
    pointing.next.insert(most.component);
    hover(ui,
          "Here most of all " + forecast.components[most.component].label + ", " +
              measure::print_percent(std::round(100.0 * most.share)) + ".\nAfter " + std::string(tool.pass) +
              ' ' + std::to_string(carded.pass) +
              (round.flat ? ", averaged along its length. The teeth are below."
                          : ", averaged over the drum's width. The teeth are inside, the last fed outside."));
}

// The cloth under what lies flat: a back, and teeth that lean.
void draw_cloth(const Ui& ui, ImDrawList& list, ImVec2 low, ImVec2 high) {
    list.AddRectFilled({low.x, high.y + ui.px(7.0f)}, {high.x, high.y + ui.px(19.0f)}, u32(ui.theme.raised),
                       ui.px(3.0f));
    list.AddRect({low.x, high.y + ui.px(7.0f)}, {high.x, high.y + ui.px(19.0f)}, u32(ui.theme.edge),
                 ui.px(3.0f));
    constexpr int teeth = 72;
    for (int k = 0; k < teeth; ++k) {
        const float x = low.x + (high.x - low.x) * (static_cast<float>(k) + 0.3f) / teeth;
        list.AddLine({x, high.y + ui.px(8.0f)}, {x + ui.px(2.0f), high.y}, u32(ui.theme.edge), ui.px(1.2f));
    }
}

// A drum that has not been carded yet, or never will be.
void empty_drum(const Ui& ui) {
    const float side = std::min(ImGui::GetContentRegionAvail().x, 0.62f * ImGui::GetContentRegionAvail().y);
    const ImVec2 from = ImGui::GetCursorScreenPos();
    const ImVec2 middle{from.x + 0.5f * ImGui::GetContentRegionAvail().x, from.y + 0.5f * side};
    draw_core(ui, *ImGui::GetWindowDrawList(), middle, 0.4f * side);
    ImGui::Dummy({side, side});
    paragraph(ui,
              "The batt appears here as you add fibre: what is fed first lies at the teeth, the last on the "
              "outside.",
              ui.theme.ink);
}

constexpr float corner_button = 104.0f;  // design pixels wide

// The largest circle at the top of a picture of that size which leaves the buttons in its lower corners free.
float rim_above_buttons(const Ui& ui, float width, float side) {
    const float gap = ui.px(4.0f);
    const float beside = std::max(0.0f, 0.5f * width - ui.px(corner_button) - gap);
    const float above = std::max(1.0f, side - ImGui::GetFrameHeight() - gap);
    return std::min(0.5f * side, (beside * beside + above * above) / (2.0f * above)) - gap;
}

// In the picture's lower corners, which the drum leaves free.
void corner_buttons(const Ui& ui, float side) {
    const ImVec2 after = ImGui::GetCursorScreenPos();
    const float wide = ui.px(corner_button), right = after.x + ImGui::GetContentRegionAvail().x;
    const float top = after.y - ImGui::GetStyle().ItemSpacing.y - ImGui::GetFrameHeight();
    if (side < 2.0f * ImGui::GetFrameHeight()) return;
    ImGui::SetCursorScreenPos({right - wide, top});
    if (button(ui, "Lay by hand", Tone::plain, wide,
               "The drum unrolled as a surface to lay fibre on, stroke by stroke (Ctrl+D)"))
        ui.ask.command(Command::lay);
    ImGui::SetCursorScreenPos({after.x, top});
    if (button(ui, "Sample, series##plans", Tone::plain, wide,
               "The smallest sample that mixes as the batt will, or several batts in steps (Ctrl+M)"))
        ui.ask.command(Command::plans);
    ImGui::SetCursorScreenPos(after);
}

}  // namespace

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

void view_cross_section(const Ui& ui, const forecast::Forecast& forecast, const Carded* carded,
                        Pointing& pointing, float side) {
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const float width = ImGui::GetContentRegionAvail().x;
    const float rim = rim_above_buttons(ui, width, side), core = 0.46f * rim;
    const ImVec2 c{at.x + 0.5f * width, at.y + rim + ui.px(4.0f)};
    ImGui::InvisibleButton("drum", {width, side});
    ImGui::SetItemAllowOverlap();
    mark(ui, "drum");
    ImDrawList& list = *ImGui::GetWindowDrawList();
    const bool flat = recipe::is_flat(forecast.carder);
    const float high = std::min(0.42f * side, 0.3f * width);  // thicker than it is, to be seen into
    const ImVec2 low{at.x + 0.06f * width, c.y - 0.5f * high}, end{at.x + 0.94f * width, c.y + 0.5f * high};
    if (flat) {
        draw_cloth(ui, list, low, end);
    } else {
        draw_core(ui, list, c, core);
    }
    // Just after another tool is chosen the last one's batt is still at hand.
    if (carded == nullptr || carded->drum.colours.empty() || carded->drum.flat != flat) return;
    const Round round{c, core + ui.px(7.0f), rim, flat, low, end};
    const auto colours = cell_colours(ui, carded->drum, pointing);
    for (std::size_t z = 0; z < carded->drum.depth; ++z) draw_layer(list, round, carded->drum, colours, z);
    if (flat) {
        list.AddRect(low, end, u32(ui.theme.edge), 0.0f, 0, ui.px(1.0f));
    } else {
        for (const float radius : {round.inner, round.outer})
            list.AddCircle(c, radius, u32(ui.theme.edge), 96, ui.px(1.0f));
    }
    if (ImGui::IsItemHovered()) explain_cell(ui, round, forecast, *carded, pointing);
}

void view_drum(const Ui& ui, const Sheet& sheet, const Outcome& outcome, const CardedShown& shown,
               Pointing& pointing, DrumState& drum, ImVec2 at, ImVec2 size) {
    const auto& forecast = outcome.forecast;
    const std::string on =
        recipe::is_flat(recipe::carder_of(sheet.recipe.carding))
            ? std::string(recipe::words_of(recipe::carder_of(sheet.recipe.carding)).surface)
            : "drum";
    begin_panel(ui, "drum panel", "On the " + on, at, size);
    view_card_it_button(ui, outcome, {at.x + size.x, at.y});
    if (!forecast || forecast->components.size() != sheet.recipe.components.size()) {
        empty_drum(ui);
        end_panel();
        return;
    }
    // With height to spare the settings and the steps stand one below the other; else one of them is chosen.
    const ImVec2 room = ImGui::GetContentRegionAvail();
    const bool tall = room.y > ui.px(640.0f);
    const float machine = ui.px(72.0f) + ui.fonts.small->FontSize + 3.0f * ImGui::GetFrameHeightWithSpacing();
    const float below = machine + (tall ? 0.30f * room.y : ImGui::GetFrameHeightWithSpacing() + ui.px(4.0f));
    const float side = std::clamp(room.y - below, ui.px(80.0f), room.x);
    view_cross_section(ui, *forecast, shown.carded.get(), pointing, side);
    corner_buttons(ui, side);
    if (!tall) {
        const float half = 0.5f * (room.x - ui.px(3.0f));
        choose(ui, "drum page", {"Carder", "Steps"}, drum.steps, half);
        gap(ui, 0.0f);
    }
    if (tall || !drum.steps) view_machine(ui, sheet, *forecast);
    if (tall) gap(ui, 4.0f);
    if (tall || drum.steps) view_steps(ui, *forecast, pointing);
    end_panel();
}

}  // namespace battwright::window
