#include "app/bench/give_way.hpp"

#include <algorithm>
#include <cmath>

#include "app/bench/edits.hpp"
#include "recipe/composition.hpp"
#include "text/words.hpp"

namespace battwright::app {
namespace {

constexpr double step = 0.01;              // grams and percent
constexpr std::size_t longest_name = 200;  // that recipe::check() lets through

// Scales the chosen entries to sum to `room`; false when one of them would all but vanish.
bool scale_to(std::vector<double>& grams, const std::vector<bool>& chosen, double room) {
    double now = 0.0;
    std::size_t count = 0;
    for (std::size_t i = 0; i < grams.size(); ++i) {
        if (!chosen[i]) continue;
        now += grams[i];
        ++count;
    }
    if (count == 0 || room < least_grams * static_cast<double>(count)) return false;
    // A component that was squeezed to nothing comes back by an equal share of the least weight.
    const double spare = room - least_grams * static_cast<double>(count);
    const double excess = std::max(now - least_grams * static_cast<double>(count), 0.0);
    for (std::size_t i = 0; i < grams.size(); ++i) {
        if (!chosen[i]) continue;
        const bool proportional = now > 0.0 && grams[i] * room / now >= least_grams;
        grams[i] = proportional || excess <= 0.0
                       ? (now > 0.0 ? grams[i] * room / now : room / static_cast<double>(count))
                       : least_grams + std::max(grams[i] - least_grams, 0.0) * spare / excess;
    }
    return true;
}

// The free entries that sum exactly after proportional and squeezed ones were mixed.
void settle(std::vector<double>& grams, const std::vector<bool>& chosen, double room) {
    double now = 0.0;
    std::size_t largest = grams.size();
    for (std::size_t i = 0; i < grams.size(); ++i) {
        if (!chosen[i]) continue;
        now += grams[i];
        if (largest == grams.size() || grams[i] > grams[largest]) largest = i;
    }
    if (largest < grams.size()) grams[largest] += room - now;
}

// Rounds the values to the step so that their sum stays, none below the step.
std::vector<double> rounded(const std::vector<double>& values) {
    if (values.empty()) return values;
    auto result = measure::round_to_step(values, step);
    for (double& value : result) value = std::max(std::round(value / step) * step, step);
    // n * 0.01 in decimal: so that files read "12.35", not "12.350000000000001".
    for (double& value : result) value = std::round(value * 100.0) / 100.0;
    return result;
}

// Five figures are more than any scale weighs, and read well in a file.
double five_figures(double value) {
    const double scale = std::pow(10.0, 4.0 - std::floor(std::log10(value)));
    return std::round(value * scale) / scale;
}

// Shares what is left in the ratio of the weights; nothing changes when it is that already.
void write_parts(recipe::Recipe& recipe, const std::vector<double>& grams, double parts, double parts_grams) {
    bool changed = false;
    double least = 1.0;
    for (std::size_t i = 0; i < grams.size(); ++i) {
        const auto* share = std::get_if<recipe::Parts>(&recipe.components[i].amount);
        if (share == nullptr) continue;
        const double value = parts * grams[i] / parts_grams;
        changed = changed || std::abs(value - share->value) > 1e-9 * parts;
        least = std::min(least, value);
    }
    if (!changed) return;
    // A very small part is written as a whole hundredth and all others grow with it.
    const double scale = least < 0.01 ? 0.01 / least : 1.0;
    for (std::size_t i = 0; i < grams.size(); ++i) {
        auto* share = std::get_if<recipe::Parts>(&recipe.components[i].amount);
        if (share == nullptr) continue;
        const double value = scale * parts * grams[i] / parts_grams;
        share->value = std::clamp(five_figures(value), 0.001, 10000.0);
    }
}

}  // namespace

std::optional<std::vector<double>> grams_of(const recipe::Recipe& recipe) {
    if (recipe.components.empty()) return std::nullopt;
    auto masses = recipe::masses_of(recipe);
    if (!masses) return std::nullopt;
    const bool sound = std::all_of(masses->grams.begin(), masses->grams.end(),
                                   [](double grams) { return std::isfinite(grams) && grams > 0.0; });
    if (!sound) return std::nullopt;
    return masses->grams;
}

namespace {

// The components that are free to change and of which `also` is true.
template <class Also>
std::vector<bool> free_ones(const Sheet& sheet, std::size_t changed, Also also) {
    std::vector<bool> chosen;
    for (std::size_t i = 0; i < sheet.marks.size(); ++i)
        chosen.push_back(i != changed && !sheet.recipe.components[i].locked && also(i));
    return chosen;
}

}  // namespace

Turns untyped_turns(const Sheet& sheet, std::size_t changed) {
    const auto& components = sheet.recipe.components;
    return {
        free_ones(sheet, changed,
                  [&](std::size_t i) { return std::holds_alternative<recipe::Parts>(components[i].amount); }),
        free_ones(sheet, changed, [&](std::size_t i) { return sheet.marks[i].typed == 0; })};
}

Turns turns_of(const Sheet& sheet, std::size_t changed) {
    std::uint64_t last = 0;
    for (std::size_t i = 0; i < sheet.marks.size(); ++i) {
        if (i != changed && !sheet.recipe.components[i].locked) last = std::max(last, sheet.marks[i].typed);
    }
    Turns turns = untyped_turns(sheet, changed);
    turns.push_back(free_ones(sheet, changed, [&](std::size_t i) { return sheet.marks[i].typed < last; }));
    turns.push_back(free_ones(sheet, changed, [](std::size_t) { return true; }));
    return turns;
}

Turns all_at_once(const Sheet& sheet) {
    return {free_ones(sheet, sheet.marks.size(), [](std::size_t) { return true; })};
}

bool give_way(std::vector<double>& grams, const Turns& turns, double total_grams) {
    for (const auto& chosen : turns) {
        double room = total_grams;
        for (std::size_t i = 0; i < grams.size(); ++i) {
            if (!chosen[i]) room -= grams[i];
        }
        auto trial = grams;
        if (!scale_to(trial, chosen, room)) continue;
        settle(trial, chosen, room);
        if (std::any_of(trial.begin(), trial.end(), [](double value) { return value <= 0.0; })) continue;
        grams = std::move(trial);
        return true;
    }
    return false;
}

void write_back(recipe::Recipe& recipe, const std::vector<double>& grams, double total_grams,
                std::size_t exact) {
    double parts = 0.0, parts_grams = 0.0;
    std::vector<std::size_t> masses, percents;
    std::vector<double> new_grams, new_percents;
    for (std::size_t i = 0; i < grams.size(); ++i) {
        const auto& amount = recipe.components[i].amount;
        if (const auto* share = std::get_if<recipe::Parts>(&amount)) {
            parts += share->value;
            parts_grams += grams[i];
        } else if (i == exact || recipe.components[i].locked) {
            continue;
        } else if (const auto* mass = std::get_if<measure::Mass>(&amount)) {
            if (std::abs(mass->grams - grams[i]) < 1e-9) continue;
            masses.push_back(i);
            new_grams.push_back(grams[i]);
        } else if (std::abs(std::get<recipe::Percent>(amount).value - 100.0 * grams[i] / total_grams) >
                   1e-9) {
            percents.push_back(i);
            new_percents.push_back(100.0 * grams[i] / total_grams);
        }
    }
    new_grams = rounded(new_grams);
    for (std::size_t k = 0; k < masses.size(); ++k)
        std::get<measure::Mass>(recipe.components[masses[k]].amount).grams = new_grams[k];
    new_percents = rounded(new_percents);
    for (std::size_t k = 0; k < percents.size(); ++k)
        recipe.components[percents[k]].amount = recipe::Percent{new_percents[k]};
    if (parts_grams > 0.0) write_parts(recipe, grams, parts, parts_grams);
}

void tell_apart(const recipe::Recipe& recipe, recipe::Component& newcomer,
                bool (*alike)(const recipe::Component& other, const recipe::Component& newcomer)) {
    const std::string base = newcomer.name.empty() ? newcomer.content.front().fibre : newcomer.name;
    const auto taken = [&](const recipe::Component& other) { return alike(other, newcomer); };
    for (int number = 2; std::ranges::any_of(recipe.components, taken); ++number) {
        const std::string tail = " " + std::to_string(number);
        newcomer.name = text::cut(base, longest_name - tail.size());
        newcomer.name += tail;
    }
}

}  // namespace battwright::app
