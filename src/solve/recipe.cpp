// recipe_of(), declared in solve/solve.hpp.
#include "solve/solve.hpp"

namespace battwright::solve {

recipe::Recipe recipe_of(const Proposal& proposal, const Problem& problem, std::string name, bool one_batt) {
    recipe::Recipe recipe;
    recipe.name = std::move(name);
    const auto& weights = one_batt ? proposal.batt_grams : proposal.grams;
    for (std::size_t i = 0; i < problem.lots.size(); ++i) {
        if (!(weights[i] > 0.0)) continue;
        const Lot& lot = problem.lots[i];
        recipe::Component component;
        component.name = lot.name;
        component.content = lot.content;
        component.palette = lot.palette;
        component.amount = measure::Mass{weights[i], measure::MassUnit::gram};
        if (lot.staple_mm)
            component.staple = measure::Length{*lot.staple_mm, measure::LengthUnit::millimetre};
        component.diameter_um = lot.diameter_um;
        if (lot.cost_per_gram) {
            recipe::Price& price = component.price.emplace();
            price.amount = price.per.grams * *lot.cost_per_gram;
        }
        recipe.components.push_back(std::move(component));
    }
    return recipe;
}

}  // namespace battwright::solve
