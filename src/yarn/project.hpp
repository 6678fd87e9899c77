// What a knitted thing takes, and whether the batt gives it.
#pragma once

#include <span>
#include <string_view>

#include "yarn/forecast.hpp"

namespace battwright::yarn {

// Common practice, no source: metres a thing takes in plain knitting at `table_wpi` (the medium class).
struct Project {
    std::string_view thing;
    std::string_view size;
    double low_m = 0.0, high_m = 0.0;
};
inline constexpr double table_wpi = 9.0;
std::span<const Project> projects();
// nullptr when the table has no such thing of that size.
const Project* project_named(std::string_view thing, std::string_view size);

struct Need {
    double low_m = 0.0, high_m = 0.0;
    double middle_m() const { return 0.5 * (low_m + high_m); }
};
// At other thicknesses: stitches and rows both go as the wraps, and the yarn in a stitch against them, so a
// square of fabric takes metres in proportion to the wraps. Lace is worked open and takes `open_work` of that
// (common practice, no source). The wraps of a class are its typical ones. Precondition: wpi > 0.
inline constexpr double open_work = 0.75;
Need need_of(const Project& project, double wpi);
Need need_of(const Project& project, const ThicknessClass& thickness);

// enough: the shortest likely skein makes the hungriest version. likely: the middle makes the middle. hardly:
// only a long skein makes a frugal version. Otherwise short.
enum class Verdict { enough, likely, hardly, short_of };
std::string_view word_for(Verdict verdict);
struct Enough {
    Need need;
    Verdict verdict = Verdict::short_of;
    double short_m = 0.0;                // middle of the need less the median length; 0 when it reaches
    double short_at_worst_m = 0.0;       // most the thing may take less the low end of the length
    double more_grams = 0.0;             // of batt, to close the first
    double more_grams_to_be_sure = 0.0;  // to close the second
};
// Holds the forecast's own yarn against the project. A forecast of no length: short, and no weight is named.
Enough enough_for(const Project& project, const YarnForecast& forecast);

// The reverse: batt to card for the project in the forecast's yarn, grams. Zeros for a forecast of no length.
struct CardSoMuch {
    double frugal_grams = 0.0;   // low end of the need, median yarn
    double typical_grams = 0.0;  // middle of the need, median yarn
    double sure_grams = 0.0;     // high end of the need, low end of the yarn
};
CardSoMuch card_for(const Project& project, const YarnForecast& forecast);

}  // namespace battwright::yarn
