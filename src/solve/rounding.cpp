#include "solve/rounding.hpp"

#include <algorithm>
#include <cmath>
#include <initializer_list>
#include <vector>

#include "measure/units.hpp"

namespace battwright::solve {
namespace {

using Eigen::Index;

constexpr std::size_t most_trials = 30000;
constexpr std::size_t most_for_twos = 6;  // lots

// Lots in use and where each may move, in granules.
struct Grid {
    const Model& model;
    const Score& score;
    std::vector<Index> used;
    VectorXd grams;
    VectorXd sums;  // of the rows
    double broken = 0.0, value = 0.0;
    std::size_t trials = 0;

    double granule() const { return model.granule; }
    double lowest(Index j) const { return std::max({model.least[j], model.low[j], granule()}); }
    double broken_at(const VectorXd& at) const {
        double worst = 0.0;
        for (Index r = 0; r < at.size(); ++r)
            worst += std::max({0.0, model.row_low[r] - at[r], at[r] - model.row_high[r]});
        return worst <= 1e-7 ? 0.0 : worst;
    }
    bool may(Index j, double by) const {
        const double to = grams[j] + by;
        return to >= lowest(j) - 1e-7 && to <= model.high[j] + 1e-7;
    }
};

// A granule more of one lot, one less of another; -1 for none.
struct Move {
    Index up = -1, down = -1;
};

void apply(Grid& grid, const Move& move, double granules) {
    const double by = granules * grid.granule();
    if (move.up >= 0) grid.grams[move.up] += by;
    if (move.down >= 0) grid.grams[move.down] -= by;
}

// Takes the moves, together, when they mend, or lower the score and break nothing more.
bool try_moves(Grid& grid, std::initializer_list<Move> moves) {
    bool allowed = true;
    VectorXd sums = grid.sums;
    for (const Move& move : moves) {
        allowed = allowed && (move.up < 0 || grid.may(move.up, grid.granule())) &&
                  (move.down < 0 || grid.may(move.down, -grid.granule()));
        apply(grid, move, 1.0);
        if (move.up >= 0) sums += grid.granule() * grid.model.rows.col(move.up);
        if (move.down >= 0) sums -= grid.granule() * grid.model.rows.col(move.down);
    }
    const double broken = allowed ? grid.broken_at(sums) : no_limit;
    if (allowed && broken <= grid.broken) {
        ++grid.trials;
        const bool mends = broken < grid.broken - 1e-9;
        const double value = grid.broken > 0.0 && !mends ? grid.value : grid.score.of(grid.grams);
        if (mends || value < grid.value - 1e-12) {
            grid.sums = sums;
            grid.broken = broken;
            grid.value = value;
            return true;
        }
    }
    for (const Move& move : moves) apply(grid, move, -1.0);
    return false;
}

// Where as much as can be is wanted, a gram is only given up to mend a row, not to round the colour.
bool may_shrink(const Grid& grid) {
    return !grid.model.as_much_as_can || grid.broken > 0.0;
}

bool try_move(Grid& grid, Index up, Index down) {
    return try_moves(grid, {{up, down}});
}

// Two exchanges at once, which go where neither alone gains.
bool sweep_twos(Grid& grid) {
    if (grid.used.size() > most_for_twos || grid.broken > 0.0) return false;
    std::vector<Move> moves;
    for (const Index i : grid.used) {
        for (const Index j : grid.used) {
            if (i != j) moves.push_back({i, j});
        }
    }
    for (std::size_t a = 0; a < moves.size(); ++a) {
        for (std::size_t b = a; b < moves.size() && grid.trials < most_trials; ++b) {
            if (try_moves(grid, {moves[a], moves[b]})) return true;
        }
    }
    return false;
}

bool sweep(Grid& grid) {
    bool moved = false;
    for (const Index i : grid.used) {
        while (grid.trials < most_trials &&
               (try_move(grid, i, -1) || (may_shrink(grid) && try_move(grid, -1, i))))
            moved = true;
        for (const Index j : grid.used) {
            if (i == j) continue;
            while (grid.trials < most_trials && try_move(grid, i, j)) moved = true;
        }
    }
    return moved && grid.trials < most_trials;
}

}  // namespace

std::optional<VectorXd> on_steps(const Model& model, const VectorXd& grams, const Score& score,
                                 bool thorough) {
    if (!(model.granule > 0.0))
        return violation(model, grams) > 0.0 ? std::nullopt : std::optional<VectorXd>(grams);
    Grid grid{model, score, {}, VectorXd::Zero(grams.size()), {}};
    std::vector<double> values;
    for (Index j = 0; j < grams.size(); ++j) {
        if (!(grams[j] > 1e-7)) continue;
        grid.used.push_back(j);
        values.push_back(std::max(0.0, grams[j]));
    }
    const auto rounded = measure::round_to_step(values, model.granule);
    for (std::size_t k = 0; k < rounded.size(); ++k) {
        const Index j = grid.used[k];
        const double lowest = grid.lowest(j);
        if (lowest > model.high[j] + 1e-7) return std::nullopt;
        grid.grams[j] =
            std::clamp(std::round(rounded[k] / model.granule) * model.granule, lowest, model.high[j]);
    }
    grid.sums = model.rows * grid.grams;
    grid.broken = grid.broken_at(grid.sums);
    grid.value = score.of(grid.grams);
    while (sweep(grid) || (thorough && sweep_twos(grid))) {
    }
    if (grid.broken > 0.0) return std::nullopt;
    // Whole granules to the last digit, whatever the sums of moves left behind.
    for (const Index j : grid.used) grid.grams[j] = std::round(grid.grams[j] / model.granule) * model.granule;
    return grid.grams;
}

}  // namespace battwright::solve
