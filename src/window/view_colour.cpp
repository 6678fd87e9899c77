// A component's palette: picked, typed as hex or as Lab, in shares.
#include <algorithm>
#include <array>
#include <cstdio>

#include "colour/spaces.hpp"
#include "window/edits.hpp"
#include "window/views.hpp"
#include "window/widgets.hpp"

namespace battwright::window {
namespace {

using recipe::Tint;

// The palette to edit: natural colours stand in until the person chooses.
std::vector<Tint> palette_of(const Ui& ui, const recipe::Component& component) {
    if (!component.palette.empty()) return component.palette;
    const auto shown = shown_colours(component, ui.catalogue);
    return {{shown.colours.front(), 100.0}};
}

void tint_chips(const Ui& ui, const Sheet& sheet, std::size_t index, const std::vector<Tint>& palette,
                InState& state) {
    const float side = ui.px(36.0f);
    for (std::size_t i = 0; i < palette.size(); ++i) {
        ImGui::PushID(static_cast<int>(i));
        if (i > 0) ImGui::SameLine(0.0f, ui.px(6.0f));
        const ImVec2 at = ImGui::GetCursorScreenPos();
        if (ImGui::InvisibleButton("tint", {side, side})) state.tint = i;
        mark(ui, "tint " + std::to_string(i + 1));
        draw_wisp(*ImGui::GetWindowDrawList(), at, {at.x + side, at.y + side}, {palette[i].colour}, {1.0},
                  static_cast<unsigned>(i), state.tint == i ? ui.theme.accent : ui.theme.edge);
        if (state.tint == i)
            ImGui::GetWindowDrawList()->AddRect(at, {at.x + side, at.y + side}, u32(ui.theme.accent),
                                                ui.px(6.0f), 0, ui.px(3.0f));
        ImGui::PopID();
    }
    ImGui::SameLine(0.0f, ui.px(6.0f));
    if (palette.size() < 6 &&
        button(ui, "+##one more colour", Tone::plain, side, "One more colour in this fibre")) {
        auto more = palette;
        more.push_back({palette.back().colour, 100.0 / static_cast<double>(palette.size())});
        state.tint = palette.size();
        ui.ask.edit(set_palette(sheet, index, more), "add a colour");
    }
}

void picker(const Ui& ui, const Sheet& sheet, std::size_t index, std::vector<Tint> palette, std::size_t at) {
    std::array<float, 3> rgb{static_cast<float>(palette[at].colour.r),
                             static_cast<float>(palette[at].colour.g),
                             static_cast<float>(palette[at].colour.b)};
    ImGui::SetNextItemWidth(ui.px(250.0f));
    const bool changed =
        ImGui::ColorPicker3("##picker", rgb.data(),
                            ImGuiColorEditFlags_NoSidePreview | ImGuiColorEditFlags_NoInputs |
                                ImGuiColorEditFlags_NoLabel | ImGuiColorEditFlags_PickerHueWheel);
    mark(ui, "picker");
    if (!changed) return;
    // Files hold eight bits a channel.
    const auto whole = colour::parse_hex(colour::hex({rgb[0], rgb[1], rgb[2]}));
    if (!whole) return;
    palette[at].colour = *whole;
    ui.ask.edit(set_palette(sheet, index, palette), "change a colour", true);
}

void hex_field(const Ui& ui, const Sheet& sheet, std::size_t index, std::vector<Tint> palette,
               std::size_t at) {
    ImGui::AlignTextToFramePadding();
    text_in(ui, ui.fonts.body, ui.theme.quiet, "Hex");
    ImGui::SameLine(ui.px(64.0f));
    const auto typed = field(ui, "hex", colour::hex(palette[at].colour), ui.px(186.0f), "#2f5d50");
    if (!typed) return;
    const bool marked = !typed->empty() && typed->front() == '#';
    const auto colour = colour::parse_hex(marked ? *typed : "#" + *typed);
    if (!colour) {
        ui.ask.complaints.push_back(colour.error());
        return;
    }
    palette[at].colour = *colour;
    ui.ask.edit(set_palette(sheet, index, palette), "change a colour");
}

std::string lab_text(const colour::Lab& lab) {
    std::array<char, 64> buffer{};
    std::snprintf(buffer.data(), buffer.size(), "%.1f %.1f %.1f", lab.l, lab.a, lab.b);
    return buffer.data();
}

void lab_field(const Ui& ui, const Sheet& sheet, std::size_t index, std::vector<Tint> palette,
               std::size_t at) {
    ImGui::AlignTextToFramePadding();
    text_in(ui, ui.fonts.body, ui.theme.quiet, "Lab");
    hover_term(ui, "Lab");
    ImGui::SameLine(ui.px(64.0f));
    const auto typed = field(ui, "lab", lab_text(colour::lab(palette[at].colour)), ui.px(186.0f), "36 -20 4");
    if (!typed) return;
    colour::Lab lab;
    if (std::sscanf(typed->c_str(), "%lf%*[ ,;]%lf%*[ ,;]%lf", &lab.l, &lab.a, &lab.b) != 3) {
        ui.ask.complaints.push_back({"a Lab colour is three numbers", "type L, a and b, as in 36 -20 4"});
        return;
    }
    const colour::Srgb wanted = colour::srgb_from(lab);
    const colour::Srgb held = colour::clipped(wanted);
    if (!(wanted == held))
        ui.ask.complaints.push_back(
            {"no screen shows Lab " + *typed, "the nearest colour it can show was taken"});
    const auto whole = colour::parse_hex(colour::hex(held));
    if (!whole) return;
    palette[at].colour = *whole;
    ui.ask.edit(set_palette(sheet, index, palette), "change a colour");
}

void share_field(const Ui& ui, const Sheet& sheet, std::size_t index, std::vector<Tint> palette,
                 std::size_t at, InState& state) {
    if (palette.size() < 2) return;
    ImGui::AlignTextToFramePadding();
    text_in(ui, ui.fonts.body, ui.theme.quiet, "Share");
    ImGui::SameLine(ui.px(64.0f));
    const auto typed = field(ui, "tint share", measure::write_percent(palette[at].share_pct), ui.px(90.0f));
    ImGui::SameLine();
    if (button(ui, "Drop it##drop colour")) {
        palette.erase(palette.begin() + static_cast<std::ptrdiff_t>(at));
        state.tint = 0;
        ui.ask.edit(set_palette(sheet, index, palette), "drop a colour");
        return;
    }
    if (!typed) return;
    const auto share = measure::parse_percent(typed->find('%') == std::string::npos ? *typed + " %" : *typed);
    if (!share || *share <= 0.0 || *share >= 100.0) {
        ui.ask.complaints.push_back(
            share ? measure::Complaint{"a colour's share lies between 0 and 100 %", "type such as 30 %"}
                  : share.error());
        return;
    }
    const double others = 100.0 - palette[at].share_pct;
    for (std::size_t i = 0; i < palette.size(); ++i) {
        if (i != at) palette[i].share_pct *= (100.0 - *share) / std::max(others, 0.1);
    }
    palette[at].share_pct = *share;
    ui.ask.edit(set_palette(sheet, index, palette), "share out colours");
}

}  // namespace

void view_colour(const Ui& ui, const Sheet& sheet, std::size_t index, InState& state) {
    if (!ImGui::BeginPopup("colour")) return;
    const auto& component = sheet.recipe.components[index];
    const auto palette = palette_of(ui, component);
    const std::size_t at = std::min(state.tint, palette.size() - 1);
    tint_chips(ui, sheet, index, palette, state);
    picker(ui, sheet, index, palette, at);
    hex_field(ui, sheet, index, palette, at);
    lab_field(ui, sheet, index, palette, at);
    share_field(ui, sheet, index, palette, at, state);
    if (button(ui, "From a photo\u2026##from a photo", Tone::plain, ui.px(250.0f)))
        ImGui::OpenPopup("photo card");
    if (const auto picked = view_photo(ui, state.photo)) {
        auto changed = palette;
        if (const auto whole = colour::parse_hex(colour::hex(*picked))) changed[at].colour = *whole;
        ui.ask.edit(set_palette(sheet, index, changed), "take a colour from a photo");
    }
    if (!component.palette.empty() &&
        button(ui, "Leave it undyed", Tone::plain, ui.px(250.0f), "Use the fibre's natural colour"))
        ui.ask.edit(set_palette(sheet, index, {}), "leave it undyed");
    ImGui::EndPopup();
}

}  // namespace battwright::window
