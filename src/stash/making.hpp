// What became of the fibre: batts carded from lots, skeins spun from batts, projects that wait for skeins.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "colour/spectrum.hpp"
#include "measure/complaint.hpp"
#include "recipe/recipe.hpp"
#include "yarn/calibration.hpp"

namespace battwright::stash {

// One line of the weigh-out. Several lines may draw on one lot.
struct Line {
    std::string mark;
    double grams = 0.0;  // clean fibre; a raw lot gives up grams / yield for it
};

// One session at the drum, of one recipe.
struct Carding {
    std::string name;
    std::string date;    // ISO; "": today
    std::string recipe;  // the text of its file
    recipe::Preparation preparation = recipe::Preparation::woollen;
    int batts = 1;  // made of these lines together
    std::vector<Line> lines;
    // yarn::retained_share of the mixture: what drops out of its own accord is no habit of the carder's.
    double retained_share = 1.0;
    std::optional<colour::Lab> colour;  // as forecast, D65; none: the mean of its lots
    std::string notes;
};

// A line that could not be served, in clean grams.
struct Shortfall {
    std::string mark;
    std::string name;
    double wanted_grams = 0.0;  // of all lines on this lot
    double on_hand_grams = 0.0;
};
// Why nothing was taken. `short_lines` is empty when the reason is another (a busy file, a mark nobody
// knows).
struct Refusal {
    measure::Complaint complaint;
    std::vector<Shortfall> short_lines;
};

// The batts of one carding, counted as one. Weights are of all of them together.
struct Batt {
    std::int64_t id = 0;
    Carding carding;
    double fed_grams = 0.0;                // sum of the lines
    std::optional<double> off_drum_grams;  // by the last weighing
    std::string taken_back_on;             // ISO date, "" while it stands
};

// What the forecast said of a skein before it was spun: the bare figures, so that the record does not change
// when the models do.
struct Foretold {
    double nominal_length_m = 0.0;     // before calibration
    double low_m = 0.0, high_m = 0.0;  // the 80 % range shown at the time
    // Yarn weight the length was foretold for. When it and the skein's own weight are known, metres per gram
    // are compared, so that half a batt spun does not count as half the yardage; 0: not known.
    double grams = 0.0;
    std::string text;  // the forecast in full, in whatever form the caller keeps it
    // What was planned: wraps, or none (0) for a plan by name or grist; strands plied, 0: not known.
    double wanted_wpi = 0.0;
    int strands = 0;
    // Which law of wraps and length the nominal length is of: only the present one's is learnt from.
    int law = yarn::law_number;
    bool operator==(const Foretold&) const = default;
};

// The length foretold for yarn of this weight: metres per gram are compared where both weights are known.
double nominal_metres(const Foretold& foretold, double grams);

// A skein's question to its spinner, to be asked once.
struct AskedSkein {
    std::int64_t skein = 0;
    std::string name;
    yarn::Question question = yarn::Question::none;
    yarn::Lesson lesson;
};

struct FromBatt {
    std::int64_t batt = 0;
    double share_pct = 100.0;  // of the skein's fibre; shares of a skein sum to 100
    bool operator==(const FromBatt&) const = default;
};

struct Skein {
    std::int64_t id = 0;
    std::string name;
    std::vector<FromBatt> from;  // may be empty: yarn from before the stash
    std::string date;            // ISO; "": today
    double grams = 0.0;          // 0: not weighed
    double metres = 0.0;         // finished, washed and dry; 0: not measured
    double wpi = 0.0;            // 0: not wrapped
    int plies = 0;               // 0: not said
    recipe::Preparation preparation = recipe::Preparation::woollen;
    std::optional<Foretold> foretold;
    bool counts = true;  // towards the calibration
    // Answers, once asked (yarn::Question): the wraps were meant, so it teaches loft alone; or the plan stood
    // and the figures are right.
    bool changed_plan = false;
    bool confirmed = false;
    std::string photo;  // path
    // Its colours as its photo shows them, put right by something white; shares of 100. Empty: not looked at.
    std::vector<recipe::Tint> palette;
    std::string note;
    std::string became;  // what it was knitted, woven or traded into
    bool operator==(const Skein&) const = default;
};

// What the skein has to say to yarn::Calibration::learn().
yarn::Lesson lesson_of(const Skein& skein);

// So many metres of a skein promised to a project.
struct Allocation {
    std::int64_t id = 0;
    std::int64_t skein = 0;
    std::string project;
    double metres = 0.0;
};

}  // namespace battwright::stash
