// Staple, Hauteur and Barbe: the one way from one to the next.
#include "fibre/lengths.hpp"

#include <doctest/doctest.h>

using namespace battwright;
using doctest::Approx;

TEST_CASE("TEAM-2, worked by hand, and the length a Western Australian clip came to") {
    // 0.52 * 80 + 0.47 * 38 + 0.95 * 20 - 0.19 * 50 - 0.45 * 1.5 - 3.5; 9.6 - 15.58 - 7 + 10 + 49.9.
    const fibre::FleeceTest test{38.0, 50.0, 1.5};
    CHECK(fibre::team_hauteur_mm(80.0, 20.0, test) == Approx(64.785));
    CHECK(fibre::team_hauteur_cv_pct(80.0, 20.0, test) == Approx(46.92));
    // A sound fleece that nobody tested, by hand: 35 N/ktex, 45 % mid-breaks, 1 % vegetable matter.
    CHECK(fibre::team_hauteur_mm(85.0, 19.0) == Approx(44.2 + 16.45 + 18.05 - 8.55 - 0.45 - 3.5));
    CHECK(fibre::team_hauteur_cv_pct(85.0, 19.0) == Approx(10.2 - 14.35 - 6.65 + 9.0 + 49.9));
    // Mid-breaks under 45 % count as 45.
    CHECK(fibre::team_hauteur_mm(80.0, 20.0, {38.0, 30.0, 1.5}) ==
          fibre::team_hauteur_mm(80.0, 20.0, {38.0, 45.0, 1.5}));
    // Published for 84.5-90.1 mm of staple at 19-20 um and 30-40 N/ktex: Hauteur 60-69 mm, CV 45-52 %.
    for (const double strength : {30.0, 35.0, 40.0}) {
        const double h = fibre::team_hauteur_mm(87.0, 19.6, {strength, 55.0, 1.0});
        CHECK(h >= 60.0);
        CHECK(h <= 70.0);
    }
}

TEST_CASE("no merino's mean is its staple, and no kind's mean is longer than what is measured") {
    for (const fibre::Kind& kind : fibre::Catalogue::builtin().kinds()) {
        CAPTURE(kind.id);
        const double mean = fibre::mean_fibre_mm(kind, kind.staple_mm, kind.diameter_um);
        if (kind.staple_as == fibre::StapleAs::mean) {
            CHECK(mean == kind.staple_mm);
        } else {
            CHECK(mean < 0.95 * kind.staple_mm);
            CHECK(mean > 0.6 * kind.staple_mm);
        }
        // Long wools and what is carded never get the merino formula.
        if (kind.staple_as == fibre::StapleAs::fleece_to_top) CHECK(kind.id.starts_with("merino-"));
    }
    const fibre::Kind& romney = *fibre::Catalogue::builtin().find("romney");
    // Morton and Hearle: the length-biased mean is mean (1 + CV^2).
    CHECK(fibre::barbe_mm(fibre::mean_fibre_mm(romney, 130.0, 34.0), romney.staple_cv) == Approx(130.0));
}

TEST_CASE("words for what a staple means go there and back") {
    using fibre::StapleAs;
    for (const StapleAs meaning : {StapleAs::pulled, StapleAs::fleece_to_top, StapleAs::mean})
        CHECK(fibre::staple_as_from(fibre::word_for(meaning)) == meaning);
    CHECK_FALSE(fibre::staple_as_from("fleece"));
}
