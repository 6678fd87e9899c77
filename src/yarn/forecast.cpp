#include "yarn/forecast.hpp"

#include <cmath>

#include "staple/distribution.hpp"
#include "yarn/finish.hpp"
#include "yarn/spin.hpp"

namespace battwright::yarn {
namespace {

// Ends and step of the curve, wraps per inch.
constexpr double curve_from = 3.0, curve_to = 45.0, curve_step = 0.5;
// Tells "just enough fibres" from "one too few" when both were computed.
constexpr double slack = 1e-9;

// What stays the same along the curve.
struct Batt {
    recipe::Preparation preparation = recipe::Preparation::woollen;
    Strands strands;
    double yarn_grams = 0.0;
    double density_g_cm3 = 0.0;
    double packing = 0.0;   // uncalibrated
    double personal = 1.0;  // metres per gram, over the uncalibrated
    double washed = 1.0;    // length after the wash over length before
    double fibre_tex = 0.0;
};

// One yarn out of that batt.
struct Yarn {
    double tex = 0.0;
    double single_tex = 0.0;
    double single_length_m = 0.0;
    double length_before_wash_m = 0.0;
    double length_m = 0.0;
    Plied plied;
};

Yarn yarn_at(double wpi, double personal, const Batt& batt) {
    Yarn yarn;
    yarn.tex = tex_at_relaxed_wpi(wpi, batt.density_g_cm3, batt.packing) / personal;
    yarn.single_tex = single_tex_for(yarn.tex * batt.washed, batt.strands);
    if (!(yarn.single_tex > 0.0)) return yarn;
    yarn.plied = plied_from(yarn.single_tex, batt.strands);
    yarn.single_length_m = 1000.0 * batt.yarn_grams / yarn.single_tex;
    yarn.length_before_wash_m = yarn.single_length_m / yarn.plied.single_m_per_m;
    yarn.length_m = yarn.length_before_wash_m * batt.washed;
    return yarn;
}

double fibres(const Yarn& yarn, const Batt& batt) {
    return staple::fibres_in_section(yarn.single_tex, batt.fibre_tex);
}

bool is_spinnable(const Yarn& yarn, const Batt& batt) {
    return fibres(yarn, batt) >= least_fibres(batt.preparation) * (1.0 - slack);
}

Batt batt_of(const recipe::Spinning& spinning, std::span<const recipe::Strand> strands, double batt_grams) {
    Batt batt;
    batt.preparation = spinning.preparation;
    batt.strands = {spinning.plying, spinning.plies, spinning_angle_degrees(strands, spinning.twist),
                    spinning_k(spinning.preparation), spinning.thread};
    batt.yarn_grams = batt_grams * (1.0 - spinning_loss_pct(spinning.preparation).middle() / 100.0);
    batt.density_g_cm3 = blend_density(strands);
    batt.packing = packing_fraction(spinning.preparation, spinning.twist);
    batt.washed = 1.0 - wash_of(strands).shrink_pct.middle() / 100.0;
    batt.fibre_tex = staple::mean_fibre_tex(strands);
    return batt;
}

double wanted_wpi(const recipe::Thickness& thickness, const Batt& batt) {
    if (thickness.in == recipe::ThicknessIn::wpi) return thickness.value;
    if (thickness.in == recipe::ThicknessIn::tex)
        return relaxed_wpi(thickness.value, batt.density_g_cm3, batt.packing);
    const ThicknessClass* named = class_named(thickness.class_name);
    return named != nullptr ? named->typical_wpi : 0.0;
}

double unknown_share(std::span<const recipe::Strand> strands) {
    double grams = 0.0, unknown = 0.0;
    for (const recipe::Strand& strand : strands) {
        grams += strand.grams;
        if (strand.kind != nullptr && strand.kind->family == fibre::Family::unknown) unknown += strand.grams;
    }
    return grams > 0.0 ? unknown / grams : 0.0;
}

void tell_length(YarnForecast& forecast, const Yarn& yarn, const Batt& batt, const Belief& belief,
                 double share_unknown) {
    forecast.length_m = yarn.length_m;
    forecast.length_before_wash_m = yarn.length_before_wash_m;
    forecast.single_length_m = yarn.single_length_m;
    forecast.nominal_length_m = yarn_at(forecast.wpi, 1.0, batt).length_m;
    forecast.skeins_logged = belief.count;
    forecast.log_sd = std::hypot(belief.predictive_sd(), unknown_fibre_log_sd * share_unknown);
    const double half_width = half_width_80_percent(belief, unknown_fibre_log_sd * share_unknown);
    const Range range = range_80_percent(yarn.length_m, half_width);
    forecast.length_low_m = range.low;
    forecast.length_high_m = range.high;
}

void tell_limit(YarnForecast& forecast, const Yarn& yarn, const Batt& batt) {
    forecast.fibre_tex = batt.fibre_tex;
    forecast.fibres_in_section = fibres(yarn, batt);
    forecast.least_fibres = least_fibres(batt.preparation);
    forecast.spinnable = is_spinnable(yarn, batt);
    forecast.finest_single_tex = finest_single_tex(batt.preparation, batt.fibre_tex);
    forecast.finest_tex = plied_from(forecast.finest_single_tex, batt.strands).tex / batt.washed;
    forecast.finest_wpi = relaxed_wpi(forecast.finest_tex * batt.personal, batt.density_g_cm3, batt.packing);
}

void tell_twist(YarnForecast& forecast, const Yarn& yarn, const Batt& batt, double wheel_ratio) {
    forecast.singles_tex = yarn.single_tex;
    forecast.single_diameter_mm = taut_diameter_mm(yarn.single_tex, batt.preparation);
    forecast.twist_angle_degrees = batt.strands.angle_degrees;
    forecast.twist_word = twist_word(batt.strands.angle_degrees);
    forecast.twist_per_m = yarn.plied.single_turns_per_m;
    forecast.twist_per_inch = per_inch(forecast.twist_per_m);
    forecast.ply_twist_per_m = yarn.plied.turns_per_m;
    forecast.ply_twist_per_inch = per_inch(forecast.ply_twist_per_m);
    forecast.take_up_pct = yarn.plied.take_up_pct;
    forecast.treadles_per_m = treadles_per_metre(forecast.twist_per_m, wheel_ratio);
    forecast.ply_treadles_per_m = treadles_per_metre(forecast.ply_twist_per_m, wheel_ratio);
}

// Martindale's limit goes as 1 / sqrt(n), and the staple room gives it at 100 fibres with the blend's own CV.
void tell_evenness(YarnForecast& forecast, std::span<const recipe::Strand> strands) {
    if (!(forecast.fibres_in_section > 0.0)) return;
    const double at_100 = staple::drafting_of(strands).limit_irregularity_pct_at_100_fibres;
    forecast.evenness_limit_pct = at_100 * std::sqrt(100.0 / forecast.fibres_in_section);
    const int own = forecast.plying == Plying::with_thread ? 1 : forecast.plies;
    forecast.plied_evenness_limit_pct = forecast.evenness_limit_pct / std::sqrt(own);
}

void tell_thread(YarnForecast& forecast, const Yarn& yarn, const Batt& batt) {
    if (!batt.strands.thread || forecast.plying != Plying::with_thread) return;
    if (!(yarn.single_tex > 0.0)) {
        forecast.thread_complaint =
            measure::Complaint{"the thread alone is thicker than the yarn wanted",
                               "choose a finer thread, or fewer wraps per inch", "thread"};
        return;
    }
    forecast.thread_needed_m = yarn.plied.thread_factor * yarn.length_before_wash_m;
    const auto spare = thread_to_spare_m(*batt.strands.thread, forecast.thread_needed_m);
    if (!spare) forecast.thread_complaint = spare.error();
}

std::vector<CurvePoint> curve_of(const Batt& batt) {
    std::vector<CurvePoint> curve;
    const int steps = static_cast<int>(std::lround((curve_to - curve_from) / curve_step));
    for (int i = 0; i <= steps; ++i) {
        const double wpi = curve_from + curve_step * i;
        const Yarn yarn = yarn_at(wpi, batt.personal, batt);
        curve.push_back({wpi, yarn.tex, yarn.length_m, is_spinnable(yarn, batt)});
    }
    return curve;
}

YarnForecast head_of(const Batt& batt, double batt_grams, const Wash& wash) {
    YarnForecast forecast;
    forecast.preparation = batt.preparation;
    forecast.plying = batt.strands.plying;
    forecast.plies = strands_in(batt.strands.plying, batt.strands.plies);
    forecast.batt_grams = batt_grams;
    forecast.yarn_grams = batt.yarn_grams;
    forecast.spinning_loss_pct = spinning_loss_pct(batt.preparation).middle();
    forecast.shrink_pct = wash.shrink_pct.middle();
    forecast.bloom_pct = wash.bloom_pct.middle();
    return forecast;
}

}  // namespace

YarnForecast yarn_of(const recipe::Spinning& spinning, std::span<const recipe::Strand> strands,
                     double batt_grams, const Calibration& calibration) {
    if (fault_in(spinning, batt_grams)) return {};
    Batt batt = batt_of(spinning, strands, batt_grams);
    if (!(batt.fibre_tex > 0.0) || !(batt.density_g_cm3 > 0.0)) return {};
    const Belief& belief = calibration.of(spinning.preparation);
    batt.personal = std::exp(belief.mean);

    YarnForecast forecast = head_of(batt, batt_grams, wash_of(strands));
    forecast.wpi = wanted_wpi(spinning.thickness, batt);
    const Yarn yarn = yarn_at(forecast.wpi, batt.personal, batt);
    forecast.tex = yarn.tex;
    forecast.class_name = class_of_wpi(forecast.wpi).name;
    forecast.diameter_mm = relaxed_diameter_mm(forecast.wpi);
    forecast.wpi_before_wash = forecast.wpi * (1.0 + forecast.bloom_pct / 100.0);
    tell_length(forecast, yarn, batt, belief, unknown_share(strands));
    tell_limit(forecast, yarn, batt);
    tell_thread(forecast, yarn, batt);
    forecast.curve = curve_of(batt);
    if (!(yarn.single_tex > 0.0)) return forecast;
    tell_twist(forecast, yarn, batt, spinning.wheel_ratio.value_or(0.0));
    tell_evenness(forecast, strands);
    forecast.effect = effect_of(yarn.single_tex, batt.strands);
    return forecast;
}

}  // namespace battwright::yarn
