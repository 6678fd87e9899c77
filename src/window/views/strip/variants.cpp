// Up to four variants of the batt side by side: their strips and their numbers.
#include <algorithm>
#include <cmath>
#include <map>
#include <string>

#include "app/bench/bench_actions.hpp"
#include "app/bench/variant.hpp"
#include "app/settings.hpp"
#include "forecast/forecast.hpp"
#include "text/numbers.hpp"
#include "window/kit/widgets.hpp"
#include "window/views/strip/variants.hpp"
#include "window/views/views.hpp"

namespace battwright::window {

std::optional<measure::Complaint> VariantPictures::follow(
    const std::map<unsigned long, strip::Scene>& scenes) {
    std::optional<measure::Complaint> trouble;
    std::erase_if(strips_, [&](const auto& kept) { return !scenes.contains(kept.first); });
    for (const auto& [number, scene] : scenes) {
        if (strips_.contains(number)) continue;
        if (auto drawn = strips_[number].draw(scene, {280, 120}); !drawn) trouble = drawn.error();
    }
    return trouble;
}

ImTextureID VariantPictures::of(const Variant& variant) const {
    const auto found = strips_.find(variant.number);
    return found == strips_.end() ? nullptr : found->second.id();
}

namespace {

void fact(const Ui& ui, std::string_view what, const std::string& value, float x) {
    text_in(ui, ui.fonts.body, ui.theme.quiet, what);
    ImGui::SameLine(x);
    text_within(ui, ui.fonts.bold, ui.theme.ink, value, ImGui::GetContentRegionAvail().x);
}

// Money to two places; a plus when some of the fibre has no price.
std::string cost_text(const forecast::Forecast& forecast) {
    if (forecast.cost <= 0.0) return "no prices";
    return text::number(forecast.cost, 2) + (forecast.cost_is_whole ? "" : " +");
}

void variant_card(const Ui& ui, const Variant& variant, ImTextureID picture, std::size_t index, float width) {
    const auto number = std::to_string(index + 1);
    ImGui::PushID(static_cast<int>(index));
    ImGui::PushStyleColor(ImGuiCol_ChildBg, vec4(ui.theme.raised));
    begin_child("variant", {width, ui.px(462.0f)}, true, ImGuiWindowFlags_AlwaysUseWindowPadding);
    ImGui::PopStyleColor();
    const float inside = ImGui::GetContentRegionAvail().x;
    text_within(ui, ui.fonts.bold, ui.theme.ink, variant.name, inside);
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const float height = ui.px(120.0f);
    if (picture != nullptr)
        ImGui::GetWindowDrawList()->AddImageRounded(picture, at, {at.x + inside, at.y + height}, {0, 0},
                                                    {1, 1}, IM_COL32_WHITE, ui.px(6.0f));
    ImGui::Dummy({inside, height});
    if (const auto& forecast = variant.outcome.forecast) {
        const float x = ui.px(104.0f);
        fact(ui, "colour", colour::hex(forecast->colour.srgb), x);
        fact(ui, "weight", measure::print_mass(forecast->total_grams, ui.settings.mass), x);
        fact(ui, "mean length", measure::print_length(forecast->length.number_mean_mm, ui.settings.length),
             x);
        fact(ui, "short fibre", measure::print_percent(forecast->length.short_share_pct), x);
        fact(ui, "thickness", print_diameter(forecast->diameter.mean_um), x);
        fact(ui, "cost", cost_text(*forecast), x);
        fact(ui, "findings", std::to_string(forecast->findings.size()), x);
    }
    gap(ui, 4.0f);
    if (button(ui, "Go back to this##variant back " + number, Tone::accent, inside)) {
        ui.ask.act(TakeVariant{index});
        ImGui::CloseCurrentPopup();
    }
    if (button(ui, "Remove##variant drop " + number, Tone::plain, inside)) ui.ask.act(DropVariant{index});
    ImGui::EndChild();
    ImGui::PopID();
}

}  // namespace

void view_variants(const Ui& ui, const PanelHead& head, const VariantPictures& pictures) {
    const auto& variants = ui.variants;
    const ImVec2 whole = ImGui::GetIO().DisplaySize;
    const ImVec2 side_by_side{std::max(whole.x - ui.px(120.0f), ui.px(900.0f)), ui.px(590.0f)};
    const ImVec2 none_yet{ui.px(560.0f), ui.px(210.0f)};
    if (!begin_card(ui, head, variants.empty() ? none_yet : side_by_side)) return;
    const float spacing = ImGui::GetStyle().ItemSpacing.x, room = ImGui::GetContentRegionAvail().x;
    const float foot = ImGui::GetFrameHeight() + ui.px(16.0f);
    // Two in a row where four have no room.
    const std::size_t in_row = has_room(ui, 4.0f * 190.0f) ? 4 : 2;
    const auto many = static_cast<float>(in_row);
    const float width = (room - ui.px(14.0f) - (many - 1.0f) * spacing) / many;
    begin_child("kept variants", {0.0f, ImGui::GetContentRegionAvail().y - foot}, false,
                ImGuiWindowFlags_NavFlattened);
    if (variants.empty()) {
        paragraph(ui,
                  "No variant is kept yet. Keep the batt as it is now, change it, and keep that too: they "
                  "stand here "
                  "side by side, and you can go back to any of them.",
                  ui.theme.ink);
    }
    for (std::size_t i = 0; i < variants.size(); ++i) {
        if (i % in_row > 0) ImGui::SameLine();
        variant_card(ui, variants[i], pictures.of(variants[i]), i, width);
    }
    ImGui::EndChild();
    ImGui::BeginDisabled(variants.size() >= most_variants);
    if (button(ui, "Keep this one", Tone::accent, 0.0f, "Up to four (Ctrl+Shift+K)"))
        ui.ask.command(Command::keep_variant);
    ImGui::EndDisabled();
    ImGui::SameLine();
    leave_button(ui, "Back to the bench##variants done", escape_pressed(ui));
    end_card();
}

}  // namespace battwright::window
