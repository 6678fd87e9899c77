#include "window/kit/fonts.hpp"

#include <array>
#include <cstddef>
#include <utility>

#include "window/kit/widgets.hpp"

namespace battwright::embedded {
extern const unsigned char font_regular[];
extern const std::size_t font_regular_size;
extern const unsigned char font_bold[];
extern const std::size_t font_bold_size;
}  // namespace battwright::embedded

namespace battwright::window {
namespace {

// is_compiled_in() says the same.
constexpr std::array<ImWchar, 15> ranges{0x0020, 0x024f, 0x0370, 0x03ff, 0x0400, 0x04ff, 0x2010, 0x2044,
                                         0x2070, 0x209f, 0x2150, 0x218f, 0x2212, 0x2265, 0};

ImFont* load(const unsigned char* bytes, std::size_t size, float pixels) {
    ImFontConfig config;
    config.FontDataOwnedByAtlas = false;  // so ImGui only reads them
    config.OversampleH = 2;
    return ImGui::GetIO().Fonts->AddFontFromMemoryTTF(const_cast<unsigned char*>(bytes),
                                                      static_cast<int>(size), pixels, &config, ranges.data());
}

// A font of the machine and the letters taken from it, as ImGui wants them: first, last, first, last, 0.
struct FallbackFont {
    SystemFont font;
    std::vector<ImWchar> ranges;
};

std::vector<FallbackFont> fallbacks_for(const Letters& letters) {
    std::vector<FallbackFont> fallbacks;
    for (SystemFont& font : fonts_for(letters.wanted())) {
        std::vector<ImWchar> ranges;
        for (const char16_t letter : font.letters) {
            if (!ranges.empty() && ranges.back() + 1 == letter) {
                ranges.back() = letter;
            } else {
                ranges.push_back(letter);
                ranges.push_back(letter);
            }
        }
        ranges.push_back(0);
        fallbacks.push_back({std::move(font), std::move(ranges)});
    }
    return fallbacks;
}

// What is merged goes with the font before it.
ImFont* with_fallbacks(ImFont* font, const std::vector<FallbackFont>& fallbacks, float pixels) {
    for (const FallbackFont& one : fallbacks) {
        ImFontConfig config;
        config.MergeMode = true;
        config.FontNo = one.font.face;
        ImGui::GetIO().Fonts->AddFontFromFileTTF(one.font.path.c_str(), pixels, &config, one.ranges.data());
    }
    return font;
}

}  // namespace

Fonts load_fonts(float unit, const Letters& letters) {
    namespace embedded = battwright::embedded;
    const std::vector<FallbackFont> fallbacks = fallbacks_for(letters);
    ImGui::GetIO().Fonts->Clear();
    Fonts fonts;
    fonts.body = with_fallbacks(load(embedded::font_regular, embedded::font_regular_size, 17.0f * unit),
                                fallbacks, 17.0f * unit);
    fonts.bold = with_fallbacks(load(embedded::font_bold, embedded::font_bold_size, 17.0f * unit), fallbacks,
                                17.0f * unit);
    fonts.small = with_fallbacks(load(embedded::font_regular, embedded::font_regular_size, 15.0f * unit),
                                 fallbacks, 15.0f * unit);
    fonts.title = with_fallbacks(load(embedded::font_bold, embedded::font_bold_size, 21.0f * unit), fallbacks,
                                 21.0f * unit);
    ImGui::GetIO().FontDefault = fonts.body;
    // While the ranges are there. A font of the machine that cannot be drawn after all is done without.
    if (!ImGui::GetIO().Fonts->Build() && !fallbacks.empty()) return load_fonts(unit, {});
    return fonts;
}

void apply_style(const Theme& t, float unit) {
    ImGuiStyle style;
    style.WindowPadding = {14.0f, 12.0f};
    style.FramePadding = {10.0f, 7.0f};
    style.ItemSpacing = {8.0f, 7.0f};
    style.ItemInnerSpacing = {6.0f, 5.0f};
    style.ScrollbarSize = 10.0f;
    style.WindowRounding = style.PopupRounding = 12.0f;
    style.ChildRounding = 10.0f;
    style.FrameRounding = 7.0f;
    style.ScrollbarRounding = style.GrabRounding = 5.0f;
    style.FrameBorderSize = style.WindowBorderSize = style.PopupBorderSize = 1.0f;
    style.ChildBorderSize = 0.0f;
    style.DisabledAlpha = 0.6f;
    style.ScaleAllSizes(unit);
    // A target is 32 design pixels high, to the pixel.
    style.FramePadding.y = 0.5f * (32.0f - 17.0f) * unit;
    const auto set = [&style](ImGuiCol which, const colour::Srgb& colour, float alpha = 1.0f) {
        style.Colors[which] = vec4(colour, alpha);
    };
    set(ImGuiCol_Text, t.ink);
    set(ImGuiCol_TextDisabled, t.quiet);
    set(ImGuiCol_WindowBg, t.panel);
    set(ImGuiCol_ChildBg, t.panel, 0.0f);
    set(ImGuiCol_PopupBg, t.panel);
    set(ImGuiCol_Border, t.edge);
    set(ImGuiCol_FrameBg, t.field);
    set(ImGuiCol_FrameBgHovered, t.field);
    set(ImGuiCol_FrameBgActive, t.field);
    set(ImGuiCol_ScrollbarBg, t.panel, 0.0f);
    set(ImGuiCol_ScrollbarGrab, t.line);
    set(ImGuiCol_ScrollbarGrabHovered, t.edge);
    set(ImGuiCol_ScrollbarGrabActive, t.edge);
    set(ImGuiCol_Button, t.raised);
    set(ImGuiCol_ButtonHovered, t.hover);
    set(ImGuiCol_ButtonActive, t.hover);
    set(ImGuiCol_Header, t.hover);
    set(ImGuiCol_HeaderHovered, t.raised);
    set(ImGuiCol_HeaderActive, t.hover);
    set(ImGuiCol_TextSelectedBg, t.accent, 0.35f);
    set(ImGuiCol_NavHighlight, t.advice);
    set(ImGuiCol_ModalWindowDimBg, t.ground, 0.72f);
    set(ImGuiCol_NavWindowingDimBg, t.ground, 0.5f);
    ImGui::GetStyle() = style;
}

}  // namespace battwright::window
