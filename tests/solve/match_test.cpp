// Reaching a colour.
#include <doctest/doctest.h>

#include <algorithm>
#include <nlopt.hpp>

#include "colour/large.hpp"
#include "forecast/forecast.hpp"
#include "keeping.hpp"
#include "solve/gamut.hpp"
#include "solve/solve.hpp"

using namespace battwright;
using namespace battwright::testing;

namespace {

solve::Problem hundred_grams(std::vector<solve::Lot> lots, const solve::Target& target) {
    solve::Problem problem;
    problem.lots = std::move(lots);
    problem.goal.target = target;
    problem.goal.total = {100.0, 100.0};
    return problem;
}

// Each lot once, in a seeded order.
std::vector<std::size_t> some_of(Random& random, std::size_t n, std::size_t count) {
    std::vector<std::size_t> order(n);
    std::iota(order.begin(), order.end(), std::size_t(0));
    for (std::size_t k = 0; k < count; ++k) std::swap(order[k], order[whole(random, k, n - 1)]);
    order.resize(count);
    return order;
}

// The difference of a blend by the colour room alone.
double delta_e_of(const std::vector<colour::Spectrum>& lots, const std::vector<double>& shares,
                  const solve::Target& target) {
    std::vector<colour::Portion> portions;
    for (std::size_t k = 0; k < lots.size(); ++k) portions.push_back({shares[k], lots[k]});
    const auto lab = colour::lab_under(colour::blend(portions, {}), colour::Light::d65);
    return colour::match_difference(target.lab, lab);
}

std::vector<colour::Spectrum> reflectances_of(const std::vector<solve::Lot>& lots) {
    std::vector<colour::Spectrum> all;
    for (const auto& lot : lots)
        all.push_back(solve::work_out(lot, fibre::Catalogue::builtin(), {})->reflectance);
    return all;
}

// The best of all shares that are whole parts of `parts`.
double best_on_grid(const std::vector<colour::Spectrum>& lots, const solve::Target& target, int parts,
                    std::vector<double>& shares, std::size_t at = 0) {
    if (at + 1 == lots.size()) {
        shares[at] = parts;
        return delta_e_of(lots, shares, target);
    }
    double best = 1e9;
    for (int k = 0; k <= parts; ++k) {
        shares[at] = k;
        best = std::min(best, best_on_grid(lots, target, parts - k, shares, at + 1));
    }
    return best;
}

solve::Target vivid(Random& random) {
    const auto corner = [&] {
        return random() % 2 == 0 ? uniform(random, 0.0, 0.15) : uniform(random, 0.85, 1.0);
    };
    return solve::target_of(colour::Srgb{corner(), corner(), corner()});
}

}  // namespace

TEST_CASE("a target made from known lots is found again") {
    int matched = 0;
    for (unsigned seed = 1; seed <= 100; ++seed) {
        Random random(seed);
        auto lots = random_lots(random, whole(random, 20, 40));
        const auto which = some_of(random, lots.size(), whole(random, 3, 6));
        std::vector<double> shares;
        for (std::size_t k = 0; k < which.size(); ++k) shares.push_back(uniform(random, 0.05, 1.0));
        const double sum = std::accumulate(shares.begin(), shares.end(), 0.0);
        // The blend itself must be on the shelf, or the target may be out of reach.
        for (std::size_t k = 0; k < which.size(); ++k) {
            double& on_hand = lots[which[k]].on_hand_grams;
            on_hand = std::max(on_hand, std::ceil(100.0 * shares[k] / sum));
        }
        const auto problem = hundred_grams(lots, blend_of(lots, which, shares));
        const auto answer = solve::solve(problem, setting());
        REQUIRE(answer);
        REQUIRE(!answer->proposals.empty());
        check_keeps(problem, answer->proposals.front());
        if (*answer->proposals.front().delta_e <= 0.3) ++matched;
    }
    MESSAGE("matched within 0.3: " << matched << " of 100");
    CHECK(matched >= 99);
}

