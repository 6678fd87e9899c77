#include "app/bench/attempts.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "app/bench/edits.hpp"
#include "app/bench/give_way.hpp"

namespace battwright::app {
namespace {

using measure::Mass;
using recipe::Parts;
using recipe::Percent;

template <class Kind>
bool is_in(const recipe::Component& component) {
    return std::holds_alternative<Kind>(component.amount);
}

}  // namespace

double sum_of(const Grams& values) {
    return std::accumulate(values.begin(), values.end(), 0.0);
}

Mass rounded_total(const Sheet& sheet, double grams) {
    return {std::round(grams * 100.0) / 100.0,
            sheet.recipe.total ? sheet.recipe.total->unit : measure::MassUnit::gram};
}

void just_typed(Sheet& sheet, std::size_t index) {
    std::uint64_t last = 0;
    for (const Mark& mark : sheet.marks) last = std::max(last, mark.typed);
    sheet.marks[index].typed = last + 1;
}

namespace {

// The weights into the recipe, which states its total from now on.
Sheet written(Sheet sheet, const Grams& grams, double total, std::size_t exact) {
    if (!sheet.recipe.total) sheet.recipe.total = rounded_total(sheet, total);
    write_back(sheet.recipe, grams, total, exact);
    return sheet;
}

}  // namespace

std::optional<Sheet> with_total_following(Sheet sheet, Grams grams, std::size_t index, bool typed) {
    double percent = 0.0, weights = 0.0;
    std::vector<bool> by_share(grams.size());
    for (std::size_t i = 0; i < grams.size(); ++i) {
        const auto& component = sheet.recipe.components[i];
        const auto* share = std::get_if<Percent>(&component.amount);
        by_share[i] =
            share != nullptr && (i == index || component.locked || (typed && sheet.marks[i].typed > 0));
        if (by_share[i])
            percent += share->value;
        else
            weights += grams[i];
    }
    if (!(weights > 0.0) || percent >= 99.995) return std::nullopt;
    const double total = weights / (1.0 - percent / 100.0);
    for (std::size_t i = 0; i < grams.size(); ++i) {
        if (by_share[i])
            grams[i] = total * std::get<Percent>(sheet.recipe.components[i].amount).value / 100.0;
    }
    sheet.recipe.total = rounded_total(sheet, total);
    write_back(sheet.recipe, grams, total, index);
    if (!grams_of(sheet.recipe)) return std::nullopt;
    return sheet;
}

namespace {

// Component `index` has changed to its weight in `grams`: the rest gives way. Nothing when nothing can.
std::optional<Sheet> settled(const Sheet& sheet, const Grams& grams, std::size_t index, double total) {
    if (std::abs(sum_of(grams) - total) < 0.005) return written(sheet, grams, total, index);
    Grams shared = grams;
    if (!sheet.total_held) {
        if (give_way(shared, untyped_turns(sheet, index), total)) return written(sheet, shared, total, index);
        if (auto follows = with_total_following(sheet, grams, index, true)) return follows;
    }
    if (give_way(shared, turns_of(sheet, index), total)) return written(sheet, shared, total, index);
    if (!sheet.total_held) return with_total_following(sheet, grams, index, false);
    return std::nullopt;
}

// Parts beside a locked part are parts of its weight.
std::optional<Sheet> with_parts_of_locked(Sheet sheet, std::size_t index, double parts) {
    const auto grams = grams_of(sheet.recipe);
    if (!grams) return std::nullopt;
    Grams target = *grams;
    for (std::size_t i = 0; i < target.size(); ++i) {
        const auto& component = sheet.recipe.components[i];
        if (i == index || !component.locked || !is_in<Parts>(component)) continue;
        target[index] = (*grams)[i] * parts / std::get<Parts>(component.amount).value;
        break;
    }
    just_typed(sheet, index);
    sheet.recipe.components[index].amount = Parts{parts};
    return settled(sheet, target, index, sum_of(*grams));
}

}  // namespace

std::optional<Sheet> with_weight(Sheet sheet, std::size_t index, const Mass& weight) {
    const auto grams = grams_of(sheet.recipe);
    const bool alone = sheet.recipe.components.size() == 1;
    just_typed(sheet, index);
    if (grams && alone && sheet.recipe.total) sheet.recipe.total = weight;
    sheet.recipe.components[index].amount = weight;
    if (!grams || alone || (!sheet.recipe.total && grams_of(sheet.recipe))) return sheet;
    Grams target = *grams;
    target[index] = weight.grams;
    return settled(sheet, target, index, sum_of(*grams));
}

std::optional<Sheet> with_percent(Sheet sheet, std::size_t index, double percent) {
    const auto grams = grams_of(sheet.recipe);
    just_typed(sheet, index);
    sheet.recipe.components[index].amount = Percent{percent};
    if (!grams) return sheet;
    Grams target = *grams;
    target[index] = sum_of(*grams) * percent / 100.0;
    return settled(sheet, target, index, sum_of(*grams));
}

std::optional<Sheet> freed_total(Sheet sheet, std::size_t index, const recipe::Amount& amount) {
    auto grams = grams_of(sheet.recipe);
    if (!grams) return std::nullopt;
    just_typed(sheet, index);
    sheet.recipe.components[index].amount = amount;
    if (const auto* mass = std::get_if<Mass>(&amount)) (*grams)[index] = mass->grams;
    return with_total_following(std::move(sheet), *grams, index, false);
}

std::optional<Sheet> with_new(Sheet sheet, const recipe::Component& newcomer) {
    const auto grams = grams_of(sheet.recipe);
    const auto& components = sheet.recipe.components;
    const bool locked_parts = std::any_of(components.begin(), components.end(), [](const auto& component) {
        return component.locked && is_in<Parts>(component);
    });
    sheet.marks.push_back({fresh_uid(sheet), 0});
    sheet.recipe.components.push_back(newcomer);
    const bool shares_rest = is_in<Parts>(newcomer) && !locked_parts;
    if (!grams || ((!sheet.recipe.total || shares_rest) && grams_of(sheet.recipe))) return sheet;
    const double total = sum_of(*grams);
    Grams target = *grams;
    const std::size_t last = target.size();
    if (const auto* weight = std::get_if<Mass>(&newcomer.amount))
        target.push_back(weight->grams);
    else
        target.push_back(total / static_cast<double>(last + 1));
    return settled(sheet, target, last, total);
}

std::optional<Sheet> without(Sheet sheet, std::size_t index) {
    const auto grams = grams_of(sheet.recipe);
    const auto at = static_cast<std::ptrdiff_t>(index);
    sheet.recipe.components.erase(sheet.recipe.components.begin() + at);
    sheet.marks.erase(sheet.marks.begin() + at);
    if (!grams || sheet.recipe.components.empty()) return sheet;
    if (!sheet.recipe.total && grams_of(sheet.recipe)) return sheet;
    Grams target = *grams;
    target.erase(target.begin() + at);
    return settled(sheet, target, target.size(), sheet.recipe.total ? sum_of(*grams) : sum_of(target));
}

// A locked weight stays, a locked share stays a share; all else is scaled.
std::optional<Sheet> with_total(Sheet sheet, const Mass& total) {
    const auto grams = grams_of(sheet.recipe);
    sheet.total_held = true;
    sheet.recipe.total = total;
    if (!grams) return sheet;
    Grams target = *grams;
    for (std::size_t i = 0; i < target.size(); ++i) {
        const auto& component = sheet.recipe.components[i];
        if (component.locked && !is_in<Mass>(component)) target[i] *= total.grams / sum_of(*grams);
    }
    const bool fits = std::abs(sum_of(target) - total.grams) < 0.005;
    if (!fits && !give_way(target, all_at_once(sheet), total.grams)) return std::nullopt;
    return written(sheet, target, total.grams, target.size());
}

std::optional<Sheet> with_parts(const Sheet& before, std::size_t index, double parts) {
    Sheet sheet = before;
    const auto grams = grams_of(sheet.recipe);
    for (std::size_t i = 0; i < sheet.marks.size(); ++i) {
        const auto& component = sheet.recipe.components[i];
        if (i != index && component.locked && is_in<Parts>(component))
            return with_parts_of_locked(std::move(sheet), index, parts);
    }
    if (grams && !sheet.recipe.total) sheet.recipe.total = rounded_total(sheet, sum_of(*grams));
    just_typed(sheet, index);
    sheet.recipe.components[index].amount = Parts{parts};
    if (!grams || grams_of(sheet.recipe)) return sheet;
    // What it had was within the rounding of the sums: make room that can be weighed.
    Grams target = *grams;
    const double total = sheet.recipe.total->grams;
    target[index] = std::max(target[index], 0.005 * total);
    if (!give_way(target, turns_of(sheet, index), total)) return std::nullopt;
    write_back(sheet.recipe, target, total, target.size());
    if (!grams_of(sheet.recipe)) return std::nullopt;
    return sheet;
}

std::optional<Sheet> with_less(Sheet sheet, const std::vector<std::size_t>& about, double share_pct) {
    const auto grams = grams_of(sheet.recipe);
    if (!grams) return sheet;
    const double total = sum_of(*grams);
    double theirs = 0.0;
    for (const std::size_t i : about) theirs += (*grams)[i];
    if (theirs <= 0.0 || 100.0 * theirs / total <= share_pct) return sheet;
    Grams target = *grams;
    Turns turns = all_at_once(sheet);
    for (const std::size_t i : about) {
        target[i] = std::max(least_grams, (*grams)[i] * share_pct / 100.0 * total / theirs);
        for (auto& turn : turns) turn[i] = false;
    }
    if (!give_way(target, turns, total)) return std::nullopt;
    // What is lowered on purpose is lowered under its lock, too.
    recipe::Recipe open = sheet.recipe;
    for (const std::size_t i : about) open.components[i].locked = false;
    write_back(open, target, total, target.size());
    for (std::size_t i = 0; i < target.size(); ++i)
        sheet.recipe.components[i].amount = open.components[i].amount;
    return sheet;
}

}  // namespace battwright::app
