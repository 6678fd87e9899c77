// What is wanted: bits used up, a colour reached.
#include <algorithm>
#include <cmath>

#include "app/find/find_choice.hpp"
#include "colour/spaces.hpp"
#include "window/kit/palette.hpp"
#include "window/kit/widgets.hpp"
#include "window/views/find/find.hpp"
#include "window/views/views.hpp"

namespace battwright::window {
namespace {

void use_up(const Ui& ui, FindChoice& choice) {
    find_row(ui, "Use up");
    choose(ui, "use up", {"nothing", "scraps", "all chosen"}, choice.use_up);
    find_trouble(ui, "use up");
    if (choice.use_up == UseUpWhat::nothing) return;
    find_row(ui, "  counted");
    choose(ui, "use up by", {"by weight", "oldest", "most bags"}, choice.by);
    hover(ui, "By weight; the oldest before the rest; or as many bags finished as can be, smallest first");
}

std::string hex_and_lab(const colour::Srgb& colour) {
    const colour::Lab lab = colour::lab(colour);
    const auto whole = [](double value) { return std::to_string(static_cast<int>(std::lround(value))); };
    return colour::hex(colour) + "  Lab " + whole(lab.l) + ", " + whole(lab.a) + ", " + whole(lab.b);
}

// A chip of a colour that is taken by pressing it.
bool chip(const Ui& ui, const std::string& label, const std::vector<colour::Srgb>& colours,
          const std::vector<double>& shares, std::string_view words) {
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const ImVec2 size{ui.px(46.0f), ui.px(32.0f)};
    const bool pressed = ImGui::InvisibleButton(label.c_str(), size);
    mark(ui, label);
    const bool live = ImGui::IsItemHovered() || ImGui::IsItemFocused();
    draw_wisp(*ImGui::GetWindowDrawList(), at, {at.x + size.x, at.y + size.y}, colours, shares, 7u,
              live ? ui.theme.accent : ui.theme.edge);
    hover(ui, words);
    return pressed;
}

// The batt's own colours: as a whole, and of each of its fibres.
void bench_colours(const Ui& ui, const FindSubject& subject, WantedColour& wanted) {
    if (!subject.outcome.forecast) return;
    const auto& forecast = *subject.outcome.forecast;
    text_in(ui, ui.fonts.body, ui.theme.quiet, "From the bench");
    if (chip(ui, "take batt colour", {forecast.colour.srgb}, {1.0}, "The batt's own colour"))
        wanted = wanted_of(forecast.colour.reflectance);
    constexpr std::size_t most = 9, a_row = 5;
    for (std::size_t i = 0; i < std::min(most, forecast.components.size()); ++i) {
        if ((i + 1) % a_row != 0) ImGui::SameLine(0.0f, ui.px(5.0f));
        const auto& line = forecast.components[i];
        std::string label("take colour ");
        label += std::to_string(i + 1);
        if (chip(ui, label, {line.srgb}, {1.0}, line.label)) wanted = wanted_of(line.reflectance);
    }
}

void picker(const Ui& ui, FindState& state, const FindSubject& subject) {
    if (!ImGui::BeginPopup("find colour")) return;
    WantedColour& wanted = state.far_end ? state.choice.far_end : state.choice.target;
    if (const auto edit = view_one_colour(ui, wanted.colour)) wanted = {edit->colour, {}};
    if (button(ui, "From a photo\u2026##find photo", Tone::plain, ui.px(250.0f)))
        ImGui::OpenPopup("photo card");
    if (const auto picked = view_one_pick(ui, state.picks, PhotoOf::find_target)) wanted = {*picked, {}};
    bench_colours(ui, subject, wanted);
    ImGui::EndPopup();
}

void colour_button(const Ui& ui, FindState& state, const std::string& label, const WantedColour& wanted,
                   bool far_end) {
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const ImVec2 size{ui.px(58.0f), ImGui::GetFrameHeight()};
    if (ImGui::InvisibleButton(label.c_str(), size)) {
        state.far_end = far_end;
        ImGui::OpenPopup("find colour");
    }
    mark(ui, label);
    hover(ui, "Pick it, take it from a photo, or from the bench");
    swatch(ui, wanted.colour, at, {at.x + size.x, at.y + size.y});
    if (ImGui::IsItemHovered() || ImGui::IsItemFocused())
        ImGui::GetWindowDrawList()->AddRect(at, {at.x + size.x, at.y + size.y}, u32(ui.theme.accent), 0.0f, 0,
                                            ui.px(2.0f));
    ImGui::SameLine();
    ImGui::AlignTextToFramePadding();
    text_within(ui, ui.fonts.body, ui.theme.ink, hex_and_lab(wanted.colour),
                ImGui::GetContentRegionAvail().x);
}

}  // namespace

void view_find_goal(const Ui& ui, FindState& state, const FindSubject& subject) {
    FindChoice& choice = state.choice;
    use_up(ui, choice);
    find_row(ui, "Colour");
    choose(ui, "find colour", {"any", "this one", "from, to"}, choice.colour);
    find_trouble(ui, "goal");
    if (choice.colour == FindColour::any) return;
    find_row(ui, choice.colour == FindColour::gradient ? "  from" : "");
    colour_button(ui, state, "find target", choice.target, false);
    if (choice.colour == FindColour::gradient) {
        find_row(ui, "  to");
        colour_button(ui, state, "find far end", choice.far_end, true);
        find_row(ui, "  in");
        edit_count(ui, "find steps", choice.steps, 2, most_steps);
        ImGui::SameLine();
        text_in(ui, ui.fonts.body, ui.theme.quiet, "batts");
    }
    picker(ui, state, subject);
}

}  // namespace battwright::window
