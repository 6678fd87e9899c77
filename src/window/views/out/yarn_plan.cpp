// The plan: preparation, thickness, plying, twist, wheel.
#include <array>
#include <cmath>

#include "app/bench/bench_actions.hpp"
#include "app/bench/disagreement.hpp"
#include "app/bench/sheet.hpp"
#include "app/settings.hpp"
#include "app/state.hpp"
#include "app/yarn/yarn_edits.hpp"
#include "forecast/forecast.hpp"
#include "recipe/thickness.hpp"
#include "stash/mixture_words.hpp"
#include "window/kit/palette.hpp"
#include "window/kit/widgets.hpp"
#include "window/views/out/yarn.hpp"
#include "yarn/habit_words.hpp"
#include "yarn/spin.hpp"

namespace battwright::window {
namespace {

using recipe::Plying;
using recipe::Spinning;

constexpr float column = 92.0f;  // design pixels of the words before the controls

void row(const Ui& ui, std::string_view words, std::string_view meaning = {}) {
    beside(ui, words);
    hover(ui, meaning);
    ImGui::SameLine(ui.px(column));
}

void take(const Ui& ui, const measure::Expected<Sheet>& sheet, const char* what) {
    if (sheet)
        ui.ask.edit(*sheet, what);
    else
        refuse(ui, sheet.error());
}

// One of several ways side by side, each with its own hover text.
bool way(const Ui& ui, const std::string& name, const std::string& words, bool chosen,
         std::string_view meaning) {
    const bool pressed = button(ui, words + "##" + name, chosen ? Tone::on : Tone::plain, 0.0f, meaning);
    ImGui::SameLine(0.0f, ui.px(3.0f));
    return pressed && !chosen;
}

void preparation(const Ui& ui, const Sheet& sheet) {
    row(ui, "Spun");
    for (const auto& [each, name, help] : recipe::preparations) {
        const std::string word(name);
        if (way(ui, "preparation " + word, word, sheet.recipe.spinning.preparation == each, help))
            ui.ask.edit(set_preparation(sheet, each), "change the preparation");
    }
    ImGui::NewLine();
}

// What her own hands make of wraps wanted.
void aim(const Ui& ui, const yarn::YarnForecast* forecast) {
    const std::string words = forecast != nullptr ? yarn::plan_words(*forecast) : std::string();
    if (words.empty()) return;
    ImGui::Indent(ui.px(column));
    paragraph(ui, words, ui.theme.ink);
    mark(ui, "aim");
    ImGui::Unindent(ui.px(column));
}

// What stands against the plan, under the field it is about.
void about(const Ui& ui, const Sheet& sheet, const std::vector<YarnFinding>& findings,
           YarnFinding::About what) {
    for (const auto& finding : findings)
        if (finding.about == what) view_yarn_finding(ui, sheet, finding);
}

void plies(const Ui& ui, const Sheet& sheet) {
    const Spinning& spinning = sheet.recipe.spinning;
    if (spinning.plying != Plying::plied || spinning.plies == 1) return;
    ImGui::SameLine(0.0f, ui.px(22.0f));
    text_in(ui, ui.fonts.body, ui.theme.quiet, "Plies");
    ImGui::SameLine();
    if (const auto plies = stepper(ui, "plies", spinning.plies, 2, yarn::most_plies))
        ui.ask.edit(set_plies(sheet, *plies), "change the plies");
}

void thickness(const Ui& ui, const Sheet& sheet) {
    row(ui, "Thickness");
    const std::string shown = recipe::write_thickness(sheet.recipe.spinning.thickness);
    const auto typed = field(ui, "thickness", shown, ui.px(130.0f), "e.g. 12 wpi");
    hover(
        ui,
        "Of the finished yarn: wraps per inch (12 wpi), tex (200 tex) or a name: lace to jumbo, sport, DK, "
        "aran, 4-ply and so on. \u201cworsted\u201d is a weight here, no way of spinning. Or drag along the "
        "curve.");
    if (typed) take(ui, type_thickness(sheet, *typed), "change the thickness");
}

struct Way {
    Plying plying;
    bool single;
    const char *name, *words, *meaning;
};
constexpr std::array ways{
    Way{Plying::plied, true, "single", "single", "The single as it is."},
    Way{Plying::plied, false, "plied", "plied", "Singles of the same batt wound round each other."},
    Way{Plying::chain, false, "chain", "chain",
        "Three strands looped from one single; the colours stay in order."},
    Way{Plying::barber_pole, false, "two halves", "two halves",
        "The batt parted down its middle, each half spun by itself, then plied: a barber pole."},
    Way{Plying::with_thread, false, "thread", "thread", "One single plied with a bought thread."},
};

static_assert(ways.size() == recipe::plyings.size() + 1);  // the single is plied with itself alone

bool is_planned(const Way& each, const Spinning& spinning) {
    return each.plying == spinning.plying &&
           (each.plying != Plying::plied || each.single == (spinning.plies == 1));
}

void plying(const Ui& ui, const Sheet& sheet) {
    const Spinning& spinning = sheet.recipe.spinning;
    row(ui, "Made up");
    for (const Way& each : ways) {
        if (!way(ui, std::string("plying ") + each.name, each.words, is_planned(each, spinning),
                 each.meaning))
            continue;
        if (each.plying == Plying::plied)
            ui.ask.edit(set_plies(sheet, each.single ? 1 : 2), "change the plying");
        else
            ui.ask.edit(set_plying(sheet, each.plying), "change the plying");
    }
    ImGui::NewLine();
}

void thread_colour(const Ui& ui, const Sheet& sheet, recipe::Thread thread) {
    const colour::Srgb undyed{0.93, 0.9, 0.83};
    const colour::Srgb now = thread.colour.value_or(undyed);
    const float side = ImGui::GetFrameHeight();
    const ImVec2 at = ImGui::GetCursorScreenPos();
    if (ImGui::InvisibleButton("thread colour", {side, side})) ImGui::OpenPopup("thread picker");
    mark(ui, "thread colour");
    hover(ui, thread.colour ? "The colour of the thread, " + colour::hex(now) : "The thread is undyed.");
    const bool focused = ImGui::IsItemFocused();
    ImDrawList& list = *ImGui::GetWindowDrawList();
    list.AddRectFilled(at, {at.x + side, at.y + side}, u32(now), ui.px(7.0f));
    list.AddRect(at, {at.x + side, at.y + side}, u32(focused ? ui.theme.accent : ui.theme.edge), ui.px(7.0f),
                 0, ui.px(focused ? 2.5f : 1.0f));
    if (!ImGui::BeginPopup("thread picker")) return;
    auto chosen = colour_wheel(ui, "thread picker", now, ui.px(230.0f));
    const bool dragging = chosen.has_value();
    if (const auto typed = hex_field(ui, "thread hex", now, ui.px(230.0f))) chosen = typed;
    if (chosen) {
        thread.colour = chosen;
        ui.ask.edit(set_thread(sheet, thread), "colour the thread", dragging);
    }
    if (thread.colour && button(ui, "Undyed##thread undyed", Tone::plain, ui.px(230.0f))) {
        thread.colour.reset();
        ui.ask.edit(set_thread(sheet, thread), "leave the thread undyed");
    }
    ImGui::EndPopup();
}

void thread(const Ui& ui, const Sheet& sheet) {
    const Spinning& spinning = sheet.recipe.spinning;
    if (spinning.plying != Plying::with_thread) return;
    const recipe::Thread held = spinning.thread.value_or(starting_thread());
    row(ui, "Thread", "What it says on the cone.");
    const std::string tex = measure::print_number(held.tex, 1) + " tex";
    if (const auto typed = field(ui, "thread count", tex, ui.px(112.0f), "e.g. 2/28 Nm"))
        take(ui, type_thread_count(sheet, *typed), "change the thread");
    hover(ui, "Its count: tex, Nm, Ne, worsted, or yards per pound, as in 2/28 Nm.");
    ImGui::SameLine();
    const std::string metres = print_metres(held.length_m, ui.settings);
    if (const auto typed = field(ui, "thread length", metres, ui.px(104.0f),
                                 example_of(ui.settings.length, "e.g. 400 m", "e.g. 440 yd")))
        take(ui, type_thread_length(sheet, *typed, yarn_length_unit(ui.settings)), "change the thread");
    hover(ui, "How much of it there is, in metres or yards.");
    ImGui::SameLine();
    thread_colour(ui, sheet, held);
    row(ui, "", "");
    if (const auto typed = field(ui, "thread fibre", stash::write_content(held.content),
                                 ImGui::GetContentRegionAvail().x, "its fibre, as in cotton"))
        take(ui, type_thread_content(sheet, *typed, ui.catalogue), "say what the thread is of");
    hover(ui,
          "What it is spun from, by the catalogue's ids: cotton, or merino-fine 80 %; nylon 20 %. The yarn's "
          "content label counts it.");
}

void twist(const Ui& ui, const Sheet& sheet, const yarn::YarnForecast* forecast) {
    row(ui, "Twist");
    for (const auto& [each, name] : recipe::twists) {
        const std::string word(name);
        const auto range = yarn::range_of(each);
        const auto degrees = [](double value) { return measure::write_number(value) + "\u00b0"; };
        if (way(ui, "twist " + word, word, sheet.recipe.spinning.twist == each,
                "Surface fibres " + degrees(range.from_degrees) + " to " + degrees(range.to_degrees) +
                    " off the length of the yarn (common practice, no source)."))
            ui.ask.edit(set_twist(sheet, each), "change the twist");
    }
    const auto range = yarn::range_of(sheet.recipe.spinning.twist);
    std::string words = measure::write_number(range.from_degrees) + " to " +
                        measure::write_number(range.to_degrees) + "\u00b0";
    if (forecast != nullptr && forecast->length_m > 0.0)
        words += ", here " + measure::write_number(std::round(forecast->twist_angle_degrees)) + "\u00b0";
    ImGui::SameLine(0.0f, ui.px(10.0f));
    text_within(ui, ui.fonts.body, ui.theme.quiet, words, ImGui::GetContentRegionAvail().x);
}

void wheel(const Ui& ui, const Sheet& sheet, const yarn::YarnForecast* forecast) {
    row(ui, "Wheel", "The ratio of your wheel: turns of the flyer for one of the wheel.");
    const auto& ratio = sheet.recipe.spinning.wheel_ratio;
    const auto typed = field(ui, "wheel ratio", ratio ? measure::write_number(*ratio) + ":1" : std::string(),
                             ui.px(130.0f), "e.g. 8.5:1");
    hover(ui, "Turns of the flyer for one of the wheel, as in 8.5:1. Empty: no wheel is named.");
    if (typed) take(ui, type_wheel_ratio(sheet, *typed), "change the wheel");
    ImGui::SameLine(0.0f, ui.px(10.0f));
    const std::string treadles = forecast != nullptr ? print_treadles(*forecast, ui.settings) : "";
    text_within(ui, ui.fonts.body, treadles.empty() ? ui.theme.quiet : ui.theme.ink,
                treadles.empty() ? "names the treadles for the twist" : "treadles: " + treadles,
                ImGui::GetContentRegionAvail().x);
    mark(ui, "treadles");
}

}  // namespace

void view_yarn_weighed(const Ui& ui, const forecast::Forecast& forecast) {
    const yarn::YarnForecast& yarn = forecast.yarn;
    if (!(yarn.yarn_grams > 0.0)) return;
    const auto& grams = ui.app.yarn_grams;
    row(ui, "Weighed", "The lengths are for the recipe's fibre, or for yarn that is spun already.");
    if (const auto what = choices(ui, "weighed", {"the fibre", "the yarn"}, grams ? 1 : 0, ui.px(92.0f)))
        ui.ask.act(WeighYarn{*what == 1 ? std::optional(yarn.yarn_grams) : std::nullopt});
    ImGui::SameLine(0.0f, ui.px(10.0f));
    if (grams) {
        if (const auto typed = field(ui, "yarn weight", mass(ui, *grams), ui.px(96.0f),
                                     example_of(ui.settings.mass, "92 g", "3.2 oz"))) {
            if (const auto weight = type_yarn_weight(*typed, ui.settings.mass))
                ui.ask.act(WeighYarn{*weight});
            else
                ui.ask.complain(weight.error());
        }
        hover(ui, "What the finished yarn weighs, washed and dry. It is not part of the recipe.");
        ImGui::SameLine(0.0f, ui.px(10.0f));
    }
    const std::string rest = grams
                                 ? "of about " + mass(ui, yarn.batt_grams / forecast.batt_share) + " of fibre"
                                 : "about " + mass(ui, yarn.yarn_grams) + " of yarn";
    text_within(ui, ui.fonts.body, ui.theme.quiet, rest, ImGui::GetContentRegionAvail().x);
}

void view_yarn_plan(const Ui& ui, const Sheet& sheet, const yarn::YarnForecast* forecast,
                    const std::vector<YarnFinding>& findings) {
    ImGui::PushStyleVar(ImGuiStyleVar_ItemSpacing, {ui.px(8.0f), ui.px(4.0f)});
    preparation(ui, sheet);
    thickness(ui, sheet);
    plies(ui, sheet);
    aim(ui, forecast);
    about(ui, sheet, findings, YarnFinding::About::thickness);
    plying(ui, sheet);
    thread(ui, sheet);
    about(ui, sheet, findings, YarnFinding::About::thread);
    twist(ui, sheet, forecast);
    wheel(ui, sheet, forecast);
    ImGui::PopStyleVar();
}

}  // namespace battwright::window
