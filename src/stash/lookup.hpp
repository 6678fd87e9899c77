// "What was this?": a skein, a batt or a bag without a tag, and what can still be told of it.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "colour/spectrum.hpp"
#include "yarn/finish.hpp"

namespace battwright::stash {

// How far off each clue is taken to be (one standard deviation). Common practice, no source: a colour picked
// from a photo, a kitchen scale and some damp, a skein measured round a chair, a remembered season.
inline constexpr double clue_de00 = 5.0;
inline constexpr double clue_log_grams = 0.08;
inline constexpr double clue_log_metres = 0.08;
inline constexpr double clue_days = 30.0;
// What the record does not know of a candidate counts as two standard deviations off.
inline constexpr double unknown_deviations = 2.0;

struct Clue {
    std::optional<colour::Lab> colour;  // D65
    std::optional<double> grams;
    std::optional<double> metres;
    // The length was measured before the wash, which takes so much of it; the record's are washed and dry.
    std::optional<yarn::Spread> shrink_pct;
    std::string date;  // ISO, when it was bought, carded or spun; "": no idea
};

enum class Thing { lot, batt, skein };
std::string_view word_for(Thing thing);

struct Suspect {
    Thing thing = Thing::lot;
    std::int64_t id = 0;
    std::string mark;  // of a lot
    std::string name;
    std::string date;
    double deviations = 0.0;           // root mean square over the clues, in standard deviations; 0 fits
    std::vector<std::string> reasons;  // "the colour is 2.1 away (CIEDE2000)", one a clue
};

}  // namespace battwright::stash
