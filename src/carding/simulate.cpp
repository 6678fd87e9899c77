#include "carding/simulate.hpp"

#include <algorithm>
#include <numeric>

#include "carding/columns.hpp"
#include "carding/flat.hpp"
#include "carding/habits.hpp"
#include "carding/lay.hpp"
#include "carding/loss.hpp"
#include "carding/refold.hpp"
#include "jobs/run.hpp"

namespace battwright::carding {
namespace {

constexpr std::size_t most_pooled = 12;

// The lays of a setup with what each is made of.
struct LaidOut {
    std::vector<Lay> lays;
    std::vector<Content> contents;
    double grams = 0.0;

    double by(int pass) const {
        double sum = 0.0;
        for (const Lay& lay : lays) sum += lay.pass <= pass ? lay.grams : 0.0;
        return sum;
    }
};

// What happens to every portion alike on one pass.
struct Stage {
    int number = 1;
    Refold refold;               // none on the first
    std::vector<Refold> shared;  // by first-pass batt, when pieces of several go into this one
    Opening opening;
};

// How the old batt goes back: through the tray, piece over piece on a board, or as it lies on a card.
std::vector<Fed> pieces_on(const Setup& setup, Refeed refeed, int count) {
    if (setup.tool == ToolKind::drum)
        return fed_pieces(refeed, count, setup.circumference_mm, setup.staple_mm);
    return laid_pieces(setup.tool == ToolKind::hand_cards ? Refeed::own_places : refeed, count,
                       setup.circumference_mm, setup.staple_mm);
}

// `round`: cells round the new batt. `pooled`: of how many first-pass batts one strip each goes into it, end
// first, one after another; 1: it is fed as the recipe says.
Stage stage_of(const Setup& setup, int pass, const std::vector<FreshLay>& fresh, const Grid& from,
               std::size_t round, std::size_t pooled = 1) {
    Field to = empty_field({round, from.across, from.depth}, 0, setup.circumference_mm, setup.width_mm);
    to.flat = setup.tool != ToolKind::drum;
    const Refeed refeed = pooled > 1 ? Refeed::strips : setup.feed.refeed_on(pass);
    const int count = pooled > 1 ? static_cast<int>(pooled) : setup.strips;
    const auto pieces = pieces_on(setup, refeed, count);
    const double times = measure::row_of(recipe::refeeds, refeed).turned ? habits::sideways_opens : 1.0;
    Stage stage{
        pass, refold_of(pieces, fresh, from, to, setup.seed, pass), {}, opened_more(setup.opening, times)};
    if (pooled == 1) return stage;
    const Field plain = empty_field({setup.tool == ToolKind::drum ? 1 : round, from.across, from.depth}, 0,
                                    setup.circumference_mm, setup.width_mm);
    for (const Fed& piece : pieces)
        stage.shared.push_back(refold_of({piece}, {}, from, plain, setup.seed, pass));
    return stage;
}

std::vector<FreshLay> fresh_on(const LaidOut& out, int pass) {
    std::vector<FreshLay> fresh;
    const double total = out.by(pass);
    for (std::size_t i = 0; i < out.lays.size(); ++i)
        if (out.lays[i].pass == pass && total > 0.0)
            fresh.push_back({out.lays[i], out.contents[i], out.lays[i].grams / total, i});
    return fresh;
}

// Only what is laid straight onto a drum can differ round it; a board's fibre lies where it was put, and what
// lies along hand cards is drawn out over them.
bool varies_round(const Setup& setup, const std::vector<FreshLay>& fresh) {
    if (setup.tool != ToolKind::drum) return setup.tool == ToolKind::board;
    return std::any_of(fresh.begin(), fresh.end(), [](const FreshLay& own) {
        return own.lay.on_drum && (own.lay.dab_mm > 0.0 || !own.lay.round.whole());
    });
}

int first_pass(const Setup& setup, const std::vector<Lay>& lays) {
    int first = setup.passes + 1;
    for (const Lay& lay : lays)
        if (lay.grams > 0.0) first = std::min(first, lay.pass);
    return first;
}

// Where each lay of one pass lies, for its lumps.
struct Bedding {
    std::vector<std::size_t> lays;
    std::span<const double> thickness;  // lay after lay
    std::vector<double> bottoms;
};

Bedding bedding_of_first(std::size_t lays, std::span<const double> thickness, std::size_t columns) {
    Bedding bedding{{}, thickness, {}};
    double reached = 0.0;
    for (std::size_t i = 0; i < lays; ++i) {
        bedding.lays.push_back(i);
        bedding.bottoms.push_back(reached);
        const auto begin = thickness.begin() + static_cast<std::ptrdiff_t>(i * columns);
        reached += std::accumulate(begin, begin + static_cast<std::ptrdiff_t>(columns), 0.0) /
                   static_cast<double>(columns);
    }
    return bedding;
}

Bedding bedding_of(const Fresh& fresh, std::size_t columns) {
    Bedding bedding{{}, fresh.thickness, {}};
    double reached = 0.0;
    recipe::Lies at = recipe::Lies::under;
    for (std::size_t i = 0; i < fresh.layers.size(); ++i) {
        const Fresh::Layer& layer = fresh.layers[i];
        if (at == recipe::Lies::under && layer.lies != at) reached += fresh.cut * (1.0 - fresh.share);
        if (layer.lies == recipe::Lies::over && at != layer.lies)
            reached = std::max(reached, fresh.under + fresh.between + (1.0 - fresh.share));
        at = layer.lies;
        bedding.lays.push_back(layer.lay);
        bedding.bottoms.push_back(reached);
        const auto begin = fresh.thickness.begin() + static_cast<std::ptrdiff_t>(i * columns);
        reached += std::accumulate(begin, begin + static_cast<std::ptrdiff_t>(columns), 0.0) /
                   static_cast<double>(columns);
    }
    return bedding;
}

bool lies_evenly(std::span<const double> thickness) {
    const auto [least, most] = std::minmax_element(thickness.begin(), thickness.end());
    return *most - *least < 1e-9;
}

void add_spots(const Setup& setup, const LaidOut& out, const Bedding& bedding, const Field& shape,
               std::vector<Spot>& spots) {
    const std::size_t columns = shape.plane_size();
    std::vector<std::uint32_t> count(setup.portions.size(), 0);
    for (const Spot& spot : spots) count[spot.portion] = std::max(count[spot.portion], spot.number + 1);
    for (std::size_t i = 0; i < bedding.lays.size(); ++i) {
        const std::size_t l = bedding.lays[i];
        const auto own = bedding.thickness.subspan(i * columns, columns);
        const double mean = std::accumulate(own.begin(), own.end(), 0.0) / static_cast<double>(columns);
        double squares = 0.0;
        for (const double thick : own) squares += thick * thick / static_cast<double>(columns);
        if (!(mean > 0.0)) continue;
        Bed bed{bedding.bottoms[i], std::min(1.0, bedding.bottoms[i] + squares / mean), {}, 0};
        if (!lies_evenly(own) && !out.lays[l].all_over()) bed.thickness = own;
        for (std::size_t p = 0; p < setup.portions.size(); ++p) {
            const double grams = out.lays[l].grams * out.contents[l].shares[p] * setup.batt_share;
            if (!(grams > 0.0)) continue;
            bed.number = count[p];
            const auto fresh = placed_spots(p, setup.portions[p], grams, bed, shape, setup.seed, count[p]);
            if (!fresh.empty()) count[p] = fresh.back().number + 1;
            spots.insert(spots.end(), fresh.begin(), fresh.end());
        }
    }
}

// The lays of the first pass, stacked: everything about it that is the same for all portions.
struct First {
    std::vector<std::size_t> lays;  // indices
    std::vector<double> thickness;
    Placing placing;
    bool on_drum = false;
};

First first_of(const LaidOut& out, int first, const Field& shape, std::uint64_t seed) {
    First result;
    std::vector<Lay> lays;
    for (std::size_t i = 0; i < out.lays.size(); ++i) {
        if (out.lays[i].pass != first) continue;
        result.lays.push_back(i);
        lays.push_back(out.lays[i]);
        result.on_drum = result.on_drum || out.lays[i].on_drum;
    }
    result.thickness = thicknesses(lays, shape, seed);
    result.placing = placing_of(meant_full(lays, shape), shape.grid);
    return result;
}

// What each lay is worth is stacked into the block and spread by the card.
void lay_block(const std::vector<double>& worth, const Motion& motion, const First& first, const Field& shape,
               std::span<double> block, std::vector<double>& scratch) {
    stack(worth, first.thickness, shape.grid, block);
    if (shape.grid.round > 1 && motion.tool == ToolKind::drum) {
        scratch.assign(block.begin(), block.end());
        apply_round(round_kernel(shape, motion.spread.round_mm), scratch.data(), block.data(),
                    shape.grid.depth * shape.grid.across);
    }
    move_about(block, shape, motion, {}, scratch);
}

std::vector<double> worth_in(const First& first, const LaidOut& out, std::size_t what) {
    std::vector<double> worth;
    for (const std::size_t l : first.lays) worth.push_back(worth_of(out.contents[l], what));
    return worth;
}

// One block of a new batt from the same of the old one, or of several when their pieces go into it.
void fold_stage(const std::vector<std::span<const double>>& olds, const Grid& from, std::span<double> next,
                const Field& shape, std::size_t what, const Stage& stage, const Motion& motion,
                std::vector<double>& scratch) {
    if (stage.shared.empty()) {
        refold_block(olds.front(), from, next, shape.grid, what, stage.refold, scratch);
    } else {
        const Grid plain{motion.tool == ToolKind::drum ? 1 : shape.grid.round, shape.grid.across,
                         shape.grid.depth};
        std::vector<double> pieces(plain.round * plain.across * plain.depth, 0.0);
        for (std::size_t b = 0; b < olds.size(); ++b)
            fold_pieces(olds[b], from, pieces, plain, stage.shared[b], scratch);
        if (stage.refold.fresh.layers.empty()) {
            std::copy(pieces.begin(), pieces.end(), next.begin());
        } else {
            lay_fresh(pieces, next, shape.grid, what, stage.refold.fresh);
        }
    }
    move_about(next, shape, motion, stage.refold.already, scratch);
}

// What lies under the grid of a new batt: blocks carried like shares, with the squares of the resolved
// shares.
void carry_below(const std::vector<const Field*>& olds, const Stage& stage, const Motion& motion,
                 Field& next) {
    std::vector<std::vector<double>> second, clumped;
    for (const Field* field : olds) {
        second.push_back(squares_of(*field));
        clumped.push_back(second.back());
        for (std::size_t c = 0; c < field->unresolved.size(); ++c) {
            second.back()[c] += field->unresolved[c];
            clumped.back()[c] += field->clumped[c];
        }
    }
    const auto folded = [&](const std::vector<std::vector<double>>& blocks, std::size_t what) {
        const std::vector<std::span<const double>> spans(blocks.begin(), blocks.end());
        std::vector<double> result(next.block_size()), scratch;
        fold_stage(spans, olds.front()->grid, result, next, what, stage, motion, scratch);
        return result;
    };
    settle(next, folded(second, second_moment), folded(clumped, clumped_moment), stage.opening);
}

struct Run {
    const Setup& setup;
    Motion motion;
    LaidOut out;
    std::vector<Stage> stages;
    std::vector<Pass> passes;
    std::vector<First> firsts;    // of the batt; of the others whose pieces come into it
    std::vector<Field> others{};  // first-pass batts but this one

