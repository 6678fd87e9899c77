#include "yarn/unknown.hpp"

#include <array>
#include <cmath>

#include "measure/units.hpp"
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
    if (skein.plies < 1 || skein.plies > most_plies)
        return Complaint{"a yarn of " + std::to_string(skein.plies) + " plies cannot be",
                         "write 1 to 12 plies; 1 is a single", "plies"};
    if (!(skein.density_g_cm3 > 0.1 && skein.density_g_cm3 < 10.0))
        return Complaint{
            "the fibre's density cannot be " + measure::write_number(skein.density_g_cm3) + " g/cm3",
            "leave it out, and it is taken for wool", "density"};
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

double loft_log_sd() {
    return std::hypot(packing_log_sd, 2.0 * wraps_log_sd);
}

void tell_grist(SkeinLabel& label, const Skein& skein) {
    const double packing = packing_fraction(middling);
    const auto measured = measured_tex(skein);
    label.tex_from_wraps = !measured;
    label.tex = measured ? *measured : tex_at_relaxed_wpi(*skein.wpi, skein.density_g_cm3, packing);
    const Range range = range_80_percent(label.tex, measured ? 0.0 : z_of_80_percent * loft_log_sd());
    label.tex_low = range.low;
    label.tex_high = range.high;
    label.wpi_from_tex = !skein.wpi;
    label.wpi = skein.wpi ? *skein.wpi : relaxed_wpi(label.tex, skein.density_g_cm3, packing);
    label.class_name = class_of_wpi(label.wpi).name;
}

void tell_length(SkeinLabel& label, const Skein& skein) {
    if (skein.turns)
        label.length_m = *skein.turns * *skein.circumference_m;
    else if (skein.grams)
        label.length_m = 1000.0 * *skein.grams / label.tex;
}

void tell_twist(SkeinLabel& label, int plies) {
    const Strands strands{Plying::plied, plies, suggested_angle(), spinning_k(middling), std::nullopt};
    const Plied plied = plied_from(single_tex_for(label.tex, strands), strands);
    label.turns_per_m = plies > 1 ? plied.turns_per_m : plied.single_turns_per_m;
    label.turns_per_inch = per_inch(label.turns_per_m);
}

}  // namespace

Disagreement hold_together(double wpi, double tex, double density_g_cm3) {
    Disagreement found;
    found.packing = packing_of(wpi, tex, density_g_cm3);
    found.z = std::log(found.packing / packing_fraction(middling)) / loft_log_sd();
    found.disagrees = std::abs(found.z) > z_too_far;
    if (!found.disagrees) return found;
    const std::string expected = measure::write_number(
        std::round(relaxed_wpi(tex, density_g_cm3, packing_fraction(middling)) * 2.0) / 2.0);
    const std::string counted = measure::write_number(wpi);
    found.text = "weight and length fit about " + expected + " wraps per inch, and " + counted +
                 " were counted; " +
                 (found.z > 0.0 ? "were the wraps pulled tight or pushed together, or some of the length not "
                                  "counted? If all is right, this is a very dense yarn"
                                : "were the wraps laid far apart, or turns counted twice? If all is right, "
                                  "this is a very lofty yarn");
    return found;
}

measure::Expected<SkeinLabel> label_of(const Skein& skein) {
    if (auto fault = bad_number(skein)) return tl::make_unexpected(*fault);
    if (auto fault = half_given(skein)) return tl::make_unexpected(*fault);
    if (const auto tex = measured_tex(skein))
        if (auto fault = bad_tex(*tex)) return tl::make_unexpected(*fault);
    SkeinLabel label;
    tell_grist(label, skein);
    tell_length(label, skein);
    tell_twist(label, skein.plies);
    if (skein.wpi && !label.tex_from_wraps)
        label.check = hold_together(label.wpi, label.tex, skein.density_g_cm3);
    return label;
}

}  // namespace battwright::yarn
