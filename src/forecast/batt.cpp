#include "forecast/batt.hpp"

#include <algorithm>

#include "forecast/carded.hpp"

namespace battwright::forecast {

carding::BattObserver eye_of(const Forecast& f, const std::vector<carding::Portion>& portions) {
    carding::BattObserver observer;
    observer.reflectances =
        carding::portion_reflectances(portions, f.strands, f.strand_reflectances, f.optics);
    observer.optics = f.optics;
    observer.light = f.light;
    for (const auto& portion : portions) observer.tex.push_back(portion.tex);
    if (f.yarn.fibres_in_section > 0.0) observer.fibres_in_section = f.yarn.fibres_in_section;
    observer.batt_grams = f.total_grams / static_cast<double>(std::max<std::size_t>(1, f.plan.batts));
    return observer;
}

carding::Setup setup_for(const Forecast& f, const BattRequest& request) {
    recipe::Recipe recipe = f.recipe;
    if (request.passes > 0) recipe.carding.passes = request.passes;
    carding::Setup setup =
        carding::setup_of(recipe, f.strands, f.carder, f.plan.feed, std::max<std::size_t>(1, f.plan.batts),
                          f.mixing, std::max(1, f.recipe.carding.passes));
    if (request.coarse) setup.grid = carding::coarse_grid;
    return setup;
}

Batt batt_of(const Forecast& f, const BattRequest& request) {
    const carding::Setup setup = setup_for(f, request);
    Batt batt;
    batt.portions = setup.portions;
    batt.passes = carding::simulate(setup, request.threads);
    batt.measures = carding::measured(batt.passes, eye_of(f, batt.portions),
                                      recipe::pieces_spun(f.recipe.carding), request.threads, batt.portions);
    batt.over_carding =
        carding::over_carding(batt.portions, f.carder.teeth_per_square_inch, setup.passes, f.carder.kind);
    return batt;
}

bool is_of(const Forecast& f, const Batt& batt, const carding::Pass& pass) {
    std::size_t strands = 0;
    for (const carding::Portion& portion : batt.portions) strands += portion.strands.size();
    return strands == f.strands.size() && pass.field.portions == batt.portions.size();
}

carding::PassesFor passes_for(const Forecast& f, carding::Look look) {
    const carding::Setup setup = setup_for(f, {});
    return carding::passes_for(look, setup, eye_of(f, setup.portions), f.carder.teeth_per_square_inch);
}

carding::PassesFor passes_for_in_turn(const Forecast& f, carding::Look look) {
    carding::Setup setup = setup_for(f, {});
    setup.feed.manner = carding::Manner::alternating;
    setup.lays.clear();
    return carding::passes_for(look, setup, eye_of(f, setup.portions), f.carder.teeth_per_square_inch);
}

std::vector<std::pair<carding::Look, carding::PassesFor>> passes_for_looks(const Forecast& f) {
    std::vector<std::pair<carding::Look, carding::PassesFor>> answers;
    answers.reserve(carding::looks.size());
    for (const auto& row : carding::looks) answers.emplace_back(row.value, passes_for(f, row.value));
    return answers;
}

}  // namespace battwright::forecast
