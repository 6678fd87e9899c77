// Carding a batt: what lies where after each pass.
#pragma once

#include <cstdint>
#include <vector>

#include "carding/feed.hpp"
#include "carding/field.hpp"
#include "carding/layings.hpp"
#include "carding/spots.hpp"
#include "carding/spread.hpp"
#include "carding/unresolved.hpp"
#include "recipe/carder.hpp"

namespace battwright::carding {

// Everything a simulation depends on, as one value.
struct Setup {
    std::vector<Portion> portions;
    Feed feed;
    std::vector<Lay> lays;      // of all passes; empty: as the feed says
    std::vector<Small> blends;  // carded beforehand, each after those it is made of
    int passes = 1;
    int strips = 4;
    double circumference_mm = 560.0, width_mm = 200.0;  // of what lies flat, its length and width
    std::size_t pooled = 1;   // first-pass batts whose pieces go into each second-pass batt, when so fed
    double batt_share = 1.0;  // of the portions' grams that go into one batt: 1 / batts
    double staple_mm = 0.0;   // mass-weighted: how long pieces fed sideways are
    Spread spread;            // all zero: no diffusion
    Opening opening;          // 1 and 1: tufts stay as they are
    std::vector<Opening> blend_openings;  // the same of each small blend; empty: the batt's
    Grid grid = default_grid;
    std::uint64_t seed = 1;
    ToolKind tool = ToolKind::drum;
    double reach_share = 1.0;  // hand cards: how deep the teeth of one reach into what lies on the other
};
// For one of `batts` equal batts of the recipe. What `losing_passes` passes (0: the recipe's) lose of each
// portion is left out from the start, so that the last pass holds what is really there, and a batt looked at
// after fewer or more passes than planned is the same fibre. Fine fibre is taken to be fed thin. `mixing`:
// this spinner's own factor on how much of the unresolved variance a pass leaves (see Opening).
Setup setup_of(const recipe::Recipe& recipe, std::span<const recipe::Strand> strands,
               const recipe::Carder& carder, const Feed& feed, std::size_t batts, double mixing = 1.0,
               int losing_passes = 0);

// The batt as it comes off the drum. Spots are those of all portions so far, lumps also counting in the field
// as the mean mass they are.
struct Pass {
    int number = 1;
    Field field;
    std::vector<Spot> spots;
};

// What is laid on which pass, with the weights of the whole making: the setup's lays, else those of its feed.
std::vector<Lay> lays_of_setup(const Setup& setup);

// One entry a pass, 1 .. setup.passes. A portion added later has share 0 before. Passes with nothing on the
// drum (every portion comes later) are left out. The same setup gives the same digits on any number of
// threads.
std::vector<Pass> simulate(const Setup& setup, int threads = 0);

// The next pass over a batt that exists already, with nothing added.
Pass carded_again(const Pass& batt, const Setup& setup, int threads = 0);

}  // namespace battwright::carding
