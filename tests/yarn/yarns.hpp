// Batts made by hand, for tests that need no catalogue.
#pragma once

#include <vector>

#include "recipe/recipe.hpp"
#include "yarn/forecast.hpp"

namespace yarns {

using namespace battwright;
using recipe::Preparation;
using recipe::Strand;

inline fibre::Kind kind_of(fibre::Family family, double density_g_cm3) {
    fibre::Kind kind;
    kind.family = family;
    kind.density_g_cm3 = density_g_cm3;
    return kind;
}
// Densities: Morton & Hearle, Physical Properties of Textile Fibres.
inline const fibre::Kind wool = kind_of(fibre::Family::wool, 1.31);
inline const fibre::Kind silk = kind_of(fibre::Family::silk, 1.34);
inline const fibre::Kind nylon = kind_of(fibre::Family::synthetic, 1.14);
inline const fibre::Kind stranger = kind_of(fibre::Family::unknown, 1.31);

inline Strand strand_of(const fibre::Kind& kind, double grams, double staple_mm, double diameter_um,
                        double diameter_cv = 0.22) {
    Strand strand;
    strand.kind = &kind;
    strand.grams = grams;
    strand.staple_mm = staple_mm;
    strand.fibre_mm = staple_mm;
    strand.staple_cv = 0.35;
    strand.diameter_um = diameter_um;
    strand.diameter_cv = diameter_cv;
    strand.tex = fibre::fibre_tex(diameter_um, diameter_cv, kind.density_g_cm3);
    return strand;
}
// A middling wool: 24 um, 90 mm.
inline std::vector<Strand> wool_batt(double grams = 100.0) {
    return {strand_of(wool, grams, 90.0, 24.0)};
}

inline recipe::Thickness wraps(double wpi) {
    return {recipe::ThicknessIn::wpi, wpi, ""};
}
inline recipe::Thickness in_tex(double tex) {
    return {recipe::ThicknessIn::tex, tex, ""};
}
inline recipe::Thickness of_class(const std::string& name) {
    return {recipe::ThicknessIn::class_name, 0.0, name};
}
inline recipe::Spinning plan(recipe::Thickness thickness, int plies = 2,
                             Preparation preparation = Preparation::semi_woollen) {
    recipe::Spinning spinning;
    spinning.preparation = preparation;
    spinning.plies = plies;
    spinning.thickness = std::move(thickness);
    return spinning;
}
// The same plan, plied or twisted another way.
inline recipe::Spinning plied_as(recipe::Spinning spinning, yarn::Plying plying,
                                 std::optional<yarn::Thread> thread = std::nullopt) {
    spinning.plying = plying;
    spinning.thread = std::move(thread);
    return spinning;
}
inline recipe::Spinning twisted_as(recipe::Spinning spinning, yarn::Twist twist) {
    spinning.twist = twist;
    return spinning;
}
inline yarn::YarnForecast spun(const recipe::Spinning& spinning, double grams = 100.0,
                               const yarn::Calibration& calibration = {}) {
    return yarn::yarn_of(spinning, wool_batt(grams), grams, calibration);
}

}  // namespace yarns
