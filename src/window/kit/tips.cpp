// Words that show while the pointer rests on something.
#include "window/kit/terms.hpp"
#include "window/kit/widgets.hpp"

namespace battwright::window {
namespace {

// Under the thing it is about, so that what stands beside it stays in sight; a large thing has it at the
// pointer. As dark over a button that cannot be pressed as over any other.
void begin_tip(const Ui& ui, float width) {
    const ImVec2 low = ImGui::GetItemRectMin(), high = ImGui::GetItemRectMax();
    const ImVec2 whole = ImGui::GetIO().DisplaySize;
    if (high.y - low.y < ui.px(60.0f)) {
        const bool above = high.y > 0.72f * whole.y;
        const bool leftwards = low.x > 0.72f * whole.x || low.x + ui.px(width + 28.0f) > whole.x;
        ImGui::SetNextWindowPos(
            {leftwards ? high.x : low.x, above ? low.y - ui.px(5.0f) : high.y + ui.px(5.0f)},
            ImGuiCond_Always, {leftwards ? 1.0f : 0.0f, above ? 1.0f : 0.0f});
    }
    ImGui::PushStyleVar(ImGuiStyleVar_Alpha, 1.0f);
    ImGui::BeginTooltip();
    ImGui::PushTextWrapPos(ui.px(width));
}

void end_tip() {
    ImGui::PopTextWrapPos();
    ImGui::EndTooltip();
    ImGui::PopStyleVar();
}

}  // namespace

void hover(const Ui& ui, std::string_view words) {
    if (words.empty() || !ImGui::IsItemHovered(ImGuiHoveredFlags_AllowWhenDisabled)) return;
    begin_tip(ui, 340.0f);
    text(ui, words);
    end_tip();
}

void hover_term(const Ui& ui, std::string_view name) {
    if (!ImGui::IsItemHovered()) return;
    const Term* term = find_term(name);
    if (term == nullptr) return;
    begin_tip(ui, 360.0f);
    text_in(ui, ui.fonts.bold, ui.theme.ink, term->name);
    text(ui, term->meaning);
    text_in(ui, ui.fonts.small, ui.theme.quiet, term->source);
    end_tip();
}

}  // namespace battwright::window
