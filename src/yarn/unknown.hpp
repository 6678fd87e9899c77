// A skein nobody labelled: what it is, from a scale, a ruler and some counting.
#pragma once

#include <optional>
#include <string>

#include "measure/complaint.hpp"
#include "yarn/calibration.hpp"
#include "yarn/finish.hpp"
#include "yarn/law.hpp"
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
    Makeup makeup{1, law_diameter_um};  // plies, and the fibre as far as it is known
    double unknown_share = 0.0;         // of fibre of unknown kind, 0..1
    recipe::Preparation preparation = recipe::Preparation::semi_woollen;
    std::optional<Spread> shrink_pct;  // measured before the wash, which will take so much of the length
};

// Whether wraps, weight and length agree: metres per gram against the law at those wraps.
struct Disagreement {
    double loft = 1.0;  // measured over the law
    double z = 0.0;     // of its logarithm
    bool disagrees = false;
    std::string text;  // for a person; empty when they agree
};
// How far off is too far: 1 yarn in 20 by chance.
inline constexpr double z_too_far = 1.96;

struct SkeinLabel {
    double length_m = 0.0;                           // 0 when the skein was not weighed; washed and dry
    double length_low_m = 0.0, length_high_m = 0.0;  // 80 % range; both `length_m` when it was measured
    double tex = 0.0;
    bool tex_from_wraps = false;  // no length was measured, so the grist is only a guess from the wraps
    double tex_low = 0.0, tex_high = 0.0;  // 80 % range of that guess; both `tex` when it was measured
    double wpi = 0.0;
    bool wpi_from_tex = false;
    double wpi_low = 0.0, wpi_high = 0.0;  // 80 % range; both `wpi` when they were counted
    std::string class_name, thickness_words;
    int skeins_logged = 0;                           // of this spinner's own, that the length rests on
    double turns_per_m = 0.0, turns_per_inch = 0.0;  // ply twist, or the single's: medium, as a suggestion
    std::optional<Disagreement> check;               // when wraps, weight and length are all there
};

// The calibration is the loft of the one who spun it. Bad input (no weight, wpi of 400, plies of 0, turns
// without the winder, nothing to go by) is one complaint that names the field.
measure::Expected<SkeinLabel> label_of(const Skein& skein, const Calibration& calibration = {});

// ln(metres per gram) against the law at those wraps, over the spread of strangers' skeins. Precondition: wpi
// and tex above zero.
Disagreement hold_together(double wpi, double tex, const Makeup& makeup);

}  // namespace battwright::yarn