TEST_CASE("an unreachable target is come as near to as by trying every blend") {
    double worst = -1e9;
    int unreachable = 0;
    for (unsigned seed = 1; seed <= 24; ++seed) {
        CAPTURE(seed);
        Random random(seed);
        auto lots = random_lots(random, whole(random, 1, 4));
        for (auto& lot : lots) lot.on_hand_grams = 100.0;
        auto problem = hundred_grams(lots, vivid(random));
        problem.goal.lot_worth_delta_e = 0.0;
        std::vector<double> shares(lots.size());
        const double grid = best_on_grid(reflectances_of(lots), *problem.goal.target, 40, shares);
        if (grid > 1.0) ++unreachable;
        const auto match = solve::best_match(problem, setting());
        REQUIRE((match && *match));
        CHECK((*match)->delta_e <= grid + 1e-6);
        const auto answer = solve::solve(problem, setting());
        REQUIRE((answer && !answer->proposals.empty()));
        CHECK(*answer->proposals.front().difference <= grid + 0.1);
        worst = std::max(worst, *answer->proposals.front().difference - grid);
    }
    CHECK(unreachable >= 20);
    MESSAGE("worst against the grid: " << worst);
}

TEST_CASE(
    "no proposal comes nearer than the reach that is told, and both are in the metric for their distance") {
    for (unsigned seed = 401; seed <= 412; ++seed) {
        CAPTURE(seed);
        Random random(seed);
        auto lots = random_lots(random, whole(random, 2, 8));
        for (auto& lot : lots) lot.on_hand_grams = 100.0;
        const auto problem = hundred_grams(lots, vivid(random));
        const colour::Lab target = problem.goal.target->lab;
        auto reach = solve::distance_to_gamut(lots, *problem.goal.target, setting());
        const auto answer = solve::solve(problem, setting());
        REQUIRE((reach && answer && !answer->proposals.empty()));
        // By itself, with shares that no scale rounds and no shelf limits.
        for (const auto& proposal : answer->proposals)
            CHECK(reach->difference <= *proposal.difference + 0.05);
        solve::hold(*reach, answer->proposals);
        for (const auto& proposal : answer->proposals) {
            CHECK(reach->difference <= *proposal.difference);
            CHECK(*proposal.difference == doctest::Approx(colour::match_difference(target, proposal.lab)));
        }
        CHECK(reach->difference == doctest::Approx(colour::match_difference(target, reach->nearest)));
        CHECK(reach->delta_e == doctest::Approx(colour::ciede2000(target, reach->nearest)));
        CHECK(reach->difference > 0.0);
    }
    // One that does come nearer is the reach from then on.
    solve::Reach reach;
    reach.difference = 12.0;
    reach.shares = {1.0, 0.0};
    solve::Proposal nearer;
    nearer.difference = 11.0;
    nearer.delta_e = 9.0;
    nearer.total_grams = 80.0;
    nearer.grams = {20.0, 60.0};
    solve::hold(reach, {nearer});
    CHECK(reach.difference == 11.0);
    CHECK(reach.delta_e == 9.0);
    CHECK(reach.shares == std::vector<double>{0.25, 0.75});
}

