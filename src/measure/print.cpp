// Writing quantities: rounded for people, exact for files.
#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

#include "measure/units.hpp"

namespace battwright::measure {
namespace {

const char* word_for(MassUnit unit) {
    switch (unit) {
        case MassUnit::kilogram:
            return " kg";
        case MassUnit::ounce:
            return " oz";
        case MassUnit::pound:
            return " lb";
        case MassUnit::gram:
            break;
    }
    return " g";
}

const char* word_for(LengthUnit unit) {
    switch (unit) {
        case LengthUnit::centimetre:
            return " cm";
        case LengthUnit::inch:
            return " in";
        case LengthUnit::millimetre:
            break;
    }
    return " mm";
}

double millimetres_per(LengthUnit unit) {
    switch (unit) {
        case LengthUnit::centimetre:
            return 10.0;
        case LengthUnit::inch:
            return millimetres_per_inch;
        case LengthUnit::millimetre:
            break;
    }
    return 1.0;
}

// At most `decimals` places, trailing zeros and a lone "-0" gone.
std::string rounded(double value, int decimals) {
    if (!std::isfinite(value)) return "?";
    const double scale = std::pow(10.0, decimals);
    const double nearest = std::abs(value) < 1e12 ? std::round(value * scale) / scale : value;
    return write_number(nearest);
}

// Three significant figures, as a kitchen scale gives, within 0 to 3 places.
int places_for(double value) {
    const double size = std::abs(value);
    if (size < 1.0) return 2;
    return size < 100.0 ? 1 : 0;
}

int places_for(double value, MassUnit unit) {
    switch (unit) {
        case MassUnit::kilogram:
            return 3;
        case MassUnit::ounce:
        case MassUnit::pound:
            return std::abs(value) < 100.0 ? 2 : 1;
        case MassUnit::gram:
            break;
    }
    return places_for(value);
}

// The number of fewest digits whose product with `factor` is `target` to the last bit; when no double does
// that (a weight computed in grams need not be any double's worth of ounces), the quotient itself.
double fewest_digits(double target, double factor) {
    const double quotient = target / factor;
    const std::array<double, 3> near{quotient, std::nextafter(quotient, 0.0),
                                     std::nextafter(quotient, 2 * quotient)};
    std::array<char, 64> buffer{};
    for (int digits = 1; digits <= 17; ++digits) {
        for (const double candidate : near) {
            const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), candidate,
                                           std::chars_format::scientific, digits - 1);
            double read = 0.0;
            std::from_chars(buffer.data(), end.ptr, read);
            if (read * factor == target) return read;
        }
    }
    return quotient;
}

}  // namespace

double millimetres_from(double value, LengthUnit unit) {
    return value * millimetres_per(unit);
}

std::string write_number(double value) {
    if (value == 0.0) return "0";
    const double size = std::abs(value);
    const bool everyday = size >= 1e-5 && size < 1e15;
    std::array<char, 64> buffer{};
    const auto end = everyday ? std::to_chars(buffer.data(), buffer.data() + buffer.size(), value,
                                              std::chars_format::fixed)
                              : std::to_chars(buffer.data(), buffer.data() + buffer.size(), value);
    return {buffer.data(), end.ptr};
}

std::string print_mass(double grams, MassUnit unit) {
    const double value = in_unit(grams, unit);
    return rounded(value, places_for(value, unit)) + word_for(unit);
}

std::string print_length(double millimetres, LengthUnit unit) {
    const double value = millimetres / millimetres_per(unit);
    const int places = unit == LengthUnit::millimetre ? (std::abs(value) < 10.0 ? 1 : 0) : 1;
    return rounded(value, unit == LengthUnit::inch ? 2 : places) + word_for(unit);
}

std::string print_yarn_length(double metres, YarnLengthUnit unit) {
    const bool yards = unit == YarnLengthUnit::yard;
    const double value = yards ? metres / metres_per_yard : metres;
    return rounded(value, std::abs(value) < 10.0 ? 1 : 0) + (yards ? " yd" : " m");
}

std::string print_percent(double percent) {
    return rounded(percent, std::abs(percent) < 1.0 ? 2 : 1) + " %";
}

std::string write_mass(const Mass& mass) {
    return write_number(fewest_digits(mass.grams, grams_from(1.0, mass.unit))) + word_for(mass.unit);
}

std::string write_length(const Length& length) {
    return write_number(fewest_digits(length.millimetres, millimetres_per(length.unit))) +
           word_for(length.unit);
}

std::string write_diameter(double micrometres) {
    return write_number(micrometres) + " um";
}

std::string write_percent(double percent) {
    return write_number(percent) + " %";
}

}  // namespace battwright::measure
