// The colour of fibres blended so finely that the eye cannot part them.
#pragma once

#include <span>
#include <string_view>

#include "colour/spectrum.hpp"
#include "measure/choices.hpp"

namespace battwright::colour {

// Additive functions of reflectance: f(R_mix) = sum w_i f(R_i) per band.
enum class Optics { stearns_noechel, friele, kubelka_munk };

struct OpticsModel {
    Optics optics = Optics::stearns_noechel;
    double m = 0.15;  // Stearns & Noechel (1944), for wool
    double s = 0.26;  // Friele (1952), for wool, from memory
    // How far ln m may be off (standard deviation). Before a spinner's own batts have taught it: fitted
    // values of m lie between 0.1 and 0.2 (0.136 for rotor-spun viscose; the rest from memory), and
    // ln(0.2 / 0.15) is 0.29. Common practice, no source.
    double m_log_sd = 0.3;
};

struct Portion {
    double share = 0.0;  // any scale; shares are normalised to sum 1
    Spectrum reflectance{};
};

// The blend's reflectance. Precondition: at least one portion with a positive share.
Spectrum blend(std::span<const Portion> portions, const OpticsModel& model);
// The additive function and its inverse for one band (for tests, fits and solvers that are linear in f).
// Friele's is carried as K/S internally where exp() would underflow; these are the plain forms.
double forward(double reflectance, const OpticsModel& model);
double inverse(double f, const OpticsModel& model);

// A label is how a control shows it, a phrase what stands in a sentence: "seen in lamplight".
struct OpticsRow {
    Optics value;
    std::string_view word, label;
};
inline constexpr std::array<OpticsRow, 3> all_optics{{
    {Optics::stearns_noechel, "stearns-noechel", "Stearns and Noechel"},
    {Optics::friele, "friele", "Friele"},
    {Optics::kubelka_munk, "kubelka-munk", "Kubelka and Munk"},
}};
struct LightRow {
    Light value;
    std::string_view word, label, phrase;
};
inline constexpr std::array<LightRow, 3> all_lights{{
    {Light::d65, "D65", "Daylight", "daylight"},
    {Light::a, "A", "Lamp", "lamplight"},
    {Light::f2, "F2", "Shop light", "shop light"},
}};
static_assert(measure::one_row_each(all_optics) && measure::one_row_each(all_lights));

std::string_view word_for(Optics optics);  // "stearns-noechel" ...
measure::Expected<Optics> parse_optics(std::string_view text);
std::string_view word_for(Light light);  // "D65" ...
measure::Expected<Light> parse_light(std::string_view text);

}  // namespace battwright::colour
