// What fibre costs, in whatever currency the user counts in.
#pragma once

#include <string>
#include <string_view>

#include "measure/units.hpp"

namespace battwright::recipe {

// So much money for so much weight, as the tag says it.
struct Price {
    double amount = 0.0;
    measure::Mass per{100.0, measure::MassUnit::gram};

    double of_grams(double grams) const { return amount * grams / per.grams; }
    bool operator==(const Price&) const = default;
};

// "6.50 per 100 g", "4 per oz" (one of it): no currency, since all prices of a user are in hers.
measure::Expected<Price> parse_price(std::string_view text);
// Text that parse_price() reads back to the same value.
std::string write_price(const Price& price);

}  // namespace battwright::recipe
