// What the simulation promises: mass, bounds, determinism, convergence, and the order of looks.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "../measure/seed.hpp"
#include "making.hpp"

using namespace battwright;
using namespace battwright::carding;

namespace {

Setup random_setup(std::mt19937_64& random) {
    Setup setup = testing::setup_of(static_cast<std::size_t>(testing::whole(random, 1, 14)),
                                    static_cast<Manner>(testing::whole(random, 0, recipe::manner_count - 1)));
    setup.passes = testing::whole(random, 1, 5);
    setup.strips =
        testing::whole(random, 0, 3) == 0 ? testing::whole(random, 1, 64) : testing::whole(random, 1, 8);
    setup.feed.refeed = static_cast<Refeed>(testing::whole(random, 0, recipe::refeed_count - 1));
    setup.feed.repeats = testing::whole(random, 1, 5);
    setup.feed.overlap = testing::uniform(random, 0.0, 1.0);
    setup.circumference_mm = testing::uniform(random, 200.0, 1200.0);
    setup.width_mm = testing::uniform(random, 60.0, 600.0);
    setup.seed = random();
    setup.grid = {static_cast<std::size_t>(testing::whole(random, 1, 12)),
                  static_cast<std::size_t>(testing::whole(random, 1, 40)),
                  static_cast<std::size_t>(testing::whole(random, 1, 40))};
    if (testing::whole(random, 0, 4) == 0) setup.spread = {};
    for (Portion& portion : setup.portions) {
        portion.grams = std::exp(testing::uniform(random, -4.0, 4.0));
        portion.pass = testing::whole(random, 0, 1) == 0 ? 1 : testing::whole(random, 1, setup.passes);
        portion.slipperiness = testing::uniform(random, 0.0, 1.0);
        if (testing::whole(random, 0, 3) == 0) portion.lump_grams = 0.01;
        portion.retention = testing::uniform(random, 0.5, 1.0);
    }
    return setup;
}

double closest(double value, double to) {
    return std::abs(value - to) / std::max(std::abs(to), 1e-12);
}

}  // namespace

TEST_CASE("every pass keeps every portion's mass, and no share is negative") {
    auto random = testing::seeded();
    for (int round = 0; round < 150; ++round) {
        const Setup setup = random_setup(random);
        CAPTURE(round);
        const auto passes = simulate(setup);
        for (const Pass& pass : passes) {
            double on_drum = 0.0;
            for (const Portion& portion : setup.portions)
                on_drum += portion.pass <= pass.number ? portion.grams : 0.0;
            for (std::size_t p = 0; p < setup.portions.size(); ++p) {
                const bool here = setup.portions[p].pass <= pass.number;
                const double expected = here ? setup.portions[p].grams / on_drum : 0.0;
                REQUIRE(std::abs(mean_share(pass.field, p) - expected) < 1e-9);
            }
            REQUIRE(*std::min_element(pass.field.shares.begin(), pass.field.shares.end()) >= 0.0);
            for (std::size_t i = 0; i < pass.field.block_size(); ++i) {
                double sum = 0.0;
                for (std::size_t p = 0; p < pass.field.portions; ++p) sum += pass.field.block(p)[i];
                REQUIRE(sum == doctest::Approx(1.0).epsilon(1e-6));
            }
            for (const Spot& spot : pass.spots) {
                REQUIRE(spot.depth >= 0.0f);
                REQUIRE(spot.depth <= 1.0f);
                REQUIRE(spot.across_mm >= 0.0f);
                REQUIRE(spot.round_mm >= 0.0f);
                REQUIRE(static_cast<double>(spot.across_mm) <= setup.width_mm * 1.000001);
                REQUIRE(static_cast<double>(spot.round_mm) <= setup.circumference_mm * 1.000001);
            }
        }
    }
}

