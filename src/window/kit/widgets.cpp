#include "window/kit/widgets.hpp"

#include <imgui_stdlib.h>

#include <algorithm>
#include <cmath>

#include "window/kit/terms.hpp"

namespace battwright::window {
namespace {

struct Colours {
    colour::Srgb rest, over, ink, edge;
};

Colours colours_of(const Theme& t, Tone tone) {
    switch (tone) {
        case Tone::accent:
        case Tone::on:
            return {t.accent, t.accent, t.accent_ink, t.accent};
        case Tone::quiet:
            return {t.panel, t.hover, t.ink, t.panel};
        case Tone::plain:
            break;
    }
    return {t.raised, t.hover, t.ink, t.edge};
}

bool plain_button(const Ui& ui, const char* label, Tone tone, ImVec2 size) {
    const Colours colours = colours_of(ui.theme, tone);
    ImGui::PushStyleColor(ImGuiCol_Button, vec4(colours.rest));
    ImGui::PushStyleColor(ImGuiCol_ButtonHovered, vec4(colours.over));
    ImGui::PushStyleColor(ImGuiCol_ButtonActive, vec4(colours.over));
    ImGui::PushStyleColor(ImGuiCol_Text, vec4(colours.ink));
    ImGui::PushStyleColor(ImGuiCol_Border, vec4(colours.edge));
    const bool pressed = ImGui::Button(label, size);
    ImGui::PopStyleColor(5);
    return pressed;
}

// A square button with a drawing instead of a word.
bool drawn_button(const Ui& ui, const std::string& label, Tone tone, std::string_view words) {
    const float side = ImGui::GetFrameHeight();
    const bool pressed = plain_button(ui, ("##" + label).c_str(), tone, {side, side});
    mark(ui, label);
    hover(ui, words);
    return pressed;
}

}  // namespace

ImVec4 vec4(const colour::Srgb& colour, float alpha) {
    return {static_cast<float>(colour.r), static_cast<float>(colour.g), static_cast<float>(colour.b), alpha};
}

ImU32 u32(const colour::Srgb& colour, float alpha) {
    return ImGui::ColorConvertFloat4ToU32(vec4(colour, alpha));
}

void mark(const Ui& ui, const std::string& label) {
    const ImVec2 low = ImGui::GetItemRectMin(), high = ImGui::GetItemRectMax();
    ui.probe.mark(label, {low.x, low.y, high.x, high.y});
}

void text(const Ui& ui, std::string_view words) {
    text_in(ui, ui.fonts.body, ui.theme.ink, words);
}

void text_in(const Ui&, ImFont* font, const colour::Srgb& colour, std::string_view words) {
    ImGui::PushFont(font);
    ImGui::PushStyleColor(ImGuiCol_Text, vec4(colour));
    ImGui::TextUnformatted(words.data(), words.data() + words.size());
    ImGui::PopStyleColor();
    ImGui::PopFont();
}

void paragraph(const Ui&, std::string_view words, const colour::Srgb& colour, float width) {
    const float left = ImGui::GetCursorPosX();
    ImGui::PushTextWrapPos(width > 0.0f ? left + width : 0.0f);
    ImGui::PushStyleColor(ImGuiCol_Text, vec4(colour));
    ImGui::TextUnformatted(words.data(), words.data() + words.size());
    ImGui::PopStyleColor();
    ImGui::PopTextWrapPos();
}

std::string cut_to(std::string_view words, float width) {
    const auto width_of = [](std::string_view part) {
        return ImGui::CalcTextSize(part.data(), part.data() + part.size()).x;
    };
    // Nothing shows a thousand letters on a line; and taking them off one by one would take its time.
    constexpr std::size_t most_bytes = 600;
    const std::string_view whole = words;
    if (words.size() > most_bytes) words.remove_suffix(words.size() - most_bytes);
    while (words.size() < whole.size() && !words.empty() &&
           (static_cast<unsigned char>(whole[words.size()]) & 0xc0u) == 0x80u)
        words.remove_suffix(1);
    if (words.size() == whole.size() && width_of(words) <= width) return std::string(words);
    const std::string ellipsis = "\u2026";
    const float room = width - width_of(ellipsis);
    while (!words.empty() && width_of(words) > room) {
        words.remove_suffix(1);
        while (!words.empty() && (static_cast<unsigned char>(words.back()) & 0xc0u) == 0x80u)
            words.remove_suffix(1);
        if (!words.empty() && static_cast<unsigned char>(words.back()) >= 0xc0u) words.remove_suffix(1);
    }
    return std::string(words) + ellipsis;
}

void text_within(const Ui& ui, ImFont* font, const colour::Srgb& colour, std::string_view words,
                 float width) {
    ImGui::PushFont(font);
    const std::string shown = cut_to(words, width);
    ImGui::PopFont();
    text_in(ui, font, colour, shown);
    if (shown.size() != words.size() || shown != words) hover(ui, words);
}

bool button(const Ui& ui, const std::string& label, Tone tone, float width, std::string_view words) {
    const bool pressed = plain_button(ui, label.c_str(), tone, {width, 0.0f});
    const auto visible = label.find("##");
    mark(ui, visible == std::string::npos ? label : label.substr(visible + 2));
    hover(ui, words);
    return pressed;
}

std::optional<std::size_t> choices(const Ui& ui, const std::string& name,
                                   const std::vector<std::string>& labels, std::size_t chosen, float width) {
    std::optional<std::size_t> pressed;
    ImGui::PushID(name.c_str());
    for (std::size_t i = 0; i < labels.size(); ++i) {
        if (i > 0) ImGui::SameLine(0.0f, ui.px(3.0f));
        if (plain_button(ui, labels[i].c_str(), i == chosen ? Tone::on : Tone::plain, {width, 0.0f}))
            pressed = i;
        mark(ui, name + " " + labels[i]);
    }
    ImGui::PopID();
    return pressed;
}

std::optional<int> stepper(const Ui& ui, const std::string& name, int value, int low, int high) {
    std::optional<int> changed;
    const float side = ImGui::GetFrameHeight();
    ImGui::PushID(name.c_str());
    ImGui::BeginDisabled(value <= low);
    if (plain_button(ui, "\u2013", Tone::plain, {side, side})) changed = value - 1;
    ImGui::EndDisabled();
    mark(ui, name + " fewer");
    ImGui::SameLine(0.0f, ui.px(8.0f));
    ImGui::AlignTextToFramePadding();
    text_in(ui, ui.fonts.bold, ui.theme.ink, std::to_string(value));
    ImGui::SameLine(0.0f, ui.px(8.0f));
    ImGui::BeginDisabled(value >= high);
    if (plain_button(ui, "+", Tone::plain, {side, side})) changed = value + 1;
    ImGui::EndDisabled();
    mark(ui, name + " more");
    ImGui::PopID();
    return changed;
}

std::optional<bool> tick(const Ui& ui, const std::string& label, const std::string& words, bool on) {
    ImGui::PushStyleColor(ImGuiCol_CheckMark, vec4(ui.theme.accent_ink));
    for (const ImGuiCol ground : {ImGuiCol_FrameBg, ImGuiCol_FrameBgHovered, ImGuiCol_FrameBgActive})
        ImGui::PushStyleColor(ground, vec4(on ? ui.theme.accent : ui.theme.field));
    ImGui::PushStyleVar(ImGuiStyleVar_FramePadding, {ui.px(5.0f), ui.px(5.0f)});
    const bool pressed = ImGui::Checkbox((words + "##" + label).c_str(), &on);
    ImGui::PopStyleVar();
    ImGui::PopStyleColor(4);
    mark(ui, label);
    return pressed ? std::optional(on) : std::nullopt;
}

std::optional<std::size_t> drop_down(const Ui& ui, const std::string& name,
                                     const std::vector<std::string>& words, std::size_t chosen, float width) {
    std::optional<std::size_t> pressed;
    ImGui::SetNextItemWidth(width);
    const bool open = ImGui::BeginCombo(("##" + name).c_str(), words[chosen].c_str());
    mark(ui, name);
    if (!open) return pressed;
    for (std::size_t i = 0; i < words.size(); ++i) {
        ImGui::PushID(static_cast<int>(i));
        const ImVec2 at = ImGui::GetCursorScreenPos();
        if (ImGui::Selectable("##entry", i == chosen, 0, {0.0f, ui.px(28.0f)})) pressed = i;
        mark(ui, name + " " + words[i]);
        ImGui::GetWindowDrawList()->AddText({at.x + ui.px(4.0f), at.y + ui.px(4.0f)}, u32(ui.theme.ink),
                                            words[i].data(), words[i].data() + words[i].size());
        ImGui::PopID();
    }
    ImGui::EndCombo();
    return pressed;
}

bool padlock(const Ui& ui, const std::string& label, bool locked, std::string_view words) {
    const bool pressed = drawn_button(ui, label, locked ? Tone::on : Tone::plain, words);
    const ImVec2 low = ImGui::GetItemRectMin(), high = ImGui::GetItemRectMax();
    const ImVec2 c{0.5f * (low.x + high.x), 0.5f * (low.y + high.y)};
    const ImU32 ink = u32(locked ? ui.theme.accent_ink : ui.theme.quiet);
    ImDrawList& list = *ImGui::GetWindowDrawList();
    const float s = ui.px(1.0f);
    list.AddRectFilled({c.x - 6 * s, c.y - 1 * s}, {c.x + 6 * s, c.y + 8 * s}, ink, 2 * s);
    const float lift = locked ? 0.0f : 2.0f * s;
    list.PathArcTo({c.x, c.y - 2 * s - lift}, 4 * s, 3.14159f, 2.0f * 3.14159f, 12);
    if (locked) {
        list.PathLineTo({c.x + 4 * s, c.y});
        list.PathStroke(ink, 0, 2 * s);
    } else {
        list.PathStroke(ink, 0, 2 * s);
    }
    list.AddLine({c.x - 4 * s, c.y - 2 * s - lift}, {c.x - 4 * s, c.y}, ink, 2 * s);
    return pressed;
}

bool dots(const Ui& ui, const std::string& label, std::string_view words) {
    const bool pressed = drawn_button(ui, label, Tone::plain, words);
    const ImVec2 low = ImGui::GetItemRectMin(), high = ImGui::GetItemRectMax();
    for (const float offset : {-6.0f, 0.0f, 6.0f}) {
        ImGui::GetWindowDrawList()->AddCircleFilled(
            {0.5f * (low.x + high.x) + ui.px(offset), 0.5f * (low.y + high.y)}, ui.px(2.0f),
            u32(ui.theme.ink));
    }
    return pressed;
}

namespace {

// What a person is typing into the item just drawn; the text once she is done.
std::optional<std::string> typed_into(const Ui& ui, ImGuiID number, const std::string& shown,
                                      std::string typed) {
    if (ImGui::IsItemActive()) {
        ui.typing.id = number;
        ui.typing.text = std::move(typed);
        ui.typing.shown = shown;
    }
    if (!ImGui::IsItemDeactivated() || ui.typing.id != number) return std::nullopt;
    const bool cancelled = ImGui::IsKeyPressed(ImGui::GetKeyIndex(ImGuiKey_Escape), false);
    std::string result = ui.typing.text;
    ui.typing = {};
    if (cancelled || result == shown) return std::nullopt;
    return result;
}

}  // namespace

std::optional<std::string> field(const Ui& ui, const std::string& label, const std::string& shown,
                                 float width, const char* hint, bool strong) {
    const std::string id = "##" + label;
    const ImGuiID number = ImGui::GetID(id.c_str());
    std::string typed = ui.typing.id == number ? ui.typing.text : shown;
    ImGui::SetNextItemWidth(width);
    ImGui::PushStyleColor(ImGuiCol_Border, vec4(strong ? ui.theme.accent : ui.theme.edge));
    if (strong) ImGui::PushFont(ui.fonts.bold);
    ImGui::InputTextWithHint(id.c_str(), hint, &typed, ImGuiInputTextFlags_AutoSelectAll);
    if (strong) ImGui::PopFont();
    ImGui::PopStyleColor();
    mark(ui, label);
    return typed_into(ui, number, shown, std::move(typed));
}

std::optional<std::string> text_box(const Ui& ui, const std::string& label, const std::string& shown,
                                    ImVec2 size) {
    const std::string id = "##" + label;
    const ImGuiID number = ImGui::GetID(id.c_str());
    std::string typed = ui.typing.id == number ? ui.typing.text : shown;
    ImGui::InputTextMultiline(id.c_str(), &typed, size, ImGuiInputTextFlags_CtrlEnterForNewLine);
    mark(ui, label);
    return typed_into(ui, number, shown, std::move(typed));
}

void hover(const Ui& ui, std::string_view words) {
    if (words.empty() || !ImGui::IsItemHovered(ImGuiHoveredFlags_AllowWhenDisabled)) return;
    ImGui::BeginTooltip();
    ImGui::PushTextWrapPos(ui.px(340.0f));
    text(ui, words);
    ImGui::PopTextWrapPos();
    ImGui::EndTooltip();
}

void hover_term(const Ui& ui, std::string_view name) {
    if (!ImGui::IsItemHovered()) return;
    const Term* term = find_term(name);
    if (term == nullptr) return;
    ImGui::BeginTooltip();
    ImGui::PushTextWrapPos(ui.px(360.0f));
    text_in(ui, ui.fonts.bold, ui.theme.ink, term->name);
    text(ui, term->meaning);
    text_in(ui, ui.fonts.small, ui.theme.quiet, term->source);
    ImGui::PopTextWrapPos();
    ImGui::EndTooltip();
}

bool begin_panel(const Ui& ui, const char* id, std::string_view title, ImVec2 at, ImVec2 size, bool scrolls) {
    ImGui::SetCursorScreenPos(at);
    ImGui::PushStyleColor(ImGuiCol_ChildBg, vec4(ui.theme.panel));
    ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, {ui.px(14.0f), ui.px(12.0f)});
    ImGui::PushStyleVar(ImGuiStyleVar_ChildRounding, ui.px(10.0f));
    ImGuiWindowFlags flags = ImGuiWindowFlags_AlwaysUseWindowPadding;
    if (!scrolls) flags |= ImGuiWindowFlags_NoScrollbar | ImGuiWindowFlags_NoScrollWithMouse;
    const bool visible = ImGui::BeginChild(id, size, true, flags);
    ImGui::PopStyleVar(2);
    ImGui::PopStyleColor();
    if (!title.empty()) text_in(ui, ui.fonts.title, ui.theme.ink, title);
    return visible;
}

