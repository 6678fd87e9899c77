#include "yarn/thickness.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "yarn/count.hpp"

namespace battwright::yarn {
namespace {

constexpr double quarter_pi = std::numbers::pi / 4.0;

// tex of a solid fibre rod as thick as one wrap: mm2 * g/cm3 = mg/mm = g/m, and a tex is a thousandth of
// that.
double solid_tex(double wpi, double density_g_cm3) {
    const double diameter = relaxed_diameter_mm(wpi);
    return 1000.0 * density_g_cm3 * quarter_pi * diameter * diameter;
}

double wraps_per_root_grist(recipe::Preparation preparation) {
    if (preparation == recipe::Preparation::woollen) return wraps_per_root_grist_woollen;
    return preparation == recipe::Preparation::worsted ? wraps_per_root_grist_worsted
                                                       : wraps_per_root_grist_semi_woollen;
}

// Wraps: the tables give 18 and up, 14-17, 12-13, 11, 9, 7, 5-6 and fewer; the borders halve the gaps between
// them. Typical wraps are the middle, and for the open ends a guess (common practice, no source).
constexpr std::array classes{
    ThicknessClass{"lace", 17.5, 20.0, 600.0, 800.0},
    ThicknessClass{"super fine", 13.5, 15.5, 400.0, 480.0},
    ThicknessClass{"fine", 11.5, 12.5, 300.0, 400.0},
    ThicknessClass{"light", 10.0, 11.0, 240.0, 300.0},
    ThicknessClass{"medium", 8.0, 9.0, 120.0, 240.0},
    ThicknessClass{"bulky", 6.5, 7.0, 100.0, 130.0},
    ThicknessClass{"super bulky", 4.5, 5.5, std::nullopt, 100.0},
    ThicknessClass{"jumbo", 0.0, 3.5, std::nullopt, std::nullopt},
};

}  // namespace

double packing_fraction(recipe::Preparation preparation, Twist twist) {
    const double q = wraps_per_root_grist(preparation);
    const double medium = packing_of(1.0, q * q * tex_yards_per_pound, wool_density_g_cm3);
    if (twist == Twist::medium) return medium;
    return medium * (twist == Twist::soft ? soft_packing : firm_packing);
}

double packing_of(double wpi, double tex, double density_g_cm3) {
    const bool sound = wpi > 0.0 && tex > 0.0 && density_g_cm3 > 0.0;
    return sound ? tex / solid_tex(wpi, density_g_cm3) : 0.0;
}

double tex_at_relaxed_wpi(double wpi, double density_g_cm3, double packing) {
    return wpi > 0.0 ? packing * solid_tex(wpi, density_g_cm3) : 0.0;
}

double relaxed_wpi(double tex, double density_g_cm3, double packing) {
    return tex > 0.0 ? std::sqrt(tex_at_relaxed_wpi(1.0, density_g_cm3, packing) / tex) : 0.0;
}

double relaxed_diameter_mm(double wpi) {
    return wpi > 0.0 ? measure::millimetres_per_inch / wpi : 0.0;
}

double blend_density(std::span<const recipe::Strand> strands) {
    double grams = 0.0, volume = 0.0;
    for (const recipe::Strand& strand : strands) {
        const bool known = strand.kind != nullptr && strand.kind->density_g_cm3 > 0.0;
        grams += strand.grams;
        volume += strand.grams / (known ? strand.kind->density_g_cm3 : wool_density_g_cm3);
    }
    return volume > 0.0 ? grams / volume : 0.0;
}

std::span<const ThicknessClass> thickness_classes() {
    return classes;
}

const ThicknessClass& class_of_wpi(double wpi) {
    const auto* const found =
        std::find_if(classes.begin(), classes.end(), [&](const auto& c) { return wpi >= c.from_wpi; });
    return found == classes.end() ? classes.back() : *found;
}

const ThicknessClass* class_named(std::string_view name) {
    const auto* const found =
        std::find_if(classes.begin(), classes.end(), [&](const auto& c) { return c.name == name; });
    return found == classes.end() ? nullptr : found;
}

}  // namespace battwright::yarn
