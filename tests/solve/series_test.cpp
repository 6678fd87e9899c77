// Several batts out of one shelf, and what a shelf can reach.
#include <map>

#include "keeping.hpp"
#include "solve/gamut.hpp"

using namespace battwright;
using namespace battwright::testing;

TEST_CASE("a gradient of batts never takes more than there is") {
    for (unsigned seed = 1; seed <= 8; ++seed) {
        CAPTURE(seed);
        Random random(seed);
        solve::Problem problem;
        problem.lots = random_lots(random, 25);
        problem.goal.total = {30.0, 30.0};
        problem.goal.bounds.most_lots = 5;
        problem.goal.bounds.least_used_grams = 0.5;
        const auto from = colour::lab(dyed_colour(random)), to = colour::lab(dyed_colour(random));
        const auto targets = solve::between(from, to, 7);
        const auto series = solve::solve_series(problem, targets, setting());
        REQUIRE(series);
        CHECK(!series->conflict);
        REQUIRE(series->batts.size() == 7);
        std::vector<double> used(25);
        for (std::size_t b = 0; b < 7; ++b) {
            auto one = problem;
            one.goal.target = targets[b];
            check_keeps(one, series->batts[b]);
            for (std::size_t j = 0; j < 25; ++j) used[j] += series->batts[b].grams[j];
        }
        for (std::size_t j = 0; j < 25; ++j) {
            CHECK(used[j] <= problem.lots[j].on_hand_grams + 1e-6);
            CHECK(series->left_grams[j] == doctest::Approx(problem.lots[j].on_hand_grams - used[j]));
        }
    }
}

TEST_CASE("an early batt leaves what a later one needs more") {
    // The first colour can be had from "near" or, exactly, from "exact"; the second only from "exact". There
    // is enough of "exact" for one batt.
    solve::Problem problem;
    problem.lots = {lot("exact", "#3a5f8a", 20.0), lot("near", "#3d608b", 20.0), lot("far", "#d8c38a", 20.0)};
    problem.goal.total = {20.0, 20.0};
    const std::vector<solve::Target> targets{solve::target_of(*colour::parse_hex("#3c608b")),
                                             solve::target_of(*colour::parse_hex("#385d89"))};
    const auto series = solve::solve_series(problem, targets, setting());
    REQUIRE((series && series->batts.size() == 2));
    CHECK(series->batts[0].grams[1] > 15.0);
    CHECK(series->batts[1].grams[0] > 15.0);
}

TEST_CASE("a series that runs out of fibre says at which batt and why") {
    solve::Problem problem;
    problem.lots = {lot("blue", "#264e7a", 45.0)};
    problem.goal.total = {20.0, 20.0};
    const auto series = solve::solve_series(
        problem, std::vector<solve::Target>(3, solve::target_of(colour::Srgb{0.2, 0.3, 0.5})), setting());
    REQUIRE(series);
    CHECK(series->batts.size() == 2);
    REQUIRE(series->conflict);
    CHECK(series->conflict_at == 2);
    REQUIRE(series->conflict->least_change.size() == 1);
    CHECK(series->conflict->least_change[0].to == doctest::Approx(5.0));
}

TEST_CASE("colours between two are even in Lab") {
    const auto targets = solve::between({20, 10, -30}, {80, -10, 30}, 4);
    REQUIRE(targets.size() == 4);
    CHECK(targets[1].lab.l == doctest::Approx(40.0));
    CHECK(targets[1].lab.a == doctest::Approx(10.0 / 3.0));
    CHECK(targets[3].lab.b == doctest::Approx(30.0));
    CHECK(solve::between({20, 0, 0}, {80, 0, 0}, 1)[0].lab.l == doctest::Approx(50.0));
    const auto ends = solve::between({20, 0, 0}, {80, 0, 0}, 2);
    REQUIRE(ends.size() == 2);
    CHECK(ends[0].lab.l == doctest::Approx(20.0));
    CHECK(ends[1].lab.l == doctest::Approx(80.0));
}

TEST_CASE("the gamut is a closed mesh of colours that can be reached") {
    Random random(3);
    const auto lots = random_lots(random, 15);
    const auto gamut = solve::gamut_of(lots, setting());
    REQUIRE(gamut);
    CHECK(gamut->points.size() == 162);
    CHECK(gamut->triangles.size() == 320);
    // Closed: every edge has a triangle on each side, run through once each way.
    std::map<std::pair<unsigned, unsigned>, int> edges;
    for (const auto& t : gamut->triangles) {
        for (std::size_t k = 0; k < 3; ++k) ++edges[{t[k], t[(k + 1) % 3]}];
    }
    for (const auto& [edge, times] : edges) {
        CHECK(times == 1);
        CHECK(edges.count({edge.second, edge.first}) == 1);
    }
    for (std::size_t k = 0; k < gamut->points.size(); k += 9) {
        const auto reach = solve::distance_to_gamut(lots, solve::target_of(gamut->points[k]), setting());
        REQUIRE(reach);
        CHECK(reach->delta_e < 0.01);
    }
}

TEST_CASE("no blend lies outside the gamut's mesh by more than its facets are coarse") {
    Random random(4);
    const auto lots = random_lots(random, 8);
    const auto gamut = solve::gamut_of(lots, setting(), {3});
    REQUIRE(gamut);
    const auto& c = gamut->centre;
    for (int trial = 0; trial < 200; ++trial) {
        std::vector<std::size_t> which;
        std::vector<double> shares;
        for (std::size_t j = 0; j < lots.size(); ++j) {
            which.push_back(j);
            shares.push_back(-std::log(uniform(random, 1e-6, 1.0)));
        }
        const auto lab = blend_of(lots, which, shares).lab;
        const double l = lab.l - c.l, a = lab.a - c.a, b = lab.b - c.b,
                     size = std::sqrt(l * l + a * a + b * b);
        // The mesh point in most nearly the same direction lies at least as far out.
        double cosine = -1.0, radius = 0.0;
        for (const auto& p : gamut->points) {
            const double pl = p.l - c.l, pa = p.a - c.a, pb = p.b - c.b;
            const double r = std::sqrt(pl * pl + pa * pa + pb * pb);
            const double cos = (pl * l + pa * a + pb * b) / (r * size);
            if (cos > cosine) {
                cosine = cos;
                radius = r;
            }
        }
        CHECK(size <= radius + 4.0);
    }
}

TEST_CASE("how far a colour is from the gamut") {
    // Grey lots reach greys between them and no red.
    const std::vector<solve::Lot> lots{lot("dark", "#303030", 1.0), lot("light", "#d0d0d0", 1.0)};
    const auto grey =
        solve::distance_to_gamut(lots, solve::target_of(*colour::parse_hex("#808080")), setting());
    CHECK(grey->delta_e < 0.3);
    CHECK(grey->shares[0] + grey->shares[1] == doctest::Approx(1.0));
    const auto red =
        solve::distance_to_gamut(lots, solve::target_of(*colour::parse_hex("#c02020")), setting());
    CHECK(red->delta_e > 25.0);
}