void end_panel() {
    ImGui::EndChild();
}

bool begin_card(const Ui& ui, const char* id, std::string_view title, ImVec2 size) {
    const ImVec2 whole = ImGui::GetIO().DisplaySize;
    const ImVec2 fitted{std::min(size.x, whole.x - ui.px(40.0f)), std::min(size.y, whole.y - ui.px(40.0f))};
    ImGui::SetNextWindowPos({0.5f * whole.x, 0.5f * whole.y}, ImGuiCond_Always, {0.5f, 0.5f});
    ImGui::SetNextWindowSize(fitted, ImGuiCond_Always);
    ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, {ui.px(22.0f), ui.px(18.0f)});
    const bool open = ImGui::BeginPopupModal(id, nullptr,
                                             ImGuiWindowFlags_NoTitleBar | ImGuiWindowFlags_NoResize |
                                                 ImGuiWindowFlags_NoMove | ImGuiWindowFlags_NoScrollbar |
                                                 ImGuiWindowFlags_NoScrollWithMouse);
    ImGui::PopStyleVar();
    if (open && !title.empty()) {
        text_in(ui, ui.fonts.title, ui.theme.ink, title);
        gap(ui, 4.0f);
    }
    return open;
}

void end_card() {
    ImGui::EndPopup();
}

