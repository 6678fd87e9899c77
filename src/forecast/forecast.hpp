// The front door: everything the tool knows about a batt before it is carded, as one value.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "carding/load.hpp"
#include "carding/loss.hpp"
#include "carding/plan.hpp"
#include "colour/optics.hpp"
#include "colour/spaces.hpp"
#include "fibre/catalogue.hpp"
#include "recipe/composition.hpp"
#include "recipe/recipe.hpp"
#include "staple/distribution.hpp"
#include "staple/findings.hpp"
#include "yarn/forecast.hpp"
#include "yarn/project.hpp"

namespace battwright::forecast {

// Everything outside the recipe that a forecast depends on.
struct Bench {
    const fibre::Catalogue* catalogue = nullptr;  // must outlive the forecast
    colour::Light light = colour::Light::d65;
    colour::OpticsModel optics;
    double scale_step_grams = 0.1;  // what the user's scale can tell
    yarn::Calibration calibration;  // this spinner's own skeins; none: the prior
    // Finished yarn, when that is what was weighed and not the fibre: the yarn is foretold for it.
    std::optional<double> yarn_grams;
    double mixing = 1.0;  // this spinner's own factor on what a pass leaves unmixed (carding::Opening)
};

struct ComponentLine {
    std::string label;  // the user's name, else the kinds' names
    std::vector<std::string> fibres;
    double grams = 0.0, dry_grams = 0.0;
    double mass_pct = 0.0, count_pct = 0.0;
    std::optional<double> cost;      // in the user's currency; empty without a price
    colour::Spectrum reflectance{};  // of the component carded by itself
    colour::Srgb srgb;               // as seen under the light, clipped
};
struct KindLine {
    std::string id, name;
    double grams = 0.0, mass_pct = 0.0, dry_mass_pct = 0.0, count_pct = 0.0;
};
struct LabelLine {
    std::string name;  // EU generic name
    double mass_pct = 0.0;
};
// The same total on a tool without a drum, other than the recipe's own.
struct OtherTool {
    carding::Tool tool;
    std::size_t loads = 0;
    double load_grams = 0.0;
};
// A kind in the thread that is plied in, as a share of it, 0..1.
struct ThreadFibre {
    std::shared_ptr<const fibre::Kind> kind;  // never null
    double share = 1.0;
};
struct BlendColour {
    colour::Spectrum reflectance{};
    colour::Xyz xyz;    // under the light
    colour::Lab lab;    // against the light's white
    colour::Srgb srgb;  // adapted to D65 for the screen, clipped
};

struct Forecast {
    recipe::Recipe recipe;
    recipe::Carder carder;
    colour::Light light = colour::Light::d65;
    colour::OpticsModel optics;
    double mixing = 1.0;
    double total_grams = 0.0, total_dry_grams = 0.0;
    std::vector<recipe::Strand> strands;
    std::vector<colour::Spectrum> strand_reflectances;  // same order as strands
    std::vector<colour::LinearRgb> strand_colours;      // seen under the light, linear, same order as strands
    std::vector<ComponentLine> components;
    double cost = 0.0;              // of the components that have a price
    bool cost_is_whole = false;     // every component has one
    std::vector<KindLine> kinds;    // most first
    std::vector<LabelLine> labels;  // most first
    staple::LengthSummary length;
    staple::DiameterSummary diameter;
    staple::Drafting drafting;
    // What lies among the fibres and is left out of the three above.
    std::vector<staple::Inclusion> inclusions;
    std::string_view feel;  // staple::feel_of
    double fibre_tex = 0.0;
    BlendColour colour;
    std::vector<staple::Finding> findings;
    carding::WeighOut weigh_out;  // per batt, on the scale's step
    carding::Plan plan;           // what to do at the carder, for one batt
    carding::Wear wear;           // what carding costs in short fibre and in length
    double batt_share = 1.0;      // of what is fed, what comes off the drum, 0..1
    std::vector<OtherTool> other_tools;
    std::vector<ThreadFibre> thread;     // empty without a thread, or when nobody named its fibre
    yarn::YarnForecast yarn;             // of all the batts together
    std::optional<yarn::Enough> enough;  // for the recipe's purpose, when it names a thing and a size
    std::vector<std::string> left_out;   // what the colour model does not know of this batt
};

// Fails only when the recipe's amounts do not close or a fibre is unknown (see recipe::check).
measure::Expected<Forecast> forecast(const recipe::Recipe& recipe, const Bench& bench);

// What a component is called: the user's own name for it, else the names of its kinds.
std::string label_of(const recipe::Component& component, const fibre::Catalogue& catalogue);

// A reflectance seen under a light and adapted to the screen's D65 white (Bradford), linear, clipped to 0..1.
colour::LinearRgb seen(const colour::Spectrum& reflectance, colour::Light light);

}  // namespace battwright::forecast
