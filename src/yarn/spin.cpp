#include "yarn/spin.hpp"

#include <array>
#include <cmath>
#include <numbers>

#include "measure/choices.hpp"
#include "staple/distribution.hpp"
#include "yarn/count.hpp"

namespace battwright::yarn {
namespace {

constexpr double degree = std::numbers::pi / 180.0;
constexpr double soft_turns = 0.75;
constexpr double firm_turns = 4.0 / 3.0;
constexpr double soft_from = 10.0, medium_from = 17.0, firm_from = 25.0, firm_to = 40.0;

struct SpunRow {
    recipe::Preparation value;
    double least_fibres, k;
};
constexpr std::array<SpunRow, 3> spun{{
    {recipe::Preparation::woollen, least_fibres_woollen, ashenhurst_soft_woollen},
    {recipe::Preparation::semi_woollen, least_fibres_semi_woollen,
     0.5 * (ashenhurst_soft_woollen + ashenhurst_firm_worsted)},
    {recipe::Preparation::worsted, least_fibres_worsted, ashenhurst_firm_worsted},
}};
struct TwistRow {
    Twist value{};
    AngleRange angles;
    double turns = 0.0;  // for one of a medium twist
};
constexpr std::array<TwistRow, 3> angles_of_twists{{
    {Twist::soft, {soft_from, medium_from}, soft_turns},
    {Twist::medium, {medium_from, firm_from}, 1.0},
    {Twist::firm, {firm_from, firm_to}, firm_turns},
}};
static_assert(measure::one_row_each(spun) && measure::one_row_each(angles_of_twists));

}  // namespace

double least_fibres(recipe::Preparation preparation) {
    return measure::row_of(spun, preparation).least_fibres;
}

double fewest_fibres(recipe::Preparation preparation) {
    return 0.5 * least_fibres(preparation);
}

double finest_single_tex(recipe::Preparation preparation, double fibre_tex) {
    return least_fibres(preparation) * fibre_tex;
}

double spinning_k(recipe::Preparation preparation) {
    return measure::row_of(spun, preparation).k;
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
    return measure::row_of(angles_of_twists, twist).angles;
}

Twist twist_word(double angle_degrees) {
    if (angle_degrees < medium_from) return Twist::soft;
    return angle_degrees < firm_from ? Twist::medium : Twist::firm;
}

double spinning_angle_degrees(std::span<const recipe::Strand> strands, Twist twist) {
    const double medium = staple::drafting_of(strands).twist_angle_degrees;
    if (twist == Twist::medium) return medium;
    const double turns = measure::row_of(angles_of_twists, twist).turns;
    return std::atan(turns * std::tan(medium * degree)) / degree;
}

double treadles_per_metre(double turns_per_m, double wheel_ratio) {
    return wheel_ratio > 0.0 ? turns_per_m / wheel_ratio : 0.0;
}

}  // namespace battwright::yarn
