// Units at the edge: what people write and read. Inside the engine all is grams, metres, millimetres.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "measure/complaint.hpp"

namespace battwright::measure {

// Exact by the international yard and pound agreement of 1959.
inline constexpr double grams_per_pound = 453.59237;
inline constexpr double grams_per_ounce = grams_per_pound / 16.0;
inline constexpr double metres_per_yard = 0.9144;
inline constexpr double millimetres_per_inch = 25.4;

enum class MassUnit { gram, kilogram, ounce, pound };
enum class YarnLengthUnit { metre, yard };
enum class LengthUnit { millimetre, centimetre, inch };

// "g", "kg", "oz", "lb"; "m", "yd"; "mm", "cm", "in".
std::string_view word_for(MassUnit unit);
std::string_view word_for(YarnLengthUnit unit);
std::string_view word_for(LengthUnit unit);
// The unit a word names, in any spelling and case: "grammes", "lbs", "inch". Nothing when it names none.
std::optional<MassUnit> mass_unit_from(std::string_view word);
std::optional<YarnLengthUnit> yarn_length_unit_from(std::string_view word);
std::optional<LengthUnit> length_unit_from(std::string_view word);

// A number as the user wrote it, with the unit it was written in, so that it can be written back.
struct Mass {
    double grams = 0.0;
    MassUnit unit = MassUnit::gram;
    bool operator==(const Mass&) const = default;
};
struct Length {
    double millimetres = 0.0;
    LengthUnit unit = LengthUnit::millimetre;
    bool operator==(const Length&) const = default;
};

// A number and whatever stands after it: "12 wpi" is 12 and "wpi". The unit may be empty.
struct Quantity {
    double value = 0.0;
    std::string unit;
};
// For quantities that have no function of their own below; `noun` ("thickness") and `example` ("12 wpi") are
// for the complaints. The same rules as for weights: fractions are read, a decimal comma is explained.
Expected<Quantity> parse_quantity(std::string_view text, std::string_view noun, std::string_view example);

// "28g", "3.5 oz", "3 1/2 oz", "1/2 lb", "0.1 kg", and the one-character fractions. A bare number is an error
// that asks for a unit. A decimal comma is an error that says to use a point. Not finite, or negative: an
// error. Zero is let through here.
Expected<Mass> parse_mass(std::string_view text);
// "95 mm", "9.5 cm", "3 3/4 in", "4\"".
Expected<Length> parse_length(std::string_view text);
// Metres from "400 m", "437 yd", "437 yards".
Expected<double> parse_yarn_length_metres(std::string_view text);
// Micrometres from "21 um", "21.5 micron".
Expected<double> parse_diameter_micrometres(std::string_view text);
// Percent (0..100 and beyond: the caller judges) from "60 %", "60%", "60 percent".
Expected<double> parse_percent(std::string_view text);
// A count of parts from "3", "1.5", "2 parts", "1/3".
Expected<double> parse_parts(std::string_view text);

// Sensible precision for a person: "28 g", "3.5 g", "1.25 oz". Never "-0".
std::string print_mass(double grams, MassUnit unit);
std::string print_length(double millimetres, LengthUnit unit);
std::string print_yarn_length(double metres, YarnLengthUnit unit);
std::string print_percent(double percent);
// The shortest text that parses back to the same value in that unit, for files: "42 g", "3.5 oz". A weight
// that no number of that unit gives exactly (one computed elsewhere) is written to the nearest, within 1 part
// in 1e15.
std::string write_mass(const Mass& mass);
std::string write_length(const Length& length);
std::string write_percent(double percent);
std::string write_diameter(double micrometres);
// The shortest decimal that reads back to the same double, with no exponent for everyday sizes.
std::string write_number(double value);
// To at most so many decimals, half away from zero: "3.5", "4".
std::string print_number(double value, int most_decimals);

double grams_from(double value, MassUnit unit);
double in_unit(double grams, MassUnit unit);
double millimetres_from(double value, LengthUnit unit);

// Rounds each weight to a multiple of `step` so that the rounded weights sum to the total rounded to the
// step (largest-remainder method, Hamilton 1792; ties to the earlier entry). Units: any, the same for all.
// Precondition: step > 0, values >= 0.
std::vector<double> round_to_step(std::span<const double> values, double step);
// Weights as a person would weigh them out (to 0.1 g, 0.01 oz, 0.001 lb), still summing to the total.
std::vector<double> weighable(std::span<const double> grams, MassUnit unit);
// Percentages to a tenth that still sum.
std::vector<double> tenths(std::span<const double> percents);

}  // namespace battwright::measure
