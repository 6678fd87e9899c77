#include "app/yarn/yarn_edits.hpp"

#include <algorithm>
#include <cmath>

#include "app/shelf/shelf_choice.hpp"
#include "app/yarn/yarn_words.hpp"
#include "measure/count.hpp"
#include "recipe/file.hpp"
#include "recipe/kinds.hpp"
#include "recipe/purpose.hpp"
#include "recipe/thickness.hpp"
#include "stash/mixture_words.hpp"
#include "text/words.hpp"
#include "yarn/forecast.hpp"

namespace battwright::app {
namespace {

using recipe::Plying;
using recipe::Spinning;

constexpr double most_yarn_grams = 1e6;  // far past any wheel

// The sheet with one thing of its plan changed.
template <class Change>
Sheet with(Sheet sheet, const Change& change) {
    change(sheet.recipe.spinning);
    sheet.recipe.spinning_written = true;
    return sheet;
}

measure::Expected<Sheet> judged(Sheet sheet) {
    if (auto sound = check_plan(sheet.recipe.spinning); !sound) return tl::unexpected(sound.error());
    return sheet;
}

bool is_bare_number(std::string_view text) {
    return !text.empty() && text.find_first_not_of("0123456789. ") == std::string_view::npos;
}

}  // namespace

recipe::Thread starting_thread() {
    return {starting_thread_tex, starting_thread_m};
}

Sheet set_preparation(Sheet sheet, recipe::Preparation preparation) {
    return with(std::move(sheet), [&](Spinning& plan) { plan.preparation = preparation; });
}

Sheet set_thickness(Sheet sheet, recipe::Thickness thickness) {
    return with(std::move(sheet), [&](Spinning& plan) { plan.thickness = std::move(thickness); });
}

Sheet set_wraps(Sheet sheet, double wpi) {
    return set_thickness(std::move(sheet), {recipe::ThicknessIn::wpi,
                                            std::clamp(wpi, yarn::least_wpi, yarn::most_wpi), std::string()});
}

Sheet set_plies(Sheet sheet, int plies) {
    return with(set_plying(std::move(sheet), Plying::plied),
                [&](Spinning& plan) { plan.plies = std::clamp(plies, 1, yarn::most_plies); });
}

Sheet set_plying(Sheet sheet, Plying plying) {
    return with(std::move(sheet), [&](Spinning& plan) {
        plan.plying = plying;
        if (plying != Plying::plied) plan.plies = Spinning{}.plies;
        if (plying == Plying::with_thread && !plan.thread) plan.thread = starting_thread();
        if (plying != Plying::with_thread && plan.thread == starting_thread()) plan.thread.reset();
    });
}

Sheet set_twist(Sheet sheet, recipe::Twist twist) {
    return with(std::move(sheet), [&](Spinning& plan) { plan.twist = twist; });
}

Sheet set_thread(Sheet sheet, std::optional<recipe::Thread> thread) {
    return with(std::move(sheet), [&](Spinning& plan) {
        if (!thread && plan.plying == Plying::with_thread) plan.plying = Plying::plied;
        plan.thread = std::move(thread);
    });
}

Sheet set_wheel_ratio(Sheet sheet, std::optional<double> ratio) {
    return with(std::move(sheet), [&](Spinning& plan) { plan.wheel_ratio = ratio; });
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
    return judged(set_thickness(sheet, *thickness));
}

measure::Expected<Sheet> type_wheel_ratio(const Sheet& sheet, std::string_view text) {
    if (text::is_blank(text)) return set_wheel_ratio(sheet, std::nullopt);
    const auto ratio = recipe::parse_wheel_ratio(text);
    if (!ratio) return tl::unexpected(ratio.error());
    return judged(set_wheel_ratio(sheet, *ratio));
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
    return judged(set_thread(sheet, thread));
}

measure::Expected<Sheet> type_thread_length(const Sheet& sheet, std::string_view text,
                                            measure::YarnLengthUnit unit) {
    const auto metres = parse_yarn_metres(text, unit);
    if (!metres) return tl::unexpected(metres.error());
    recipe::Thread thread = sheet.recipe.spinning.thread.value_or(starting_thread());
    thread.length_m = *metres;
    return judged(set_thread(sheet, thread));
}

std::vector<std::string> sizes_of(std::string_view thing) {
    return recipe::purpose_sizes(thing);
}

Sheet set_purpose_thing(Sheet sheet, std::string_view thing) {
    recipe::Purpose& purpose = sheet.recipe.purpose;
    const bool as_usual = sheet.recipe.spinning.twist == recipe::usual_twist(purpose);
    purpose.thing = thing;
    if (as_usual) sheet.recipe.spinning.twist = recipe::usual_twist(purpose);
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
    if (text::is_blank(text)) return set_thread(sheet, thread);
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
