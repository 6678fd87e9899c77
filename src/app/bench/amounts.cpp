// How much of each: what was typed last holds, what is locked is never touched, the rest gives way.
#include <algorithm>
#include <cmath>
#include <functional>

#include "app/bench/attempts.hpp"
#include "app/bench/edits.hpp"
#include "app/bench/give_way.hpp"

namespace battwright::app {
namespace {

using measure::Mass;
using recipe::Parts;
using recipe::Percent;
using Again = std::function<std::optional<Sheet>(Sheet)>;

// What a sentence calls it.
std::string called(const recipe::Component& component) {
    if (!component.name.empty() || component.content.empty()) return component.name;
    std::string words = component.content.front().fibre;
    std::replace(words.begin(), words.end(), '-', ' ');
    return words;
}

std::string in_words(const recipe::Amount& amount) {
    if (const auto* mass = std::get_if<Mass>(&amount)) return measure::write_mass(*mass);
    if (const auto* percent = std::get_if<Percent>(&amount)) return measure::write_percent(percent->value);
    return measure::write_number(std::get<Parts>(amount).value) + " parts";
}

// "merino, locked at 50 %,": the heaviest of the locked but `index`; "" when nothing else is locked.
std::string heaviest_locked(const Sheet& sheet, std::size_t index) {
    const Grams grams = grams_of(sheet.recipe).value_or(Grams(sheet.marks.size(), 0.0));
    std::size_t heaviest = grams.size();
    for (std::size_t i = 0; i < grams.size(); ++i) {
        const bool counts = i != index && sheet.recipe.components[i].locked;
        if (counts && (heaviest == grams.size() || grams[i] > grams[heaviest])) heaviest = i;
    }
    if (heaviest == grams.size()) return "";
    const auto& component = sheet.recipe.components[heaviest];
    return called(component) + ", locked at " + in_words(component.amount) + ",";
}

std::string whole_batt(const Sheet& sheet) {
    const Grams grams = grams_of(sheet.recipe).value_or(Grams{});
    return "a batt of " +
           measure::write_mass(sheet.recipe.total.value_or(rounded_total(sheet, sum_of(grams))));
}

// As many as a person reads: the others can be unlocked by hand.
constexpr std::size_t most_ways = 4;

// `again` carries the change out on a sheet with less locked.
Change refused(const Sheet& before, std::size_t index, std::string what,
               const std::optional<Sheet>& other_total, const Again& again) {
    Disagreement disagreement{std::move(what), {}};
    if (other_total && other_total->recipe.total)
        disagreement.ways.push_back(
            {"Let the batt weigh " + measure::write_mass(*other_total->recipe.total), *other_total});
    Sheet all_free = before;
    bool one_will_do = false;
    for (std::size_t i = 0; i < before.recipe.components.size(); ++i) {
        if (i == index || !before.recipe.components[i].locked) continue;
        Sheet unlocked = before;
        all_free.recipe.components[i].locked = unlocked.recipe.components[i].locked = false;
        if (disagreement.ways.size() >= most_ways) continue;
        if (auto changed = again(std::move(unlocked))) {
            disagreement.ways.push_back({"Unlock " + called(before.recipe.components[i]), *changed});
            one_will_do = true;
        }
    }
    if (!one_will_do) {
        if (auto changed = again(std::move(all_free))) disagreement.ways.push_back({"Unlock all", *changed});
    }
    return {before, std::move(disagreement)};
}

Change done_or_refused(const Sheet& sheet, std::size_t index, const recipe::Amount& amount,
                       const Again& change) {
    if (auto changed = change(sheet)) return {std::move(*changed), std::nullopt};
    const std::string newer = called(sheet.recipe.components[index]) + " at " + in_words(amount);
    const std::string held = heaviest_locked(sheet, index);
    const std::string what = held.empty()
                                 ? newer + " and " + whole_batt(sheet) + " cannot both be."
                                 : newer + " and " + held + " do not make " + whole_batt(sheet) + ".";
    return refused(sheet, index, what, freed_total(sheet, index, amount), change);
}

bool alike_but_for_amount(const recipe::Component& other, const recipe::Component& newcomer) {
    recipe::Component same = other;
    same.amount = newcomer.amount;
    same.locked = newcomer.locked;
    return same == newcomer;
}

// How a newcomer is written, and that as the last component of the sheet.
recipe::Amount amount_of_new(const Sheet& sheet, const Grams& grams, const std::optional<Mass>& weight) {
    const auto n = static_cast<double>(grams.size());
    if (grams.empty() && sheet.recipe.total) return Parts{1.0};
    if (weight) return *weight;
    if (grams.empty()) return Mass{25.0, measure::MassUnit::gram};
    if (!sheet.recipe.total)
        return Mass{std::max(1.0, std::round(sum_of(grams) / n)), measure::MassUnit::gram};
    const auto& components = sheet.recipe.components;
    if (std::any_of(components.begin(), components.end(),
                    [](const auto& component) { return std::holds_alternative<Parts>(component.amount); }))
        return Parts{1.0};
    return Percent{std::round(1000.0 / (n + 1.0)) / 10.0};
}

}  // namespace

Change set_weight(const Sheet& sheet, std::size_t index, Mass weight) {
    weight.grams = std::max(weight.grams, least_grams);
    return done_or_refused(sheet, index, weight,
                           [=](Sheet on) { return with_weight(std::move(on), index, weight); });
}

Change set_percent(const Sheet& sheet, std::size_t index, double percent) {
    percent = sheet.recipe.components.size() == 1 ? 100.0 : std::clamp(percent, 0.01, 99.99);
    return done_or_refused(sheet, index, Percent{percent},
                           [=](Sheet on) { return with_percent(std::move(on), index, percent); });
}

Change set_parts(const Sheet& sheet, std::size_t index, double parts) {
    parts = std::clamp(parts, 0.01, 10000.0);
    return done_or_refused(sheet, index, Parts{parts},
                           [=](const Sheet& on) { return with_parts(on, index, parts); });
}

Change set_amount(const Sheet& sheet, std::size_t index, const recipe::Amount& amount) {
    if (const auto* mass = std::get_if<Mass>(&amount)) return set_weight(sheet, index, *mass);
    if (const auto* percent = std::get_if<Percent>(&amount)) return set_percent(sheet, index, percent->value);
    return set_parts(sheet, index, std::get<Parts>(amount).value);
}

Change set_total(const Sheet& sheet, Mass total) {
    const Again change = [=](Sheet on) { return with_total(std::move(on), total); };
    if (auto changed = change(sheet)) return {std::move(*changed), std::nullopt};
    const std::size_t nobody = sheet.marks.size();
    const std::string held = heaviest_locked(sheet, nobody);
    return refused(sheet, nobody,
                   "A batt of " + measure::write_mass(total) + " and " +
                       (held.empty() ? "what is in it" : held) + " cannot both be.",
                   std::nullopt, change);
}

Sheet free_total(Sheet sheet) {
    sheet.total_held = false;
    Sheet without_total = sheet;
    without_total.recipe.total.reset();
    return grams_of(without_total.recipe) ? without_total : sheet;
}

Change add(const Sheet& sheet, recipe::Component newcomer, const std::optional<Mass>& weight) {
    const Grams grams = grams_of(sheet.recipe).value_or(Grams{});
    newcomer.amount = amount_of_new(sheet, grams, weight);
    tell_apart(sheet.recipe, newcomer, alike_but_for_amount);
    const Again change = [=](Sheet on) { return with_new(std::move(on), newcomer); };
    if (auto changed = change(sheet)) return {std::move(*changed), std::nullopt};
    const std::size_t nobody = sheet.marks.size();
    const std::string held = heaviest_locked(sheet, nobody);
    // A batt that grows does so by a tenth, unless a weight was asked for.
    const Mass more = weight.value_or(Mass{std::round(sum_of(grams) * 10.0) / 100.0});
    Sheet grown = sheet;
    newcomer.amount = more;
    grown.marks.push_back({fresh_uid(sheet), 0});
    grown.recipe.components.push_back(newcomer);
    Grams with_more = grams;
    with_more.push_back(more.grams);
    return refused(sheet, nobody,
                   called(newcomer) + " has no room in " + whole_batt(sheet) +
                       (held.empty() ? "." : " beside " + held.substr(0, held.size() - 1) + "."),
                   with_total_following(grown, with_more, grams.size(), false), change);
}

Change add(const Sheet& sheet, const fibre::Kind& kind) {
    recipe::Component component;
    component.content = {{kind.id, 100.0}};
    if (kind.form != fibre::Form::fibre) component.add_on_pass = recipe::last_pass;
    return add(sheet, std::move(component), std::nullopt);
}

Sheet duplicate(Sheet sheet, std::size_t index) {
    auto& amount = sheet.recipe.components[index].amount;
    std::visit(
        [](auto& held) {
            if constexpr (std::is_same_v<std::decay_t<decltype(held)>, Mass>)
                held.grams /= 2.0;
            else
                held.value /= 2.0;
        },
        amount);
    auto copy = sheet.recipe.components[index];
    tell_apart(sheet.recipe, copy, alike_but_for_amount);
    const Mark mark{fresh_uid(sheet), sheet.marks[index].typed};
    const auto after = static_cast<std::ptrdiff_t>(index) + 1;
    sheet.recipe.components.insert(sheet.recipe.components.begin() + after, copy);
    sheet.marks.insert(sheet.marks.begin() + after, mark);
    return sheet;
}

Change remove(const Sheet& sheet, std::size_t index) {
    const Again change = [=](Sheet on) { return without(std::move(on), index); };
    if (auto changed = change(sheet)) return {std::move(*changed), std::nullopt};
    const std::string held = heaviest_locked(sheet, index);
    std::optional<Sheet> lighter;
    if (auto grams = grams_of(sheet.recipe)) {
        Sheet rest = sheet;
        const auto at = static_cast<std::ptrdiff_t>(index);
        rest.recipe.components.erase(rest.recipe.components.begin() + at);
        rest.marks.erase(rest.marks.begin() + at);
        grams->erase(grams->begin() + at);
        lighter = with_total_following(std::move(rest), *grams, grams->size(), false);
    }
    return refused(sheet, index,
                   "Without " + called(sheet.recipe.components[index]) + ", " +
                       (held.empty() ? "what is left" : held) + " does not fill " + whole_batt(sheet) + ".",
                   lighter, change);
}

Sheet move_border(Sheet sheet, std::size_t index, double grams) {
    const auto now = grams_of(sheet.recipe);
    if (!now || index + 1 >= now->size()) return sheet;
    if (sheet.recipe.components[index].locked || sheet.recipe.components[index + 1].locked) return sheet;
    Grams target = *now;
    const double low = least_grams - target[index];
    const double high = target[index + 1] - least_grams;
    if (low > high) return sheet;
    grams = std::clamp(grams, low, high);
    target[index] += grams;
    target[index + 1] -= grams;
    just_typed(sheet, index);
    sheet.marks[index + 1].typed = sheet.marks[index].typed;
    write_back(sheet.recipe, target, sum_of(*now), target.size());
    return sheet;
}

Change lower_share(const Sheet& sheet, const std::vector<std::size_t>& about, double share_pct) {
    const Again change = [=](Sheet on) { return with_less(std::move(on), about, share_pct); };
    if (auto changed = change(sheet)) return {std::move(*changed), std::nullopt};
    const std::size_t first = about.empty() ? sheet.marks.size() : about.front();
    const std::string held = heaviest_locked(sheet, first);
    return refused(sheet, first,
                   "Less of it and " + (held.empty() ? std::string("the rest") : held) + " do not make " +
                       whole_batt(sheet) + ".",
                   std::nullopt, change);
}

}  // namespace battwright::app
