// Skeins and what they teach.
#include <cmath>
#include <random>

#include "colour/spaces.hpp"
#include "shelves.hpp"
#include "stash/more_yarn.hpp"
#include "yarn/finish.hpp"

using namespace shelves;
using doctest::Approx;
using recipe::Preparation;

namespace {

stash::Skein spun(double metres, double nominal_m, const char* date = "2024-06-10") {
    stash::Skein skein;
    skein.name = "ebb";
    skein.date = date;
    skein.metres = metres;
    skein.foretold = stash::Foretold{nominal_m, 0.7 * nominal_m, 1.4 * nominal_m, 0.0, ""};
    return skein;
}

}  // namespace

TEST_CASE("more yarn than fibre: by all skeins of a batt, damp allowed for") {
    std::vector<stash::Batt> batts(2);
    batts[0].id = 1;
    batts[0].fed_grams = 40.0;
    batts[1].id = 2;
    batts[1].fed_grams = 50.0;
    batts[1].off_drum_grams = 30.0;
    const auto of = [](std::int64_t id, std::vector<stash::FromBatt> from, double grams) {
        stash::Skein skein;
        skein.id = id;
        skein.from = std::move(from);
        skein.grams = grams;
        return skein;
    };
    const auto asked = [&](const stash::Skein& skein, const std::vector<stash::Skein>& logged) {
        return stash::more_yarn_than_fibre(skein, batts, logged);
    };
    CHECK_FALSE(asked(of(0, {{1, 100.0}}, 41.9), {}));  // 5 %: a damp day
    REQUIRE(asked(of(0, {{1, 100.0}}, 42.1), {}));
    CHECK(asked(of(0, {{1, 100.0}}, 42.1), {})->fibre_grams == 40.0);
    CHECK(asked(of(0, {{2, 100.0}}, 32.0), {})->fibre_grams == 30.0);  // what came off the drum
    const std::vector<stash::Skein> logged{of(5, {{1, 50.0}, {2, 50.0}}, 40.0)};
    REQUIRE(asked(of(0, {{1, 100.0}}, 25.0), logged));
    CHECK(asked(of(0, {{1, 100.0}}, 25.0), logged)->yarn_grams == Approx(45.0));
    CHECK_FALSE(asked(of(5, {{1, 100.0}}, 41.0), logged));  // its own line does not count
    CHECK_FALSE(asked(of(0, {{7, 100.0}}, 500.0), logged));
    CHECK_FALSE(asked(of(0, {}, 500.0), logged));
}

TEST_CASE("a skein comes back as logged, and as changed") {
    const Folder folder;
    stash::Stash stash = opened(folder / "stash.db");
    const std::string a = got(stash.add(wool("kelp"), 60.0)).mark;
    const auto first = got(stash.card_it(carding({{a, 20.0}})));
    const auto second = got(stash.card_it(carding({{a, 30.0}})));
    stash::Skein skein = spun(180.5, 200.0);
    skein.from = {{first.id, 40.0}, {second.id, 60.0}};
    skein.grams = 45.25;
    skein.wpi = 14.5;
    skein.plies = 3;
    skein.preparation = Preparation::worsted;
    skein.foretold->text = "{}";
    skein.photo = "ebb.jpg";
    skein.note = "spun at slack water";
    skein.became = "mitts";
    skein = got(stash.log(skein));
    skein.became = "a hat after all";
    skein.metres = 181.0;
    skein.from = {{second.id, 100.0}};
    got(stash.change(skein));
    const auto read = got(stash.skein(skein.id));
    CHECK(read.metres == 181.0);
    CHECK(read.grams == 45.25);
    CHECK(read.wpi == 14.5);
    CHECK(read.plies == 3);
    CHECK(read.preparation == Preparation::worsted);
    CHECK(read.became == "a hat after all");
    CHECK(read.date == "2024-06-10");
    CHECK(read.foretold->nominal_length_m == 200.0);
    CHECK(read.foretold->high_m == Approx(280.0));
    CHECK(read.foretold->text == "{}");
    REQUIRE(read.from.size() == 1);
    CHECK(read.from[0].batt == second.id);
    CHECK(got(stash.skeins()).size() == 1);
    const auto refused = [&](auto&& spoil) {
        stash::Skein wrong = skein;
        spoil(wrong);
        CHECK_FALSE(stash.log(wrong));
        CHECK_FALSE(stash.change(wrong));
    };
    refused([](stash::Skein& s) { s.metres = -1.0; });
    refused([](stash::Skein& s) { s.grams = std::nan(""); });
    refused([](stash::Skein& s) { s.wpi = HUGE_VAL; });
    refused([](stash::Skein& s) { s.plies = -2; });
    refused([](stash::Skein& s) { s.from = {{999, 100.0}}; });
    refused([](stash::Skein& s) { s.from[0].share_pct = 50.0; });
    refused([](stash::Skein& s) { s.date = "soon"; });
    refused([](stash::Skein& s) { s.foretold->nominal_length_m = std::nan(""); });
    CHECK(got(stash.skeins()).size() == 1);
    check_sound(stash);
}

