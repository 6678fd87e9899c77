#include "shelving/foretell.hpp"

#include <cmath>
#include <string>

#include "forecast/forecast.hpp"
#include "recipe/file.hpp"
#include "text/believe.hpp"

namespace battwright::shelving {
namespace {

using measure::Complaint;
using measure::Expected;

// Of one batt: the forecast of its recipe, and the yarn there really is of it.
struct OneBatt {
    yarn::YarnForecast yarn;
    double yarn_grams = 0.0;
};

Expected<OneBatt> one_batt(const stash::Batt& batt, const OtherPlan& plan,
                           const yarn::Calibration& calibration, const fibre::Catalogue& catalogue) {
    auto recipe =
        recipe::read_text(batt.carding.recipe, "the recipe kept with " + batt.carding.name, catalogue);
    if (!recipe) return tl::make_unexpected(recipe.error());
    if (plan.plies > 0) recipe->spinning.plies = plan.plies;
    if (plan.preparation) recipe->spinning.preparation = *plan.preparation;
    forecast::Bench bench;
    bench.catalogue = &catalogue;
    bench.calibration = calibration;
    auto made = forecast::forecast(*recipe, bench);
    if (!made) return tl::make_unexpected(made.error());
    const yarn::YarnForecast& yarn = made->yarn;
    if (!(yarn.nominal_length_m > 0.0 && yarn.yarn_grams > 0.0))
        return tl::make_unexpected(Complaint{"the recipe of " + measure::quoted(batt.carding.name) +
                                                 " makes no yarn, so no length was foretold",
                                             "log the skein all the same; nothing is learnt from it"});
    const double grams = batt.off_drum_grams ? *batt.off_drum_grams * (1.0 - yarn.spinning_loss_pct / 100.0)
                                             : yarn.yarn_grams * batt.fed_grams / made->total_grams;
    return OneBatt{yarn, grams};
}

std::string kept_words(const stash::Batt& batt, double share_pct, const yarn::YarnForecast& yarn) {
    const auto tidy = [](double value) { return measure::print_number(value, 1); };
    return "batt " + std::to_string(batt.id) + ", " + measure::print_percent(share_pct) + ": " +
           tidy(yarn.length_m) + " m (" + tidy(yarn.length_low_m) + " to " + tidy(yarn.length_high_m) +
           " m in four of five) from " + tidy(yarn.yarn_grams) + " g, " + tidy(yarn.wpi) + " wpi, " +
           tidy(yarn.tex) + " tex, " + std::to_string(yarn.plies) + " strands, resting on " +
           std::to_string(yarn.skeins_logged) + " skeins\n";
}

}  // namespace

Expected<ForetoldSkein> foretold_of(const std::vector<SpunFrom>& from, const yarn::Calibration& calibration,
                                    const fibre::Catalogue& catalogue, const OtherPlan& plan) {
    BATTWRIGHT_BELIEVE(!from.empty());
    ForetoldSkein told;
    double most = 0.0, nominal = 0.0, low = 0.0, high = 0.0;  // the last three are metres per gram
    for (const SpunFrom& part : from) {
        const auto one = one_batt(part.batt, plan, calibration, catalogue);
        if (!one) return tl::make_unexpected(one.error());
        const yarn::YarnForecast& yarn = one->yarn;
        const double share = part.share_pct / 100.0 / yarn.yarn_grams;
        nominal += share * yarn.nominal_length_m;
        low += share * yarn.length_low_m;
        high += share * yarn.length_high_m;
        told.foretold.grams += one->yarn_grams;
        told.foretold.text += kept_words(part.batt, part.share_pct, yarn);
        if (part.share_pct <= most) continue;
        most = part.share_pct;
        told.preparation = yarn.preparation;
        told.foretold.wanted_wpi = yarn.planned_in == recipe::ThicknessIn::wpi ? yarn.wpi : 0.0;
        told.foretold.strands = yarn.plies;
        told.plies = yarn.plies;
    }
    told.foretold.nominal_length_m = nominal * told.foretold.grams;
    told.foretold.low_m = low * told.foretold.grams;
    told.foretold.high_m = high * told.foretold.grams;
    return told;
}

yarn::Spread wash_shrink_pct(const std::vector<SpunFrom>& from, const fibre::Catalogue& catalogue) {
    std::vector<recipe::Strand> all;
    for (const SpunFrom& part : from) {
        const auto recipe = recipe::read_text(part.batt.carding.recipe, part.batt.carding.name, catalogue);
        const auto masses = recipe ? recipe::masses_of(*recipe) : tl::make_unexpected(recipe.error());
        if (!masses) continue;
        for (auto& strand : recipe::strands_of(*recipe, *masses, catalogue)) {
            strand.grams = strand.mass_share * part.share_pct;
            all.push_back(std::move(strand));
        }
    }
    return yarn::wash_of(all).shrink_pct;
}

}  // namespace battwright::shelving
