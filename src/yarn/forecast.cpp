#include "yarn/forecast.hpp"

#include <algorithm>
#include <cmath>

#include "staple/distribution.hpp"
#include "text/believe.hpp"
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
    Makeup makeup;
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

// What a thickness planned comes to before calibration, and how sure that is.
struct Planned {
    double wpi = 0.0;
    double tex = 0.0;
    double true_tex = 0.0;  // if it really is as thin as that
    double law_se = 0.0;
    Prediction outlook;
};

Yarn yarn_of_tex(double tex, const Batt& batt) {
    Yarn yarn;
    yarn.tex = tex;
    yarn.single_tex = single_tex_for(yarn.tex * batt.washed, batt.strands);
    if (!(yarn.single_tex > 0.0)) return yarn;
    yarn.plied = plied_from(yarn.single_tex, batt.strands);
    yarn.single_length_m = 1000.0 * batt.yarn_grams / yarn.single_tex;
    yarn.length_before_wash_m = yarn.single_length_m / yarn.plied.single_m_per_m;
    yarn.length_m = yarn.length_before_wash_m * batt.washed;
    return yarn;
}

double fibres(double finished_tex, const Batt& batt) {
    const double single = single_tex_for(finished_tex * batt.washed, batt.strands);
    return staple::fibres_in_section(single, batt.fibre_tex);
}

bool is_spinnable(double true_tex, const Batt& batt) {
    return fibres(true_tex, batt) >= least_fibres(batt.preparation) * (1.0 - slack);
}

Batt batt_of(const recipe::Spinning& spinning, std::span<const recipe::Strand> strands, double batt_grams) {
    Batt batt;
    batt.preparation = spinning.preparation;
    batt.strands = {spinning.plying, spinning.plies, spinning_angle_degrees(strands, spinning.twist),
                    spinning_k(spinning.preparation), spinning.thread};
    batt.yarn_grams = batt_grams * (1.0 - spinning_loss_pct(spinning.preparation).middle() / 100.0);
    // A bought thread is too thin to count as a ply of the fibre's own.
    const bool threaded = spinning.plying == Plying::with_thread;
    batt.makeup = makeup_of(threaded ? 1 : strands_in(spinning.plying, spinning.plies), strands);
    batt.washed = 1.0 - wash_of(strands).shrink_pct.middle() / 100.0;
    batt.fibre_tex = staple::mean_fibre_tex(strands);
    return batt;
}

double law_tex(double wpi, const Batt& batt) {
    return tex_of_log_m_per_kg(log_m_per_kg_at_wraps(wpi, batt.makeup));
}

Planned by_wraps(double wpi, const Batt& batt, const Calibration& calibration) {
    return {wpi, law_tex(wpi, batt), tex_truly_at(wpi, batt.makeup), law_log_se(wpi, batt.makeup),
            calibration.planned(batt.preparation, wpi)};
}

Planned by_name(const std::string& name, const Batt& batt, const Calibration& calibration) {
    const recipe::ThicknessName* found = recipe::thickness_named(name);
    const double wpi = found != nullptr ? found->usual_wpi : law_centre_wpi;
    const double tex = tex_of_log_m_per_kg(log_m_per_kg_by_name(wpi));
    return {wpi, tex, tex, name_log_se(wpi), calibration.stated(batt.preparation)};
}

Planned by_tex(double tex, const Batt& batt, const Calibration& calibration) {
    return {wpi_of_tex(tex, batt.makeup), tex, tex, 0.0, calibration.stated(batt.preparation)};
}

Planned planned_as(const recipe::Thickness& thickness, const Batt& batt, const Calibration& calibration) {
    if (thickness.in == recipe::ThicknessIn::wpi) return by_wraps(thickness.value, batt, calibration);
    if (thickness.in == recipe::ThicknessIn::tex) return by_tex(thickness.value, batt, calibration);
    return by_name(thickness.class_name, batt, calibration);
}

void tell_length(YarnForecast& forecast, const Yarn& yarn, const Batt& batt, const Planned& planned,
                 double share_unknown, double guess_log_sd) {
    forecast.length_m = yarn.length_m;
    forecast.length_before_wash_m = yarn.length_before_wash_m;
    forecast.single_length_m = yarn.single_length_m;
    forecast.nominal_length_m = yarn_of_tex(planned.tex, batt).length_m;
    forecast.skeins_logged = planned.outlook.count;
    const double more = std::hypot(planned.law_se, unknown_fibre_log_sd * share_unknown, guess_log_sd);
    forecast.log_sd = std::hypot(planned.outlook.chance_sd, planned.outlook.habit_sd, more);
    const Range range = range_80_percent(yarn.length_m, half_width_80_percent(planned.outlook, more));
    forecast.length_low_m = range.low;
    forecast.length_high_m = range.high;
}

