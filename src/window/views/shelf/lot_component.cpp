// A component that comes from the shelf says so.
#include <algorithm>

#include "app/bench/sheet.hpp"
#include "app/settings.hpp"
#include "app/shelf/lot_edits.hpp"
#include "app/shelf/shelf_choice.hpp"
#include "app/shelf/stash_session.hpp"
#include "window/kit/widgets.hpp"
#include "window/views/shelf/shelf.hpp"

namespace battwright::window {
namespace {

struct StockWords {
    std::string words, meaning;
    bool short_of = false;
};

// A scale cannot tell less.
constexpr double telling_grams = 0.05;

StockWords told(const Ui& ui, const Sheet& sheet, const std::string& lot) {
    const auto print = [&ui](double grams) { return measure::print_mass(grams, ui.settings.mass); };
    const stash::Shelved* shelved = ui.stash.find(lot);
    const std::string shown = shortened(lot, 12);
    if (shelved == nullptr) return {shown + ": not here", "No lot of that mark is on your shelf.", true};
    const double there = shelved->clean_grams();
    const double wanted = wanted_of(sheet, lot).value_or(0.0);
    if (wanted > there + telling_grams)
        return {shown + ": only " + print(there),
                "The batt wants " + print(wanted) + " of this lot and " + print(there) +
                    " is on the shelf. Press for its card.",
                true};
    return {
        shown + ": " + print(there),
        print(there) + " is on the shelf, of which the batt wants " + print(wanted) + ". Press for its card.",
        false};
}

}  // namespace

float lot_of_component_width(const Ui& ui, const recipe::Component& component) {
    return component.lot.empty() ? 0.0f : ui.px(136.0f);
}

void view_lot_of_component(const Ui& ui, const Sheet& sheet, std::size_t index, ImVec2 right) {
    const auto& component = sheet.recipe.components[index];
    if (component.lot.empty()) return;
    const StockWords lot = told(ui, sheet, component.lot);
    const float width = lot_of_component_width(ui, component) - ui.px(6.0f), height = ui.px(28.0f);
    ImGui::SetCursorScreenPos({right.x - width, right.y});
    ImGui::PushID("lot of component");
    if (ImGui::InvisibleButton("lot", {width, height})) ui.ask.show_lot = component.lot;
    ImGui::PopID();
    mark(ui, "lot of " + std::to_string(index + 1));
    const bool live = ImGui::IsItemHovered() || ImGui::IsItemFocused();
    hover(ui, lot.meaning);
    ImGui::PushFont(ui.fonts.small);
    const std::string shown = cut_to(lot.words, width);
    const ImVec2 size = ImGui::CalcTextSize(shown.data(), shown.data() + shown.size());
    ImGui::PopFont();
    const ImVec2 at{right.x - size.x, right.y + 0.5f * (ui.px(22.0f) - size.y)};
    put_text(ui.fonts.small, lot.short_of ? ui.theme.warning : ui.theme.quiet, at, shown);
    if (live)
        ImGui::GetWindowDrawList()->AddLine({at.x, at.y + size.y}, {right.x, at.y + size.y},
                                            u32(ui.theme.accent), ui.px(1.5f));
}

}  // namespace battwright::window
