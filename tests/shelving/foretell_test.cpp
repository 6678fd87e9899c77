// What is foretold of batts kept in the record, against the front door's own forecast of their recipe.
#include "shelving/foretell.hpp"

#include <doctest/doctest.h>

#include <string>

#include "forecast/forecast.hpp"
#include "recipe/file.hpp"

using namespace battwright;
using doctest::Approx;

namespace {

stash::Batt kept_batt(std::int64_t id, double fed_grams, const std::string& thickness) {
    stash::Batt one;
    one.id = id;
    one.fed_grams = fed_grams;
    one.carding.name = "Slack Water";
    one.carding.recipe =
        "format = 1\n[[component]]\nfibre = \"corriedale\"\nweight = \"50 g\"\n[spinning]\nplies = "
        "2\nthickness = \"" +
        thickness + "\"\n";
    return one;
}

yarn::YarnForecast yarn_of_kept(const stash::Batt& one) {
    forecast::Bench bench;
    bench.catalogue = &fibre::Catalogue::builtin();
    return forecast::forecast(
               recipe::read_text(one.carding.recipe, "r.toml", fibre::Catalogue::builtin()).value(), bench)
        ->yarn;
}

}  // namespace

TEST_CASE(
    "a kept batt's yarn: as its recipe's, in proportion to the fibre; less the spinner's waste off the "
    "drum") {
    const stash::Batt as_planned = kept_batt(1, 50.0, "12 wpi");
    const auto planned = yarn_of_kept(as_planned);
    const auto told = [](const stash::Batt& one) {
        return shelving::foretold_of({{one}}, {}, fibre::Catalogue::builtin()).value().foretold;
    };
    CHECK(told(as_planned).grams == Approx(planned.yarn_grams));
    CHECK(told(as_planned).nominal_length_m == Approx(planned.nominal_length_m));
    CHECK(told(as_planned).low_m == Approx(planned.length_low_m));
    CHECK(told(as_planned).high_m == Approx(planned.length_high_m));
    // Twice the fibre, twice the yarn.
    CHECK(told(kept_batt(2, 100.0, "12 wpi")).nominal_length_m == Approx(2.0 * planned.nominal_length_m));
    // Weighed off the drum, only what spinning loses is lost from there on.
    stash::Batt weighed = as_planned;
    weighed.off_drum_grams = 40.0;
    CHECK(told(weighed).grams == Approx(40.0 - 40.0 * planned.spinning_loss_pct / 100.0));
    REQUIRE(planned.spinning_loss_pct > 0.5);
    // A quarter of one and three of another: so do their metres per gram.
    const stash::Batt thick = kept_batt(3, 50.0, "6 wpi");
    const auto mixed =
        shelving::foretold_of({{as_planned, 25.0}, {thick, 75.0}}, {}, fibre::Catalogue::builtin()).value();
    const auto per_gram = [](const yarn::YarnForecast& yarn) {
        return yarn.nominal_length_m / yarn.yarn_grams;
    };
    CHECK(mixed.foretold.nominal_length_m / mixed.foretold.grams ==
          Approx(0.25 * per_gram(planned) + 0.75 * per_gram(yarn_of_kept(thick))));
}
