// Inside this room: a problem as numbers. Masses are grams of all batts together, one a lot.
#pragma once

#include <Eigen/Core>
#include <cstddef>
#include <optional>
#include <vector>

#include "solve/problem.hpp"

namespace battwright::solve {

using Eigen::MatrixXd;
using Eigen::VectorXd;

inline constexpr double no_limit = 1e30;
// Of a jeweller's scale (common practice, no source): no step is finer, and no total less.
inline constexpr double finest_scale_grams = 0.001;
inline constexpr double priced_grams = 100.0;  // Bounds::most_cost_per_100_g

// The lots, worked out once.
struct Shelf {
    std::vector<LotProperties> worked;
    MatrixXd f;  // additive function of reflectance, bands x lots
    colour::OpticsModel optics;
};
measure::Expected<Shelf> shelf_of(const std::vector<Lot>& lots, const Setting& setting);

// What a problem is but for its colour: low <= A m <= high with m_j = 0 or least_j <= m_j <= high_j, at most
// `most_lots` of them not zero, each a whole number of granules.
struct Model {
    std::size_t batts = 1;
    VectorXd low, high;  // of each lot; high 0: may not be used
    VectorXd least;      // of a lot that is used at all; never below low
    MatrixXd rows;       // the first is the total
    VectorXd row_low, row_high;
    std::size_t most_lots = 0;    // as many as there are lots: no limit
    double granule = 0.0;         // grams; 0: any weight
    VectorXd use;                 // share of the use-up goal that a gram fills
    double use_worth = 0.0;       // CIEDE2000 for all of it
    VectorXd lot_worth;           // CIEDE2000 for using the lot at all
    bool as_much_as_can = false;  // scale up at the end

    std::size_t lots() const { return static_cast<std::size_t>(low.size()); }
    bool has_counts() const { return most_lots < lots() || (least.array() > low.array()).any(); }
};

// A problem is one model for each choice of a number of batts and of a window of staple lengths; a solution
// of any is a solution. Fewest batts first.
std::vector<Model> models_of(const Problem& problem, const Shelf& shelf);

// How far masses are from keeping the rows, in grams; 0 within rounding.
double violation(const Model& model, const VectorXd& grams);
// Everything kept: rows, lots' own limits, counts, steps.
bool keeps(const Model& model, const VectorXd& grams);
std::size_t count_used(const VectorXd& grams);

}  // namespace battwright::solve
