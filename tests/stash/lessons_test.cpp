// What logged wraps teach, what is asked, and files from before plans were kept.
#include <cmath>

#include "shelves.hpp"
#include "stash/schema.hpp"
#include "yarn/law.hpp"

using namespace shelves;
using doctest::Approx;
using recipe::Preparation;

namespace {

// 50 g planned at 12 wraps and got at `got` of them, exactly as others' skeins are.
stash::Skein planned_at_12(double got_wpi) {
    const auto metres = [](double wpi) { return 0.05 * std::exp(yarn::log_m_per_kg_at_wraps(wpi, {})); };
    stash::Skein skein;
    skein.name = "ebb";
    skein.date = "2024-06-10";
    skein.grams = 50.0;
    skein.metres = metres(got_wpi);
    skein.wpi = got_wpi;
    skein.plies = 2;
    skein.foretold = stash::Foretold{metres(12.0), 0.6 * metres(12.0), 1.7 * metres(12.0), 50.0, ""};
    skein.foretold->wanted_wpi = 12.0;
    skein.foretold->strands = 2;
    return skein;
}

}  // namespace

TEST_CASE("three average skeins of 16 wraps from batts planned at 12 teach aim and not loft") {
    const Folder folder;
    stash::Stash stash = opened(folder / "stash.db");
    for (int i = 0; i < 3; ++i) got(stash.log(planned_at_12(16.0)));
    const auto calibration = got(stash.calibration());
    CHECK(calibration.aim(Preparation::woollen).count == 3);
    CHECK(std::exp(calibration.aim(Preparation::woollen).mean) > 1.25);
    CHECK(calibration.loft(Preparation::woollen).count == 3);
    CHECK(calibration.loft(Preparation::woollen).mean == Approx(0.0));
    const auto asked = got(stash.questions());
    REQUIRE(asked.size() == 3);
    CHECK(asked[0].question == yarn::Question::changed_her_mind);
    CHECK(asked[0].lesson.got_wpi == 16.0);
}

TEST_CASE("a question is asked once, and the answer is kept") {
    const Folder folder;
    {
        stash::Stash stash = opened(folder / "stash.db");
        auto first = got(stash.log(planned_at_12(16.0)));
        auto second = got(stash.log(planned_at_12(17.0)));
        first.changed_plan = true;
        got(stash.change(first));
        second.confirmed = true;
        got(stash.change(second));
    }
    stash::Stash stash = opened(folder / "stash.db");
    CHECK(got(stash.questions()).empty());
    const auto skeins = got(stash.skeins());
    CHECK(skeins[0].changed_plan);
    CHECK_FALSE(skeins[0].confirmed);
    CHECK(skeins[1].confirmed);
    CHECK(skeins[0].foretold->wanted_wpi == 12.0);
    CHECK(skeins[0].foretold->strands == 2);
    const auto calibration = got(stash.calibration());
    CHECK(calibration.aim(Preparation::woollen).count == 1);
    CHECK(calibration.loft(Preparation::woollen).count == 2);
    got(stash.remove_skein(skeins[0].id));
    CHECK(got(stash.calibration()).loft(Preparation::woollen).count == 1);
}

TEST_CASE("a skein far from what its wraps make likely teaches nothing until it is confirmed") {
    const Folder folder;
    stash::Stash stash = opened(folder / "stash.db");
    stash::Skein odd = planned_at_12(12.0);
    odd.metres *= 3.0;
    odd = got(stash.log(odd));
    CHECK(got(stash.calibration()).loft(Preparation::woollen).count == 0);
    CHECK(got(stash.questions())[0].question == yarn::Question::is_it_right);
    odd.confirmed = true;
    got(stash.change(odd));
    CHECK(got(stash.calibration()).loft(Preparation::woollen).count == 1);
}

TEST_CASE("a file of version 2 is carried over; what another law foretold is kept and not learnt from") {
    const Folder folder;
    const fs::path path = folder / "stash.db";
    {
        stash::Stash stash = opened(path);
        got(stash.log(planned_at_12(16.0)));
        stash::Skein bare = planned_at_12(16.0);
        bare.wpi = 0.0;
        got(stash.log(bare));
    }
    REQUIRE(
        Raw(path).run(
            "DROP TABLE skein_tint; DROP TABLE batt_photo; DROP TABLE skein_plan; PRAGMA user_version = 2") ==
        SQLITE_OK);
    stash::Stash stash = opened(path);
    CHECK(Raw(path).value("PRAGMA user_version") == std::to_string(stash::present_version));
    CHECK(fs::exists(folder / "stash.db.version-2"));
    const auto skeins = got(stash.skeins());
    REQUIRE(skeins.size() == 2);
    CHECK(skeins[0].foretold->law == 1);
    CHECK(skeins[0].foretold->nominal_length_m == Approx(planned_at_12(16.0).foretold->nominal_length_m));
    // Weight, length and wraps of the skein itself are as good as ever; a length alone is not.
    const auto calibration = got(stash.calibration());
    CHECK(calibration.loft(Preparation::woollen).count == 1);
    CHECK(calibration.aim(Preparation::woollen).count == 0);
    CHECK(calibration.of(Preparation::woollen).count == 0);
}
