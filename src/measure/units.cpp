#include "measure/units.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace battwright::measure {
namespace {

double grams_per(MassUnit unit) {
    switch (unit) {
        case MassUnit::kilogram:
            return 1000.0;
        case MassUnit::ounce:
            return grams_per_ounce;
        case MassUnit::pound:
            return grams_per_pound;
        case MassUnit::gram:
            break;
    }
    return 1.0;
}

}  // namespace

double grams_from(double value, MassUnit unit) {
    return value * grams_per(unit);
}

double in_unit(double grams, MassUnit unit) {
    return grams / grams_per(unit);
}

std::vector<double> round_to_step(std::span<const double> values, double step) {
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

}  // namespace battwright::measure
