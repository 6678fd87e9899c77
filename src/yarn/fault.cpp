// What is wrong with a plan before any yarn is worked out from it.
#include <cmath>

#include "measure/units.hpp"
#include "recipe/thickness.hpp"
#include "yarn/forecast.hpp"

namespace battwright::yarn {
namespace {

using measure::Complaint;
using Fault = std::optional<Complaint>;

constexpr double least_tex = 5.0, most_tex = 20000.0;

bool within(double value, double low, double high) {
    return value >= low && value <= high;  // false for what is not a number
}

Fault bad_thickness(const recipe::Thickness& thickness) {
    const std::string value = measure::write_number(thickness.value);
    if (thickness.in == recipe::ThicknessIn::class_name) {
        if (recipe::thickness_named(thickness.class_name) != nullptr) return std::nullopt;
        return Complaint{"the class " + measure::quoted(thickness.class_name) + " is not known",
                         "write a name such as lace, sport or bulky, or wraps as in \"12 wpi\"", "thickness"};
    }
    if (thickness.in == recipe::ThicknessIn::tex) {
        if (within(thickness.value, least_tex, most_tex)) return std::nullopt;
        return Complaint{"the thickness is " + value + " tex, and no hand spins that",
                         "write 5 to 20000 tex, as in \"200 tex\"", "thickness"};
    }
    if (within(thickness.value, least_wpi, most_wpi)) return std::nullopt;
    return Complaint{"the thickness is " + value + " wpi, and no hand spins that",
                     "write 2 to 120 wraps per inch, as in \"12 wpi\"", "thickness"};
}

Fault bad_thread(const recipe::Spinning& spinning) {
    if (spinning.plying != Plying::with_thread) return std::nullopt;
    if (!spinning.thread)
        return Complaint{"there is no thread to ply with", "give its count and its length", "thread"};
    if (!within(spinning.thread->tex, 0.1, most_tex))
        return Complaint{"the thread has no count", "write it as on the cone, as in \"2/60 worsted\"",
                         "thread"};
    if (!within(spinning.thread->length_m, 0.0, 1e7))
        return Complaint{"the thread has no length", "write the metres on the cone", "thread"};
    return std::nullopt;
}

}  // namespace

Fault fault_in(const recipe::Spinning& spinning, double batt_grams) {
    if (!std::isfinite(batt_grams) || batt_grams <= 0.0)
        return Complaint{"the batt weighs " + measure::write_number(batt_grams) + " g, so there is no yarn",
                         "give it a weight above zero", "weight"};
    if (spinning.plies < 1 || spinning.plies > most_plies)
        return Complaint{"a yarn of " + std::to_string(spinning.plies) + " plies cannot be",
                         "write 1 to 12 plies; 1 is a single", "plies"};
    if (auto fault = bad_thickness(spinning.thickness)) return fault;
    return bad_thread(spinning);
}

}  // namespace battwright::yarn