TEST_CASE("the same seed gives the same digits on any number of threads") {
    auto random = testing::seeded();
    for (int round = 0; round < 10; ++round) {
        const Setup setup = random_setup(random);
        const auto one = simulate(setup, 1);
        for (const int threads : {2, 3, 7}) {
            const auto many = simulate(setup, threads);
            REQUIRE(many.size() == one.size());
            for (std::size_t i = 0; i < one.size(); ++i) {
                REQUIRE(many[i].field.shares == one[i].field.shares);
                REQUIRE(many[i].field.unresolved == one[i].field.unresolved);
                REQUIRE(many[i].field.clumped == one[i].field.clumped);
                REQUIRE(many[i].spots.size() == one[i].spots.size());
                for (std::size_t s = 0; s < one[i].spots.size(); ++s) {
                    REQUIRE(many[i].spots[s].round_mm == one[i].spots[s].round_mm);
                    REQUIRE(many[i].spots[s].depth == one[i].spots[s].depth);
                }
            }
        }
    }
    Setup setup = testing::setup_of(3, Manner::layers);
    const auto first = simulate(setup);
    setup.seed = 2;
    CHECK(simulate(setup).front().field.shares != first.front().field.shares);
}

TEST_CASE("grid refinement: the default grid is within 2 % of the finest") {
    struct Case {
        Manner manner;
        std::size_t count;
    };
    const Case cases[] = {{Manner::layers, 2},          {Manner::layers, 6}, {Manner::stripes_across, 6},
                          {Manner::gradient_across, 6}, {Manner::dabs, 3},   {Manner::alternating, 3}};
    for (const Case& one : cases) {
        const Manner manner = one.manner;
        const std::size_t count = one.count;
        std::vector<std::vector<Measures>> by_grid;
        for (const Grid& grid : {coarse_grid, default_grid, fine_grid}) {
            Setup setup = testing::setup_of(count, manner);
            setup.grid = grid;
            by_grid.push_back(measured(simulate(setup), testing::eye_for(count), 4));
        }
        for (std::size_t pass = 0; pass < 3; ++pass) {
            const Measures &a = by_grid[0][pass], &b = by_grid[1][pass], &c = by_grid[2][pass];
            CAPTURE(pass);
            CAPTURE(word_for(manner));
            // Thin layers in turn are two cells thick each, which leaves a little more open.
            const double most = manner == Manner::alternating ? 0.03 : 0.02;
            CHECK(closest(b.intensity, c.intensity) < most);
            CHECK(closest(b.ibi, c.ibi) < most);
            CHECK(closest(b.strip_variation_de00, c.strip_variation_de00) < most);
            CHECK(closest(b.scale_depth_mm, c.scale_depth_mm) < most);
            const double order = std::log2(std::abs(a.intensity - b.intensity) /
                                           std::max(1e-15, std::abs(b.intensity - c.intensity)));
            MESSAGE(word_for(manner) << " of " << count << ", pass " << pass + 1 << ": intensity "
                                     << c.intensity << ", observed order " << order);
        }
    }
}

TEST_CASE("the error falls with the cell at second order or better") {
    // One portion beside another, one pass: depth plays no part, so only the cells across are refined.
    const auto value = [](std::size_t across) {
        Setup setup = testing::setup_of(2, Manner::gradient_across);
        setup.passes = 2;
        setup.grid = {1, across, 48};
        return intensity(simulate(setup).back().field);
    };
    const double a = value(24), b = value(48), c = value(96), d = value(192);
    CHECK(std::abs(b - c) < std::abs(a - b) / 2.0);
    CHECK(std::abs(c - d) < std::abs(b - c) / 2.0);
    MESSAGE("observed orders " << std::log2(std::abs((a - b) / (b - c))) << ", "
                               << std::log2(std::abs((b - c) / (c - d))));
}

TEST_CASE("passes lead from striped to near solid, and passes_for finds the first") {
    // Common practice, no source: one pass leaves distinct colours, two or three blend, four come near a
    // solid.
    Setup setup = testing::setup_of(6, Manner::layers);
    setup.passes = 4;
    const BattObserver observer = testing::eye_for(6);
    const auto all = measured(simulate(setup), observer, 4);
    CHECK(all[0].look == Look::striped);
    CHECK(all[1].look <= Look::heathered);
    CHECK(all[2].look == Look::heathered);
    CHECK(all[3].look >= Look::heathered);
    for (std::size_t i = 1; i < all.size(); ++i)
        CHECK(all[i].strip_variation_de00 < all[i - 1].strip_variation_de00);
    CHECK(passes_for(Look::streaky, setup, observer, 72.0).passes == 2);
    CHECK(passes_for(Look::near_solid, setup, observer, 72.0).passes.value_or(0) >= 4);
    CHECK_FALSE(passes_for(Look::near_solid, setup, observer, 72.0, 2).passes);
    // One colour throughout is a solid from the start.
    BattObserver plain = observer;
    for (auto& reflectance : plain.reflectances) reflectance = observer.reflectances[0];
    CHECK(passes_for(Look::near_solid, setup, plain, 72.0).passes == 1);
}

