// A skein nobody labelled: what it is, from a scale, a ruler and some counting.
#pragma once

#include <optional>
#include <string>

#include "measure/complaint.hpp"
#include "yarn/thickness.hpp"

namespace battwright::yarn {

// What was measured. The length comes either from turns round a niddy-noddy or skein winder, or from a short
// sample cut off and weighed; the wraps alone are the third way in. Whatever is not known stays empty.
struct Skein {
    std::optional<double> grams;            // the whole skein
    std::optional<double> turns;            // counted round the winder
    std::optional<double> circumference_m;  // of the winder: one turn
    std::optional<double> sample_m;
    std::optional<double> sample_grams;
    std::optional<double> wpi;
    int plies = 1;
    double density_g_cm3 = wool_density_g_cm3;  // of the fibre, as far as it is known
};

// Whether wraps, weight and length agree: the packing they make together against the packing of yarns.
struct Disagreement {
    double packing = 0.0;  // as measured
    double z = 0.0;        // of its logarithm
    bool disagrees = false;
    std::string text;  // for a person; empty when they agree
};
// How far off is too far: 1 yarn in 20 by chance.
inline constexpr double z_too_far = 1.96;

struct SkeinLabel {
    double length_m = 0.0;  // 0 when the skein was not weighed
    double tex = 0.0;
    bool tex_from_wraps = false;  // no length was measured, so the grist is only a guess from the wraps
    double tex_low = 0.0, tex_high = 0.0;  // 80 % range of that guess; both `tex` when it was measured
    double wpi = 0.0;
    bool wpi_from_tex = false;
    std::string class_name;
    double turns_per_m = 0.0, turns_per_inch = 0.0;  // ply twist, or the single's: medium, as a suggestion
    std::optional<Disagreement> check;               // when wraps, weight and length are all there
};

// Bad input (no weight, wpi of 400, plies of 0, turns without the winder, nothing to go by) is one complaint
// that names the field.
measure::Expected<SkeinLabel> label_of(const Skein& skein);

// ln(packing) against the middle preparation, over the spread of yarns' loft and of reading wraps together:
// z = ln(phi / phi_middle) / sqrt(packing_log_sd^2 + (2 wraps_log_sd)^2). The tables behind the spread mix
// the preparations, as an unknown skein does. Precondition: all above zero.
Disagreement hold_together(double wpi, double tex, double density_g_cm3);

}  // namespace battwright::yarn
