// The chosen step: its weight, places and their edges, way, pass, and what can be done with it.
#include <algorithm>

#include "app/lay/place_words.hpp"
#include "app/settings.hpp"
#include "app/shelf/shelf_choice.hpp"
#include "recipe/layout.hpp"
#include "window/views/drum/canvas.hpp"
#include "window/views/views.hpp"

namespace battwright::window {
namespace {

constexpr float editor_column = 62.0f;  // design pixels
constexpr std::size_t most_places = 24;

void step_weight(OnCanvas& on, const Layings& chosen) {
    const Ui& ui = on.ui;
    row_label(ui, "weight", editor_column);
    const std::string shown = mass(ui, laid_grams(on.sheet(), chosen, on.batts));
    if (const auto typed = field(ui, "step weight", shown, ui.px(84.0f))) {
        const auto weight = parse_weight(*typed, ui.settings.mass);
        if (weight && weight->grams > 0.0)
            on.take(set_laid_grams(on.sheet(), chosen, weight->grams, weight->unit, on.batts),
                    "weigh a step");
        else
            refuse(ui, weight ? measure::Complaint{"it must weigh more than nothing",
                                                   "write a weight such as " + mass(ui, 2.0)}
                              : weight.error());
    }
    const int passes = std::max(1, on.sheet().recipe.carding.passes);
    if (passes == 1) return;
    row_label(ui, on.surface.pass, editor_column);
    const int now = recipe::pass_of(on.sheet().recipe, on.sheet().recipe.carding.layings[chosen.front()]);
    if (const auto pass = stepper(ui, "step pass", now, 1, passes))
        on.take(set_laid_pass(on.sheet(), chosen, *pass), "move a step to another pass");
}

void place_field(OnCanvas& on, std::size_t laying, std::size_t number, bool across) {
    const Ui& ui = on.ui;
    const recipe::Laying& now = on.sheet().recipe.carding.layings[laying];
    const std::string label = (across ? "step across" : "step round") +
                              (number > 0 ? " " + std::to_string(number + 1) : std::string());
    const auto unit = ui.settings.length;
    const std::string shown = across ? across_in_words(now.across, unit) : round_in_words(now.round, unit);
    const float half = 0.5f * (ImGui::GetContentRegionMax().x - ui.px(editor_column + 6.0f));
    const auto typed = field(ui, label, shown, half);
    hover(ui, across ? "Across, from the left edge: 0-60 mm, left third, full width."
                     : "From the " + std::string(on.surface.begins) + ": 0-280 mm, first half, all.");
    if (!typed) return;
    const auto place = typed_place(*typed, across, ui.settings);
    if (!place) return refuse(ui, place.error());
    // The others of the step stay chosen with it.
    const Layings chosen = on.canvas.chosen;
    on.take(
        across ? set_laid_across(on.sheet(), {laying}, *place) : set_laid_round(on.sheet(), {laying}, *place),
        "move a step");
    on.canvas.chosen = chosen;
}

void place_rows(OnCanvas& on, const Layings& chosen) {
    const Ui& ui = on.ui;
    for (std::size_t k = 0; k < std::min(chosen.size(), most_places); ++k) {
        row_label(ui, k == 0 ? "place" : "", editor_column);
        place_field(on, chosen[k], k, true);
        if (!on.surface.places_along) continue;
        ImGui::SameLine(0.0f, ui.px(6.0f));
        place_field(on, chosen[k], k, false);
    }
}

// What runs out or lies over something has an end to do it at.
bool has_edges(const recipe::Laying& laying) {
    return laying.fade || laying.overlap || !laying.across.is_whole() || !laying.round.is_whole();
}

void edge_field(OnCanvas& on, const Layings& chosen, const char* label,
                std::optional<recipe::Extent> recipe::Laying::*edge, float width, const char* help) {
    const Ui& ui = on.ui;
    const auto& now = on.sheet().recipe.carding.layings[chosen.front()].*edge;
    const auto typed = field(ui, label, now ? extent_in_words(*now, ui.settings.length) : "", width, "none");
    hover(ui, help);
    if (!typed) return;
    if (typed->empty()) return on.take(set_laid_edge(on.sheet(), chosen, edge, {}), "change a step's edges");
    const auto wanted = typed_extent(*typed, ui.settings);
    if (!wanted) return refuse(ui, wanted.error());
    on.take(set_laid_edge(on.sheet(), chosen, edge, *wanted), "change a step's edges");
}

void edges_row(OnCanvas& on, const Layings& chosen) {
    if (!has_edges(on.sheet().recipe.carding.layings[chosen.front()])) return;
    const Ui& ui = on.ui;
    const char* overlap = "overlap";
    row_label(ui, "fade", editor_column);
    const float room = ImGui::GetContentRegionAvail().x - width_of(ui.fonts.body, overlap) - ui.px(16.0f);
    edge_field(on, chosen, "step fade", &recipe::Laying::fade, 0.5f * room,
               "Over how much its ends thin out: 20 mm, 5 %. Nothing: they end sharply.");
    ImGui::SameLine(0.0f, ui.px(8.0f));
    beside(ui, overlap);
    ImGui::SameLine(0.0f, ui.px(8.0f));
    edge_field(on, chosen, "step overlap", &recipe::Laying::overlap, 0.5f * room,
               "How far it lies over its neighbours, and they over it: 20 mm, 5 %.");
}

void how_row(OnCanvas& on, const Layings& chosen) {
    const Ui& ui = on.ui;
    const recipe::Laying& now = on.sheet().recipe.carding.layings[chosen.front()];
    const float whole = ImGui::GetContentRegionAvail().x - ui.px(6.0f), how_wide = 0.42f * whole;
    std::vector<std::string> words;
    words.reserve(recipe::spreadings.size());
    for (const auto& row : recipe::spreadings) words.emplace_back(row.word);
    if (const auto how = drop_down(ui, "step how", words, static_cast<std::size_t>(now.how), how_wide))
        on.take(set_laid_how(on.sheet(), chosen, static_cast<recipe::Spreading>(*how), {}),
                "change how a step is laid");
    if (!on.surface.has_tray) return;
    ImGui::SameLine(0.0f, ui.px(6.0f));
    std::vector<std::string> ways;
    ways.reserve(recipe::ways.size());
    for (const auto& row : recipe::ways) ways.emplace_back(row.word);
    if (const auto way =
            drop_down(ui, "step way", ways, static_cast<std::size_t>(recipe::way_of(now)), whole - how_wide))
        on.take(set_laid_way(on.sheet(), chosen, static_cast<recipe::Way>(*way)),
                "change how a step goes in");
}

void lies_row(OnCanvas& on, const Layings& chosen) {
    const recipe::Laying& now = on.sheet().recipe.carding.layings[chosen.front()];
    if (recipe::pass_of(on.sheet().recipe, now) < 2) return;
    row_label(on.ui, "lies", editor_column);
    std::vector<std::string> words;
    words.reserve(recipe::lies_words.size());
    for (const auto& row : recipe::lies_words) words.emplace_back(row.word);
    if (const auto lies =
            drop_down(on.ui, "step lies", words, static_cast<std::size_t>(now.lies), on.ui.px(112.0f)))
        on.take(set_laid_lies(on.sheet(), chosen, static_cast<recipe::Lies>(*lies)), "move a step");
}

void buttons(OnCanvas& on, const Layings& chosen) {
    const Ui& ui = on.ui;
    const float wide = (ImGui::GetContentRegionAvail().x - 2.0f * ui.px(6.0f)) / 3.0f;
    const auto press = [&](const char* label, const char* words, bool first) {
        if (!first) ImGui::SameLine(0.0f, ui.px(6.0f));
        return button(ui, label, Tone::plain, wide, words);
    };
    if (press("Double##step double", "Once more, right after it (D).", true))
        on.take(double_layings(on.sheet(), chosen), "lay a step twice");
    if (press("Mirror##step mirror", "Left to right (M).", false))
        on.take(mirror_layings(on.sheet(), chosen), "mirror a step");
    if (press("Even##step even", "Over the full width and all round, evenly (E).", false))
        on.take(spread_evenly(on.sheet(), chosen), "spread a step evenly");
    const auto& layings = on.sheet().recipe.carding.layings;
    const bool hidden = is_hidden(on.canvas, layings[chosen.front()]);
    if (press(hidden ? "Show##step hide" : "Hide##step hide", "Out of sight, for looking only (H).", true))
        on.canvas = hidden_or_shown(on.canvas, on.sheet().recipe, chosen);
    if (press("Last##step last", "To the end of the order.", false))
        on.take(move_layings(on.sheet(), chosen, layings.size()), "change the order");
    if (press("Take off##step off", "Its fibre goes back to what is left (Delete).", false)) {
        on.take(take_off(on.sheet(), chosen), "take a step off");
        on.canvas.chosen.clear();
    }
}

}  // namespace

float editor_height(const OnCanvas& on) {
    std::size_t rows = 4 + std::min(on.canvas.chosen.size(), most_places);
    const auto& layings = on.sheet().recipe.carding.layings;
    const std::size_t first = on.canvas.chosen.front();
    if (on.sheet().recipe.carding.passes > 1) ++rows;
    if (first < layings.size() && recipe::pass_of(on.sheet().recipe, layings[first]) > 1) ++rows;
    if (first < layings.size() && has_edges(layings[first])) ++rows;
    return static_cast<float>(rows) * ImGui::GetFrameHeightWithSpacing();
}

void view_step_editor(OnCanvas& on, float height) {
    const Ui& ui = on.ui;
    const Layings chosen = on.canvas.chosen;
    rule(ui);
    begin_child("step editor", {0.0f, height}, false, ImGuiWindowFlags_NavFlattened);
    step_weight(on, chosen);
    place_rows(on, chosen);
    edges_row(on, chosen);
    how_row(on, chosen);
    lies_row(on, chosen);
    buttons(on, chosen);
    ImGui::EndChild();
}

}  // namespace battwright::window