TEST_CASE("looks stand on their limits") {
    CHECK(look_for(0.49) == Look::near_solid);
    CHECK(look_for(0.5) == Look::heathered);
    CHECK(look_for(1.1, 1.0) == Look::near_solid);  // chance leaves 1.0 of it
    CHECK(look_for(1.1, 0.9) == Look::heathered);
    CHECK(look_for(4.0) == Look::streaky);
    CHECK(look_for(9.0) == Look::striped);
}

TEST_CASE("over-carding: fine fibre bears fewer passes") {
    Setup setup = testing::setup_of(2, Manner::layers);
    CHECK(over_carding(setup.portions, 72.0, 4).risk == Risk::low);
    setup.portions[1].diameter_um = 17.0;
    CHECK(over_carding(setup.portions, 72.0, 4).risk == Risk::high);
    CHECK(over_carding(setup.portions, 128.0, 4).risk == Risk::some);
}

TEST_CASE("spread is wider on finer cloth and for thin feeding") {
    const Setup setup = testing::setup_of(2, Manner::layers);
    const auto& carders = recipe::carder_presets();
    const Spread plain = spread_of(carders[1], setup.portions, 60.0, false);
    const Spread fine = spread_of(carders[3], setup.portions, 60.0, false);
    const Spread thin = spread_of(carders[1], setup.portions, 60.0, true);
    CHECK(fine.across_mm > plain.across_mm);
    CHECK(fine.depth_share > plain.depth_share);
    CHECK(thin.across_mm > plain.across_mm);
}

TEST_CASE("neps: a Poisson process, thinned by what the batt keeps") {
    Setup setup = testing::setup_of(2, Manner::layers);
    setup.portions[1].lump_grams = 0.01;
    setup.portions[1].grams = 2.0;  // 200 to be expected
    setup.portions[1].retention = 0.8;
    setup.grid = {2, 2, 2};
    setup.passes = 2;
    double sum = 0.0, squares = 0.0, second = 0.0;
    constexpr int rounds = 400;
    for (int i = 0; i < rounds; ++i) {
        setup.seed = static_cast<std::uint64_t>(i);
        const auto passes = simulate(setup, 1);
        const double n = static_cast<double>(passes[0].spots.size());
        sum += n;
        squares += n * n;
        second += static_cast<double>(passes[1].spots.size());
    }
    // A thinned Poisson process is Poisson: mean 200 * 0.8, variance the same (Kingman 1993, from memory).
    const double mean = sum / rounds, variance = squares / rounds - mean * mean;
    CHECK(mean == doctest::Approx(160.0).epsilon(5.0 / std::sqrt(160.0 * rounds)));
    CHECK(variance == doctest::Approx(160.0).epsilon(5.0 * std::sqrt(2.0 / rounds)));
    CHECK(second / rounds == doctest::Approx(128.0).epsilon(5.0 / std::sqrt(128.0 * rounds)));
}

TEST_CASE("what is added on the last pass lies inside") {
    Setup setup = testing::setup_of(3, Manner::layers);
    setup.portions[2].pass = 3;
    setup.portions[2].grams = 3.0;
    setup.portions[2].lump_grams = 0.01;
    const auto passes = simulate(setup);
    CHECK(mean_share(passes[1].field, 2) == 0.0);
    CHECK(passes[1].spots.empty());
    const Field& field = passes[2].field;
    CHECK(box_mean(field, {0, 1, 0, 1, 0.4, 0.6})[2] > 5.0 * box_mean(field, {0, 1, 0, 1, 0.0, 0.2})[2]);
    CHECK_FALSE(passes[2].spots.empty());
    for (const Spot& spot : passes[2].spots) CHECK(std::abs(static_cast<double>(spot.depth) - 0.5) < 0.05);
}

