// Writing quantities: rounded for people, exact for files.
#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "measure/unit_tables.hpp"
#include "measure/units.hpp"
#include "text/numbers.hpp"

namespace battwright::measure {
namespace {

std::string with_unit(std::string number, std::string_view unit) {
    return number.append(" ").append(unit);
}

// Three significant figures, as a kitchen scale gives, within 0 to 3 places.
int places_for(double value) {
    const double size = std::abs(value);
    if (size < 1.0) return 2;
    return size < 100.0 ? 1 : 0;
}

// Two figures of what is less than a tenth: 0.1 g is 0.0035 oz and not none.
int places_for_small(double value) {
    constexpr int most = 5;
    if (!std::isfinite(value) || value == 0.0) return 0;
    return std::clamp(1 - static_cast<int>(std::floor(std::log10(std::abs(value)))), 2, most);
}

int places_for(double value, MassUnit unit) {
    switch (unit) {
        case MassUnit::kilogram:
            return 3;
        case MassUnit::ounce:
        case MassUnit::pound:
            return std::abs(value) < 100.0 ? places_for_small(value) : 1;
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
                                     std::nextafter(quotient, quotient + quotient)};
    for (int figures = 1; figures <= std::numeric_limits<double>::max_digits10; ++figures) {
        for (const double candidate : near) {
            const double cut = text::to_figures(candidate, figures);
            if (cut * factor == target) return cut;
        }
    }
    return quotient;
}

}  // namespace

std::string write_number(double value) {
    return text::shortest(value);
}

std::string print_number(double value, int most_decimals) {
    const double scale = std::pow(10.0, most_decimals);
    return write_number(std::round(value * scale) / scale);
}

std::string print_mass(double grams, MassUnit unit) {
    const double value = in_unit(grams, unit);
    return with_unit(text::rounded(value, places_for(value, unit)), word_for(unit));
}

std::string print_length(double millimetres, LengthUnit unit) {
    const LengthRow& row = row_of(length_units, unit);
    const double value = millimetres / row.size;
    const bool fine = unit == LengthUnit::millimetre && std::abs(value) < 10.0;
    return with_unit(text::rounded(value, fine ? 1 : row.decimals), row.word);
}

std::string print_yarn_length(double metres, YarnLengthUnit unit) {
    const YarnLengthRow& row = row_of(yarn_length_units, unit);
    const double value = metres / row.size;
    return with_unit(text::rounded(value, std::abs(value) < 10.0 ? 1 : 0), row.word);
}

std::string print_percent(double percent) {
    return text::rounded(percent, std::abs(percent) < 1.0 ? 2 : 1) + " %";
}

std::string write_mass(const Mass& mass) {
    return with_unit(write_number(fewest_digits(mass.grams, grams_from(1.0, mass.unit))),
                     word_for(mass.unit));
}

std::string write_length(const Length& length) {
    const double size = millimetres_from(1.0, length.unit);
    return with_unit(write_number(fewest_digits(length.millimetres, size)), word_for(length.unit));
}

std::string write_diameter(double micrometres) {
    return write_number(micrometres) + " um";
}

std::string write_percent(double percent) {
    return write_number(percent) + " %";
}

}  // namespace battwright::measure
