#include "carding/simulate.hpp"

#include <algorithm>
#include <numeric>

#include "carding/habits.hpp"
#include "carding/lay.hpp"
#include "carding/loss.hpp"
#include "carding/refold.hpp"
#include "jobs/run.hpp"

namespace battwright::carding {
namespace {

// What happens to every portion alike on one pass.
struct Stage {
    int number = 1;
    Refold refold;  // none on the first
    Opening opening;
};

double grams_by(const Setup& setup, int pass) {
    double grams = 0.0;
    for (const Portion& portion : setup.portions) {
        if (portion.pass <= pass) grams += portion.grams;
    }
    return grams;
}

Refeed refeed_on(const Setup& setup, int pass) {
    const auto at = static_cast<std::size_t>(std::max(0, pass - 2));
    return at < setup.refeeds.size() ? setup.refeeds[at] : setup.feed.refeed;
}

// `fresh`: shares of the new batt.
Stage stage_of(const Setup& setup, int pass, const std::vector<double>& fresh, const Grid& from) {
    const Field to = empty_field({1, from.across, from.depth}, 0, setup.circumference_mm, setup.width_mm);
    const Refeed refeed = refeed_on(setup, pass);
    const auto pieces = fed_pieces(refeed, setup.strips, setup.circumference_mm, setup.staple_mm);
    const double times =
        refeed == Refeed::sideways || refeed == Refeed::quarter_turn ? habits::sideways_opens : 1.0;
    return {pass, refold_of(pieces, fresh, from, to, setup.seed, pass), opened_more(setup.opening, times)};
}

// Portions of passes before anything lies on the drum count for the pass that is first.
std::vector<double> fresh_on(const Setup& setup, int pass) {
    std::vector<double> fresh(setup.portions.size(), 0.0);
    const double total = grams_by(setup, pass);
    for (std::size_t p = 0; p < fresh.size(); ++p) {
        if (setup.portions[p].pass == pass && total > 0.0) fresh[p] = setup.portions[p].grams / total;
    }
    return fresh;
}

int first_pass(const Setup& setup) {
    int first = setup.passes + 1;
    for (const Portion& portion : setup.portions) {
        if (portion.grams > 0.0) first = std::min(first, portion.pass);
    }
    return first;
}

std::vector<Lay> first_lays_of(const Setup& setup, int first) {
    if (!setup.lays.empty()) return setup.lays;
    std::vector<Portion> portions = setup.portions;
    for (Portion& portion : portions) portion.pass = portion.pass == first ? 1 : portion.pass + 1;
    return lays_of(portions, setup.feed);
}

void add_spots(const Setup& setup, int pass, const Refold& refold, const Field& shape,
               std::vector<Spot>& spots) {
    std::vector<double> bottom(setup.portions.size(), 0.0), top(setup.portions.size(), 1.0);
    double reached = refold.fresh.cut * (1.0 - refold.fresh.share);
    for (std::size_t i = 0; i < refold.fresh.portions.size(); ++i) {
        const auto columns = static_cast<std::ptrdiff_t>(shape.grid.across);
        const auto first = refold.fresh.thickness.begin() + static_cast<std::ptrdiff_t>(i) * columns;
        bottom[refold.fresh.portions[i]] = reached;
        reached += std::accumulate(first, first + columns, 0.0) / static_cast<double>(columns);
        top[refold.fresh.portions[i]] = reached;
    }
    for (std::size_t p = 0; p < setup.portions.size(); ++p) {
        if (setup.portions[p].pass != pass) continue;
        const auto fresh = placed_spots(p, setup.portions[p], setup.portions[p].grams * setup.batt_share,
                                        bottom[p], top[p], shape, setup.seed);
        spots.insert(spots.end(), fresh.begin(), fresh.end());
    }
}

void lay_portion(std::size_t p, const Setup& setup, std::span<const Lay> lays,
                 std::span<const double> thickness, Field& field, std::vector<double>& scratch) {
    stack_portion(p, lays, thickness, field);
    if (field.grid.round > 1) {
        scratch.assign(field.block(p).begin(), field.block(p).end());
        apply_round(round_kernel(field, setup.spread.round_mm), scratch.data(), field.block(p).data(),
                    field.grid.depth * field.grid.across);
    }
    spread_block(field.block(p), field, setup.spread, {}, scratch);
}

void card_portion(std::size_t p, const Setup& setup, std::span<const Stage> stages, std::span<const Lay> lays,
                  std::span<const double> thickness, std::span<Pass> passes) {
    std::vector<double> scratch;
    if (setup.portions[p].pass <= passes[0].number)
        lay_portion(p, setup, lays, thickness, passes[0].field, scratch);
    for (std::size_t i = 1; i < passes.size(); ++i) {
        if (setup.portions[p].pass > passes[i].number) continue;
        const Field& old = passes[i - 1].field;
        Field& field = passes[i].field;
        refold_block(old.block(p), old.grid, field.block(p), field.grid, p, stages[i].refold, scratch);
        spread_block(field.block(p), field, setup.spread, stages[i].refold.already, scratch);
    }
}

// A block that is carried like shares: what lies under the grid, with the squares of the resolved shares.
std::vector<double> carried_below(const Field& old, const std::vector<double>& below,
                                  std::span<const double> squares, const Field& next, const Refold& refold,
                                  const Spread& spread) {
    std::vector<double> block(squares.begin(), squares.end()), result(next.block_size()), scratch;
    for (std::size_t i = 0; i < below.size(); ++i) block[i] += below[i];
    refold_block(block, old.grid, result, next.grid, any_portion, refold, scratch);
    spread_block(result, next, spread, refold.already, scratch);
    return result;
}

// The unresolved part of `next` from that of `old`.
void carry_unresolved(const Field& old, Field& next, const Stage& stage, const Spread& spread) {
    const auto squares = squares_of(old);
    settle(next, carried_below(old, old.unresolved, squares, next, stage.refold, spread),
           carried_below(old, old.clumped, squares, next, stage.refold, spread), stage.opening);
}

// On the first pass every tuft is of one portion. What is laid straight onto the drum is hardly opened.
void settle_first(const Setup& setup, bool on_drum, Field& field) {
    const std::vector<double> pure(field.block_size(), 1.0);
    settle(field, pure, pure, on_drum ? Opening{} : setup.opening);
}

void card_spots(const Setup& setup, std::span<const Stage> stages, std::span<Pass> passes) {
    for (std::size_t i = 0; i < passes.size(); ++i) {
        Pass& pass = passes[i];
        if (i > 0) {
            pass.spots = passes[i - 1].spots;
            carry_spots(pass.spots, stages[i].refold, setup.spread, pass.field, pass.number, setup.seed);
        }
        add_spots(setup, pass.number, stages[i].refold, pass.field, pass.spots);
        thin_spots(pass.spots, setup.portions, pass.number, setup.seed);
    }
}

}  // namespace

Setup setup_of(const recipe::Recipe& recipe, std::span<const recipe::Strand> strands,
               const recipe::Carder& carder, const Feed& feed, std::size_t batts, double mixing) {
    Setup setup;
    setup.portions = portions_of(recipe, strands);
    setup.feed = feed;
    setup.passes = std::max(1, recipe.carding.passes);
    setup.strips = std::max(1, recipe.carding.strips);
    setup.circumference_mm = carder.drum_circumference_mm;
    setup.width_mm = carder.width_mm;
    setup.batt_share = 1.0 / static_cast<double>(std::max<std::size_t>(1, batts));
    setup.grid = grid_for(setup.portions.size());
    double grams = 0.0, diameter = 0.0, staple = 0.0;
    for (const Portion& portion : setup.portions) {
        grams += portion.grams;
        diameter += portion.grams * portion.diameter_um;
        staple += portion.grams * portion.staple_mm;
    }
    if (grams > 0.0) setup.staple_mm = staple / grams;
    const bool fine = diameter < habits::fine_um * grams;
    const double batt_grams = grams * setup.batt_share;
    setup.spread = spread_of(carder, setup.portions, batt_grams, fine);
    setup.opening = opening_of(carder, setup.portions, batt_grams, fine, mixing);
    const auto kept = kept_shares(setup.portions, strands, setup.passes);
    for (std::size_t p = 0; p < kept.size(); ++p) setup.portions[p].grams *= kept[p];
    return setup;
}

std::vector<Pass> simulate(const Setup& setup, int threads) {
    const int first = first_pass(setup);
    std::vector<Pass> passes;
    if (first > setup.passes) return passes;
    const auto lays = first_lays_of(setup, first);
    const bool on_drum = std::any_of(lays.begin(), lays.end(), [](const Lay& lay) { return lay.on_drum; });
    Grid grid = setup.grid;
    if (!on_drum) grid.round = 1;
    std::vector<Stage> stages;
    for (int pass = first; pass <= setup.passes; ++pass) {
        if (pass == first) {
            stages.push_back({pass, {}, setup.opening});
        } else {
            stages.push_back(stage_of(setup, pass, fresh_on(setup, pass), grid));
            grid.round = 1;
        }
        passes.push_back(
            {pass, empty_field(grid, setup.portions.size(), setup.circumference_mm, setup.width_mm), {}});
    }
    const auto thickness = thicknesses(lays, passes.front().field, setup.seed);
    jobs::run(setup.portions.size() + 1, threads, [&](std::size_t job) {
        if (job == setup.portions.size()) {
            card_spots(setup, stages, passes);
        } else {
            card_portion(job, setup, stages, lays, thickness, passes);
        }
    });
    settle_first(setup, on_drum, passes.front().field);
    for (std::size_t i = 1; i < passes.size(); ++i)
        carry_unresolved(passes[i - 1].field, passes[i].field, stages[i], setup.spread);
    return passes;
}

Pass carded_again(const Pass& batt, const Setup& setup, int threads) {
    const int number = batt.number + 1;
    const Stage stage = stage_of(setup, number, {}, batt.field.grid);
    const Field& old = batt.field;
    Pass next{
        number,
        empty_field({1, old.grid.across, old.grid.depth}, old.portions, old.circumference_mm, old.width_mm),
        batt.spots};
    jobs::run(old.portions, threads, [&](std::size_t p) {
        std::vector<double> scratch;
        refold_block(old.block(p), old.grid, next.field.block(p), next.field.grid, p, stage.refold, scratch);
        spread_block(next.field.block(p), next.field, setup.spread, stage.refold.already, scratch);
    });
    carry_unresolved(old, next.field, stage, setup.spread);
    carry_spots(next.spots, stage.refold, setup.spread, next.field, number, setup.seed);
    thin_spots(next.spots, setup.portions, number, setup.seed);
    return next;
}

}  // namespace battwright::carding