bool escape_leaves(const Ui& ui) {
    // By the time it is looked for, the popup or the field may be gone already by this very key.
    ImGuiStorage& kept = *ImGui::GetStateStorage();
    const ImGuiID busy_before = ImGui::GetID("busy before");
    const bool was_busy = kept.GetBool(busy_before);
    const bool busy = ui.typing.id != 0 || ImGui::IsPopupOpen(nullptr, ImGuiPopupFlags_AnyPopupId);
    kept.SetBool(busy_before, busy);
    return !busy && !was_busy && ImGui::IsKeyPressed(ImGui::GetKeyIndex(ImGuiKey_Escape), false);
}

std::string print_diameter(double micrometres) {
    return measure::write_number(std::round(micrometres * 10.0) / 10.0) + " \u00b5m";
}

void gap(const Ui& ui, float design_pixels) {
    ImGui::Dummy({0.0f, ui.px(design_pixels)});
}

std::string print_minutes(double minutes) {
    if (minutes < 90.0) return measure::write_number(std::max(1.0, std::round(minutes))) + " min";
    return measure::write_number(std::round(minutes / 30.0) / 2.0) + " h";
}

void rule(const Ui& ui) {
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const float width = ImGui::GetContentRegionAvail().x;
    ImGui::GetWindowDrawList()->AddLine({at.x, at.y}, {at.x + width, at.y}, u32(ui.theme.line), ui.px(1.0f));
    gap(ui, 5.0f);
}

void row_label(const Ui& ui, std::string_view words, float column) {
    ImGui::AlignTextToFramePadding();
    text_in(ui, ui.fonts.body, ui.theme.quiet, words);
    ImGui::SameLine(ui.px(column));
}

std::string mass(const Ui& ui, double grams) {
    return measure::print_mass(grams, ui.settings.mass);
}

float width_of(ImFont* font, std::string_view words) {
    return font->CalcTextSizeA(font->FontSize, 1e6f, 0.0f, words.data(), words.data() + words.size()).x;
}

}  // namespace battwright::window
