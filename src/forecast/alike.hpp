// Many batts of one recipe: how far apart they will come out, and what recombining them does.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "forecast/batt.hpp"
#include "forecast/forecast.hpp"

namespace battwright::forecast {

// Where batts weighed out alike come to differ. All but the first are common practice, no source.
struct Handling {
    // The scale shows steps: each weight is off by up to half of one, any value as likely (a rectangular
    // distribution: JCGM 100:2008, 4.3.7).
    double scale_step_grams = 0.1;
    double dropped_cv = 0.02;  // of a component, between bag, tray and drum
    double divided_cv = 0.10;  // of one colour, when a component of several colours is divided by eye
    double drum_keeps = 0.02;  // of the first batt: what is fed first stays deepest in the cloth, for good
    double pieces_cv = 0.10;   // of a strip's weight, when a batt is split by eye
};

// Between the batts of one making, mean over many makings drawn.
struct Apart {
    double typical_de00 = 0.0;   // between two batts of the making
    double farthest_de00 = 0.0;  // between the two that are farthest apart
    double share_pct = 0.0;  // standard deviation of the share of the component that strays most, in points
    std::size_t component = 0;  // that one
};
struct Alike {
    std::size_t batts = 1;
    Apart as_carded;   // each batt by itself through all its passes
    Apart recombined;  // a strip of every first-pass batt in each second-pass batt
    // What each cause does by itself to batts carded by themselves, CIEDE2000 between two.
    double by_scale_de00 = 0.0, by_handling_de00 = 0.0, by_order_de00 = 0.0;
};

// Nothing for a making of one batt. `first_pass`: the first pass of batt_of(), which says how far strips of
// one batt differ; without one they are taken to be alike. The same seed gives the same figures.
std::optional<Alike> alike(const Forecast& forecast, const Handling& handling,
                           const carding::Pass* first_pass, std::uint64_t seed = 1);

// "Two of the 4 batts will be about 0.8 apart in colour ...": sentences for a person; empty for one batt.
std::string alike_words(const Forecast& forecast, const Alike& alike);

}  // namespace battwright::forecast
