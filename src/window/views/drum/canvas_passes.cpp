// The second strip: the batt's face after each pass, coarse while a stroke is drawn and full after it.
#include <algorithm>

#include "app/bench/carding_worker.hpp"
#include "app/state.hpp"
#include "window/views/drum/canvas.hpp"
#include "window/views/views.hpp"

namespace battwright::window {

std::optional<measure::Complaint> CanvasPictures::follow(const State& state, bool hand_moves) {
    std::optional<measure::Complaint> trouble;
    const auto draw = [&trouble](StripTexture& texture, const strip::Scene& scene, const PictureSize& size,
                                 bool hurried) {
        if (auto drawn = texture.draw(scene, {size.width, size.height, 0, hurried}); !drawn)
            trouble = drawn.error();
    };
    const auto& scene = state.laid.value().scene;
    const bool hurried = hand_moves && surface_.slow();
    const bool stale =
        surface_scene_ != scene || surface_size_ != surface_wanted || (surface_hurried_ && !hurried);
    if (scene && surface_wanted.width > 0 && stale) {
        draw(surface_, *scene, surface_wanted, hurried);
        surface_scene_ = scene;
        surface_size_ = surface_wanted;
        surface_hurried_ = hurried;
    }
    const auto& carded = state.carded.carded;
    if (!carded || carded->faces.empty() || pass_wanted.width <= 0 || pass_wanted.height <= 0) return trouble;
    if (passes_of_ == carded && pass_size_ == pass_wanted) return trouble;
    passes_.resize(std::max(passes_.size(), carded->faces.size()));
    for (std::size_t i = 0; i < carded->faces.size(); ++i)
        draw(passes_[i], carded->faces[i], pass_wanted, false);
    passes_of_ = carded;
    pass_size_ = pass_wanted;
    return trouble;
}

namespace {

void pass_words(const OnCanvas& on, const CardedShown& shown, int pass) {
    const Ui& ui = on.ui;
    const auto* measures = shown.carded ? measures_of(*shown.carded, pass) : nullptr;
    std::string words = "after " + std::string(on.surface.pass) + " " + std::to_string(pass);
    if (measures != nullptr) words += ": " + std::string(carding::word_for(measures->look));
    // A dot stands after it while a better picture is being made.
    if (!shown.settled) words += " \u2022";
    text_in(ui, ui.fonts.small, ui.theme.quiet, words);
    if (measures != nullptr) hover(ui, carding::explained(measures->look));
}

}  // namespace

void view_pass_pictures(OnCanvas& on, const CardedShown& shown, float width, float height) {
    const Ui& ui = on.ui;
    CanvasPictures& pictures = on.state.pictures;
    const std::size_t count = pictures.passes();
    const int passes = std::max(1, on.sheet().recipe.carding.passes);
    const float space = ui.px(8.0f);
    // Side by side and to scale; more than there is room for are seen by scrolling.
    const float wide = std::floor(height * static_cast<float>(on.surface.along_mm / on.surface.across_mm));
    pictures.pass_wanted = {static_cast<int>(wide), static_cast<int>(height)};
    const bool scrolls = static_cast<float>(passes) * (wide + space) - space > width + 1.0f;
    const float below = ui.fonts.small->FontSize + 2.0f * ImGui::GetStyle().ItemSpacing.y;
    const float bar = scrolls ? ImGui::GetStyle().ScrollbarSize : 0.0f;
    begin_child("passes", {width, height + below + bar}, false,
                (scrolls ? ImGuiWindowFlags_HorizontalScrollbar : ImGuiWindowFlags_NoScrollbar) |
                    ImGuiWindowFlags_NoScrollWithMouse | ImGuiWindowFlags_NavFlattened);
    ImDrawList& list = *ImGui::GetWindowDrawList();
    for (int pass = 1; pass <= passes; ++pass) {
        const auto index = static_cast<std::size_t>(pass - 1);
        if (pass > 1) ImGui::SameLine(0.0f, space);
        ImGui::BeginGroup();
        const ImVec2 low = ImGui::GetCursorScreenPos();
        ImGui::Dummy({wide, height});
        const ImVec2 high{low.x + wide, low.y + height};
        if (index < count) list.AddImage(pictures.pass(index), low, high);
        list.AddRect(low, high, u32(ui.theme.edge));
        ui.probe.mark("pass picture " + std::to_string(pass), {low.x, low.y, high.x, high.y});
        pass_words(on, shown, pass);
        ImGui::EndGroup();
    }
    ImGui::EndChild();
}

}  // namespace battwright::window