void tell_thickness(YarnForecast& forecast, const recipe::Thickness& thickness, const Planned& planned,
                    const Calibration& calibration) {
    forecast.planned_in = thickness.in;
    forecast.wpi = planned.wpi;
    const ThicknessClass* named = nullptr;
    if (thickness.in == recipe::ThicknessIn::class_name) named = class_named(thickness.class_name);
    const ThicknessClass& of = named != nullptr ? *named : class_of_wpi(planned.wpi);
    forecast.class_name = of.name;
    forecast.thickness_words = both_names(of, named != nullptr ? thickness.class_name : std::string{});
    forecast.diameter_mm = relaxed_diameter_mm(planned.wpi);
    forecast.wpi_before_wash = planned.wpi * (1.0 + forecast.bloom_pct / 100.0);
    const Belief& aim = calibration.aim(forecast.preparation);
    const bool aimed = thickness.in == recipe::ThicknessIn::wpi;
    const double got = aimed ? std::exp(aim.mean) : 1.0;
    forecast.expected_wpi = planned.wpi * got;
    forecast.aim_for_wpi = planned.wpi / got;
    forecast.aims_logged = aimed ? aim.count : 0;
}

void tell_wash(YarnForecast& forecast, const Wash& wash) {
    forecast.shrink_low_pct = wash.shrink_pct.low;
    forecast.shrink_high_pct = wash.shrink_pct.high;
    forecast.length_before_wash_low_m = length_before_wash_m(forecast.length_m, wash.shrink_pct.low);
    forecast.length_before_wash_high_m = length_before_wash_m(forecast.length_m, wash.shrink_pct.high);
}

double finest_wpi_at(double fibres_across, const Batt& batt) {
    const double tex = plied_from(fibres_across * batt.fibre_tex, batt.strands).tex / batt.washed;
    return wpi_of_tex(tex, batt.makeup);
}

void tell_limit(YarnForecast& forecast, const Yarn& yarn, const Batt& batt, const Planned& planned) {
    forecast.fibre_tex = batt.fibre_tex;
    forecast.fibres_in_section = fibres(yarn.tex, batt);
    forecast.fibres_wanted = fibres(planned.true_tex, batt);
    forecast.least_fibres = least_fibres(batt.preparation);
    forecast.fewest_fibres = fewest_fibres(batt.preparation);
    forecast.spinnable = is_spinnable(planned.true_tex, batt);
    forecast.finest_single_tex = finest_single_tex(batt.preparation, batt.fibre_tex);
    forecast.finest_tex = plied_from(forecast.finest_single_tex, batt.strands).tex / batt.washed;
    forecast.finest_wpi = wpi_of_tex(forecast.finest_tex, batt.makeup);
    forecast.finest_wpi_low = forecast.finest_wpi / wpi_factor_80_percent();
    forecast.finest_wpi_high =
        std::max(forecast.finest_wpi * wpi_factor_80_percent(), finest_wpi_at(forecast.fewest_fibres, batt));
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
        const Yarn yarn = yarn_of_tex(law_tex(wpi, batt) / batt.personal, batt);
        curve.push_back({wpi, yarn.tex, yarn.length_m, is_spinnable(tex_truly_at(wpi, batt.makeup), batt)});
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
    if (!(batt.fibre_tex > 0.0)) return {};
    const Planned planned = planned_as(spinning.thickness, batt, calibration);
    batt.personal = std::exp(planned.outlook.mean);

    const Wash wash = wash_of(strands);
    YarnForecast forecast = head_of(batt, batt_grams, wash);
    tell_thickness(forecast, spinning.thickness, planned, calibration);
    const Yarn yarn = yarn_of_tex(planned.tex / batt.personal, batt);
    forecast.tex = yarn.tex;
    forecast.makeup = batt.makeup;
    const bool by_wraps = spinning.thickness.in == recipe::ThicknessIn::wpi;
    tell_length(forecast, yarn, batt, planned, unknown_share_of(strands),
                by_wraps ? guessed_diameter_log_sd(strands) : 0.0);
    tell_wash(forecast, wash);
    tell_limit(forecast, yarn, batt, planned);
    tell_thread(forecast, yarn, batt);
    forecast.curve = curve_of(batt);
    if (!(yarn.single_tex > 0.0)) return forecast;
    tell_twist(forecast, yarn, batt, spinning.wheel_ratio.value_or(0.0));
    tell_evenness(forecast, strands);
    forecast.effect = effect_of(yarn.single_tex, batt.strands);
    return forecast;
}

double unknown_share_of(std::span<const recipe::Strand> strands) {
    double grams = 0.0, unknown = 0.0;
    for (const recipe::Strand& strand : strands) {
        grams += strand.grams;
        if (strand.kind != nullptr && strand.kind->family == fibre::Family::unknown) unknown += strand.grams;
    }
    return grams > 0.0 ? unknown / grams : 0.0;
}

LengthInHand length_in_hand(double grams, double wpi, const Makeup& makeup, recipe::Preparation preparation,
                            const Calibration& calibration, double unknown_share) {
    BATTWRIGHT_BELIEVE(grams > 0.0 && wpi > 0.0);
    BATTWRIGHT_BELIEVE(unknown_share >= 0.0 && unknown_share <= 1.0 + 1e-9);
    const Prediction outlook = calibration.in_hand(preparation);
    const double log_m_per_kg = log_m_per_kg_at_wraps(wpi, makeup) + outlook.mean;
    const double more = std::hypot(law_log_se(wpi, makeup), unknown_fibre_log_sd * unknown_share);
    const double metres = 0.001 * grams * std::exp(log_m_per_kg);
    const Range range = range_80_percent(metres, half_width_80_percent(outlook, more));
    return {metres, range.low, range.high, tex_of_log_m_per_kg(log_m_per_kg), outlook.count};
}

}  // namespace battwright::yarn
