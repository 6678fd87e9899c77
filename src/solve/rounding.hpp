// Inside this room: weights on the scale's step.
#pragma once

#include <functional>
#include <optional>

#include "solve/model.hpp"

namespace battwright::solve {

// What rounding tries to keep low; masses in grams.
class Score {
  public:
    Score() = default;
    Score(const Score&) = default;
    Score& operator=(const Score&) = default;
    virtual ~Score() = default;
    virtual double of(const VectorXd& grams) const = 0;
};

// Whole granules near `grams`, on the lots it uses: largest remainders first, then exchanges of a granule
// between two lots, or of one lot, for as long as they mend a broken row or lower the score. Nothing when a
// row stays broken. With no step the masses themselves, if they keep the rows.
// `thorough`: two exchanges at once too.
std::optional<VectorXd> on_steps(const Model& model, const VectorXd& grams, const Score& score,
                                 bool thorough = false);

}  // namespace battwright::solve
