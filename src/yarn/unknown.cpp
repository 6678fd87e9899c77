#include "yarn/unknown.hpp"

#include <array>
#include <cmath>

#include "measure/units.hpp"
#include "text/believe.hpp"
#include "yarn/calibration.hpp"
#include "yarn/count.hpp"
#include "yarn/forecast.hpp"
#include "yarn/spin.hpp"

namespace battwright::yarn {
namespace {

using measure::Complaint;
using Fault = std::optional<Complaint>;

constexpr auto middling = recipe::Preparation::semi_woollen;
// Middle of the medium range of angles.
double suggested_angle() {
    const AngleRange range = range_of(Twist::medium);
    return 0.5 * (range.from_degrees + range.to_degrees);
}

struct Field {
    const std::optional<double>& value;
    const char* name;
    const char* noun;
    double most;
    const char* example;
};

Fault bad_field(const Field& field) {
    if (!field.value || (*field.value > 0.0 && *field.value <= field.most)) return std::nullopt;
    return Complaint{std::string(field.noun) + " cannot be " + measure::write_number(*field.value),
                     std::string("write a number above zero and up to ") + measure::write_number(field.most) +
                         ", as in " + field.example,
                     field.name};
}

Fault bad_number(const Skein& skein) {
    const std::array fields{
        Field{skein.grams, "weight", "the weight in grams", 1e5, "98"},
        Field{skein.turns, "turns", "the turns counted", 1e6, "120"},
        Field{skein.circumference_m, "round", "the length of one turn in metres", 20.0, "1.5"},
        Field{skein.sample_m, "sample", "the length of the sample in metres", 1e4, "2"},
        Field{skein.sample_grams, "sample weight", "the weight of the sample in grams", 1e4, "0.8"},
    };
    for (const Field& field : fields)
        if (auto fault = bad_field(field)) return fault;
    if (skein.wpi && !(*skein.wpi >= least_wpi && *skein.wpi <= most_wpi))
        return Complaint{"the wraps per inch cannot be " + measure::write_number(*skein.wpi),
                         "wrap it round a ruler over one inch and count: 2 to 120", "wpi"};
    if (skein.makeup.plies < 1 || skein.makeup.plies > most_plies)
        return Complaint{"a yarn of " + std::to_string(skein.makeup.plies) + " plies cannot be",
                         "write 1 to 12 plies; 1 is a single", "plies"};
    if (!(skein.makeup.diameter_um > 1.0 && skein.makeup.diameter_um < 200.0))
        return Complaint{
            "the fibre's diameter cannot be " + measure::write_number(skein.makeup.diameter_um) + " um",
            "leave it out, and it is taken for wool", "diameter"};
    return std::nullopt;
}

Fault half_given(const Skein& skein) {
    if (skein.turns.has_value() != skein.circumference_m.has_value())
        return Complaint{"turns and the length of one turn go together",
                         skein.turns ? "measure once round the niddy-noddy or winder" : "count the turns",
                         skein.turns ? "round" : "turns"};
    if (skein.turns && !skein.grams)
        return Complaint{"a length without a weight gives no grist", "weigh the skein", "weight"};
    if (skein.sample_m.has_value() != skein.sample_grams.has_value())
        return Complaint{"a sample needs both its length and its weight",
                         skein.sample_m ? "weigh it" : "measure it", "sample"};
    if (!skein.turns && !skein.sample_m && !skein.wpi)
        return Complaint{"there is nothing to tell the yarn by",
                         "count turns, weigh a measured sample, or wrap it round a ruler", "skein"};
    return std::nullopt;
}

// tex of what was measured; empty when only the wraps were.
std::optional<double> measured_tex(const Skein& skein) {
    if (skein.turns) return 1000.0 * *skein.grams / (*skein.turns * *skein.circumference_m);
    if (skein.sample_m) return 1000.0 * *skein.sample_grams / *skein.sample_m;
    return std::nullopt;
}

Fault bad_tex(double tex) {
    if (tex >= 1.0 && tex <= 50000.0) return std::nullopt;
    return Complaint{"weight and length make " + measure::write_number(std::round(tex * 100.0) / 100.0) +
                         " g a kilometre, which is no yarn",
                     "look again at the units: grams, metres, and whole turns", "weight"};
}

double stranger_log_sd(double wpi, const Makeup& makeup) {
    return std::hypot(loft_habit_log_sd, loft_chance_log_sd, law_log_se(wpi, makeup));
}

// From the wraps alone: a thousand metres of it weigh its tex.
void guess_grist(SkeinLabel& label, const Skein& skein, const Calibration& calibration) {
    const auto guess =
        length_in_hand(1000.0, *skein.wpi, skein.makeup, skein.preparation, calibration, skein.unknown_share);
    label.tex = guess.tex;
    label.tex_low = 1e6 / guess.high_m;
    label.tex_high = 1e6 / guess.low_m;
    label.skeins_logged = guess.skeins_logged;
}

void tell_grist(SkeinLabel& label, const Skein& skein, const Calibration& calibration) {
    const auto measured = measured_tex(skein);
    label.tex_from_wraps = !measured;
    if (measured)
        label.tex = label.tex_low = label.tex_high = *measured;
    else
        guess_grist(label, skein, calibration);
    label.wpi_from_tex = !skein.wpi;
    label.wpi = skein.wpi ? *skein.wpi : wpi_of_tex(label.tex, skein.makeup);
    const double factor = skein.wpi ? 1.0 : wpi_factor_80_percent();
    label.wpi_low = label.wpi / factor;
    label.wpi_high = label.wpi * factor;
    const ThicknessClass& of = class_of_wpi(label.wpi);
    label.class_name = of.name;
    label.thickness_words = both_names(of);
}

void tell_length(SkeinLabel& label, const Skein& skein) {
    if (!skein.grams) return;
    label.length_m = skein.turns ? *skein.turns * *skein.circumference_m : 1000.0 * *skein.grams / label.tex;
    label.length_low_m = skein.turns ? label.length_m : 1000.0 * *skein.grams / label.tex_high;
    label.length_high_m = skein.turns ? label.length_m : 1000.0 * *skein.grams / label.tex_low;
}

// What was wound before the wash will come out shorter, and heavier by the metre. The wraps were counted
// before it too, so the law, which is of finished skeins, is not moved: only measured lengths are.
void tell_wash(SkeinLabel& label, const Skein& skein) {
    if (!skein.shrink_pct || label.tex_from_wraps) return;
    label.length_low_m = length_after_wash_m(label.length_low_m, skein.shrink_pct->high);
    label.length_high_m = length_after_wash_m(label.length_high_m, skein.shrink_pct->low);
    const double kept = length_after_wash_m(1.0, skein.shrink_pct->middle());
    label.length_m *= kept;
    label.tex /= kept;
    label.tex_low /= length_after_wash_m(1.0, skein.shrink_pct->low);
    label.tex_high /= length_after_wash_m(1.0, skein.shrink_pct->high);
}

void tell_twist(SkeinLabel& label, int plies) {
    const Strands strands{Plying::plied, plies, suggested_angle(), spinning_k(middling), std::nullopt};
    const Plied plied = plied_from(single_tex_for(label.tex, strands), strands);
    label.turns_per_m = plies > 1 ? plied.turns_per_m : plied.single_turns_per_m;
    label.turns_per_inch = per_inch(label.turns_per_m);
}

}  // namespace

Disagreement hold_together(double wpi, double tex, const Makeup& makeup) {
    BATTWRIGHT_BELIEVE(wpi > 0.0 && tex > 0.0);
    Disagreement found;
    const double off = std::log(1e6 / tex) - log_m_per_kg_at_wraps(wpi, makeup);
    found.loft = std::exp(off);
    found.z = off / stranger_log_sd(wpi, makeup);
    found.disagrees = std::abs(found.z) > z_too_far;
    if (!found.disagrees) return found;
    const std::string expected = measure::write_number(std::round(wpi_of_tex(tex, makeup) * 2.0) / 2.0);
    const std::string counted = measure::write_number(wpi);
    found.text = "weight and length fit about " + expected + " wraps per inch, and " + counted +
                 " were counted; " +
                 (found.z < 0.0 ? "were the wraps pulled tight or pushed together, or some of the length not "
                                  "counted? If all is right, this is a very dense yarn"
                                : "were the wraps laid far apart, or turns counted twice? If all is right, "
                                  "this is a very lofty yarn");
    return found;
}

measure::Expected<SkeinLabel> label_of(const Skein& skein, const Calibration& calibration) {
    if (auto fault = bad_number(skein)) return tl::make_unexpected(*fault);
    if (auto fault = half_given(skein)) return tl::make_unexpected(*fault);
    if (const auto tex = measured_tex(skein))
        if (auto fault = bad_tex(*tex)) return tl::make_unexpected(*fault);
    SkeinLabel label;
    tell_grist(label, skein, calibration);
    tell_length(label, skein);
    tell_wash(label, skein);
    tell_twist(label, skein.makeup.plies);
    if (skein.wpi && !label.tex_from_wraps) label.check = hold_together(label.wpi, label.tex, skein.makeup);
    return label;
}

}  // namespace battwright::yarn
