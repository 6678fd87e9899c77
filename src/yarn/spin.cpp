#include "yarn/spin.hpp"

#include <cmath>
#include <numbers>

#include "staple/distribution.hpp"
#include "yarn/count.hpp"

namespace battwright::yarn {
namespace {

constexpr double degree = std::numbers::pi / 180.0;
constexpr double soft_turns = 0.75;
constexpr double firm_turns = 4.0 / 3.0;
constexpr double soft_from = 10.0, medium_from = 17.0, firm_from = 25.0, firm_to = 40.0;

}  // namespace

double least_fibres(recipe::Preparation preparation) {
    if (preparation == recipe::Preparation::woollen) return least_fibres_woollen;
    return preparation == recipe::Preparation::worsted ? least_fibres_worsted : least_fibres_semi_woollen;
}

double fewest_fibres(recipe::Preparation preparation) {
    return 0.5 * least_fibres(preparation);
}

double finest_single_tex(recipe::Preparation preparation, double fibre_tex) {
    return least_fibres(preparation) * fibre_tex;
}

double spinning_k(recipe::Preparation preparation) {
    if (preparation == recipe::Preparation::woollen) return ashenhurst_soft_woollen;
    if (preparation == recipe::Preparation::worsted) return ashenhurst_firm_worsted;
    return 0.5 * (ashenhurst_soft_woollen + ashenhurst_firm_worsted);
}

double taut_diameter_mm(double single_tex, recipe::Preparation preparation) {
    return compact_diameter_mm(single_tex, spinning_k(preparation));
}

double turns_per_metre(double angle_degrees, double diameter_mm) {
    return diameter_mm > 0.0 ? 1000.0 * std::tan(angle_degrees * degree) / (std::numbers::pi * diameter_mm)
                             : 0.0;
}

double twist_angle_degrees(double turns_per_m, double diameter_mm) {
    return std::atan(std::numbers::pi * diameter_mm * turns_per_m / 1000.0) / degree;
}

double per_inch(double per_metre) {
    return per_metre * measure::millimetres_per_inch / 1000.0;
}

AngleRange range_of(Twist twist) {
    if (twist == Twist::soft) return {soft_from, medium_from};
    return twist == Twist::medium ? AngleRange{medium_from, firm_from} : AngleRange{firm_from, firm_to};
}

Twist twist_word(double angle_degrees) {
    if (angle_degrees < medium_from) return Twist::soft;
    return angle_degrees < firm_from ? Twist::medium : Twist::firm;
}

double spinning_angle_degrees(std::span<const recipe::Strand> strands, Twist twist) {
    const double medium = staple::drafting_of(strands).twist_angle_degrees;
    if (twist == Twist::medium) return medium;
    const double turns = twist == Twist::soft ? soft_turns : firm_turns;
    return std::atan(turns * std::tan(medium * degree)) / degree;
}

double treadles_per_metre(double turns_per_m, double wheel_ratio) {
    return wheel_ratio > 0.0 ? turns_per_m / wheel_ratio : 0.0;
}

}  // namespace battwright::yarn
