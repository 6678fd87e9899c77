#include "app/yarn/yarn_edits.hpp"

#include <algorithm>
#include <cmath>

#include "app/shelf/shelf_choice.hpp"
#include "measure/count.hpp"
#include "recipe/file.hpp"
#include "recipe/kinds.hpp"
#include "recipe/thickness.hpp"
#include "stash/mixture_words.hpp"
#include "yarn/forecast.hpp"

namespace battwright::app {
namespace {

using recipe::Plying;
using recipe::Spinning;

constexpr double most_yarn_grams = 1e6;  // far past any wheel

Sheet with(Sheet sheet, Spinning spinning) {
    sheet.recipe.spinning = std::move(spinning);
    sheet.recipe.spinning_written = true;
    return sheet;
}

measure::Expected<Sheet> judged(const Sheet& sheet, const Spinning& spinning) {
    if (auto sound = check_plan(spinning); !sound) return tl::unexpected(sound.error());
    return with(sheet, spinning);
}

bool is_bare_number(std::string_view text) {
    return !text.empty() && text.find_first_not_of("0123456789. ") == std::string_view::npos;
}

}  // namespace

recipe::Thread starting_thread() {
    return {starting_thread_tex, starting_thread_m};
}

Sheet set_preparation(Sheet sheet, recipe::Preparation preparation) {
    Spinning spinning = sheet.recipe.spinning;
    spinning.preparation = preparation;
    return with(std::move(sheet), spinning);
}

Sheet set_thickness(Sheet sheet, recipe::Thickness thickness) {
    Spinning spinning = sheet.recipe.spinning;
    spinning.thickness = std::move(thickness);
    return with(std::move(sheet), spinning);
}

Sheet set_wraps(Sheet sheet, double wpi) {
    return set_thickness(std::move(sheet), {recipe::ThicknessIn::wpi,
                                            std::clamp(wpi, yarn::least_wpi, yarn::most_wpi), std::string()});
}

Sheet set_plies(Sheet sheet, int plies) {
    Spinning spinning = set_plying(sheet, Plying::plied).recipe.spinning;
    spinning.plies = std::clamp(plies, 1, yarn::most_plies);
    return with(std::move(sheet), spinning);
}

Sheet set_plying(Sheet sheet, Plying plying) {
    Spinning spinning = sheet.recipe.spinning;
    spinning.plying = plying;
    if (plying != Plying::plied) spinning.plies = Spinning{}.plies;
    if (plying == Plying::with_thread && !spinning.thread) spinning.thread = starting_thread();
    if (plying != Plying::with_thread && spinning.thread == starting_thread()) spinning.thread.reset();
    return with(std::move(sheet), spinning);
}

Sheet set_twist(Sheet sheet, recipe::Twist twist) {
    Spinning spinning = sheet.recipe.spinning;
    spinning.twist = twist;
    return with(std::move(sheet), spinning);
}

Sheet set_thread(Sheet sheet, std::optional<recipe::Thread> thread) {
    Spinning spinning = sheet.recipe.spinning;
    if (!thread && spinning.plying == Plying::with_thread) spinning.plying = Plying::plied;
    spinning.thread = thread;
    return with(std::move(sheet), spinning);
}

Sheet set_wheel_ratio(Sheet sheet, std::optional<double> ratio) {
    Spinning spinning = sheet.recipe.spinning;
    spinning.wheel_ratio = ratio;
    return with(std::move(sheet), spinning);
}

// The reader of recipes is asked, so that nothing can be typed here that a file may not say. It wants a whole
// recipe; this one has nothing else to complain of.
measure::Expected<void> check_plan(const Spinning& spinning) {
    recipe::Recipe plain;
    plain.name = "plan";
    const auto& catalogue = fibre::Catalogue::builtin();
    recipe::Component component;
    component.content = {{catalogue.kinds().front().id, 100.0}};
    component.amount = measure::Mass{100.0, measure::MassUnit::gram};
    plain.components = {component};
    plain.spinning = spinning;
    // Judged when it is typed, against the user's own catalogue.
    if (plain.spinning.thread) plain.spinning.thread->content.clear();
    return recipe::check(plain, catalogue);
}

measure::Expected<Sheet> type_thickness(const Sheet& sheet, std::string_view text) {
    const auto thickness =
        recipe::parse_thickness(is_bare_number(text) ? std::string(text) + " wpi" : std::string(text));
    if (!thickness) return tl::unexpected(thickness.error());
    return judged(sheet, set_thickness(sheet, *thickness).recipe.spinning);
}

measure::Expected<Sheet> type_wheel_ratio(const Sheet& sheet, std::string_view text) {
    if (text.find_first_not_of(' ') == std::string_view::npos) return set_wheel_ratio(sheet, std::nullopt);
    const auto ratio = recipe::parse_wheel_ratio(text);
    if (!ratio) return tl::unexpected(ratio.error());
    return judged(sheet, set_wheel_ratio(sheet, *ratio).recipe.spinning);
}

measure::Expected<double> type_yarn_weight(std::string_view text, measure::MassUnit unit) {
    const auto mass = parse_weight(text, unit);
    if (!mass) return tl::unexpected(mass.error());
    if (mass->grams > 0.0 && mass->grams <= most_yarn_grams) return mass->grams;
    return tl::unexpected(measure::Complaint{"yarn cannot weigh " + measure::print_mass(mass->grams, unit),
                                             "write what the skein weighs, washed and dry, as in 92 g",
                                             "yarn weight"});
}

measure::Expected<Sheet> type_thread_count(const Sheet& sheet, std::string_view text) {
    const auto count = measure::parse_count(text);
    if (!count) return tl::unexpected(count.error());
    recipe::Thread thread = sheet.recipe.spinning.thread.value_or(starting_thread());
    thread.tex = measure::tex_of(*count);
    return judged(sheet, set_thread(sheet, thread).recipe.spinning);
}

measure::Expected<Sheet> type_thread_length(const Sheet& sheet, std::string_view text,
                                            measure::YarnLengthUnit unit) {
    const char* usual = unit == measure::YarnLengthUnit::yard ? " yd" : " m";
    const auto metres = measure::parse_yarn_length_metres(is_bare_number(text) ? std::string(text) + usual
                                                                               : std::string(text));
    if (!metres) return tl::unexpected(metres.error());
    recipe::Thread thread = sheet.recipe.spinning.thread.value_or(starting_thread());
    thread.length_m = *metres;
    return judged(sheet, set_thread(sheet, thread).recipe.spinning);
}

std::vector<std::string> sizes_of(std::string_view thing) {
    return recipe::purpose_sizes(thing);
}

Sheet set_purpose_thing(Sheet sheet, std::string_view thing) {
    recipe::Purpose& purpose = sheet.recipe.purpose;
    purpose.thing = thing;
    const auto sizes = sizes_of(thing);
    if (std::ranges::find(sizes, purpose.size) == sizes.end()) purpose.size.clear();
    return sheet;
}

Sheet set_purpose_size(Sheet sheet, std::string_view size) {
    sheet.recipe.purpose.size = size;
    return sheet;
}

Sheet set_next_to_skin(Sheet sheet, std::optional<bool> next_to_skin) {
    sheet.recipe.purpose.next_to_skin = next_to_skin;
    return sheet;
}

measure::Expected<Sheet> type_thread_content(const Sheet& sheet, std::string_view text,
                                             const fibre::Catalogue& catalogue) {
    recipe::Thread thread = sheet.recipe.spinning.thread.value_or(starting_thread());
    thread.content.clear();
    if (text.find_first_not_of(' ') == std::string_view::npos) return set_thread(sheet, thread);
    auto content = stash::parse_content(text);
    if (!content) return tl::unexpected(content.error());
    recipe::settle_kinds(*content, catalogue);
    for (const recipe::Content& each : *content) {
        if (catalogue.find(each.fibre) != nullptr) continue;
        measure::Complaint unknown = fibre::unknown_kind(each.fibre, catalogue);
        unknown.where = "thread fibre";
        return tl::unexpected(std::move(unknown));
    }
    double sum_pct = 0.0;
    for (const recipe::Content& each : *content) sum_pct += each.share_pct;
    if (std::abs(sum_pct - 100.0) > 0.01)
        return tl::unexpected(
            measure::Complaint{"the shares come to " + measure::write_number(sum_pct) + " %",
                               "make them sum to 100 %", "thread fibre"});
    thread.content = std::move(*content);
    return set_thread(sheet, thread);
}

}  // namespace battwright::app
