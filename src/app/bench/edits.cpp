#include "app/bench/edits.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "app/bench/give_way.hpp"
#include "recipe/composition.hpp"

namespace battwright::app {
namespace {

using measure::Mass;
using recipe::Parts;
using recipe::Percent;

bool has_mass(const recipe::Recipe& recipe) {
    return std::any_of(recipe.components.begin(), recipe.components.end(),
                       [](const auto& component) { return std::holds_alternative<Mass>(component.amount); });
}

bool only_masses(const recipe::Recipe& recipe) {
    return std::all_of(recipe.components.begin(), recipe.components.end(),
                       [](const auto& component) { return std::holds_alternative<Mass>(component.amount); });
}

bool has_parts(const recipe::Recipe& recipe) {
    return std::any_of(recipe.components.begin(), recipe.components.end(),
                       [](const auto& component) { return std::holds_alternative<Parts>(component.amount); });
}

double sum(const std::vector<double>& values) {
    return std::accumulate(values.begin(), values.end(), 0.0);
}

// A computed total to 0.01 g: the reader's own tolerance covers the rest.
double hundredths(double grams) {
    return std::round(grams * 100.0) / 100.0;
}

// Writes down the total the recipe has anyway.
void pin_total(recipe::Recipe& recipe, double total_grams) {
    if (!recipe.total) recipe.total = Mass{hundredths(total_grams), measure::MassUnit::gram};
}

// Two components may not be alike in all but their amount: a newcomer that is gets a name with a number.
void tell_apart(const recipe::Recipe& recipe, recipe::Component& newcomer) {
    const auto taken = [&recipe, &newcomer] {
        return std::any_of(recipe.components.begin(), recipe.components.end(), [&](recipe::Component other) {
            other.amount = newcomer.amount;
            return same(other, newcomer);
        });
    };
    const std::string base = newcomer.name.empty() ? newcomer.content.front().fibre : newcomer.name;
    for (int number = 2; taken(); ++number) newcomer.name = base + " " + std::to_string(number);
}

void halve(recipe::Amount& amount) {
    std::visit(
        [](auto& held) {
            if constexpr (std::is_same_v<std::decay_t<decltype(held)>, Mass>)
                held.grams /= 2.0;
            else
                held.value /= 2.0;
        },
        amount);
}

recipe::Amount amount_for_new(const recipe::Recipe& recipe, const std::vector<double>& grams) {
    const auto n = static_cast<double>(grams.size());
    if (grams.empty()) {
        if (recipe.total) return Parts{1.0};
        return Mass{25.0, measure::MassUnit::gram};
    }
    const double mean = sum(grams) / n;
    if (!recipe.total && has_mass(recipe))
        return Mass{std::max(1.0, std::round(mean)), measure::MassUnit::gram};
    if (has_parts(recipe)) return Parts{1.0};
    return Percent{std::round(1000.0 / (n + 1.0)) / 10.0};
}

}  // namespace

Sheet set_weight(Sheet sheet, std::size_t index, Mass weight) {
    auto grams = grams_of(sheet.recipe);
    weight.grams = std::max(weight.grams, least_grams);
    auto& amount = sheet.recipe.components[index].amount;
    if (!grams) {
        amount = weight;
        return sheet;
    }
    if (!sheet.recipe.total) {
        const auto before = sheet.recipe;
        amount = weight;
        if (grams_of(sheet.recipe)) return sheet;
        sheet.recipe = before;
    }
    auto target = *grams;
    target[index] = weight.grams;
    double total = sum(*grams);
    if (!give_way(target, held_marks(sheet, index), parts_marks(sheet, index), total)) {
        total = sum(target);
        sheet.recipe.total =
            Mass{hundredths(total), sheet.recipe.total ? sheet.recipe.total->unit : weight.unit};
    }
    pin_total(sheet.recipe, total);
    sheet.recipe.components[index].amount = weight;
    write_back(sheet.recipe, target, total, index);
    return sheet;
}

Sheet set_percent(Sheet sheet, std::size_t index, double percent) {
    const auto grams = grams_of(sheet.recipe);
    const std::size_t n = sheet.recipe.components.size();
    percent = n == 1 ? 100.0 : std::clamp(percent, 0.01, 99.99);
    auto& amount = sheet.recipe.components[index].amount;
    if (!grams) {
        amount = Percent{percent};
        return sheet;
    }
    auto target = *grams;
    double total = sum(*grams);
    target[index] = total * percent / 100.0;
    if (!give_way(target, held_marks(sheet, index), parts_marks(sheet, index), total)) {
        // Everything else is held: keep those weights and let the total follow.
        const double others = total - (*grams)[index];
        if (others <= 0.0) return sheet;
        total = others / (1.0 - percent / 100.0);
        target = *grams;
        target[index] = total - others;
        if (sheet.recipe.total) sheet.recipe.total = Mass{hundredths(total), sheet.recipe.total->unit};
    }
    pin_total(sheet.recipe, total);
    amount = Percent{percent};
    write_back(sheet.recipe, target, total, index);
    return sheet;
}

Sheet set_parts(Sheet sheet, std::size_t index, double parts) {
    const auto grams = grams_of(sheet.recipe);
    Sheet before = sheet;
    if (grams) pin_total(sheet.recipe, sum(*grams));
    sheet.recipe.components[index].amount = Parts{std::clamp(parts, 0.01, 10000.0)};
    if (!grams || grams_of(sheet.recipe)) return sheet;
    // What it had was within the rounding of the sums: make room that can be weighed.
    auto target = *grams;
    const double total = sheet.recipe.total->grams;
    target[index] = std::max(target[index], 0.005 * total);
    const auto held = held_marks(sheet, index);
    if (!give_way(target, held, parts_marks(sheet, index), total)) return before;
    write_back(sheet.recipe, target, total, target.size());
    return grams_of(sheet.recipe) ? sheet : before;
}

Sheet set_amount(Sheet sheet, std::size_t index, const recipe::Amount& amount) {
    if (const auto* mass = std::get_if<Mass>(&amount)) return set_weight(std::move(sheet), index, *mass);
    if (const auto* percent = std::get_if<Percent>(&amount))
        return set_percent(std::move(sheet), index, percent->value);
    return set_parts(std::move(sheet), index, std::get<Parts>(amount).value);
}

Sheet set_total(Sheet sheet, Mass total) {
    const auto grams = grams_of(sheet.recipe);
    if (!grams || grams->empty()) {
        sheet.recipe.total = total;
        return sheet;
    }
    const double before = sum(*grams);
    auto target = *grams;
    auto held = held_marks(sheet, target.size());
    for (std::size_t i = 0; i < target.size(); ++i) {
        if (held[i] && !std::holds_alternative<Mass>(sheet.recipe.components[i].amount))
            target[i] *= total.grams / before;
    }
    const std::vector<bool> nobody_first(target.size(), false);
    if (!give_way(target, held, nobody_first, total.grams)) return sheet;
    if (sheet.recipe.total || !only_masses(sheet.recipe)) sheet.recipe.total = total;
    write_back(sheet.recipe, target, total.grams, target.size());
    return sheet;
}

Sheet toggle_lock(Sheet sheet, std::size_t index) {
    sheet.marks[index].locked = !sheet.marks[index].locked;
    return sheet;
}

Sheet add(Sheet sheet, const fibre::Kind& kind) {
    const auto grams = grams_of(sheet.recipe).value_or(std::vector<double>{});
    recipe::Component component;
    component.content = {{kind.id, 100.0}};
    if (kind.form != fibre::Form::fibre) component.add_on_pass = recipe::last_pass;
    component.amount = amount_for_new(sheet.recipe, grams);
    tell_apart(sheet.recipe, component);
    const auto wanted = component.amount;
    const std::uint64_t uid = fresh_uid(sheet);
    if (const auto* percent = std::get_if<Percent>(&wanted)) {
        // Enter with almost nothing, then grow to its share so that the others give way.
        const double total = sum(grams);
        pin_total(sheet.recipe, total);
        component.amount = Percent{0.0};
        sheet.recipe.components.push_back(component);
        sheet.marks.push_back({uid, false});
        auto target = grams;
        target.push_back(total * percent->value / 100.0);
        const std::size_t last = target.size() - 1;
        if (!give_way(target, held_marks(sheet, last), parts_marks(sheet, last), total)) {
            // All else is held: the batt grows by a tenth.
            const Mass tenth{hundredths(total / 10.0), measure::MassUnit::gram};
            sheet.recipe.components.back().amount = tenth;
            sheet.recipe.total->grams = hundredths(total + tenth.grams);
            target = grams;
            target.push_back(tenth.grams);
            write_back(sheet.recipe, target, total + tenth.grams, last);
            return sheet;
        }
        sheet.recipe.components.back().amount = wanted;
        write_back(sheet.recipe, target, total, last);
        return sheet;
    }
    sheet.recipe.components.push_back(std::move(component));
    sheet.marks.push_back({uid, false});
    return sheet;
}

Sheet duplicate(Sheet sheet, std::size_t index) {
    halve(sheet.recipe.components[index].amount);
    auto copy = sheet.recipe.components[index];
    tell_apart(sheet.recipe, copy);
    const Mark mark{fresh_uid(sheet), sheet.marks[index].locked};
    const auto after = static_cast<std::ptrdiff_t>(index) + 1;
    sheet.recipe.components.insert(sheet.recipe.components.begin() + after, copy);
    sheet.marks.insert(sheet.marks.begin() + after, mark);
    return sheet;
}

Sheet remove(Sheet sheet, std::size_t index) {
    const auto grams = grams_of(sheet.recipe);
    const auto at = static_cast<std::ptrdiff_t>(index);
    sheet.recipe.components.erase(sheet.recipe.components.begin() + at);
    sheet.marks.erase(sheet.marks.begin() + at);
    if (!grams || sheet.recipe.components.empty()) return sheet;
    if (!sheet.recipe.total && only_masses(sheet.recipe)) return sheet;
    auto target = *grams;
    target.erase(target.begin() + at);
    const std::size_t nobody = target.size();
    double total = sheet.recipe.total ? sum(*grams) : sum(target);
    if (!give_way(target, held_marks(sheet, nobody), parts_marks(sheet, nobody), total)) {
        total = sum(target);
        if (sheet.recipe.total) sheet.recipe.total->grams = hundredths(total);
    }
    pin_total(sheet.recipe, total);
    write_back(sheet.recipe, target, total, nobody);
    return sheet;
}

Sheet reorder(Sheet sheet, std::size_t index, std::size_t to) {
    const auto rotate = [index, to](auto& list) {
        const auto begin = list.begin();
        const auto from = static_cast<std::ptrdiff_t>(index);
        const auto target = static_cast<std::ptrdiff_t>(std::min(to, list.size() - 1));
        if (from < target)
            std::rotate(begin + from, begin + from + 1, begin + target + 1);
        else
            std::rotate(begin + target, begin + from, begin + from + 1);
    };
    rotate(sheet.recipe.components);
    rotate(sheet.marks);
    return sheet;
}

Sheet move_border(Sheet sheet, std::size_t index, double grams) {
    const auto now = grams_of(sheet.recipe);
    if (!now || index + 1 >= now->size()) return sheet;
    auto target = *now;
    const double low = least_grams - target[index];
    const double high = target[index + 1] - least_grams;
    if (low > high) return sheet;
    grams = std::clamp(grams, low, high);
    target[index] += grams;
    target[index + 1] -= grams;
    write_back(sheet.recipe, target, sum(*now), target.size());
    return sheet;
}

std::vector<recipe::Tint> closed(std::vector<recipe::Tint> palette) {
    double all = 0.0;
    for (const auto& tint : palette) all += tint.share_pct;
    std::vector<double> shares;
    shares.reserve(palette.size());
    for (const auto& tint : palette)
        shares.push_back(all > 0.0 ? 100.0 * tint.share_pct / all
                                   : 100.0 / static_cast<double>(palette.size()));
    if (!shares.empty()) shares = measure::round_to_step(shares, 0.1);
    for (std::size_t i = 0; i < palette.size(); ++i) {
        palette[i].share_pct = std::round(shares[i] * 10.0) / 10.0;
        palette[i].colour =
            colour::Srgb{std::clamp(palette[i].colour.r, 0.0, 1.0), std::clamp(palette[i].colour.g, 0.0, 1.0),
                         std::clamp(palette[i].colour.b, 0.0, 1.0)};
    }
    return palette;
}

Sheet set_palette(Sheet sheet, std::size_t index, std::vector<recipe::Tint> palette) {
    sheet.recipe.components[index].palette = closed(std::move(palette));
    return sheet;
}

Sheet set_passes(Sheet sheet, int passes) {
    sheet.recipe.carding.passes = std::clamp(passes, 1, 6);
    sheet.recipe.carding_written = true;
    return sheet;
}

Sheet set_strips(Sheet sheet, int strips) {
    sheet.recipe.carding.strips = std::clamp(strips, 1, most_strips);
    sheet.recipe.carding_written = true;
    return sheet;
}

Sheet set_feed(Sheet sheet, recipe::Manner manner) {
    sheet.recipe.carding.feed = manner;
    sheet.recipe.carding.layings.clear();
    sheet.recipe.carding.blends.clear();
    sheet.recipe.carding_written = true;
    return sheet;
}

Sheet set_refeed(Sheet sheet, recipe::Refeed refeed) {
    sheet.recipe.carding.refeed = refeed;
    sheet.recipe.carding.refeeds.clear();
    sheet.recipe.carding_written = true;
    return sheet;
}

Sheet set_carder(Sheet sheet, const recipe::Carder& preset) {
    sheet.recipe.carding.carder = preset.id;
    sheet.recipe.carding.own.reset();
    sheet.recipe.carding_written = true;
    return sheet;
}

}  // namespace battwright::app