TEST_CASE("a skein's colours come back as kept, are changed and go with it, and it is found by them") {
    const Folder folder;
    stash::Stash stash = opened(folder / "stash.db");
    stash::Skein skein;
    skein.name = "ebb";
    skein.palette = {{{0.25, 0.5, 0.375}, 60.0}, {{0.75, 0.5, 0.25}, 40.0}};
    const auto logged = got(stash.log(skein));
    CHECK(logged.palette == skein.palette);
    CHECK(got(stash.skeins())[0].palette == skein.palette);
    stash::Skein other;
    other.name = "flood";
    other.palette = {{{0.9, 0.1, 0.1}, 100.0}};
    got(stash.log(other));
    stash::Clue clue;
    clue.colour = colour::lab(colour::Srgb{0.9, 0.1, 0.1});
    CHECK(got(stash.look_up(clue, 10))[0].name == "flood");
    CHECK(got(stash.look_up(clue, 10))[0].deviations < 1e-6);
    auto changed = logged;
    changed.palette = {{{0.125, 0.25, 0.5}, 100.0}};
    CHECK(stash.change(changed).has_value());
    CHECK(got(stash.skein(logged.id)).palette == changed.palette);
    changed.palette[0].share_pct = 70.0;
    CHECK_FALSE(stash.change(changed).has_value());
    CHECK(got(stash.skein(logged.id)).palette.front().share_pct == 100.0);
    CHECK(stash.remove_skein(logged.id).has_value());
    check_sound(stash);
    CHECK(Raw(folder / "stash.db").value("SELECT count(*) FROM skein_tint") == "1");
}

TEST_CASE("projects are promised no more than the skein has") {
    const Folder folder;
    stash::Stash stash = opened(folder / "stash.db");
    stash::Skein skein = got(stash.log(spun(437.0 * measure::metres_per_yard, 400.0)));
    const auto hat = got(stash.allocate({0, skein.id, "hat", 200.0 * measure::metres_per_yard}));
    got(stash.allocate({0, skein.id, "mitts", 237.0 * measure::metres_per_yard}));
    CHECK(got(stash.metres_left(skein.id)) == 0.0);
    CHECK(holds(line_of(stash.allocate({0, skein.id, "cowl", 0.1})), "left"));
    skein.metres = 300.0;
    CHECK(holds(line_of(stash.change(skein)), "promised"));
    got(stash.release(hat.id));
    got(stash.change(skein));
    CHECK_FALSE(stash.release(hat.id));
    CHECK_FALSE(stash.allocate({0, skein.id, " ", 1.0}));
    CHECK_FALSE(stash.allocate({0, skein.id, "hat", -1.0}));
    CHECK_FALSE(stash.allocate({0, 999, "hat", 1.0}));
    CHECK(got(stash.allocations()).size() == 1);
    got(stash.remove_skein(skein.id));
    CHECK(got(stash.allocations()).empty());
}

TEST_CASE("the calibration from the record is the closed form of the conjugate family") {
    const Folder folder;
    stash::Stash stash = opened(folder / "stash.db");
    const std::vector<double> ratios{1.12, 0.95, 1.30, 1.08, 1.17};
    int day = 20;  // logged backwards: the record is read by date
    for (const double ratio : ratios) {
        stash::Skein skein = spun(200.0 * ratio, 200.0, ("2024-06-" + std::to_string(day--)).c_str());
        got(stash.log(skein));
    }
    // Left out: not to be counted, not measured, without a forecast, a slip of the pen, another preparation.
    stash::Skein other = spun(900.0, 200.0);
    other.counts = false;
    got(stash.log(other));
    got(stash.log(spun(0.0, 200.0)));
    got(stash.log(spun(4000.0, 200.0)));
    other = spun(300.0, 200.0);
    other.foretold.reset();
    got(stash.log(other));
    other = spun(150.0, 200.0);
    other.preparation = Preparation::worsted;
    got(stash.log(other));

    // Gelman and others, Bayesian Data Analysis, 3.3: the update by all data at once.
    const auto n = static_cast<double>(ratios.size());
    double mean = 0.0, squares = 0.0;
    for (const double ratio : ratios) mean += std::log(ratio) / n;
    for (const double ratio : ratios) squares += std::pow(std::log(ratio) - mean, 2.0);
    const double k = yarn::prior_skeins;
    const auto calibration = got(stash.calibration());
    const auto& belief = calibration.of(Preparation::woollen);
    CHECK(belief.count == 5);
    CHECK(belief.freedom == yarn::prior_freedom + 5);
    CHECK(belief.mean == Approx(n * mean / (k + n)));
    CHECK(belief.squares == Approx(yarn::prior_freedom * yarn::skein_log_sd * yarn::skein_log_sd + squares +
                                   k * n / (k + n) * mean * mean));
    CHECK(calibration.of(Preparation::worsted).count == 1);
    // What was known on the way: the two skeins of the first two days.
    CHECK(got(stash.calibration("2024-06-17")).of(Preparation::woollen).count == 2);
    CHECK(got(stash.calibration("2024-06-17")).of(Preparation::woollen).mean ==
          Approx((std::log(1.17) + std::log(1.08)) / (k + 2.0)));
    CHECK_FALSE(stash.calibration("june"));
}

