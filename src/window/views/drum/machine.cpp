// The machine's own settings: the carder, how fibre is fed, and how the batt goes back.
#include <algorithm>
#include <array>
#include <cmath>

#include "app/bench/disagreement.hpp"
#include "app/bench/edits.hpp"
#include "app/bench/sheet.hpp"
#include "app/bench/staple_words.hpp"
#include "app/lay/laying_edits.hpp"
#include "app/settings.hpp"
#include "forecast/forecast.hpp"
#include "window/kit/widgets.hpp"
#include "window/views/views.hpp"

namespace battwright::window {
namespace {

// "2 batts of 35 g, about 2 h"
std::string batts_in_words(const Ui& ui, const forecast::Forecast& forecast) {
    const auto& plan = forecast.plan;
    const std::string each = measure::print_mass(plan.batt_grams, ui.settings.mass);
    const auto& tool = recipe::words_of(forecast.carder);
    std::string words = plan.batts == 1
                            ? "one " + std::string(tool.load) + " of " + each
                            : std::to_string(plan.batts) + ' ' + std::string(tool.loads) + " of " + each;
    if (forecast.weigh_out.over_full) words += ", over-full";
    if (forecast.weigh_out.thin) words += ", thin";
    return words + ", about " + print_minutes(plan.minutes_total);
}

void load_gauge(const Ui& ui, const forecast::Forecast& forecast) {
    const auto& carder = forecast.carder;
    const double batt = forecast.plan.batt_grams;
    const double end = std::max(1.25 * carder.load_high_grams, 1.1 * batt);
    const float width = ImGui::GetContentRegionAvail().x, height = ui.px(14.0f);
    text_in(ui, ui.fonts.bold, ui.theme.ink, "Load");
    hover_term(ui, "Load");
    ImGui::SameLine();
    const bool over = forecast.weigh_out.over_full;
    text_within(ui, ui.fonts.body, over ? ui.theme.warning : ui.theme.ink, batts_in_words(ui, forecast),
                ImGui::GetContentRegionAvail().x);
    mark(ui, "batts");
    std::string notes;
    for (const auto& note : forecast.weigh_out.words_with_quantities)
        notes += (notes.empty() ? "" : "\n") + in_own_units(note, ui.settings);
    hover(ui, notes);
    const ImVec2 at = ImGui::GetCursorScreenPos();
    ImDrawList& list = *ImGui::GetWindowDrawList();
    const auto x = [&](double grams) { return at.x + width * static_cast<float>(grams / end); };
    list.AddRectFilled(at, {at.x + width, at.y + height}, u32(ui.theme.raised), height / 2);
    list.AddRectFilled({x(carder.load_low_grams), at.y}, {x(carder.load_high_grams), at.y + height},
                       u32(ui.theme.hover));
    list.AddRectFilled({at.x, at.y + ui.px(3.0f)}, {x(batt), at.y + height - ui.px(3.0f)},
                       u32(over ? ui.theme.warning : ui.theme.accent), height / 2);
    list.AddRect(at, {at.x + width, at.y + height}, u32(ui.theme.edge), height / 2);
    ImGui::Dummy({width, height});
    for (const double grams : {carder.load_low_grams, carder.load_high_grams}) {
        const std::string label = measure::print_mass(grams, ui.settings.mass);
        ImGui::PushFont(ui.fonts.small);
        const float half = 0.5f * ImGui::CalcTextSize(label.c_str()).x;
        ImGui::PopFont();
        put_text(ui.fonts.small, ui.theme.quiet, {x(grams) - half, at.y + height + ui.px(2.0f)}, label);
    }
    gap(ui, 12.0f);
}

void carder_choice(const Ui& ui, const Sheet& sheet, const recipe::Carder& carder) {
    const auto wide = [&](const recipe::Carder& one) {
        return one.name + ", " + measure::print_length(one.width_mm, ui.settings.length);
    };
    if (!folds_out(ui, "carder", wide(carder), ImGui::GetContentRegionAvail().x)) {
        hover(ui, measure::print_length(carder.width_mm, ui.settings.length) + " wide, " +
                      measure::print_length(carder.drum_circumference_mm, ui.settings.length) +
                      (recipe::is_flat(carder) ? " long, " : " round, ") +
                      measure::write_number(carder.teeth_per_square_inch) + " teeth per square inch");
        return;
    }
    for (const auto& preset : recipe::carder_presets()) {
        const bool chosen = !sheet.recipe.carding.own && sheet.recipe.carding.carder == preset.id;
        const std::string label =
            wide(preset) + ", " + measure::write_number(preset.teeth_per_square_inch) + " tpi";
        if (ImGui::Selectable(label.c_str(), chosen, 0, {0.0f, ui.px(32.0f)}))
            ui.ask.edit(choose_carder(sheet, preset), "choose a carder");
        mark(ui, "carder " + preset.id);
    }
    ImGui::EndCombo();
}

void passes_and_strips(const Ui& ui, const Sheet& sheet, const recipe::Carder& carder) {
    const bool cards = carder.kind == recipe::ToolKind::hand_cards;
    beside(ui, cards ? "Transfers" : "Passes");
    hover_term(ui, cards ? "Transfers" : "Passes");
    ImGui::SameLine(0.0f, ui.px(6.0f));
    if (const auto passes = stepper(ui, "passes", sheet.recipe.carding.passes, 1, 6))
        ui.ask.edit(set_passes(sheet, *passes), cards ? "change the transfers" : "change the passes");
    if (cards) return;
    ImGui::SameLine(0.0f, ui.px(16.0f));
    if (carder.kind == recipe::ToolKind::board) {
        text_in(ui, ui.fonts.body, ui.theme.quiet, "Rolags");
        hover_term(ui, "Rolags");
        ImGui::SameLine();
        if (const auto rolags = stepper(ui, "rolags", sheet.recipe.carding.rolags, 0, most_strips))
            ui.ask.edit(set_rolags(sheet, *rolags), "change the rolags");
        if (sheet.recipe.carding.passes < 2 || ImGui::GetContentRegionAvail().x < ui.px(360.0f)) return;
        ImGui::SameLine(0.0f, ui.px(22.0f));
    }
    text_in(ui, ui.fonts.body, ui.theme.quiet, "Strips");
    hover_term(ui, "Strips");
    ImGui::SameLine(0.0f, ui.px(6.0f));
    if (const auto strips = stepper(ui, "strips", sheet.recipe.carding.strips, 1, most_strips))
        ui.ask.edit(set_strips(sheet, *strips), "change the strips");
}

// What stands where the recipe has a list instead of one way.
struct ByHand {
    bool is = false;
    const char* label = "by hand";
    const char* help = "";
};

// The way chosen anew, if one was. Only those that the tool `allows` are offered.
template <class Row, std::size_t n, class Way, class Allows>
std::optional<Way> way_choice(const Ui& ui, const std::string& name, Way now, const ByHand& by_hand,
                              const std::array<Row, n>& ways, float width, std::string_view surface,
                              Allows allows) {
    using recipe::told_on;
    std::optional<Way> chosen;
    const Row& shown = measure::row_of(ways, now);
    if (!folds_out(ui, name, by_hand.is ? by_hand.label : told_on(shown.label, surface), width)) {
        hover(ui, by_hand.is ? by_hand.help : told_on(shown.help, surface));
        return chosen;
    }
    for (const Row& way : ways) {
        if (!allows(way.value)) continue;
        const bool is_now = way.value == now && !by_hand.is;
        if (ImGui::Selectable(told_on(way.label, surface).c_str(), is_now, 0, {0.0f, ui.px(32.0f)}))
            chosen = way.value;
        mark(ui, name + " " + std::string(way.word));
        hover(ui, told_on(way.help, surface));
    }
    ImGui::EndCombo();
    return chosen;
}

void feeding(const Ui& ui, const Sheet& sheet, const recipe::Carder& carder) {
    const bool flat = recipe::is_flat(carder), cards = carder.kind == recipe::ToolKind::hand_cards;
    const std::string_view surface = flat ? recipe::words_of(carder).surface : "";
    const float space = ui.px(8.0f), width = 0.5f * (ImGui::GetContentRegionAvail().x - space);
    const ImVec2 at = ImGui::GetCursorScreenPos();
    text_in(ui, ui.fonts.small, ui.theme.quiet, flat ? "Laid" : "Fed");
    if (!cards) {
        ImGui::SetCursorScreenPos({at.x + width + space, at.y});
        text_in(ui, ui.fonts.small, ui.theme.quiet, flat ? "Laid again" : "Fed again");
    }
    const recipe::Carding& carding = sheet.recipe.carding;
    const ByHand laid{
        !carding.layings.empty(), "by hand",
        "Laid as the recipe's list says: the steps below have it. A manner chosen here takes the "
        "list's place; Lay by hand (Ctrl+D) changes the list."};
    const ByHand each{!carding.refeeds.empty(), "pass by pass",
                      "The recipe has one way for each pass. One chosen here stands for all of them."};
    const auto fed = [&](recipe::Manner manner) { return recipe::is_fed_so(manner, carder); };
    if (const auto manner = way_choice(ui, "feed", carding.feed, laid, recipe::manners, width, surface, fed))
        ui.ask.edit(set_feed(sheet, *manner), "change how it is fed");
    if (cards) return;
    ImGui::SameLine(0.0f, space);
    const auto any = [](recipe::Refeed) { return true; };
    if (const auto refeed =
            way_choice(ui, "refeed", carding.refeed, each, recipe::refeeds, width, surface, any))
        ui.ask.edit(set_refeed(sheet, *refeed), "change how it is fed again");
}

}  // namespace

void view_machine(const Ui& ui, const Sheet& sheet, const forecast::Forecast& forecast) {
    load_gauge(ui, forecast);
    carder_choice(ui, sheet, forecast.carder);
    passes_and_strips(ui, sheet, forecast.carder);
    feeding(ui, sheet, forecast.carder);
}

}  // namespace battwright::window