TEST_CASE("no worse than general global methods given plenty of time") {
    for (const auto method : {nlopt::GN_DIRECT_L, nlopt::GN_CRS2_LM, nlopt::GN_ISRES}) {
        for (unsigned seed = 201; seed <= 204; ++seed) {
            CAPTURE(seed);
            Random random(seed);
            auto lots = random_lots(random, 5);
            for (auto& lot : lots) lot.on_hand_grams = 100.0;
            const auto problem = hundred_grams(lots, solve::target_of(dyed_colour(random)));
            const auto reflectances = reflectances_of(lots);
            nlopt::opt opt(method, 5);
            nlopt::srand(7);
            opt.set_lower_bounds(0.0);
            opt.set_upper_bounds(1.0);
            opt.set_maxeval(8000);
            nlopt::vfunc score = [](const std::vector<double>& x, std::vector<double>&, void* data) {
                const auto& [spectra, target] =
                    *static_cast<std::pair<const std::vector<colour::Spectrum>*, const solve::Target*>*>(
                        data);
                if (std::accumulate(x.begin(), x.end(), 0.0) < 1e-9) return 200.0;
                return delta_e_of(*spectra, x, *target);
            };
            auto data = std::make_pair(&reflectances, &*problem.goal.target);
            opt.set_min_objective(score, &data);
            std::vector<double> x(5, 0.4);
            double theirs = 0.0;
            opt.optimize(x, theirs);
            const auto ours = solve::best_match(problem, setting());
            REQUIRE((ours && *ours));
            CHECK((*ours)->delta_e <= theirs + 0.01);
        }
    }
}

TEST_CASE("colours are those of the forecast for the same recipe") {
    Random random(5);
    auto lots = random_lots(random, 12);
    lots[3].content = {{"polwarth", 70.0}, {"bombyx-silk", 30.0}};
    lots[4].palette = {{dyed_colour(random), 60.0}, {dyed_colour(random), 40.0}};
    lots[5].content = {{"corriedale", 50.0}, {"tussah-silk", 50.0}};
    lots[5].palette.clear();
    for (const auto optics :
         {colour::Optics::stearns_noechel, colour::Optics::friele, colour::Optics::kubelka_munk}) {
        auto problem = hundred_grams(lots, solve::target_of(*colour::parse_hex("#7a8b6c")));
        problem.lots[3].least_grams = problem.lots[4].least_grams = problem.lots[5].least_grams = 5.0;
        solve::Setting here = setting();
        here.optics.optics = optics;
        const auto answer = solve::solve(problem, here);
        REQUIRE((answer && !answer->proposals.empty()));
        for (const auto& proposal : answer->proposals) {
            forecast::Bench bench;
            bench.catalogue = here.catalogue;
            bench.optics = here.optics;
            const auto recipe = solve::recipe_of(proposal, problem, "check");
            const auto seen = forecast::forecast(recipe, bench);
            REQUIRE(seen);
            CHECK(colour::ciede2000(seen->colour.lab, proposal.lab) < 1e-6);
            CHECK(seen->total_grams == doctest::Approx(proposal.total_grams));
            CHECK(seen->cost == doctest::Approx(proposal.cost.value_or(-1.0)));
            bench.light = colour::Light::a;
            const auto by_lamp = forecast::forecast(recipe, bench);
            const auto target = colour::lab_under(problem.goal.target->reflectance, colour::Light::a);
            CHECK(colour::ciede2000(target, by_lamp->colour.lab) ==
                  doctest::Approx(*proposal.delta_e_second).epsilon(1e-6));
        }
    }
}

TEST_CASE("proposals are best first and clearly different") {
    for (unsigned seed = 301; seed <= 310; ++seed) {
        Random random(seed);
        const auto problem = hundred_grams(random_lots(random, 30), solve::target_of(dyed_colour(random)));
        const auto answer = solve::solve(problem, setting());
        REQUIRE(answer);
        const auto& all = answer->proposals;
        CHECK(all.size() <= 5);
        for (std::size_t i = 0; i < all.size(); ++i) {
            for (std::size_t j = i + 1; j < all.size(); ++j) {
                CHECK(all[i].objective <= all[j].objective);
                CHECK(solve::difference(all[i], all[j]) >= solve::clearly_different);
            }
        }
    }
}

