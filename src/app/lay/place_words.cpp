#include "app/lay/place_words.hpp"

#include <cmath>

namespace battwright::app {
namespace {

constexpr double cm_per_foot = 12.0 * measure::millimetres_per_inch / 10.0;
constexpr double g_cm2_of_oz_ft2 = measure::grams_per_ounce / (cm_per_foot * cm_per_foot);

bool is_foreign(const std::optional<measure::LengthUnit>& written, measure::LengthUnit unit) {
    return written && *written != unit;
}

std::string span_of(const recipe::Stretch& place, measure::LengthUnit unit) {
    return measure::print_length(place.from, unit) + " to " + measure::print_length(place.to, unit);
}

}  // namespace

std::string across_in_words(const recipe::Stretch& place, measure::LengthUnit unit) {
    return is_foreign(place.unit, unit) ? span_of(place, unit) : recipe::write_across(place);
}

std::string round_in_words(const recipe::Stretch& place, measure::LengthUnit unit) {
    return is_foreign(place.unit, unit) ? span_of(place, unit) : recipe::write_round(place);
}

std::string extent_in_words(const recipe::Extent& extent, measure::LengthUnit unit) {
    return is_foreign(extent.unit, unit) ? measure::print_length(extent.value, unit)
                                         : recipe::write_extent(extent);
}

std::string cover_in_words(double grams_per_cm2, measure::LengthUnit unit) {
    if (unit != measure::LengthUnit::inch)
        return measure::write_number(std::round(grams_per_cm2 * 1e4) / 10.0) + " mg/cm\u00b2";
    return measure::write_number(std::round(100.0 * grams_per_cm2 / g_cm2_of_oz_ft2) / 100.0) +
           " oz/ft\u00b2";
}

measure::Expected<double> parse_cover(const std::string& typed, measure::LengthUnit unit) {
    const bool inches = unit == measure::LengthUnit::inch;
    const auto number = measure::parse_quantity(typed, "thickness", inches ? "0.65 oz/ft2" : "20 mg/cm2");
    if (!number) return tl::make_unexpected(number.error());
    const bool ounces = number->unit.empty() ? inches : number->unit.starts_with("oz");
    return number->value * (ounces ? g_cm2_of_oz_ft2 : 0.001);
}

}  // namespace battwright::app
