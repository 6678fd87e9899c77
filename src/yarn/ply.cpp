#include "yarn/ply.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "measure/units.hpp"
#include "text/believe.hpp"
#include "yarn/count.hpp"
#include "yarn/spin.hpp"

namespace battwright::yarn {
namespace {

constexpr double pi = std::numbers::pi;

double ring(int strands) {
    return std::sin(pi / strands);
}

bool has_thread(const Strands& strands) {
    return strands.plying == Plying::with_thread && strands.thread && strands.thread->tex > 0.0;
}

Plied with_thread(double single_tex, const Strands& strands, Plied plied) {
    // Bought thread is spun firm.
    const double thread_mm = compact_diameter_mm(strands.thread->tex, ashenhurst_very_firm);
    const double single_mm = compact_diameter_mm(single_tex, strands.k);
    plied.factor = helix_factor(thread_mm / 2.0, plied.turns_per_m);
    plied.thread_factor = helix_factor(single_mm / 2.0, plied.turns_per_m);
    plied.tex = single_tex * plied.factor + strands.thread->tex * plied.thread_factor;
    plied.single_m_per_m = plied.factor;
    return plied;
}

Plied of_equals(double single_tex, const Strands& strands, Plied plied) {
    const double radius = axis_radius_mm(plied.strands, compact_diameter_mm(single_tex, strands.k));
    plied.factor = helix_factor(radius, plied.turns_per_m);
    plied.single_m_per_m = plied.strands * plied.factor;
    plied.tex = single_tex * plied.single_m_per_m;
    return plied;
}

// With turns tied to the single's thickness, the thread's own take-up is fixed: tan(helix) = u = f
// tan(angle), f the ply's share of the single's turns. The single's path goes as the ratio of the
// thicknesses, whose square is that of tex over k^2: its tangent squared is c / T with c = u^2 T_thread (k /
// k_thread)^2. So T sqrt(1 + c / T) is what the thread leaves of the yarn, a quadratic in T.
double single_beside_thread(double plied_tex, const Strands& strands) {
    const double u = ply_twist_fraction(2) * std::tan(strands.angle_degrees * pi / 180.0);
    const double left = plied_tex - strands.thread->tex * std::hypot(1.0, u);
    if (left <= 0.0) return 0.0;
    const double k_ratio = strands.k / ashenhurst_very_firm;
    const double half_c = 0.5 * u * u * strands.thread->tex * k_ratio * k_ratio;
    return left * left / (half_c + std::hypot(half_c, left));  // the root above zero, without cancellation
}

double single_share_of_surface(double single_tex, const Strands& strands) {
    const double single_mm = compact_diameter_mm(single_tex, strands.k);
    const double thread_mm = compact_diameter_mm(strands.thread->tex, ashenhurst_very_firm);
    return single_mm / (single_mm + thread_mm);
}

std::string_view text_for(Plying plying, int strands) {
    switch (plying) {
        case Plying::chain:
            return "a third of the length; the colours stay in their order and keep their strength";
        case Plying::barber_pole:
            return "half of the length; two colours wind round each other all along";
        case Plying::with_thread:
            return "nearly the whole length; the thread shows among the colours and holds a weak single";
        case Plying::plied:
            break;
    }
    if (strands <= 1) return "the whole length; the colours as they come, and it wears less well";
    return "the length shared among the strands; their colours meet by chance and soften each other";
}

}  // namespace

std::string_view word_for(Plying plying) {
    return measure::row_of(recipe::plyings, plying).label;
}

int strands_in(Plying plying, int plies) {
    const int own = measure::row_of(recipe::plyings, plying).strands;
    return own > 0 ? own : std::max(1, plies);
}

double axis_radius_mm(int strands, double strand_diameter_mm) {
    return strands <= 1 ? 0.0 : strand_diameter_mm / (2.0 * ring(strands));
}

double helix_factor(double radius_mm, double turns_per_m) {
    return std::hypot(1.0, 2.0 * pi * radius_mm * turns_per_m / 1000.0);
}

double take_up_pct(double factor) {
    return 100.0 * (1.0 - 1.0 / factor);
}

double ply_twist_fraction(int strands) {
    if (strands <= 1) return 0.0;
    return strands <= 3 ? balanced_ply : balanced_ply * ring(strands) / ring(3);
}

Plied plied_from(double single_tex, const Strands& strands) {
    BATTWRIGHT_BELIEVE(single_tex > 0.0);
    Plied plied;
    plied.strands = strands_in(strands.plying, strands.plies);
    plied.single_turns_per_m =
        turns_per_metre(strands.angle_degrees, compact_diameter_mm(single_tex, strands.k));
    plied.turns_per_m = ply_twist_fraction(plied.strands) * plied.single_turns_per_m;
    plied =
        has_thread(strands) ? with_thread(single_tex, strands, plied) : of_equals(single_tex, strands, plied);
    plied.take_up_pct = take_up_pct(plied.factor);
    plied.helix_angle_degrees = std::acos(std::min(1.0, 1.0 / plied.factor)) * 180.0 / pi;
    return plied;
}

double single_tex_for(double plied_tex, const Strands& strands) {
    if (!(plied_tex > 0.0)) return 0.0;
    return has_thread(strands) ? single_beside_thread(plied_tex, strands)
                               : plied_tex / plied_from(plied_tex, strands).single_m_per_m;
}

measure::Expected<double> thread_to_spare_m(const Thread& thread, double needed_m) {
    if (thread.length_m >= needed_m) return thread.length_m - needed_m;
    const auto metres = [](double length) {
        return measure::print_yarn_length(length, measure::YarnLengthUnit::metre);
    };
    return tl::make_unexpected(measure::Complaint{
        "the thread is " + metres(thread.length_m) + " long, and plying takes " + metres(needed_m),
        "find " + metres(needed_m - thread.length_m) + " more of it, or spin the batt thicker", "thread"});
}

PlyEffect effect_of(double single_tex, const Strands& strands) {
    const Plied plied = plied_from(single_tex, strands);
    PlyEffect effect;
    effect.length_factor = 1.0 / plied.single_m_per_m;
    effect.thickness_factor = std::sqrt(plied.tex / single_tex);
    effect.text = text_for(strands.plying, plied.strands);
    if (has_thread(strands)) {
        effect.stripe_strength = single_share_of_surface(single_tex, strands);
        effect.contrast_across = 4.0 * effect.stripe_strength * (1.0 - effect.stripe_strength);
    } else if (strands.plying != Plying::chain) {
        effect.stripe_strength = 1.0 / std::sqrt(plied.strands);
        effect.contrast_across = strands.plying == Plying::barber_pole ? 1.0 : 0.0;
    }
    return effect;
}

}  // namespace battwright::yarn
