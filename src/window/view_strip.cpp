// The preview strip, wide along the bottom, with what it is seen by on it.
#include <algorithm>
#include <array>
#include <cstdio>

#include "window/views.hpp"
#include "window/widgets.hpp"

namespace battwright::window {
namespace {

constexpr float head = 46.0f, margin = 14.0f;  // design pixels above and around the picture

// The plain word for the pass on show, and how far its patches are from the batt's own colour.
void word_of_pass(const Ui& ui, const CardedShown& shown) {
    const auto* measures = shown.carded ? measures_of(*shown.carded, shown.carded->pass) : nullptr;
    if (measures == nullptr) return;
    ImGui::SameLine(0.0f, ui.px(10.0f));
    text_in(ui, ui.fonts.bold, ui.theme.ink, carding::word_for(measures->look));
    mark(ui, "look");
    std::array<char, 64> figure{};
    std::snprintf(figure.data(), figure.size(), "%.1f", measures->strip_variation_de00);
    const std::string words = carding::explained(measures->look) + "\nHere " + figure.data() +
                              " CIEDE2000 on average. The limits are common practice, without a source.";
    hover(ui, words);
    ImGui::SameLine(0.0f, ui.px(6.0f));
    // A dot stands after the figure while a better one is being made.
    text_in(ui, ui.fonts.body, ui.theme.quiet,
            std::string("\u0394E ") + figure.data() + (shown.settled ? "" : " \u2022"));
    hover(ui,
          shown.settled ? words : "The batt is being carded anew; this is of the last one or a rough one.");
}

void controls(const Ui& ui, const Sheet& sheet, const CardedShown& carded, LookState& look) {
    const ImVec2 start = ImGui::GetCursorScreenPos();
    const float lift = 0.5f * (ImGui::GetFrameHeight() - ui.fonts.title->FontSize);
    ImGui::SetCursorScreenPos({start.x, start.y + lift});
    text_in(ui, ui.fonts.title, ui.theme.ink, "As carded");
    ImGui::SetCursorScreenPos({start.x + ui.px(98.0f), start.y});
    const auto light =
        choices(ui, "light", {"Daylight", "Lamp", "Tube"}, static_cast<std::size_t>(look.light));
    if (light) look.light = static_cast<colour::Light>(*light);
    hover(ui, "CIE D65 daylight, A lamp, F2 fluorescent tube, as the eye adapts to each.");
    ImGui::SameLine(0.0f, ui.px(18.0f));
    ImGui::AlignTextToFramePadding();
    text_in(ui, ui.fonts.body, ui.theme.quiet, "after");
    ImGui::SameLine();
    const int own = std::clamp(sheet.recipe.carding.passes, 1, 4);
    const int shown = pass_shown(sheet.recipe, look);
    const auto passes = choices(ui, "after", {"1 pass", "2", "3", "4"}, static_cast<std::size_t>(shown - 1));
    if (passes) {
        look.passes = static_cast<int>(*passes) + 1;
        if (*look.passes == own) look.passes.reset();
    }
    word_of_pass(ui, carded);
    const float views = ImGui::CalcTextSize("torn edgebatt face").x + 4.0f * ImGui::GetStyle().FramePadding.x;
    ImGui::SameLine(0.0f, ui.px(18.0f));
    const auto distance = choices(ui, "seen", {"in the hand", "arm's length", "across the room"},
                                  static_cast<std::size_t>(look.distance));
    hover(ui, "From how far away the batt is looked at: the farther, the more the eye blends the fibres.");
    if (distance) look.distance = static_cast<int>(*distance);
    ImGui::SameLine(ImGui::GetContentRegionMax().x - views - ui.px(3.0f));
    const auto view = choices(ui, "view", {"torn edge", "batt face"}, static_cast<std::size_t>(look.view));
    if (view) look.view = static_cast<strip::View>(*view);
    hover(
        ui,
        "Torn edge: the batt split into its strips, laid end to end and seen from the torn side. Batt face: "
        "the batt flat on the table.");
}

}  // namespace

int pass_shown(const recipe::Recipe& recipe, const LookState& look) {
    return look.passes.value_or(std::clamp(recipe.carding.passes, 1, 4));
}

StripSize strip_size(const Ui& ui, ImVec2 panel) {
    return {static_cast<int>(panel.x - 2.0f * ui.px(margin)),
            static_cast<int>(panel.y - ui.px(head + margin + 4.0f))};
}

void view_strip(const Ui& ui, const Sheet& sheet, const Outcome& outcome, const CardedShown& shown,
                LookState& look, ImTextureID picture, ImVec2 at, ImVec2 size) {
    begin_panel(ui, "strip", "", at, size);
    controls(ui, sheet, shown, look);
    const StripSize inside = strip_size(ui, size);
    const ImVec2 low{at.x + ui.px(margin), at.y + ui.px(head + 2.0f)};
    const ImVec2 high{low.x + static_cast<float>(inside.width), low.y + static_cast<float>(inside.height)};
    ImDrawList& list = *ImGui::GetWindowDrawList();
    if (picture != nullptr && outcome.forecast) {
        list.AddImageRounded(picture, low, high, {0.0f, 0.0f}, {1.0f, 1.0f}, IM_COL32_WHITE, ui.px(6.0f));
        list.AddRect(low, high, u32(ui.theme.edge), ui.px(6.0f));
    } else {
        list.AddRect(low, high, u32(ui.theme.line), ui.px(6.0f), 0, ui.px(1.5f));
        const char* words =
            outcome.forecast ? "The strip is being drawn" : "The carded strip is drawn here, fibre by fibre";
        const ImVec2 wide = ImGui::CalcTextSize(words);
        list.AddText({0.5f * (low.x + high.x - wide.x), 0.5f * (low.y + high.y - wide.y)},
                     u32(ui.theme.quiet), words);
    }
    ui.probe.mark("strip picture", {low.x, low.y, high.x, high.y});
    end_panel();
}

}  // namespace battwright::window
