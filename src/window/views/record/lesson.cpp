// Two bars over one scale: where the next one falls, before and after this one was learnt from.
#include <algorithm>
#include <utility>
#include <vector>

#include "text/words.hpp"
#include "window/kit/widgets.hpp"
#include "window/views/record/record.hpp"

namespace battwright::window {
namespace {

struct Scale {
    float left = 0.0f, right = 0.0f;
    double low = 0.0, high = 1.0;
    float x(double value) const {
        const double part = std::clamp((value - low) / (high - low), 0.0, 1.0);
        return left + (right - left) * static_cast<float>(part);
    }
};

Scale scale_for(const Lesson& lesson, float left, float right) {
    Scale scale{left, right, std::min(lesson.before.low, lesson.after.low),
                std::max(lesson.before.high, lesson.after.high)};
    if (lesson.measured) {
        scale.low = std::min(scale.low, *lesson.measured);
        scale.high = std::max(scale.high, *lesson.measured);
    }
    const double room = std::max(0.05 * (scale.high - scale.low), 1e-6);
    scale.low = std::max(0.0, scale.low - room);
    scale.high += room;
    return scale;
}

std::string rests_on(const Reach& reach, const char* noun) {
    if (reach.rests_on == 0) return std::string("no ") + noun + " yet";
    return text::counted(reach.rests_on, noun, std::string(noun) + "s");
}

// The bar from low to high with its middle, and the range in figures right of the scale.
void bar(const Ui& ui, const Scale& scale, float y, const Reach& reach, const colour::Srgb& colour,
         const std::string& figures) {
    ImDrawList& list = *ImGui::GetWindowDrawList();
    const float height = ui.px(14.0f), x = scale.x(reach.middle);
    list.AddRectFilled({scale.left, y}, {scale.right, y + height}, u32(ui.theme.raised), ui.px(4.0f));
    list.AddRectFilled({scale.x(reach.low), y}, {scale.x(reach.high), y + height}, u32(colour), ui.px(4.0f));
    list.AddLine({x, y}, {x, y + height}, u32(ui.theme.accent_ink), ui.px(2.0f));
    put_text(ui.fonts.body, ui.theme.ink, {scale.right + ui.px(10.0f), y - ui.px(3.0f)}, figures);
}

}  // namespace

void view_lesson(const Ui& ui, const std::string& label, const Lesson& lesson, std::string_view title,
                 const char* noun, const std::function<std::string(double)>& print) {
    text_in(ui, ui.fonts.bold, ui.theme.ink, title);
    hover(ui, "Four in five of the next ones fall within the bar; the line in it is the middle.");
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const float whole = ImGui::GetContentRegionAvail().x;
    // Until something is learnt from this one there is only what is known now.
    std::vector<std::pair<const char*, const Reach*>> reaches{{"before: ", &lesson.before},
                                                              {"after: ", &lesson.after}};
    if (lesson.before == lesson.after) reaches = {{"now: ", &lesson.after}};
    const auto span = [&](const Reach& reach) { return print(reach.low) + " to " + print(reach.high); };
    float figures = 0.0f;
    for (const auto& [when, reach] : reaches)
        figures = std::max(figures, width_of(ui.fonts.body, span(*reach)));
    // Where the bars would have no room beside their words, these stand above them.
    const bool above = whole < ui.px(430.0f);
    const float words = above ? 0.0f : ui.px(150.0f), line = above ? ui.px(18.0f) : 0.0f;
    const float row = ui.px(24.0f) + line;
    const Scale scale = scale_for(lesson, at.x + words, at.x + whole - figures - ui.px(14.0f));
    for (std::size_t i = 0; i < reaches.size(); ++i) {
        const float top = at.y + ui.px(4.0f) + row * static_cast<float>(i), y = top + line;
        put_text(ui.fonts.small, ui.theme.quiet, {at.x, top - ui.px(1.0f)},
                 reaches[i].first + rests_on(*reaches[i].second, noun));
        bar(ui, scale, y, *reaches[i].second, i + 1 < reaches.size() ? ui.theme.quiet : ui.theme.accent,
            span(*reaches[i].second));
    }
    float height = row * static_cast<float>(reaches.size());
    if (lesson.measured) {
        const float x = scale.x(*lesson.measured);
        ImGui::GetWindowDrawList()->AddLine({x, at.y}, {x, at.y + height + ui.px(2.0f)},
                                            u32(ui.theme.warning), ui.px(2.0f));
        const std::string measured = "this one: " + print(*lesson.measured);
        const float half = 0.5f * width_of(ui.fonts.small, measured);
        put_text(ui.fonts.small, ui.theme.warning,
                 {std::clamp(x - half, at.x, std::max(at.x, scale.right - 2.0f * half)),
                  at.y + height + ui.px(2.0f)},
                 measured);
        height += ui.px(18.0f);
    }
    ImGui::Dummy({whole, height});
    mark(ui, label);
    if (!lesson.passed_over.empty()) paragraph(ui, lesson.passed_over, ui.theme.quiet);
}

}  // namespace battwright::window