    std::vector<const Field*> sources(std::size_t pass) const {
        std::vector<const Field*> fields{&passes[pass - 1].field};
        if (pass == 1)
            for (const Field& other : others) fields.push_back(&other);
        return fields;
    }

    void card_portion(std::size_t p) {
        std::vector<double> scratch;
        lay_block(worth_in(firsts[0], out, p), motion, firsts[0], passes[0].field, passes[0].field.block(p),
                  scratch);
        for (std::size_t b = 0; b < others.size(); ++b)
            lay_block(worth_in(firsts[b + 1], out, p), motion, firsts[b + 1], others[b], others[b].block(p),
                      scratch);
        for (std::size_t i = 1; i < passes.size(); ++i) {
            if (setup.portions[p].pass > passes[i].number) continue;
            std::vector<std::span<const double>> olds;
            for (const Field* field : sources(i)) olds.push_back(field->block(p));
            fold_stage(olds, passes[i - 1].field.grid, passes[i].field.block(p), passes[i].field, p,
                       stages[i], motion, scratch);
        }
    }

    // On the first pass every tuft is of one portion, unless it has been carded before. What is laid straight
    // onto the drum is hardly opened.
    void settle_first(const First& first, Field& field) const {
        const bool mixed = std::any_of(first.lays.begin(), first.lays.end(),
                                       [&](std::size_t l) { return out.lays[l].blend != no_blend; });
        std::vector<double> second(field.block_size(), 1.0), clumped = second, opened, scratch;
        if (mixed) {
            lay_block(worth_in(first, out, second_moment), motion, first, field, second, scratch);
            lay_block(worth_in(first, out, clumped_moment), motion, first, field, clumped, scratch);
        }
        if (first.on_drum && setup.tool == ToolKind::drum) {
            opened.resize(field.block_size());
            std::vector<double> by_tray;
            for (const std::size_t l : first.lays) by_tray.push_back(out.lays[l].on_drum ? 0.0 : 1.0);
            lay_block(by_tray, motion, first, field, opened, scratch);
        }
        settle(field, std::move(second), std::move(clumped), setup.opening, opened);
    }

