// Wraps to length: an empirical law with its spread, fitted to records of finished handspun.
#pragma once

#include <span>

#include "recipe/composition.hpp"

namespace battwright::yarn {

// The fit, repeated and compared with these constants by tests/yarn/law_test.cpp on tests/yarn/skeins.csv
// (published figures of finished skeins; robust, with a habit for each source). After each: its standard
// error.
//
//   ln(metres per kilogram) = centre + 2 z - pull z / (1 + (z / reach)^2)
//                             + plies ln(n / 2) + diameter ln(d / 25 um) + habit + chance,  z = ln(wpi / 14)
//
// The 2 is geometry: mass goes with the square of the thickness. Real counts follow it far less, since a
// count is read with error: the best guess of the thickness behind a count lies nearer to what is common
// (Tweedie's formula: it moves by the error's variance times the slope of the log density of counts). For a
// density with Student's tails that is the `pull` term: a count near the common 14 says little, one far from
// it is believed. Names ("sport"), which carry no error of counting, follow 1.8 on other skeins.
// Counted up with each new fit or form: records keep it beside what was foretold. 1 was a constant packing.
inline constexpr int law_number = 2;
inline constexpr double law_centre_wpi = 14.0;
inline constexpr double law_centre = 7.72, law_centre_se = 0.064;
inline constexpr double law_pull = 1.42, law_pull_se = 0.157;
inline constexpr double law_plies = -0.41, law_plies_se = 0.16;
inline constexpr double law_diameter = -0.665, law_diameter_se = 0.185;
inline constexpr double law_diameter_um = 25.0;
inline constexpr double law_reach = 2.0;  // assumed: the records do not tell 1.4 from 3
// Spread of ln(metres per kilogram) about the law at the wraps counted: from spinner to spinner, and from
// skein to skein of one spinner. Scales of the Student's t of the prior (calibration.hpp) with the same 80 %
// range.
inline constexpr double loft_habit_log_sd = 0.307;
inline constexpr double loft_chance_log_sd = 0.251;

// The law for a thickness named ("sport", "light"): ln(metres per kilogram) = name_centre + name_slope z, z
// of the wraps usual for the name (thickness.hpp). Plies, fibre and preparation carried no effect there.
inline constexpr double name_centre = 8.045, name_centre_se = 0.048;
inline constexpr double name_slope = 1.80, name_slope_se = 0.135;
inline constexpr double name_habit_log_sd = 0.235;
inline constexpr double name_chance_log_sd = 0.197;

// Wraps got over wraps wanted, in logarithms: the habit of a spinner, and from skein to skein. Assumed: no
// record says what was wanted.
inline constexpr double aim_habit_log_sd = 0.12;
inline constexpr double aim_chance_log_sd = 0.08;
// How far a count strays from the thickness, for wraps worked out from a grist. Assumed, near what the pull
// term implies.
inline constexpr double count_log_sd = 0.2;

// What the law asks of a yarn besides its wraps.
struct Makeup {
    int plies = 2;  // strands spun from the fibre; a bought thread does not count
    double diameter_um = law_diameter_um;
};
// Plies as given, the diameter the mass-weighted geometric mean; film, neps, and fibre of unknown kind take
// no part, and with nothing else the law's own middle stands.
Makeup makeup_of(int plies, std::span<const recipe::Strand> strands);

// What a guessed diameter adds to the spread of ln(metres per kilogram) by counted wraps, as a standard
// error: the kinds independent, each by its share of what takes part. A published one adds nothing: the law
// was fitted to skeins of whose fibre no more was known.
double guessed_diameter_log_sd(std::span<const recipe::Strand> strands);

// Medians, of the finished yarn. Precondition of these five: wraps, plies and diameter are above zero.
double log_m_per_kg_at_wraps(double wpi, const Makeup& makeup);
double log_m_per_kg_by_name(double usual_wpi);
// The law's slope at a count: how much of an error of aim reaches the length.
double law_slope(double wpi);
// Standard error of the law itself there: of its constants, taken as independent.
double law_log_se(double wpi, const Makeup& makeup);
double name_log_se(double usual_wpi);

// The other way round: thickness goes by geometry, wpi = 14 exp((y - y at 14 wraps) / 2), since a grist is
// weighed and not counted.
double wpi_of_tex(double tex, const Makeup& makeup);
// Grist of a yarn that truly is as thin as so many wraps, read without error: the inverse.
double tex_truly_at(double wpi, const Makeup& makeup);
// 80 % range of such wraps as a factor: loft halved, and the error of counting.
double wpi_factor_80_percent();

double tex_of_log_m_per_kg(double log_m_per_kg);

}  // namespace battwright::yarn
