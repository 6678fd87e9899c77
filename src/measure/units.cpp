#include "measure/units.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "measure/unit_tables.hpp"

namespace battwright::measure {
bool is_spelling(std::string_view word, std::string_view also) {
    while (!also.empty()) {
        const std::string_view spelling = also.substr(0, also.find(' '));
        if (text::same_word(spelling, word)) return true;
        also.remove_prefix(std::min(also.size(), spelling.size() + 1));
    }
    return false;
}

std::string_view word_for(MassUnit unit) {
    return row_of(mass_units, unit).word;
}
std::string_view word_for(YarnLengthUnit unit) {
    return row_of(yarn_length_units, unit).word;
}
std::string_view word_for(LengthUnit unit) {
    return row_of(length_units, unit).word;
}

std::optional<MassUnit> mass_unit_from(std::string_view word) {
    return unit_from(mass_units, word);
}
std::optional<YarnLengthUnit> yarn_length_unit_from(std::string_view word) {
    return unit_from(yarn_length_units, word);
}
std::optional<LengthUnit> length_unit_from(std::string_view word) {
    return unit_from(length_units, word);
}

double grams_from(double value, MassUnit unit) {
    return value * row_of(mass_units, unit).size;
}

double millimetres_from(double value, LengthUnit unit) {
    return value * row_of(length_units, unit).size;
}

double in_unit(double grams, MassUnit unit) {
    return grams / row_of(mass_units, unit).size;
}

std::vector<double> round_to_step(std::span<const double> values, double step) {
    BATTWRIGHT_BELIEVE(step > 0.0);
    BATTWRIGHT_BELIEVE(std::all_of(values.begin(), values.end(), [](double value) { return value >= 0.0; }));
    std::vector<double> steps(values.size());
    std::vector<double> remainders(values.size());
    double exact_total = 0.0;
    double whole_total = 0.0;
    for (std::size_t i = 0; i < values.size(); ++i) {
        const double exact = values[i] / step;
        steps[i] = std::floor(exact);
        // Coarse enough that remainders equal on paper are equal here, and the earlier entry wins.
        remainders[i] = std::round((exact - steps[i]) * 1e9);
        exact_total += exact;
        whole_total += steps[i];
    }
    std::vector<std::size_t> order(values.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return remainders[a] > remainders[b]; });
    const double missing = std::round(exact_total) - whole_total;
    for (std::size_t i = 0; i < order.size() && static_cast<double>(i) < missing; ++i) steps[order[i]] += 1.0;
    // 3 / 10 rather than 3 * 0.1, so that a tenth prints as a tenth.
    const double per_unit = std::round(1.0 / step);
    const bool divides = per_unit >= 1.0 && std::abs(per_unit * step - 1.0) < 1e-12;
    for (double& count : steps) count = divides ? count / per_unit : count * step;
    return steps;
}

std::vector<double> weighable(std::span<const double> grams, MassUnit unit) {
    return round_to_step(grams, usual_scale_grams(unit));
}

std::vector<double> tenths(std::span<const double> percents) {
    return round_to_step(percents, 0.1);
}

}  // namespace battwright::measure