TEST_CASE("what is added late never blends faster than what was fed together") {
    // White with black laid inside it on the first pass, or up to three passes later. As many passes after
    // they met, the late batt is no nearer to solid; the mean of eight, since handfuls are luck.
    auto random = testing::seeded();
    for (int round = 0; round < 16; ++round) {
        Setup setup = testing::setup_of(2, Manner::sandwich);
        setup.portions[1].slipperiness = 0.7;  // so that it goes inside
        setup.portions[1].grams = testing::uniform(random, 3.0, 30.0);
        setup.portions[0].grams = 60.0 - setup.portions[1].grams;
        setup.strips = testing::whole(random, 2, 8);
        setup.feed.refeed = static_cast<Refeed>(round % recipe::refeed_count);
        setup.grid = coarse_grid;
        setup.passes = 7;
        const int late_by = testing::whole(random, 1, 3);
        const BattObserver observer = testing::eye_for(2);
        std::vector<double> together(4, 0.0), late(4, 0.0);
        for (std::uint64_t seed = 1; seed <= 8; ++seed) {
            setup.seed = seed;
            setup.portions[1].pass = 1;
            const auto at_once = measured(simulate(setup), observer, 4);
            setup.portions[1].pass = 1 + late_by;
            const auto later = measured(simulate(setup), observer, 4);
            for (std::size_t after = 0; after < 4; ++after) {
                together[after] += at_once[after].strip_variation_de00;
                late[after] += later[after + static_cast<std::size_t>(late_by)].strip_variation_de00;
            }
        }
        CAPTURE(word_for(setup.feed.refeed));
        CAPTURE(late_by);
        CAPTURE(setup.portions[1].grams);
        for (std::size_t after = 1; after < 4; ++after) {
            CAPTURE(after);
            CHECK(late[after] > 0.95 * together[after]);
        }
    }
    // White 25 g and black 25 g, in plain layers or the black on pass 2. Inside, it lies against white on
    // both sides, and the card mixes across two borders where plain layers have one: so much it is ahead.
    Setup setup = testing::setup_of(2, Manner::layers);
    for (Portion& portion : setup.portions) portion.grams = 25.0;
    setup.passes = 5;
    BattObserver observer = testing::eye_for(2);
    observer.reflectances = {colour::reflectance_of({0.95, 0.93, 0.88}),
                             colour::reflectance_of({0.1, 0.09, 0.08})};
    const auto together = measured(simulate(setup), observer, 4);
    setup.portions[1].pass = 2;
    const auto late = measured(simulate(setup), observer, 4);
    for (std::size_t pass = 1; pass < 4; ++pass)
        CHECK(late[pass + 1].strip_variation_de00 > 0.9 * together[pass].strip_variation_de00);
    CHECK(late[2].look < Look::near_solid);
}

TEST_CASE("alternating thin layers are far more blended after one pass than single layers") {
    // Common practice, no source.
    const BattObserver observer = testing::eye_for(3);
    const auto one_pass = [&](Manner manner) {
        Setup setup = testing::setup_of(3, manner);
        setup.passes = 1;
        return measured(simulate(setup), observer, 4).front().strip_variation_de00;
    };
    CHECK(one_pass(Manner::alternating) < 0.5 * one_pass(Manner::layers));
}

TEST_CASE("how it goes back: own places keep a gradient, sideways blends faster than strips") {
    const BattObserver observer = testing::eye_for(6);
    const auto last = [&](Manner manner, Refeed refeed) {
        Setup setup = testing::setup_of(6, manner);
        setup.feed.refeed = refeed;
        return measured(simulate(setup), observer, 4).back().strip_variation_de00;
    };
    CHECK(last(Manner::gradient_across, Refeed::own_places) >
          4.0 * last(Manner::gradient_across, Refeed::strips));
    CHECK(last(Manner::layers, Refeed::sideways) < last(Manner::layers, Refeed::strips));
    CHECK(last(Manner::layers, Refeed::on_edge) > 2.0 * last(Manner::layers, Refeed::strips));
}

TEST_CASE("finer cloth, a higher ratio and an ordinary load open more; slick fibre less") {
    Setup setup = testing::setup_of(2, Manner::layers);
    const recipe::Carder& plain = *recipe::find_carder("table-standard");
    const auto cut = [&](const recipe::Carder& carder, double grams) {
        return opening_of(carder, setup.portions, grams, false).cut;
    };
    const double usual = cut(plain, 60.0);
    CHECK(cut(*recipe::find_carder("fine-cloth"), 50.0) < usual);
    CHECK(cut(plain, 200.0) > usual);
    CHECK(opening_of(plain, setup.portions, 60.0, false, 1.5).cut == doctest::Approx(1.5 * usual));
    setup.portions[1].slipperiness = 0.8;
    CHECK(cut(plain, 60.0) > usual);
}
