#include "app/bench/outcome.hpp"

#include "app/bench/sheet.hpp"
#include "app/shelf/stash_session.hpp"
#include "shelving/photo.hpp"

namespace battwright::app {

bool operator==(const OutcomeInputs& first, const OutcomeInputs& second) {
    return first.light == second.light && same(first.recipe, second.recipe) && first.hands == second.hands &&
           same(first.calibration, second.calibration);
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
    shelving::lay_on(inputs.hands, bench);
    auto made = forecast::forecast(inputs.recipe, bench);
    if (!made) {
        outcome.complaint = made.error();
        return;
    }
    outcome.forecast = std::make_shared<const forecast::Forecast>(std::move(*made));
    outcome.diagram = forecast::staple_diagram(*outcome.forecast);
}

}  // namespace battwright::app
