#include "app/bench/outcome.hpp"

#include "app/bench/sheet.hpp"
#include "app/shelf/stash_session.hpp"

namespace battwright::app {

bool operator==(const OutcomeInputs& first, const OutcomeInputs& second) {
    return first.light == second.light && first.yarn_grams == second.yarn_grams &&
           same(first.recipe, second.recipe) && same(first.calibration, second.calibration);
}

void update(Outcome& outcome, const OutcomeInputs& inputs, const fibre::Catalogue& catalogue) {
    ++outcome.version;
    outcome.complaint.reset();
    if (inputs.recipe.components.empty()) {
        outcome.forecast.reset();
        outcome.diagram = {};
        return;
    }
    forecast::Bench bench;
    bench.catalogue = &catalogue;
    bench.light = inputs.light;
    bench.calibration = inputs.calibration;
    bench.yarn_grams = inputs.yarn_grams;
    auto made = forecast::forecast(inputs.recipe, bench);
    if (!made) {
        outcome.complaint = made.error();
        return;
    }
    outcome.forecast = std::make_shared<const forecast::Forecast>(std::move(*made));
    outcome.diagram = forecast::staple_diagram(*outcome.forecast);
}

}  // namespace battwright::app
