#include "card/figures.hpp"

#include <cstdio>

namespace battwright::card {

std::string number(double value, int decimals) {
    char buffer[64];
    std::snprintf(buffer, sizeof buffer, "%.*f", decimals, value);
    return buffer;
}

std::vector<double> weighable(const std::vector<double>& grams, measure::MassUnit unit) {
    double step = 0.1;
    if (unit == measure::MassUnit::ounce) step = measure::grams_from(0.01, unit);
    if (unit == measure::MassUnit::pound) step = measure::grams_from(0.001, unit);
    return measure::round_to_step(grams, step);
}

std::vector<double> tenths(const std::vector<double>& percents) {
    return measure::round_to_step(percents, 0.1);
}

}  // namespace battwright::card
