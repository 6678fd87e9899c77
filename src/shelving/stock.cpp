#include "shelving/stock.hpp"

#include <algorithm>
#include <cmath>

#include "recipe/composition.hpp"
#include "shelving/lots.hpp"
#include "stash/date.hpp"
#include "text/words.hpp"

namespace battwright::shelving {
namespace {

int age_in_days(const std::string& got_on, std::chrono::sys_days today) {
    const auto day = stash::parse_date(got_on);
    return day ? static_cast<int>(std::max<std::int64_t>(0, (today - *day).count())) : 0;
}

double bought_grams(const stash::Movement& purchase, const std::vector<stash::Movement>& movements) {
    double grams = purchase.grams;
    for (const auto& movement : movements) {
        const bool corrects = movement.reason == stash::Reason::corrected;
        if (corrects && movement.of_movement == purchase.id) grams += movement.grams;
    }
    return grams;
}

std::vector<std::string> ids_of(const recipe::Recipe& recipe) {
    std::vector<std::string> ids;
    for (std::size_t i = 0; i < recipe.components.size(); ++i) {
        const std::string& mark = recipe.components[i].lot;
        const bool own = !mark.empty() && std::count_if(recipe.components.begin(), recipe.components.end(),
                                                        [&](const auto& c) { return c.lot == mark; }) == 1;
        ids.push_back(own ? mark : std::to_string(i + 1));
    }
    return ids;
}

}  // namespace

std::optional<double> cost_per_gram(const stash::Shelved& shelved,
                                    const std::vector<stash::Movement>& movements,
                                    std::string_view currency) {
    const auto counts = [currency](const std::optional<stash::Money>& cost) {
        return cost && (cost->currency.empty() || currency.empty() || cost->currency == currency);
    };
    double money = 0.0, grams = 0.0;
    bool first = true;
    for (const auto& movement : movements) {
        if (movement.reason != stash::Reason::bought) continue;
        // The lot itself says what its first purchase cost.
        const auto& cost = first && !movement.cost ? shelved.lot.cost : movement.cost;
        first = false;
        if (!counts(cost)) continue;
        money += cost->amount;
        grams += bought_grams(movement, movements);
    }
    if (shelved.lot.raw) grams *= shelved.lot.yield_pct / 100.0;
    return grams > 0.0 ? std::optional(money / grams) : std::nullopt;
}

Stock stock_of(const std::vector<PricedLot>& lots, std::chrono::sys_days today, double scrap_grams) {
    Stock stock;
    for (const PricedLot& priced : lots) {
        const stash::Shelved& shelved = *priced.shelved;
        if (!(shelved.clean_grams() > 0.0)) continue;
        recipe::Component component = component_of(shelved.lot);
        solve::Lot lot = solve::lot_of(component, shelved.lot.mark, shelved.clean_grams());
        lot.cost_per_gram = priced.cost_per_gram;
        lot.age_days = age_in_days(shelved.lot.got_on, today);
        lot.scrap = stash::is_scrap(shelved, scrap_grams);
        // A price of a file has four decimals.
        if (lot.cost_per_gram)
            component.price = recipe::Price{std::round(*lot.cost_per_gram * 1e6) / 1e4, {100.0}};
        stock.lots.push_back(std::move(lot));
        stock.components.push_back(std::move(component));
    }
    return stock;
}

recipe::Recipe frame_of(recipe::Recipe recipe) {
    recipe.components.clear();
    recipe.total.reset();
    recipe.carding.layings.clear();
    recipe.carding.blends.clear();
    recipe.series.reset();
    return recipe;
}

measure::Expected<Stock> stock_of(const recipe::Recipe& recipe) {
    const auto masses = recipe::masses_of(recipe);
    if (!masses) return tl::make_unexpected(masses.error());
    Stock stock;
    stock.frame = frame_of(recipe);
    stock.components = recipe.components;
    const auto ids = ids_of(recipe);
    for (std::size_t i = 0; i < recipe.components.size(); ++i) {
        stock.lots.push_back(solve::lot_of(recipe.components[i], ids[i], masses->grams[i]));
        stock.lots.back().scrap = true;
    }
    return stock;
}

Stock part_of(const Stock& stock, const std::vector<bool>& keep) {
    Stock part;
    part.frame = stock.frame;
    for (std::size_t i = 0; i < stock.lots.size(); ++i) {
        if (!keep[i]) continue;
        part.lots.push_back(stock.lots[i]);
        part.components.push_back(stock.components[i]);
    }
    return part;
}

recipe::Recipe recipe_of(const Stock& stock, const solve::Proposal& proposal, bool one_batt) {
    recipe::Recipe recipe = stock.frame;
    const auto& weights = one_batt ? proposal.batt_grams : proposal.grams;
    for (std::size_t i = 0; i < stock.components.size(); ++i) {
        // Steps added up leave dust behind: 12.3 g, not 12.300000000000001 g.
        const double grams = std::round(weights[i] * 1e6) / 1e6;
        if (!(grams > 0.0)) continue;
        recipe.components.push_back(stock.components[i]);
        recipe.components.back().amount = measure::Mass{grams, measure::MassUnit::gram};
    }
    return recipe;
}

}  // namespace battwright::shelving