TEST_CASE("half black and half white by hand") {
    // Two lots and the colour of equal shares of them: 50 g each, whatever the optics.
    const std::vector<solve::Lot> lots{lot("black", "#202020", 80.0), lot("white", "#f4f0e8", 80.0)};
    const auto answer = solve::solve(hundred_grams(lots, blend_of(lots, {0, 1}, {1.0, 1.0})), setting());
    REQUIRE((answer && !answer->proposals.empty()));
    CHECK(answer->proposals.front().grams[0] == doctest::Approx(50.0));
    CHECK(answer->proposals.front().grams[1] == doctest::Approx(50.0));
    CHECK(*answer->proposals.front().delta_e < 1e-6);
}

TEST_CASE("the same digits every time") {
    Random random(77);
    const auto problem = hundred_grams(random_lots(random, 40), solve::target_of(dyed_colour(random)));
    const auto once = solve::solve(problem, setting()), again = solve::solve(problem, setting());
    REQUIRE(once->proposals.size() == again->proposals.size());
    for (std::size_t k = 0; k < once->proposals.size(); ++k) {
        CHECK(once->proposals[k].grams == again->proposals[k].grams);
        CHECK(once->proposals[k].objective == again->proposals[k].objective);
    }
}

TEST_CASE("a search can be watched, and stopped at once") {
    Random random(78);
    const auto problem = hundred_grams(random_lots(random, 1000), vivid(random));
    std::stop_source source;
    std::vector<double> done;
    solve::Control control{source.get_token(), {}};
    // Counted in pieces of work, not timed: each search for other blends reports once.
    int searches = 0;
    control.progress = [&](const solve::Progress& p) {
        done.push_back(p.done);
        searches += p.doing == "looking for others" ? 1 : 0;
    };
    REQUIRE(!solve::solve(problem, setting(), control)->cancelled);
    CHECK(std::is_sorted(done.begin(), done.end()));
    CHECK(done.back() == 1.0);
    CHECK(searches > 1);

    source.request_stop();
    searches = 0;
    const auto answer = solve::solve(problem, setting(), control);
    CHECK(answer->cancelled);
    CHECK(!answer->conflict);
    CHECK(searches == 0);

    // Stopped on the way: what there is by then is kept, and sound; nothing else is begun.
    std::stop_source later;
    control.stop = later.get_token();
    control.progress = [&](const solve::Progress& p) {
        if (p.doing != "looking for others") return;
        ++searches;
        later.request_stop();
    };
    const auto part = solve::solve(problem, setting(), control);
    CHECK(part->cancelled);
    REQUIRE(!part->proposals.empty());
    check_keeps(problem, part->proposals.front());
    CHECK(searches == 1);
}

TEST_CASE("a match with the total left open is as large as the shelf allows") {
    int compared = 0;
    for (unsigned seed = 1; seed <= 40; ++seed) {
        CAPTURE(seed);
        Random random(seed);
        const auto lots = random_lots(random, whole(random, 3, 9));
        solve::Problem problem{lots, {}};
        problem.goal.target = vivid(random);
        problem.goal.total = {5.0, std::nullopt};
        const auto answer = solve::solve(problem, setting());
        REQUIRE(answer);
        for (const auto& proposal : answer->proposals) {
            // By hand: the shares could be kept until the first lot runs out.
            double most = 1e9;
            std::size_t used = 0;
            for (std::size_t j = 0; j < lots.size(); ++j) {
                if (!(proposal.grams[j] > 0.0)) continue;
                ++used;
                most = std::min(most, lots[j].on_hand_grams / proposal.grams[j]);
            }
            // But for the steps that rounding gave up: half of one a lot, of the smallest share.
            CAPTURE(proposal.total_grams);
            CAPTURE(used);
            const double smallest = *std::min_element(
                proposal.grams.begin(), proposal.grams.end(),
                [](double a, double b) { return (a > 0.0 ? a : 1e9) < (b > 0.0 ? b : 1e9); });
            CHECK(most <= 1.0 + problem.goal.scale_step_grams * (static_cast<double>(used) + 1.0) / smallest);
            ++compared;
        }
    }
    CHECK(compared > 40);
}
