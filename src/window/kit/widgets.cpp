#include "window/kit/widgets.hpp"

#include <imgui_stdlib.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "app/settings.hpp"
#include "text/words.hpp"

namespace battwright::window {
namespace {

struct Colours {
    colour::Srgb rest, over, ink, edge;
};

Colours colours_of(const Theme& t, Tone tone) {
    switch (tone) {
        case Tone::accent:
            return {t.accent, t.accent, t.accent_ink, t.accent};
        case Tone::on:
            return {t.chosen, t.chosen, t.ink, t.ink};
        case Tone::quiet:
            return {t.panel, t.hover, t.ink, t.panel};
        case Tone::plain:
            break;
    }
    return {t.raised, t.hover, t.ink, t.edge};
}

// Under what is chosen: told apart without its colour, too.
void underline(const Ui& ui) {
    const ImVec2 low = ImGui::GetItemRectMin(), high = ImGui::GetItemRectMax();
    const float inset = ui.px(7.0f);
    ImGui::GetWindowDrawList()->AddRectFilled({low.x + inset, high.y - ui.px(4.0f)},
                                              {high.x - inset, high.y - ui.px(1.5f)}, u32(ui.theme.ink),
                                              ui.px(1.0f));
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
    if (size.x > 0.0f && ImGui::CalcTextSize(label, nullptr, true).x > size.x - ui.px(4.0f))
        ui.probe.mark_cut(label);
    if (tone == Tone::on) underline(ui);
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
    // Scrolled away it may be, but not cut off at a side.
    const ImDrawList& list = *ImGui::GetWindowDrawList();
    const ImVec2 shown_low = list.GetClipRectMin(), shown_high = list.GetClipRectMax();
    const bool in_sight = low.y < shown_high.y && high.y > shown_low.y;
    const float slack = 0.5f * ImGui::GetStyle().ItemSpacing.x + 1.5f;  // what a row of a list is drawn wider
    if (in_sight && (low.x < shown_low.x - slack || high.x > shown_high.x + slack)) ui.probe.mark_cut(label);
    tab_stop(ui.tabs, label);
}

void mark_words(const Ui& ui, const std::string& label) {
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
    words = text::cut(words, most_bytes);
    if (words.size() == whole.size() && width_of(words) <= width) return std::string(words);
    const std::string ellipsis = "\u2026";
    const float room = width - width_of(ellipsis);
    while (!words.empty() && width_of(words) > room) words = text::cut(words, words.size() - 1);
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
    const std::string name = visible == std::string::npos ? label : label.substr(visible + 2);
    if (tone == Tone::accent && ui.tabs.first_of_card) {
        ui.tabs.wanted = name;
        ui.tabs.first_of_card = false;
    }
    mark(ui, name);
    hover(ui, words);
    return pressed;
}

std::optional<std::size_t> choices(const Ui& ui, const std::string& name,
                                   const std::vector<std::string>& labels, std::size_t chosen, float width) {
    std::optional<std::size_t> pressed;
    ImGui::PushID(name.c_str());
    const float left = ImGui::GetCursorPosX();
    for (std::size_t i = 0; i < labels.size(); ++i) {
        // No narrower than its words; what has no room left in the line begins the next.
        const float words = ImGui::CalcTextSize(labels[i].c_str()).x;
        const float wide = width > 0.0f ? std::max(width, words + 2.0f * ui.px(6.0f))
                                        : words + 2.0f * ImGui::GetStyle().FramePadding.x;
        if (i > 0) ImGui::SameLine(0.0f, ui.px(3.0f));
        if (i > 0 && ImGui::GetContentRegionAvail().x < wide - 1.0f) {
            ImGui::NewLine();
            ImGui::SetCursorPosX(left);
        }
        if (plain_button(ui, labels[i].c_str(), i == chosen ? Tone::on : Tone::plain, {wide, 0.0f}))
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
    ImGui::PushStyleColor(ImGuiCol_CheckMark, vec4(ui.theme.ink));
    for (const ImGuiCol ground : {ImGuiCol_FrameBg, ImGuiCol_FrameBgHovered, ImGuiCol_FrameBgActive})
        ImGui::PushStyleColor(ground, vec4(on ? ui.theme.chosen : ui.theme.field));
    ImGui::PushStyleVar(ImGuiStyleVar_FramePadding, {ui.px(7.5f), ui.px(7.5f)});
    const bool pressed = ImGui::Checkbox((words + "##" + label).c_str(), &on);
    ImGui::PopStyleVar();
    ImGui::PopStyleColor(4);
    mark(ui, label);
    return pressed ? std::optional(on) : std::nullopt;
}

bool folds_out(const Ui& ui, const std::string& name, const std::string& shown, float width) {
    ImGui::SetNextItemWidth(width);
    const bool open = ImGui::BeginCombo(("##" + name).c_str(), shown.c_str(), ImGuiComboFlags_HeightLarge);
    mark(ui, name);
    const float room = width - ImGui::GetFrameHeight() - ImGui::GetStyle().FramePadding.x;
    if (!open && ImGui::CalcTextSize(shown.c_str()).x > room) ui.probe.mark_cut(name);
    return open;
}

std::optional<std::size_t> drop_down(const Ui& ui, const std::string& name,
                                     const std::vector<std::string>& words, std::size_t chosen, float width) {
    std::optional<std::size_t> pressed;
    if (!folds_out(ui, name, words[chosen], width)) return pressed;
    for (std::size_t i = 0; i < words.size(); ++i) {
        ImGui::PushID(static_cast<int>(i));
        const ImVec2 at = ImGui::GetCursorScreenPos();
        if (ImGui::Selectable("##entry", i == chosen, 0, {0.0f, ui.px(32.0f)})) pressed = i;
        mark(ui, name + " " + words[i]);
        ImGui::GetWindowDrawList()->AddText({at.x + ui.px(4.0f), at.y + ui.px(6.0f)}, u32(ui.theme.ink),
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
    const ImU32 ink = u32(locked ? ui.theme.ink : ui.theme.quiet);
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
    const bool cancelled = key_pressed(ImGuiKey_Escape);
    std::string result = std::exchange(ui.typing.text, {});
    ui.typing.id = 0;
    if (ui.typing.refused.id == number) ui.typing.refused = {};
    if (cancelled || result == shown) return std::nullopt;
    ui.typing.done = number;
    ui.typing.done_text = result;
    return result;
}

// Why its text was not taken, under the field; above it at the foot of the window.
void say_why(const Ui& ui, const std::string& why) {
    const ImVec2 low = ImGui::GetItemRectMin(), high = ImGui::GetItemRectMax();
    const ImVec2 whole = ImGui::GetIO().DisplaySize;
    const float pad = ui.px(8.0f), wrap = std::min(ui.px(330.0f), whole.x - 4.0f * pad);
    const ImVec2 words = ui.fonts.body->CalcTextSizeA(ui.fonts.body->FontSize, wrap, wrap, why.c_str());
    const float height = words.y + 2.0f * pad;
    const float left = std::max(pad, std::min(low.x, whole.x - words.x - 3.0f * pad));
    const float top =
        high.y + height + ui.px(4.0f) < whole.y ? high.y + ui.px(4.0f) : low.y - height - ui.px(4.0f);
    ImDrawList& list = *ImGui::GetForegroundDrawList();
    const ImVec2 corner{left + words.x + 2.0f * pad, top + height};
    list.AddRectFilled({left, top}, corner, u32(ui.theme.panel), ui.px(6.0f));
    list.AddRect({left, top}, corner, u32(ui.theme.spoils), ui.px(6.0f), 0, ui.px(1.5f));
    list.AddText(ui.fonts.body, ui.fonts.body->FontSize, {left + pad, top + pad}, u32(ui.theme.ink),
                 why.c_str(), nullptr, wrap);
    list.AddRect(low, high, u32(ui.theme.spoils), ui.px(7.0f), 0, ui.px(2.0f));
}

}  // namespace

std::optional<std::string> field(const Ui& ui, const std::string& label, const std::string& shown,
                                 float width, const char* hint, bool strong) {
    const std::string id = "##" + label;
    const ImGuiID number = ImGui::GetID(id.c_str());
    const bool refused = ui.typing.refused.id == number;
    std::string typed = ui.typing.id == number ? ui.typing.text : refused ? ui.typing.refused.text : shown;
    ImGui::SetNextItemWidth(width);
    ImGui::PushStyleColor(ImGuiCol_Border, vec4(strong ? ui.theme.ink : ui.theme.edge));
    if (strong) ImGui::PushFont(ui.fonts.bold);
    ImGui::InputTextWithHint(id.c_str(), hint, &typed, ImGuiInputTextFlags_AutoSelectAll);
    if (strong) ImGui::PopFont();
    ImGui::PopStyleColor();
    mark(ui, label);
    if (refused)
        say_why(ui, ui.typing.refused.why);
    else if (ImGui::IsItemActive())
        ImGui::GetWindowDrawList()->AddRect(ImGui::GetItemRectMin(), ImGui::GetItemRectMax(),
                                            u32(ui.theme.advice), ui.px(7.0f), 0, ui.px(2.0f));
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

void refuse(const Ui& ui, const measure::Complaint& complaint) {
    ui.typing.refused = {ui.typing.done, ui.typing.done_text, measure::to_line(complaint)};
    ui.ask.another_frame = true;
}

void trouble(const Ui& ui, const std::string& why) {
    ImGui::GetWindowDrawList()->AddRect(ImGui::GetItemRectMin(), ImGui::GetItemRectMax(),
                                        u32(ui.theme.spoils), ui.px(7.0f), 0, ui.px(2.0f));
    paragraph(ui, why, ui.theme.spoils);
    mark_words(ui, "trouble");
    // Brought into sight when it first stands there, and left to be scrolled away after that.
    ImGuiStorage& kept = *ImGui::GetStateStorage();
    const ImGuiID id = ImGui::GetID("trouble");
    const int now = ImGui::GetFrameCount();
    const bool fresh = kept.GetInt(id, -2) < now - 1;
    kept.SetInt(id, now);
    const float foot = ImGui::GetWindowPos().y + ImGui::GetWindowHeight();
    if (fresh && ImGui::GetItemRectMax().y > foot) ImGui::SetScrollHereY(1.0f);
}

std::string print_diameter(double micrometres) {
    return measure::print_number(micrometres, 1) + " \u00b5m";
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

bool edit_text(const Ui& ui, const std::string& label, std::string& text, float width, const char* hint) {
    auto typed = field(ui, label, text, width, hint);
    if (typed) text = std::move(*typed);
    return typed.has_value();
}

bool edit_tick(const Ui& ui, const std::string& label, const std::string& words, bool& on) {
    const auto now = tick(ui, label, words, on);
    on = now.value_or(on);
    return now.has_value();
}

bool edit_count(const Ui& ui, const std::string& name, int& count, int low, int high) {
    const auto now = stepper(ui, name, count, low, high);
    count = now.value_or(count);
    return now.has_value();
}

void beside(const Ui& ui, std::string_view words) {
    ImGui::AlignTextToFramePadding();
    text_in(ui, ui.fonts.body, ui.theme.quiet, words);
}

void beside_or_below(const Ui& ui, float after, float width) {
    ImGui::SameLine(0.0f, ui.px(after));
    if (ImGui::GetContentRegionAvail().x < width) ImGui::NewLine();
}

void row_label(const Ui& ui, std::string_view words, float column) {
    beside(ui, words);
    ImGui::SameLine(ui.px(column));
}

std::string mass(const Ui& ui, double grams) {
    return measure::print_mass(grams, ui.settings.mass);
}

void put_text(ImFont* font, const colour::Srgb& colour, ImVec2 at, std::string_view words, float align) {
    if (align > 0.0f) at.x -= align * width_of(font, words);
    ImGui::GetWindowDrawList()->AddText(font, font->FontSize, at, u32(colour), words.data(),
                                        words.data() + words.size());
}

float width_of(ImFont* font, std::string_view words) {
    return font->CalcTextSizeA(font->FontSize, 1e6f, 0.0f, words.data(), words.data() + words.size()).x;
}

}  // namespace battwright::window
