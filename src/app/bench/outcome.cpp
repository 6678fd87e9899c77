#include "app/bench/outcome.hpp"

#include "app/shelf/stash_session.hpp"
#include "shelving/lots.hpp"
#include "shelving/photo.hpp"

namespace battwright::app {

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
    bench.yarn_grams = inputs.yarn_grams;
    auto made = forecast::forecast(inputs.recipe, bench);
    if (!made) {
        outcome.complaint = made.error();
        return;
    }
    if (inputs.shelf) shelving::add_lot_findings(*made, *inputs.shelf);
    outcome.forecast = std::make_shared<const forecast::Forecast>(std::move(*made));
    outcome.diagram = forecast::staple_diagram(*outcome.forecast);
}

}  // namespace battwright::app
