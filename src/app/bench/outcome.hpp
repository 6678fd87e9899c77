// What the views draw: the forecast of the sheet, kept until what it was made of changes.
#pragma once

#include <memory>
#include <optional>

#include "forecast/staple_diagram.hpp"
#include "stash/hands.hpp"
#include "stash/shelf.hpp"

namespace battwright::app {

// All that a forecast depends on here; the catalogue stays the same while the program runs.
struct OutcomeInputs {
    recipe::Recipe recipe;
    colour::Light light = colour::Light::d65;
    yarn::Calibration calibration;
    stash::Hands hands{};
    std::optional<double> yarn_grams;             // as in forecast::Bench
    std::shared_ptr<const stash::Shelf> shelf{};  // what is known of the lots the recipe names
    bool operator==(const OutcomeInputs&) const = default;
};

struct Outcome {
    std::shared_ptr<const forecast::Forecast> forecast;  // the last one that could be made
    std::optional<measure::Complaint> complaint;  // why the present sheet has none; the one above is older
    forecast::StapleDiagram diagram;
    unsigned long version = 0;  // counts up with every new forecast
};

// A new outcome, or the old forecast with a complaint when this recipe has none. An empty recipe has neither.
void update(Outcome& outcome, const OutcomeInputs& inputs, const fibre::Catalogue& catalogue);

}  // namespace battwright::app
