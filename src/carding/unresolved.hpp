// What lies unmixed below the grid: fibre travels in tufts, and a pass takes them apart a bit at a time.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "carding/feed.hpp"
#include "carding/field.hpp"
#include "recipe/carder.hpp"

namespace battwright::carding {

// A cell holds tufts of differing shares. Let c be their mean (the resolved field) and g = E sum_p c_p^2 the
// mean square of a tuft's shares summed over portions; V = g - sum c_p^2 is their variance, summed. Freshly
// laid, every tuft is of one portion: g = 1. Moving fibre about averages tufts without mixing them, so g goes
// through every map and through the card's own spread by the same weights as the shares, and V takes up just
// what the resolved field loses (mean over the batt of sum c_p^2 + V is kept; by Jensen's inequality V >= 0).
// Only opening lessens it: V -> cut V. H is the same with the tuft's mass in it, in units of a fresh one's:
// H -> cut shrink H; what is averaged away on this pass comes in with fresh tufts, however often its fibre
// has been carded, since the feed gives up whole tufts of what lies together. (A scalar's variance below the
// grid, as large-eddy models carry it; the production here is exact.)
struct Opening {
    double cut = 1.0;     // of the variance, a pass
    double shrink = 1.0;  // of the tufts' mass, a pass
};
// `mixing` is this spinner's own factor on the cut: under 1 she mixes more thoroughly than most. Each
// portion's part is weighted by what it can vary, c (1 - c).
Opening opening_of(const recipe::Carder& carder, std::span<const Portion> portions, double batt_grams,
                   bool fed_thin, double mixing = 1.0);
// The same on a pass that opens `times` as much.
Opening opened_more(const Opening& opening, double times);

// Sum over portions of the squares of the shares, cell by cell.
std::vector<double> squares_of(const Field& field);
// Sets a field's unresolved part from `second` and `clumps`, which have been carried like shares (means of
// V + sum c^2 and of H + sum c^2 before), and opens it. `opened`: cell by cell, the part of the fibre that
// the card gets hold of; empty: all of it.
void settle(Field& field, std::vector<double> second, std::vector<double> clumps, const Opening& opening,
            std::span<const double> opened = {});

// The intensity of what is unresolved, in a cell and seen in samples of a mass: V over what the cell's shares
// could vary at most, 1 - sum c_p^2, times m / (m + M) for tufts of mass m in samples of mass M (a cluster
// sample of M / m tufts; V itself when M is nought).
double sampled_variance(double unresolved, double clumped, double sample_mg);
// The same for a box of the batt, as an intensity: over what its mean shares could vary at most. 0 .. 1.
double intensity_in(const Field& field, const Box& box, std::span<const double> shares, double sample_mg);

// One place drawn at random from all that have these mean shares and this intensity: a Dirichlet draw, whose
// covariance is I (diag c - c c') and whose shares stay shares (the several-scalar form of the beta density
// that is assumed for a scalar below the grid). `number` names the place; the same seed and number give the
// same draw.
void draw_place(std::span<double> shares, double intensity, std::uint64_t seed, std::uint64_t number);

}  // namespace battwright::carding
