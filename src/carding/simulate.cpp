#include "carding/simulate.hpp"

#include <algorithm>

#include "carding/habits.hpp"
#include "carding/lay.hpp"
#include "carding/refold.hpp"
#include "jobs/run.hpp"

namespace battwright::carding {
namespace {

// What happens to every portion alike on one pass.
struct Stage {
    int number = 1;
    bool first = false;
    Refold refold;
};

double grams_by(const Setup& setup, int pass) {
    double grams = 0.0;
    for (const Portion& portion : setup.portions) {
        if (portion.pass <= pass) grams += portion.grams;
    }
    return grams;
}

// Portions of passes before anything lies on the drum count for the pass that is first.
Stage stage_of(const Setup& setup, int pass, const Field& shape) {
    std::vector<double> fresh(setup.portions.size(), 0.0);
    const double total = grams_by(setup, pass);
    for (std::size_t p = 0; p < fresh.size(); ++p) {
        if (setup.portions[p].pass == pass && total > 0.0) fresh[p] = setup.portions[p].grams / total;
    }
    return {pass, false,
            refold_of(setup.feed.refeed, setup.strips, fresh, pass, setup.seed, shape, setup.spread)};
}

int first_pass(const Setup& setup) {
    int first = setup.passes + 1;
    for (const Portion& portion : setup.portions) {
        if (portion.grams > 0.0) first = std::min(first, portion.pass);
    }
    return first;
}

std::vector<Lay> lays_of(const Setup& setup, int first) {
    std::vector<Portion> portions = setup.portions;
    for (Portion& portion : portions) portion.pass = portion.pass == first ? 1 : portion.pass + 1;
    return first_lays(portions, setup.feed.manner);
}

void add_spots(const Setup& setup, int pass, const Refold* refold, const Field& shape,
               std::vector<Spot>& spots) {
    std::vector<double> bottom(setup.portions.size(), 0.0), top(setup.portions.size(), 1.0);
    double reached = 0.0;
    for (std::size_t i = 0; refold != nullptr && i < refold->order.size(); ++i) {
        const Fed& fed = refold->order[i];
        if (fed.fresh) {
            bottom[fed.portion] = reached;
            top[fed.portion] = reached + fed.share;
        }
        reached += fed.share;
    }
    for (std::size_t p = 0; p < setup.portions.size(); ++p) {
        if (setup.portions[p].pass != pass) continue;
        const auto fresh = placed_spots(p, setup.portions[p], setup.portions[p].grams * setup.batt_share,
                                        bottom[p], top[p], shape, setup.seed);
        spots.insert(spots.end(), fresh.begin(), fresh.end());
    }
}

void card_portion(std::size_t p, const Setup& setup, std::span<const Stage> stages, std::span<const Lay> lays,
                  std::span<const double> thickness, std::span<Pass> passes) {
    std::vector<double> scratch;
    for (std::size_t i = 0; i < passes.size(); ++i) {
        Field& field = passes[i].field;
        if (i == 0) {
            stack_portion(p, lays, thickness, field);
            scratch.assign(field.block(p).begin(), field.block(p).end());
            apply_round(round_kernel(field, setup.spread.round_mm, 0.0, 0.0), scratch.data(),
                        field.block(p).data(), field.grid.depth * field.grid.across);
        } else {
            refold_block(std::as_const(passes[i - 1].field).block(p), field.block(p), p, field,
                         stages[i].refold, scratch);
        }
        if (setup.portions[p].pass <= passes[i].number)
            spread_block(field.block(p), field, setup.spread, stages[i].refold.already_across, scratch);
    }
}

void card_spots(const Setup& setup, std::span<const Stage> stages, std::span<Pass> passes) {
    for (std::size_t i = 0; i < passes.size(); ++i) {
        Pass& pass = passes[i];
        const Refold* refold = i == 0 ? nullptr : &stages[i].refold;
        if (i > 0) {
            pass.spots = passes[i - 1].spots;
            carry_spots(pass.spots, *refold, setup.spread, pass.field, pass.number, setup.seed);
        }
        add_spots(setup, pass.number, refold, pass.field, pass.spots);
        thin_spots(pass.spots, setup.portions, pass.number, setup.seed);
    }
}

}  // namespace

Setup setup_of(const recipe::Recipe& recipe, std::span<const recipe::Strand> strands,
               const recipe::Carder& carder, const Feed& feed, std::size_t batts) {
    Setup setup;
    setup.portions = portions_of(recipe, strands);
    setup.feed = feed;
    setup.passes = std::max(1, recipe.carding.passes);
    setup.strips = std::max(1, recipe.carding.strips);
    setup.circumference_mm = carder.drum_circumference_mm;
    setup.width_mm = carder.width_mm;
    setup.batt_share = 1.0 / static_cast<double>(std::max<std::size_t>(1, batts));
    setup.grid = grid_for(setup.portions.size());
    double grams = 0.0, diameter = 0.0;
    for (const Portion& portion : setup.portions) {
        grams += portion.grams;
        diameter += portion.grams * portion.diameter_um;
    }
    const bool fine = diameter < habits::fine_um * grams;
    setup.spread = spread_of(carder, setup.portions, grams * setup.batt_share, fine);
    return setup;
}

std::vector<Pass> simulate(const Setup& setup, int threads) {
    const int first = first_pass(setup);
    std::vector<Pass> passes;
    if (first > setup.passes) return passes;
    std::vector<Stage> stages;
    for (int pass = first; pass <= setup.passes; ++pass) {
        passes.push_back(
            {pass, Field{setup.grid, setup.portions.size(), setup.circumference_mm, setup.width_mm, {}}, {}});
        stages.push_back(pass == first ? Stage{pass, true, {}} : stage_of(setup, pass, passes.back().field));
    }
    for (Pass& pass : passes) pass.field.shares.resize(setup.portions.size() * pass.field.block_size());
    const auto lays = lays_of(setup, first);
    const auto thickness = thicknesses(lays, setup.feed.manner, passes.front().field, setup.seed);
    jobs::run(setup.portions.size() + 1, threads, [&](std::size_t job) {
        if (job == setup.portions.size()) {
            card_spots(setup, stages, passes);
        } else {
            card_portion(job, setup, stages, lays, thickness, passes);
        }
    });
    return passes;
}

Pass carded_again(const Pass& batt, const Setup& setup, int threads) {
    const int number = batt.number + 1;
    const std::vector<double> nothing(batt.field.portions, 0.0);
    const Refold refold =
        refold_of(setup.feed.refeed, setup.strips, nothing, number, setup.seed, batt.field, setup.spread);
    Pass next{number, batt.field, batt.spots};
    jobs::run(batt.field.portions, threads, [&](std::size_t p) {
        std::vector<double> scratch;
        refold_block(batt.field.block(p), next.field.block(p), p, next.field, refold, scratch);
        spread_block(next.field.block(p), next.field, setup.spread, refold.already_across, scratch);
    });
    carry_spots(next.spots, refold, setup.spread, next.field, number, setup.seed);
    thin_spots(next.spots, setup.portions, number, setup.seed);
    return next;
}

}  // namespace battwright::carding
