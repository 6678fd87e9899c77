// Relaxed thickness: wraps per inch laid on by hand, linked to tex through how loosely the yarn is packed.
#pragma once

#include <optional>
#include <span>
#include <string_view>

#include "recipe/composition.hpp"

namespace battwright::yarn {

using recipe::Twist;
using recipe::word_for;

// Packing fraction: the share of a relaxed yarn's round outline that is fibre. Common practice, no source,
// worked back from the spinners' tables of wraps and yards: those lie about wpi = q sqrt(yards per pound)
// with q = 0.34, and a yarn of tex T with d = 25.4 / wpi mm has the density T 1e-3 / (pi d^2 / 4) g/cm3, so
//   phi = q^2 * 496,054.65 * 1e-3 / (pi/4 * 25.4^2) / 1.31 = 0.0864  (wool)
// for semi-woollen. The tables' ends, q = 0.31 (lofty, thick) and 0.37 (dense, fine), stand for woollen and
// worsted: they do not name the preparation, so this split is ours.
inline constexpr double wraps_per_root_grist_woollen = 0.31;
inline constexpr double wraps_per_root_grist_semi_woollen = 0.34;
inline constexpr double wraps_per_root_grist_worsted = 0.37;
using fibre::wool_density_g_cm3;
// More twist packs the fibre. Common practice, no source.
inline constexpr double soft_packing = 0.92;
inline constexpr double firm_packing = 1.08;
// Standard deviation of ln(phi) over the rows of those tables: how far one yarn's loft lies from another's.
inline constexpr double packing_log_sd = 0.15;
// Wrapping is read, and aimed at, to about one wrap in twelve. Common practice, no source.
inline constexpr double wraps_log_sd = 0.08;

double packing_fraction(recipe::Preparation preparation, Twist twist = Twist::medium);
// The three ways round of tex * 1e-3 = phi * rho * pi/4 * (25.4 / wpi)^2. All arguments above zero; 0 when
// one is not.
double packing_of(double wpi, double tex, double density_g_cm3);
double tex_at_relaxed_wpi(double wpi, double density_g_cm3, double packing);
double relaxed_wpi(double tex, double density_g_cm3, double packing);
double relaxed_diameter_mm(double wpi);

// Density of the fibre of a blend by volume: 1 / rho = sum w / rho. A strand of no known density counts as
// wool. 0 for no strands.
double blend_density(std::span<const recipe::Strand> strands);

// The eight classes of the Craft Yarn Council system, finest first, by their plain words.
struct ThicknessClass {
    std::string_view name;
    double from_wpi = 0.0;     // this many wraps and up, to the next finer class
    double typical_wpi = 0.0;  // what a plan that names only the class is taken to mean
    // As an encyclopaedia's table of the system gives them. Open at 0 or where not given; the tables disagree
    // with each other, so the class always comes from the wraps.
    std::optional<double> metres_per_100_g_low, metres_per_100_g_high;
};
std::span<const ThicknessClass> thickness_classes();
const ThicknessClass& class_of_wpi(double wpi);
const ThicknessClass* class_named(std::string_view name);  // nullptr when there is none

}  // namespace battwright::yarn
