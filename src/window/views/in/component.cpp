// One component: a wisp of its colours, its name, its amount in the three ways one can say it.
#include <algorithm>

#include "app/bench/disagreement.hpp"
#include "app/bench/edits.hpp"
#include "app/bench/outcome.hpp"
#include "app/bench/sheet.hpp"
#include "app/bench/shown_colours.hpp"
#include "app/bench/staple_words.hpp"
#include "app/settings.hpp"
#include "app/shelf/shelf_choice.hpp"
#include "colour/spaces.hpp"
#include "forecast/forecast.hpp"
#include "window/kit/palette.hpp"
#include "window/kit/widgets.hpp"
#include "window/views/in/in.hpp"
#include "window/views/shelf/shelf.hpp"
#include "window/views/views.hpp"

namespace battwright::window {
namespace {

using measure::Mass;
using recipe::Parts;
using recipe::Percent;

// Any of the three fields takes any of the three ways; a bare number is what the field is for.
measure::Expected<recipe::Amount> parse_amount(const std::string& typed, const recipe::Amount& bare,
                                               measure::MassUnit unit) {
    const auto as_percent = [](double percent) { return recipe::Amount{Percent{percent}}; };
    const auto as_parts = [](double parts) { return recipe::Amount{Parts{parts}}; };
    const auto as_mass = [](const Mass& mass) { return recipe::Amount{mass}; };
    if (auto percent = measure::parse_percent(typed)) return as_percent(*percent);
    if (auto mass = measure::parse_mass(typed)) return as_mass(*mass);
    if (std::holds_alternative<Parts>(bare) || typed.find("part") != std::string::npos)
        return measure::parse_parts(typed).map(as_parts);
    if (std::holds_alternative<Percent>(bare)) return parse_share(typed).map(as_percent);
    return parse_weight(typed, unit).map(as_mass);
}

double size_of(const recipe::Amount& amount) {
    if (const auto* mass = std::get_if<Mass>(&amount)) return mass->grams;
    if (const auto* percent = std::get_if<Percent>(&amount)) return percent->value;
    return std::get<Parts>(amount).value;
}

void amount_typed(const Ui& ui, const Sheet& sheet, std::size_t index, const std::string& typed,
                  const recipe::Amount& bare) {
    const auto amount = parse_amount(typed, bare, ui.settings.mass);
    if (!amount) {
        refuse(ui, amount.error());
    } else if (size_of(*amount) <= 0.0) {
        refuse(ui,
               {"an amount must be more than nothing", "type how much there is, or remove the component"});
    } else if (std::holds_alternative<Percent>(*amount) && size_of(*amount) > 100.0) {
        refuse(ui, {"more than 100 % of a batt", "type a percentage up to 100"});
    } else {
        ui.ask.edit(set_amount(sheet, index, *amount), "change an amount");
    }
}

void amount_fields(const Ui& ui, const Sheet& sheet, std::size_t index, const forecast::ComponentLine* line,
                   float spare) {
    const auto& amount = sheet.recipe.components[index].amount;
    const auto number = std::to_string(index + 1);
    std::string weight, percent, parts;
    const Mass* mass = std::get_if<Mass>(&amount);
    if (mass != nullptr && mass->unit == ui.settings.mass)
        weight = measure::write_mass(*mass);
    else if (line != nullptr)
        weight = measure::print_mass(line->grams, ui.settings.mass);
    if (const auto* share = std::get_if<Percent>(&amount))
        percent = measure::write_percent(share->value);
    else if (line != nullptr)
        percent = measure::print_percent(line->mass_pct);
    const auto* share = std::get_if<Parts>(&amount);
    if (share != nullptr) parts = measure::write_number(share->value);
    if (const auto typed =
            field(ui, "weight " + number, weight, ui.px(86.0f) + 0.4f * spare, "weight", mass != nullptr))
        amount_typed(ui, sheet, index, *typed, Mass{});
    hover(ui, "Weight. Type 25, 28 g or 3 1/2 oz; the others give way.");
    ImGui::SameLine(0.0f, ui.px(5.0f));
    const bool is_percent = std::holds_alternative<Percent>(amount);
    if (const auto typed =
            field(ui, "percent " + number, percent, ui.px(74.0f) + 0.35f * spare, "%", is_percent))
        amount_typed(ui, sheet, index, *typed, Percent{});
    hover(ui, "Share of the batt. The way the recipe states it has the coloured outline.");
    ImGui::SameLine(0.0f, ui.px(5.0f));
    if (const auto typed =
            field(ui, "parts " + number, parts, ui.px(58.0f) + 0.25f * spare, "parts", share != nullptr))
        amount_typed(ui, sheet, index, *typed, Parts{});
    hover_term(ui, "Parts");
}

void finding_marks(const Ui& ui, std::size_t index, const forecast::Forecast& forecast, ImVec2 at) {
    std::string words;
    const colour::Srgb* colour = nullptr;
    for (const auto& finding : forecast.findings) {
        const auto& about = finding.components;
        if (std::find(about.begin(), about.end(), index) == about.end()) continue;
        if (colour == nullptr) colour = &colour_of(ui.theme, finding.severity);
        words += (words.empty() ? "" : "\n\n") + in_own_units(finding.text_with_quantities, ui.settings) +
                 ".\n" + in_own_units(finding.remedy_with_quantities, ui.settings) + ".";
    }
    if (colour == nullptr) return;
    ImGui::SetCursorScreenPos(at);
    const float side = ui.px(22.0f);
    ImGui::InvisibleButton("finding", {side, side});
    mark(ui, "finding on " + std::to_string(index + 1));
    ImDrawList& list = *ImGui::GetWindowDrawList();
    list.AddCircleFilled({at.x + side / 2, at.y + side / 2}, ui.px(9.0f), u32(*colour));
    const ImVec2 size = ImGui::CalcTextSize("!");
    list.AddText({at.x + 0.5f * (side - size.x), at.y + 0.5f * (side - size.y)}, u32(ui.theme.panel), "!");
    hover(ui, words);
}

// Six dots to take hold of; drops where the pointer is.
void handle(const Ui& ui, const Sheet& sheet, std::size_t index, InState& state, float height) {
    const ImVec2 at = ImGui::GetCursorScreenPos();
    ImGui::InvisibleButton("handle", {ui.px(32.0f), height});
    mark(ui, "handle " + std::to_string(index + 1));
    if (ImGui::IsItemHovered()) ImGui::SetMouseCursor(ImGuiMouseCursor_Hand);
    hover(ui, "Drag to change the order of feeding. Alt+Up and Alt+Down do it from the keyboard.");
    for (int k = 0; k < 6; ++k) {
        ImGui::GetWindowDrawList()->AddCircleFilled(
            {at.x + ui.px(11.0f + 6.0f * static_cast<float>(k % 2)),
             at.y + 0.5f * height + ui.px(6.0f * (static_cast<float>(k >> 1) - 1.0f))},
            ui.px(1.6f), u32(ui.theme.quiet));
    }
    if (ImGui::IsItemActivated()) state.dragged = sheet.marks[index].uid;
    if (ImGui::IsItemFocused() && ImGui::GetIO().KeyAlt) {
        const bool up = key_pressed(ImGuiKey_UpArrow, true);
        const bool down = key_pressed(ImGuiKey_DownArrow, true);
        if (up && index > 0) ui.ask.edit(reorder(sheet, index, index - 1), "change the order");
        if (down && index + 1 < sheet.marks.size())
            ui.ask.edit(reorder(sheet, index, index + 1), "change the order");
    }
}

void take_drop(const Ui& ui, const Sheet& sheet, std::size_t index, InState& state, ImVec2 low, ImVec2 high) {
    if (!state.dragged) return;
    const float y = ImGui::GetIO().MousePos.y;
    if (y < low.y || y >= high.y) return;
    const std::size_t from = index_of(sheet, *state.dragged);
    if (from == index || from >= sheet.marks.size()) return;
    ui.ask.edit(reorder(sheet, from, index), "change the order", true);
}

// Its own card takes the place of this one.
void from_photo(const Ui& ui, std::size_t index) {
    ui.ask.colour_for = index;
    ui.ask.command(Command::photo_colours);
    ImGui::CloseCurrentPopup();
}

// Its palette, from a photo too, or none.
void colours_popup(const Ui& ui, const Sheet& sheet, std::size_t index, InState& state) {
    if (!ImGui::BeginPopup("colour")) return;
    const auto& component = sheet.recipe.components[index];
    auto palette = component.palette;
    // Natural colours stand in until the person chooses.
    if (palette.empty()) palette = {{shown_colours(component, ui.catalogue).colours.front(), 100.0}};
    if (const auto edit = view_palette(ui, palette, state.tint))
        ui.ask.edit(set_palette(sheet, index, edit->palette), edit->what, edit->dragging);
    if (button(ui, "From a photo\u2026##from a photo", Tone::plain, ui.px(250.0f))) from_photo(ui, index);
    if (!component.palette.empty() &&
        button(ui, "Leave it undyed", Tone::plain, ui.px(250.0f), "Use the fibre's natural colour"))
        ui.ask.edit(set_palette(sheet, index, {}), "leave it undyed");
    ImGui::EndPopup();
}

void wisp_chip(const Ui& ui, const Sheet& sheet, std::size_t index, InState& state, float side) {
    const auto& component = sheet.recipe.components[index];
    const ImVec2 at = ImGui::GetCursorScreenPos();
    if (ImGui::InvisibleButton("wisp", {side, side})) {
        state.tint = 0;
        state.hex_complaint.clear();
        ImGui::OpenPopup("colour");
    }
    mark(ui, "colour " + std::to_string(index + 1));
    const bool live = ImGui::IsItemHovered() || ImGui::IsItemFocused();
    hover(ui, "Change its colours.");
    const auto shown = shown_colours(component, ui.catalogue);
    draw_wisp(*ImGui::GetWindowDrawList(), at, {at.x + side, at.y + side}, shown.colours, shown.shares,
              static_cast<unsigned>(sheet.marks[index].uid), live ? ui.theme.accent : ui.theme.edge);
    colours_popup(ui, sheet, index, state);
}

}  // namespace

void view_component(const Ui& ui, const Sheet& sheet, std::size_t index, const Outcome& outcome,
                    Pointing& pointing, InState& state) {
    const auto& component = sheet.recipe.components[index];
    const bool fresh = outcome.forecast && !outcome.complaint && index < outcome.forecast->components.size();
    const auto number = std::to_string(index + 1);
    const ImVec2 low = ImGui::GetCursorScreenPos();
    const float width = ImGui::GetContentRegionAvail().x;
    const float height = ui.px(66.0f), side = ui.px(54.0f);
    const ImVec2 high{low.x + width, low.y + height};
    if (pointing.now.count(index) > 0 || state.dragged == sheet.marks[index].uid)
        ImGui::GetWindowDrawList()->AddRectFilled(low, high, u32(ui.theme.hover), ui.px(8.0f));
    ImGui::SetCursorScreenPos({low.x, low.y + ui.px(6.0f)});
    handle(ui, sheet, index, state, side);
    ImGui::SetCursorScreenPos({low.x + ui.px(32.0f), low.y + ui.px(8.0f)});
    wisp_chip(ui, sheet, index, state, ui.px(50.0f));
    ImGui::SetCursorScreenPos({low.x + ui.px(86.0f), low.y + ui.px(4.0f)});
    ImGui::BeginGroup();
    const float room = width - ui.px(86.0f + 30.0f);
    text_within(ui, ui.fonts.bold, ui.theme.ink, label_of(component, ui.catalogue),
                room - lot_of_component_width(ui, component));
    view_lot_of_component(ui, sheet, index, {high.x - ui.px(30.0f), low.y + ui.px(2.0f)});
    if (fresh) finding_marks(ui, index, *outcome.forecast, {high.x - ui.px(26.0f), low.y + ui.px(3.0f)});
    ImGui::SetCursorScreenPos({low.x + ui.px(86.0f), low.y + ui.px(29.0f)});
    amount_fields(ui, sheet, index, fresh ? &outcome.forecast->components[index] : nullptr,
                  std::max(0.0f, width - ui.px(392.0f)));
    ImGui::SameLine(0.0f, ui.px(5.0f));
    if (padlock(ui, "lock " + number, component.locked,
                "Lock: this amount stays as it is written. What you typed last holds, the rest gives way. "
                "Locks are saved with the recipe."))
        ui.ask.edit(toggle_lock(sheet, index), component.locked ? "unlock" : "lock");
    ImGui::SameLine(0.0f, ui.px(5.0f));
    if (dots(ui, "more " + number, "Name, fibres, tag figures, duplicate, remove"))
        ImGui::OpenPopup("details");
    view_details(ui, sheet, index);
    ImGui::EndGroup();
    if (ImGui::IsWindowHovered(ImGuiHoveredFlags_AllowWhenBlockedByActiveItem) &&
        ImGui::IsMouseHoveringRect(low, high))
        pointing.next.insert(index);
    take_drop(ui, sheet, index, state, low, high);
    ImGui::SetCursorScreenPos({low.x, high.y});
    gap(ui, 2.0f);
}

}  // namespace battwright::window
