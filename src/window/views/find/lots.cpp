// Which lots may be used.
#include <algorithm>
#include <functional>

#include "app/bench/shown_colours.hpp"
#include "app/find/find_session.hpp"
#include "app/settings.hpp"
#include "window/kit/widgets.hpp"
#include "window/views/find/find.hpp"
#include "window/views/views.hpp"

namespace battwright::window {
namespace {

constexpr float row_height = 34.0f;  // design pixels

void wisp_of(const Ui& ui, const solve::Lot& lot, const recipe::Component& component, ImVec2 low,
             ImVec2 high) {
    const Shown shown = shown_colours(component, ui.catalogue);
    draw_wisp(*ImGui::GetWindowDrawList(), low, high, shown.colours, shown.shares,
              static_cast<unsigned>(std::hash<std::string>{}(lot.id)), ui.theme.edge);
}

void row(const Ui& ui, FindState& state, std::size_t index, float width) {
    const solve::Lot& lot = ui.find.stock()->lots[index];
    const recipe::Component& component = ui.find.stock()->components[index];
    const ImVec2 at = ImGui::GetCursorPos();
    ImGui::PushID(static_cast<int>(index));
    const auto on = tick(ui, "find lot " + lot.id, "", !state.choice.left_out.contains(lot.id));
    ImGui::PopID();
    if (on && *on) state.choice.left_out.erase(lot.id);
    if (on && !*on) state.choice.left_out.insert(lot.id);
    ImGui::SetCursorPos({at.x + ui.px(40.0f), at.y});
    const ImVec2 screen = ImGui::GetCursorScreenPos();
    wisp_of(ui, lot, component, {screen.x, screen.y + ui.px(4.0f)},
            {screen.x + ui.px(44.0f), screen.y + ui.px(28.0f)});
    ImGui::SetCursorPos({at.x + ui.px(88.0f), at.y + ui.px(7.0f)});
    const std::string name = label_of(component, ui.catalogue);
    text_within(ui, ui.fonts.body, ui.theme.ink, name, width - ui.px(170.0f));
    ImGui::SetCursorPos({at.x + width - ui.px(74.0f), at.y + ui.px(7.0f)});
    text_in(ui, ui.fonts.body, ui.theme.quiet, measure::print_mass(lot.on_hand_grams, ui.settings.mass));
    ImGui::SetCursorPos({at.x, at.y + ui.px(row_height)});
}

// Only what is in view is drawn.
void list(const Ui& ui, FindState& state, const std::vector<std::size_t>& rows) {
    const float width = ImGui::GetContentRegionAvail().x, height = ui.px(row_height);
    const float top = ImGui::GetCursorPosY();
    const auto first = static_cast<std::size_t>(std::max(0.0f, ImGui::GetScrollY() / height));
    const auto seen = static_cast<std::size_t>(ImGui::GetWindowHeight() / height) + 2;
    for (std::size_t i = std::min(first, rows.size()); i < std::min(rows.size(), first + seen); ++i) {
        ImGui::SetCursorPosY(top + height * static_cast<float>(i));
        row(ui, state, rows[i], width);
    }
    ImGui::SetCursorPosY(top + height * static_cast<float>(rows.size()));
    ImGui::Dummy({width, 0.0f});
}

void filter(const Ui& ui, FindState& state) {
    const float side = ui.px(122.0f);
    edit_text(ui, "find words", state.choice.words, ImGui::GetContentRegionAvail().x - side,
              "any word: name, kind, mark");
    ImGui::SameLine();
    if (const auto on = tick(ui, "find only scraps", "only scraps", state.choice.scraps_only))
        state.choice.scraps_only = *on;
}

void counts(const Ui& ui, FindState& state, const std::vector<std::size_t>& rows) {
    double grams = 0.0;
    std::size_t chosen = 0;
    for (const std::size_t i : rows) {
        if (state.choice.left_out.contains(ui.find.stock()->lots[i].id)) continue;
        grams += ui.find.stock()->lots[i].on_hand_grams;
        ++chosen;
    }
    if (button(ui, "All##find all", Tone::plain, ui.px(56.0f), "Use any of these"))
        for (const std::size_t i : rows) state.choice.left_out.erase(ui.find.stock()->lots[i].id);
    ImGui::SameLine();
    if (button(ui, "None##find none", Tone::plain, ui.px(56.0f), "Untick these, to choose a few"))
        for (const std::size_t i : rows) state.choice.left_out.insert(ui.find.stock()->lots[i].id);
    ImGui::SameLine();
    beside(ui, std::to_string(chosen) + " of " + std::to_string(ui.find.stock()->lots.size()) + ", " +
                   measure::print_mass(grams, ui.settings.mass));
}

}  // namespace

void view_find_lots(const Ui& ui, FindState& state) {
    const bool of_shelf = state.choice.from == FindFrom::shelf;
    if (ui.find.stock()->lots.empty()) {
        gap(ui, 4.0f);
        paragraph(ui,
                  of_shelf
                      ? "Nothing lies on the shelf yet. Put your bags on it, or look for a blend of this "
                        "batt's own fibres."
                      : "This batt has no weights to go by yet. Add fibre to it, or look on the shelf.",
                  ui.theme.ink);
        gap(ui, 4.0f);
        return;
    }
    if (of_shelf) filter(ui, state);
    const auto& rows = ui.find.rows();
    const float most = ui.px(of_shelf ? 186.0f : 218.0f);
    const float height =
        std::clamp(static_cast<float>(rows.size()) * ui.px(row_height) + ui.px(4.0f), ui.px(40.0f), most);
    begin_child("find lots", {0.0f, height});
    if (rows.empty())
        paragraph(ui, "Nothing on the shelf is like that.", ui.theme.ink);
    else
        list(ui, state, rows);
    ImGui::EndChild();
    counts(ui, state, rows);
    find_trouble(ui, "lots");
}

}  // namespace battwright::window
