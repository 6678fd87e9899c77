#include "window/kit/fonts.hpp"

#include <array>
#include <cstddef>

#include "window/kit/widgets.hpp"

namespace battwright::embedded {
extern const unsigned char font_regular[];
extern const std::size_t font_regular_size;
extern const unsigned char font_bold[];
extern const std::size_t font_bold_size;
}  // namespace battwright::embedded

namespace battwright::window {
namespace {

// Latin with its extensions, Greek, Cyrillic, general punctuation, fractions, arrows and minus.
constexpr std::array<ImWchar, 15> ranges{0x0020, 0x024f, 0x0370, 0x03ff, 0x0400, 0x04ff, 0x2010, 0x2044,
                                         0x2070, 0x209f, 0x2150, 0x218f, 0x2212, 0x2265, 0};

ImFont* load(const unsigned char* bytes, std::size_t size, float pixels) {
    ImFontConfig config;
    config.FontDataOwnedByAtlas = false;  // so ImGui only reads them
    config.OversampleH = 2;
    return ImGui::GetIO().Fonts->AddFontFromMemoryTTF(const_cast<unsigned char*>(bytes),
                                                      static_cast<int>(size), pixels, &config, ranges.data());
}

}  // namespace

Fonts load_fonts(float unit) {
    namespace embedded = battwright::embedded;
    ImGui::GetIO().Fonts->Clear();
    Fonts fonts;
    fonts.body = load(embedded::font_regular, embedded::font_regular_size, 17.0f * unit);
    fonts.bold = load(embedded::font_bold, embedded::font_bold_size, 17.0f * unit);
    fonts.small = load(embedded::font_regular, embedded::font_regular_size, 15.0f * unit);
    fonts.title = load(embedded::font_bold, embedded::font_bold_size, 21.0f * unit);
    ImGui::GetIO().FontDefault = fonts.body;
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
