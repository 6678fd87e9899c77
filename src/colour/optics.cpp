#include "colour/optics.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

#include "text/believe.hpp"

namespace battwright::colour {
namespace {

// Below this a fibre is blacker than any instrument can tell, and K/S would divide by nothing.
constexpr double blackest = 1e-12;

double bounded(double reflectance) {
    return std::clamp(reflectance, blackest, 1.0);
}

// Kubelka & Munk (1931): absorption over scattering of an opaque layer.
double k_over_s(double reflectance) {
    const double dark = 1.0 - reflectance;
    return dark * dark / (2.0 * reflectance);
}

// 1 + k - sqrt(k^2 + 2k), written so that nothing cancels when k is large.
double reflectance_of_k_over_s(double k) {
    return 1.0 / (1.0 + k + std::sqrt(k * (k + 2.0)));
}

// Stearns & Noechel (1944) with their 0.01 of surface reflectance.
double stearns_noechel(double reflectance, double m) {
    return (1.0 - reflectance) / (m * (reflectance - 0.01) + 0.01);
}

double stearns_noechel_inverse(double f, double m) {
    return (1.0 - 0.01 * f * (1.0 - m)) / (1.0 + m * f);
}

// sum over portions of share * f(R), per band.
template <class Function>
Spectrum weighted_sum(std::span<const Portion> portions, double total, Function f) {
    Spectrum sum{};
    for (const Portion& portion : portions) {
        if (!(portion.share > 0.0)) continue;
        const double share = portion.share / total;
        for (std::size_t i = 0; i < bands; ++i) sum[i] += share * f(bounded(portion.reflectance[i]));
    }
    return sum;
}

// Friele's f = exp(-S K) is 0 in a double for dark fibres (K over 2800 at S = 0.26), so -S K of the blend is
// summed as a logarithm: log sum w exp(-S K) = top + log sum w exp(-S K - top).
Spectrum friele_blend(std::span<const Portion> portions, double total, double s) {
    Spectrum top{};
    top.fill(-std::numeric_limits<double>::infinity());
    std::vector<Spectrum> logs;
    logs.reserve(portions.size());
    for (const Portion& portion : portions) {
        if (!(portion.share > 0.0)) continue;
        const double log_share = std::log(portion.share / total);
        Spectrum& log_f = logs.emplace_back();
        for (std::size_t i = 0; i < bands; ++i) {
            log_f[i] = log_share - s * k_over_s(bounded(portion.reflectance[i]));
            top[i] = std::max(top[i], log_f[i]);
        }
    }
    Spectrum mixed{};
    for (std::size_t i = 0; i < bands; ++i) {
        double rest = 0.0;
        for (const Spectrum& log_f : logs) rest += std::exp(log_f[i] - top[i]);
        // Rounding may leave a white blend a breath above f = 1.
        mixed[i] = reflectance_of_k_over_s(std::max(0.0, -(top[i] + std::log(rest)) / s));
    }
    return mixed;
}

double total_share(std::span<const Portion> portions) {
    double total = 0.0;
    for (const Portion& portion : portions) total += std::max(0.0, portion.share);
    return total;
}

}  // namespace

Spectrum blend(std::span<const Portion> portions, const OpticsModel& model) {
    const double total = total_share(portions);
    BATTWRIGHT_BELIEVE(total > 0.0);
    Spectrum mixed{};
    switch (model.optics) {
        case Optics::friele:
            return friele_blend(portions, total, model.s);
        case Optics::kubelka_munk:
            mixed = weighted_sum(portions, total, k_over_s);
            std::transform(mixed.begin(), mixed.end(), mixed.begin(), reflectance_of_k_over_s);
            return mixed;
        case Optics::stearns_noechel:
            break;
    }
    const double m = model.m;
    mixed = weighted_sum(portions, total, [m](double r) { return stearns_noechel(r, m); });
    for (double& value : mixed) value = stearns_noechel_inverse(value, m);
    return mixed;
}

double forward(double reflectance, const OpticsModel& model) {
    switch (model.optics) {
        case Optics::friele:
            return std::exp(-model.s * k_over_s(reflectance));
        case Optics::kubelka_munk:
            return k_over_s(reflectance);
        case Optics::stearns_noechel:
            break;
    }
    return stearns_noechel(reflectance, model.m);
}

double inverse(double f, const OpticsModel& model) {
    switch (model.optics) {
        case Optics::friele:
            return reflectance_of_k_over_s(-std::log(f) / model.s);
        case Optics::kubelka_munk:
            return reflectance_of_k_over_s(f);
        case Optics::stearns_noechel:
            break;
    }
    return stearns_noechel_inverse(f, model.m);
}

std::string_view word_for(Optics optics) {
    return measure::row_of(all_optics, optics).word;
}
std::string_view word_for(Light light) {
    return measure::row_of(all_lights, light).word;
}
measure::Expected<Optics> parse_optics(std::string_view text) {
    return measure::parse_word(all_optics, text, "optics model");
}
measure::Expected<Light> parse_light(std::string_view text) {
    return measure::parse_word(all_lights, text, "light");
}

}  // namespace battwright::colour
