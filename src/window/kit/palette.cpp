#include "window/kit/palette.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <string>
#include <utility>

#include "app/shelf/shelf_choice.hpp"
#include "colour/names.hpp"
#include "colour/spaces.hpp"
#include "text/numbers.hpp"
#include "window/kit/widgets.hpp"

namespace battwright::window {
namespace {

using recipe::Tint;

constexpr std::size_t most_tints = 6;  // as many as the chips have room for

std::optional<PaletteEdit> tint_chips(const Ui& ui, const std::vector<Tint>& palette, std::size_t& tint) {
    std::optional<PaletteEdit> edit;
    const float side = ui.px(36.0f);
    for (std::size_t i = 0; i < palette.size(); ++i) {
        ImGui::PushID(static_cast<int>(i));
        if (i % most_tints != 0) ImGui::SameLine(0.0f, ui.px(6.0f));
        const ImVec2 at = ImGui::GetCursorScreenPos();
        if (ImGui::InvisibleButton("tint", {side, side})) tint = i;
        mark(ui, "tint " + std::to_string(i + 1));
        hover(ui, measure::print_percent(palette[i].share_pct) + " of it");
        draw_wisp(*ImGui::GetWindowDrawList(), at, {at.x + side, at.y + side}, {palette[i].colour}, {1.0},
                  static_cast<unsigned>(i), tint == i ? ui.theme.accent : ui.theme.edge);
        if (tint == i)
            ImGui::GetWindowDrawList()->AddRect(at, {at.x + side, at.y + side}, u32(ui.theme.accent),
                                                ui.px(6.0f), 0, ui.px(3.0f));
        ImGui::PopID();
    }
    if (palette.size() >= most_tints) return edit;
    ImGui::SameLine(0.0f, ui.px(6.0f));
    if (button(ui, "+##one more colour", Tone::plain, side, "One more colour in this fibre")) {
        auto more = palette;
        more.push_back({palette.back().colour, 100.0 / static_cast<double>(palette.size())});
        tint = palette.size();
        edit = PaletteEdit{std::move(more), "add a colour"};
    }
    return edit;
}

// Files hold eight bits a channel.
std::optional<colour::Srgb> whole(const colour::Srgb& colour) {
    const auto read = colour::parse_hex(colour::hex(colour));
    return read ? std::optional(*read) : std::nullopt;
}

std::string lab_text(const colour::Lab& lab) {
    return text::number(lab.l, 1) + " " + text::number(lab.a, 1) + " " + text::number(lab.b, 1);
}

std::optional<colour::Srgb> lab_field(const Ui& ui, const colour::Srgb& colour) {
    beside(ui, "Lab");
    hover_term(ui, "Lab");
    ImGui::SameLine(ui.px(64.0f));
    const auto typed = field(ui, "lab", lab_text(colour::lab(colour)), ui.px(186.0f), "e.g. 36 -20 4");
    if (!typed) return std::nullopt;
    colour::Lab lab;
    if (std::sscanf(typed->c_str(), "%lf%*[ ,;]%lf%*[ ,;]%lf", &lab.l, &lab.a, &lab.b) != 3) {
        refuse(ui, {"a Lab colour is three numbers", "type L, a and b, as in 36 -20 4"});
        return std::nullopt;
    }
    const colour::Srgb wanted = colour::srgb_from(lab);
    const colour::Srgb held = colour::clipped(wanted);
    if (!(wanted == held))
        ui.ask.complain({"no screen shows Lab " + *typed, "the nearest colour it can show was taken"});
    return whole(held);
}

std::optional<PaletteEdit> share_field(const Ui& ui, std::vector<Tint> palette, std::size_t& tint) {
    if (palette.size() < 2) return std::nullopt;
    const std::size_t at = tint;
    row_label(ui, "Share", 64.0f);
    const double tenths = std::round(palette[at].share_pct * 10.0) / 10.0;
    const auto typed = field(ui, "tint share", measure::write_percent(tenths), ui.px(90.0f));
    ImGui::SameLine();
    if (button(ui, "Drop it##drop colour")) {
        palette.erase(palette.begin() + static_cast<std::ptrdiff_t>(at));
        tint = 0;
        return PaletteEdit{std::move(palette), "drop a colour"};
    }
    if (!typed) return std::nullopt;
    const auto share = parse_share(*typed);
    if (!share || *share <= 0.0 || *share >= 100.0) {
        refuse(ui, share
                       ? measure::Complaint{"a colour's share lies between 0 and 100 %", "type such as 30 %"}
                       : share.error());
        return std::nullopt;
    }
    const double others = 100.0 - palette[at].share_pct;
    for (std::size_t i = 0; i < palette.size(); ++i) {
        if (i != at) palette[i].share_pct *= (100.0 - *share) / std::max(others, 0.1);
    }
    palette[at].share_pct = *share;
    return PaletteEdit{std::move(palette), "share out colours"};
}

}  // namespace

std::optional<colour::Srgb> colour_wheel(const Ui& ui, const std::string& label, const colour::Srgb& colour,
                                         float width) {
    std::array<float, 3> rgb{static_cast<float>(colour.r), static_cast<float>(colour.g),
                             static_cast<float>(colour.b)};
    ImGui::SetNextItemWidth(width);
    const bool changed =
        ImGui::ColorPicker3(("##" + label).c_str(), rgb.data(),
                            ImGuiColorEditFlags_NoSidePreview | ImGuiColorEditFlags_NoInputs |
                                ImGuiColorEditFlags_NoLabel | ImGuiColorEditFlags_PickerHueWheel);
    mark(ui, label);
    if (!changed) return std::nullopt;
    return whole({rgb[0], rgb[1], rgb[2]});
}

std::optional<colour::Srgb> hex_field(const Ui& ui, const std::string& label, const colour::Srgb& colour,
                                      float width) {
    const auto typed = field(ui, label, colour::hex(colour), width, "e.g. dark blue");
    hover(ui, "A name such as dark blue, charcoal or teal, or # and six digits.");
    if (!typed) return std::nullopt;
    if (const auto bare = colour::parse_hex("#" + *typed)) return *bare;
    const auto read = colour::parse_colour(*typed);
    if (read) return *read;
    refuse(ui, read.error());
    return std::nullopt;
}

std::optional<ColourEdit> view_one_colour(const Ui& ui, const colour::Srgb& colour) {
    std::optional<ColourEdit> edit;
    if (const auto picked = colour_wheel(ui, "picker", colour, ui.px(250.0f)))
        edit = ColourEdit{*picked, true};
    row_label(ui, "Name", 64.0f);
    if (const auto typed = hex_field(ui, "hex", colour, ui.px(186.0f))) edit = ColourEdit{*typed, false};
    if (const auto typed = lab_field(ui, colour)) edit = ColourEdit{*typed, false};
    return edit;
}

std::optional<PaletteEdit> view_palette(const Ui& ui, const std::vector<Tint>& palette, std::size_t& tint) {
    if (palette.empty()) return std::nullopt;
    tint = std::min(tint, palette.size() - 1);
    std::optional<PaletteEdit> edit = tint_chips(ui, palette, tint);
    const std::size_t at = std::min(tint, palette.size() - 1);
    if (const auto colour = view_one_colour(ui, palette[at].colour)) {
        edit = PaletteEdit{palette, "change a colour", colour->dragging};
        edit->palette[at].colour = colour->colour;
    }
    std::size_t shared = at;
    if (auto share = share_field(ui, palette, shared)) {
        edit = std::move(share);
        tint = shared;
    }
    return edit;
}

}  // namespace battwright::window