    void card_spots() {
        for (std::size_t i = 0; i < passes.size(); ++i) {
            Pass& pass = passes[i];
            const std::size_t columns = pass.field.plane_size();
            if (i > 0) {
                pass.spots = passes[i - 1].spots;
                carry_spots(pass.spots, stages[i].refold, setup.spread, pass.field, pass.number, setup.seed);
            }
            Bedding bedding = i > 0 ? bedding_of(stages[i].refold.fresh, columns)
                                    : bedding_of_first(firsts[0].lays.size(), firsts[0].thickness, columns);
            if (i == 0) bedding.lays = firsts[0].lays;
            add_spots(setup, out, bedding, pass.field, pass.spots);
            // What went over first lies lowest.
            if (setup.tool == ToolKind::hand_cards)
                for (Spot& spot : pass.spots) spot.depth = 1.0f - spot.depth;
            thin_spots(pass.spots, setup.portions, pass.number, setup.seed);
        }
    }
};

Content pure(std::size_t portion, std::size_t portions) {
    Content content{std::vector<double>(portions, 0.0), 1.0, 1.0};
    content.shares[portion] = 1.0;
    return content;
}

std::vector<Pass> carded_with(const Setup& setup, LaidOut out, int threads);

double mean_of(std::span<const double> squares, std::span<const double> below) {
    const double sum = std::accumulate(squares.begin(), squares.end(), 0.0) +
                       std::accumulate(below.begin(), below.end(), 0.0);
    return sum / static_cast<double>(squares.size());
}

// A small blend when it comes off the drum, drafted and spread: what still varies in it lies in its tufts.
Content carded_content(const Setup& setup, std::size_t index, const std::vector<Content>& before) {
    const Small& small = setup.blends[index];
    Setup own = setup;
    own.passes = small.passes;
    own.strips = small.strips;
    own.feed.refeeds = small.refeeds;
    if (!small.refeeds.empty()) own.feed.refeed = small.refeeds.back();
    own.feed.recombine = false;
    own.grid = coarse_grid;
    for (Portion& portion : own.portions) portion.pass = 1;
    if (index < setup.blend_openings.size()) own.opening = setup.blend_openings[index];
    LaidOut out{small.lays, {}, small.grams};
    for (const Lay& lay : small.lays)
        out.contents.push_back(lay.blend != no_blend ? before[lay.blend]
                                                     : pure(lay.portion, setup.portions.size()));
    const auto passes = carded_with(own, std::move(out), 1);
    if (passes.empty()) return pure(0, setup.portions.size());
    const Field& field = passes.back().field;
    Content content;
    for (std::size_t p = 0; p < field.portions; ++p) content.shares.push_back(mean_share(field, p));
    const auto squares = squares_of(field);
    content.second = mean_of(squares, field.unresolved);
    content.clumped = mean_of(squares, field.clumped);
    return content;
}

LaidOut laid_out(const Setup& setup) {
    LaidOut out{lays_of_setup(setup), {}, 0.0};
    std::vector<Content> blends;
    for (std::size_t b = 0; b < setup.blends.size(); ++b) blends.push_back(carded_content(setup, b, blends));
    for (const Lay& lay : out.lays) {
        out.grams += lay.grams;
        out.contents.push_back(lay.blend != no_blend ? blends[lay.blend]
                                                     : pure(lay.portion, setup.portions.size()));
    }
    return out;
}

std::vector<Pass> carded_with(const Setup& setup, LaidOut out, int threads) {
    const int first = first_pass(setup, out.lays);
    if (first > setup.passes) return {};
    Run run{setup, motion_of(setup, setup.grid.depth), std::move(out), {}, {}, {}};
    Grid grid = setup.grid;
    const bool on_drum = std::any_of(run.out.lays.begin(), run.out.lays.end(),
                                     [first](const Lay& lay) { return lay.pass == first && lay.on_drum; });
    if (!on_drum) grid.round = 1;  // on a board everything is
    std::size_t pooled = 1;        // first-pass batts that are carded
    for (int pass = first; pass <= setup.passes; ++pass) {
        if (pass == first) {
            run.stages.push_back({pass, {}, {}, setup.opening});
        } else {
            const auto fresh = fresh_on(run.out, pass);
            const std::size_t round = varies_round(setup, fresh) ? setup.grid.round : 1;
            const bool shared = shares_out(setup.feed, setup.pooled, pass, first);
            if (shared) pooled = std::min(setup.pooled, most_pooled);
            run.stages.push_back(stage_of(setup, pass, fresh, grid, round, shared ? pooled : 1));
            grid.round = round;
        }
        run.passes.push_back(
            {pass, empty_field(grid, setup.portions.size(), setup.circumference_mm, setup.width_mm), {}});
        run.passes.back().field.flat = setup.tool != ToolKind::drum;
    }
    const Field& shape = run.passes.front().field;
    for (std::size_t b = 0; b < pooled; ++b) {
        run.firsts.push_back(first_of(run.out, first, shape, setup.seed + 977 * b));
        if (b > 0) run.others.push_back(shape);
    }
    jobs::run(setup.portions.size() + 1, threads, [&](std::size_t job) {
        if (job == setup.portions.size()) {
            run.card_spots();
        } else {
            run.card_portion(job);
        }
    });
    run.passes.front().field.placing = run.firsts[0].placing;
    for (std::size_t i = 1; i < run.passes.size(); ++i)
        run.passes[i].field.placing = run.stages[i].refold.fresh.placing;
    run.settle_first(run.firsts[0], run.passes.front().field);
    for (std::size_t b = 0; b < run.others.size(); ++b) run.settle_first(run.firsts[b + 1], run.others[b]);
    for (std::size_t i = 1; i < run.passes.size(); ++i)
        carry_below(run.sources(i), run.stages[i], run.motion, run.passes[i].field);
    return std::move(run.passes);
}

}  // namespace

std::vector<Pass> simulate(const Setup& setup, int threads) {
    return carded_with(setup, laid_out(setup), threads);
}

Pass carded_again(const Pass& batt, const Setup& setup, int threads) {
    const int number = batt.number + 1;
    const Field& old = batt.field;
    const std::size_t round = setup.tool == ToolKind::board ? old.grid.round : 1;
    const Stage stage = stage_of(setup, number, {}, old.grid, round);
    const Motion motion = motion_of(setup, old.grid.depth);
    Pass next{number,
              empty_field({round, old.grid.across, old.grid.depth}, old.portions, old.circumference_mm,
                          old.width_mm),
              batt.spots};
    next.field.flat = setup.tool != ToolKind::drum;
    jobs::run(old.portions, threads, [&](std::size_t p) {
        std::vector<double> scratch;
        fold_stage({old.block(p)}, old.grid, next.field.block(p), next.field, p, stage, motion, scratch);
    });
    carry_below({&old}, stage, motion, next.field);
    carry_spots(next.spots, stage.refold, setup.spread, next.field, number, setup.seed);
    thin_spots(next.spots, setup.portions, number, setup.seed);
    return next;
}

}  // namespace battwright::carding
