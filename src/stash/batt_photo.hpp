// A photo of a finished batt, or of a sample carded by hand, as the record keeps it.
#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "colour/batt_photo.hpp"
#include "colour/sighting.hpp"
#include "colour/spectrum.hpp"

namespace battwright::stash {

// What it says of the natural logarithm of a figure: a value and its standard deviation.
struct LogFigure {
    double at = 0.0, sd = 1.0;
};

// The bare figures of what was seen and what was forecast then, so that the record does not change when the
// models do. Colours are Lab under D65, differences CIEDE2000.
struct BattPhoto {
    std::int64_t id = 0;
    std::optional<std::int64_t> batt;  // none: a sample of its own
    std::string name;                  // of a batt: its own unless given
    std::string recipe;                // what went into a sample, the text of its file; of a batt ""
    std::string date;                  // ISO; "": today
    std::string photo;                 // path
    colour::Taken taken = colour::Taken::face;
    double mm_per_pixel = 1.0;
    colour::BattReading seen;  // its slope is not kept
    colour::Lab foretold;
    std::optional<double> foretold_variation_de00;
    // Of Stearns and Noechel's m, and how the variation goes with this spinner's factor on what a pass leaves
    // unmixed; none where it says nothing, as every photo that is not fit.
    std::optional<LogFigure> log_m;
    std::optional<colour::CurvedSighting> log_mixing;
    double misfit = 0.0;     // colour::Sighting's
    int model = 0;           // whose forecast it was; only the present one's is learnt from
    bool counts = true;      // towards what is learnt
    bool standing = true;    // read, not written: its batt was not taken back
    bool confirmed = false;  // asked, and it is right
    std::string note;
};

}  // namespace battwright::stash