TEST_CASE("half a batt spun does not count as half the yardage") {
    const Folder folder;
    stash::Stash stash = opened(folder / "stash.db");
    stash::Skein half = spun(110.0, 200.0);
    half.grams = 25.0;
    half.foretold->grams = 50.0;
    got(stash.log(half));
    CHECK(got(stash.calibration()).of(Preparation::woollen).mean ==
          Approx(std::log(1.1) / (yarn::prior_skeins + 1.0)));
}

TEST_CASE("what comes off the drum is learnt in closed form too") {
    const Folder folder;
    stash::Stash stash = opened(folder / "stash.db");
    const std::string a = got(stash.add(wool("kelp"), 1000.0)).mark;
    const double prior = std::log1p(-yarn::carding_loss_pct(Preparation::woollen).middle() / 100.0);
    const stash::CardingHabit before = got(stash.carding_habit());
    CHECK(before.of(Preparation::woollen).mean == Approx(prior));
    CHECK(before.of(Preparation::woollen).count == 0);
    const std::vector<double> shares{0.90, 0.87, 0.91, 0.88};
    for (const double share : shares) {
        stash::Carding card = carding({{a, 100.0}});
        card.retained_share = 0.98;
        got(stash.off_the_drum(got(stash.card_it(card)).id, 98.0 * share));
    }
    got(stash.card_it(carding({{a, 50.0}})));  // not weighed
    const auto undone = got(stash.card_it(carding({{a, 50.0}})));
    got(stash.off_the_drum(undone.id, 30.0));
    got(stash.take_back(undone.id));

    const auto habit = got(stash.carding_habit());
    const auto& belief = habit.of(Preparation::woollen);
    double mean = 0.0, squares = 0.0;
    for (const double share : shares) mean += std::log(share) / 4.0;
    for (const double share : shares) squares += std::pow(std::log(share) - mean, 2.0);
    const double k = stash::batt_prior_batts;
    CHECK(belief.count == 4);
    CHECK(belief.mean == Approx((k * prior + 4.0 * mean) / (k + 4.0)));
    CHECK(belief.squares == Approx(stash::batt_prior_freedom * stash::batt_log_sd * stash::batt_log_sd +
                                   squares + k * 4.0 / (k + 4.0) * std::pow(mean - prior, 2.0)));
    CHECK(habit.share(Preparation::woollen) < before.share(Preparation::woollen));
    CHECK(habit.share_80_percent(Preparation::woollen).low < habit.share(Preparation::woollen));
    CHECK(habit.share_80_percent(Preparation::woollen).high > habit.share(Preparation::woollen));
    CHECK(habit.of(Preparation::worsted).count == 0);
    CHECK(got(stash.carding_habit("2024-05-01")).of(Preparation::woollen).count == 0);

    // The forecast is handed it with the calibration.
    const auto calibration = got(stash.calibration());
    CHECK(calibration.carded_share(Preparation::woollen) == habit.share(Preparation::woollen));
    const yarn::Calibration usual;
    CHECK(calibration.carded_share(Preparation::worsted) == usual.carded_share(Preparation::worsted));
}

TEST_CASE("four in five of 10,000 simulated spinners' next skeins fall in the range their record gives") {
    const Folder folder;
    stash::Stash stash = opened(folder / "stash.db");
    std::mt19937 random(20240611);
    std::normal_distribution<double> normal;
    const double habit_sd = yarn::skein_log_sd / std::sqrt(yarn::prior_skeins);
    int held = 0;
    constexpr int spinners = 10'000;
    for (int i = 0; i < spinners; ++i) {
        const double habit = habit_sd * normal(random);
        const auto next = [&] { return 200.0 * std::exp(habit + yarn::skein_log_sd * normal(random)); };
        // Her record, forgotten again before the next one sits down.
        const auto record = stash.all_or_nothing([&]() -> measure::Expected<void> {
            const int logged = i % 7;
            for (int s = 0; s < logged; ++s) got(stash.log(spun(next(), 200.0)));
            const auto belief = got(stash.calibration()).of(Preparation::woollen);
            const auto range =
                yarn::range_80_percent(200.0 * std::exp(belief.mean), yarn::half_width_80_percent(belief));
            const double real = next();
            held += real >= range.low && real <= range.high ? 1 : 0;
            return tl::make_unexpected(measure::Complaint{"next", "spinner"});
        });
        REQUIRE_FALSE(record.has_value());
    }
    const double coverage = held / static_cast<double>(spinners);
    CAPTURE(coverage);
    CHECK(coverage > 0.75);
    CHECK(coverage < 0.85);
    CHECK(got(stash.skeins()).empty());
}
