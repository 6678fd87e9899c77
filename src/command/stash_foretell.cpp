#include "command/stash_foretell.hpp"

#include <algorithm>
#include <ostream>

#include "command/json_making.hpp"
#include "recipe/file.hpp"

namespace battwright::command {
namespace {

// Of one batt: the forecast of its recipe, by as much of it as was fed.
struct OneBatt {
    yarn::YarnForecast yarn;
    double part = 1.0;  // of the recipe
};

Expected<OneBatt> forecast_of(const stash::Batt& batt, const OtherPlan& plan,
                              const yarn::Calibration& calibration, const fibre::Catalogue& catalogue) {
    auto recipe =
        recipe::read_text(batt.carding.recipe, "the recipe of batt " + std::to_string(batt.id), catalogue);
    if (!recipe) return tl::unexpected(recipe.error());
    if (plan.plies > 0) recipe->spinning.plies = plan.plies;
    recipe->spinning.preparation = plan.preparation.value_or(batt.carding.preparation);
    forecast::Bench bench;
    bench.catalogue = &catalogue;
    bench.calibration = calibration;
    auto result = forecast::forecast(*recipe, bench);
    if (!result) return tl::unexpected(result.error());
    if (result->yarn.nominal_length_m <= 0.0 || result->total_grams <= 0.0)
        return tl::unexpected(Complaint{"the plan of batt " + std::to_string(batt.id) + " foretells no yarn",
                                        "see battwright forecast on its recipe"});
    const double part = batt.fed_grams / result->total_grams;
    return OneBatt{std::move(result->yarn), part};
}

}  // namespace

Expected<std::optional<stash::Foretold>> foretold_for(const stash::Stash& stash,
                                                      const std::vector<stash::FromBatt>& from,
                                                      const OtherPlan& plan, const Desk& desk) {
    std::optional<stash::Foretold> none;
    if (from.empty()) return none;
    const auto calibration = stash.calibration();
    if (!calibration) return tl::unexpected(calibration.error());
    std::vector<OneBatt> batts;
    stash::Foretold foretold;
    for (const stash::FromBatt& part : from) {
        const auto batt = stash.batt(part.batt);
        if (!batt) return tl::unexpected(batt.error());
        auto one = forecast_of(*batt, plan, *calibration, desk.catalogue);
        if (!one) {
            *desk.s.err << "note: no length was foretold: " << measure::to_line(one.error()) << "\n";
            return none;
        }
        foretold.grams += one->yarn.yarn_grams * one->part;
        foretold.text += yarn_json(one->yarn).dump() + "\n";
        batts.push_back(std::move(*one));
    }
    // Metres a gram of each batt by its share, for the weight of all of them.
    for (std::size_t i = 0; i < batts.size(); ++i) {
        const double grams = foretold.grams * from[i].share_pct / 100.0 / batts[i].yarn.yarn_grams;
        foretold.nominal_length_m += batts[i].yarn.nominal_length_m * grams;
        foretold.low_m += batts[i].yarn.length_low_m * grams;
        foretold.high_m += batts[i].yarn.length_high_m * grams;
    }
    return foretold;
}

}  // namespace battwright::command
