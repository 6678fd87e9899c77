#include "recipe/load.hpp"

#include <algorithm>

#include "measure/units.hpp"

namespace battwright::recipe {
namespace {

// Where the low end stops and the high end starts.
struct Split {
    std::size_t at = std::string_view::npos;
    std::size_t length = 0;
};

Split split_of(std::string_view text) {
    // A sign before the low end parts nothing: "-20-60 mm" is told that -20 is negative.
    const std::size_t first = std::min(text.find_first_not_of(' '), text.size());
    for (const std::string_view mark : {"\u2013", "\u2014", " to ", "-"}) {
        const std::size_t at = text.find(mark, first + 1);
        if (at != std::string_view::npos) return {at, mark.size()};
    }
    return {};
}

}  // namespace

std::optional<Ends> ends_of_range(std::string_view text) {
    const Split split = split_of(text);
    if (split.at == std::string_view::npos) return std::nullopt;
    Ends ends{std::string(text.substr(0, split.at)), std::string(text.substr(split.at + split.length))};
    const auto start = measure::parse_quantity(ends.low, "load", "40-80 g");
    const auto end = measure::parse_quantity(ends.high, "load", "40-80 g");
    if (start && end && start->unit.empty()) ends.low += ' ' + end->unit;
    return ends;
}

measure::Expected<Load> parse_load(std::string_view text) {
    const auto ends = ends_of_range(text);
    if (!ends) {
        return tl::make_unexpected(
            measure::Complaint{"the load " + measure::quoted(text) + " is not a range",
                               "write the least and the most, as in load = \"40-80 g\""});
    }
    for (const std::string& end : {ends->low, ends->high}) {
        const auto quantity = measure::parse_quantity(end, "load", "40-80 g");
        if (!quantity) return tl::make_unexpected(quantity.error());
    }
    const auto low_mass = measure::parse_mass(ends->low);
    const auto high_mass = measure::parse_mass(ends->high);
    if (!low_mass) return tl::make_unexpected(low_mass.error());
    if (!high_mass) return tl::make_unexpected(high_mass.error());
    return Load{low_mass->grams, high_mass->grams};
}

measure::Expected<double> parse_ratio(std::string_view text, const std::string& noun,
                                      const std::string& form) {
    const auto quantity = measure::parse_quantity(text, noun, "5:1");
    if (!quantity) return tl::make_unexpected(quantity.error());
    std::string unit = quantity->unit;
    std::erase(unit, ' ');
    if (unit.empty() || unit == ":1") return quantity->value;
    return tl::make_unexpected(
        measure::Complaint{"the " + noun + " " + measure::quoted(text) + " is no ratio", "write " + form});
}

measure::Expected<double> parse_licker_in(std::string_view text) {
    return parse_ratio(text, "licker-in's ratio", "the drum's turns to one of the licker-in, as in \"5:1\"");
}

std::string write_ratio(double ratio) {
    return measure::write_number(ratio) + ":1";
}

std::string write_load(const Load& load) {
    return measure::write_number(load.low_grams) + '-' + measure::write_number(load.high_grams) + " g";
}

}  // namespace battwright::recipe
