// How well mixed a batt is, in figures from the literature and in plain words.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "carding/field.hpp"
#include "carding/simulate.hpp"
#include "colour/optics.hpp"
#include "measure/choices.hpp"

namespace battwright::carding {

// Intensity of segregation, var(c) / (p q): 1 unmixed, 0 uniform (Danckwerts 1952). For a batt of several
// portions the sum of their variances over the sum of their p q. 0 for a batt of one portion.
double intensity(const Field& field);
double intensity(const Field& field, std::size_t portion);

// Scale of segregation (Danckwerts 1952): the integral of the autocorrelation over distance, up to where it
// first falls to zero. The depth's is a share of the depth. 0 where nothing varies.
struct Scale {
    double round_mm = 0.0, across_mm = 0.0, depth_share = 0.0;
};
Scale scale(const Field& field);

// Index of blend irregularity (Coplan & Klein 1955) of counted sections: `counts` fibres of the portion in
// sections of `fibres` each: sqrt(mean (T p - W)^2 / (T p q)). Precondition: 0 < p < 1, counts not empty.
double blend_irregularity(std::span<const int> counts, int fibres, double p);
// What it is expected to be when each section draws T fibres at random from a place whose intensity of
// segregation is I: sqrt(1 + (T - 1) I). (W is binomial given the place: E var = T pq (1 - I) + T^2 pq I.)
double expected_irregularity(double intensity, double fibres);
// Fibres of a portion in `sections` sections of `fibres`, each drawn at random from one cell of the field.
std::vector<int> drawn_sections(const Field& field, std::size_t portion, int fibres, std::size_t sections,
                                std::uint64_t seed);
// CV after doubling D independent slivers: CV / sqrt(D) (Klein, The Rieter Manual of Spinning, vol. 1).
double cv_after_doubling(double cv, double doublings);

// Mean shares of the patches the drafting hands draw from: ((portion * depth + z) * across + y) * round + x,
// one round where the batt does not vary round the drum. Their size in mm and depth is common practice.
Field patches_of(const Field& field);
// What one patch weighs, and how long it is.
double patch_mg(const Field& field, double batt_grams);
double patch_length_mm(const Field& field);
// Per patch, the intensity of what lies unresolved in its cells, seen in samples of a mass: their variance
// over what the patch's shares could vary at most. 0 .. 1.
std::vector<double> unresolved_intensity(const Field& field, const Field& patches, double sample_mg);
// Intensity of segregation between samples of a mass: that of the patches' means and of what is unresolved.
double intensity_at(const Field& field, double sample_mg);

// How it looks: the mean CIEDE2000 of the patches from their mean colour. Limits (common practice): heathered
// under 4, streaky under 9, striped beyond. Near solid: no further pass would show, since what it exceeds
// chance by is under 0.5 (in squares: sqrt(variation^2 - chance^2)).
enum class Look { striped, streaky, heathered, near_solid };
struct LookRow {
    Look value;
    std::string_view word, means;
};
inline constexpr std::array<LookRow, 4> looks{{
    {Look::striped, "striped", "the colours lie side by side, as other colours"},
    {Look::streaky, "streaky", "places differ plainly in colour, and the yarn changes along its length"},
    {Look::heathered, "heathered", "a mix that the eye takes for one shade, livelier close up"},
    {Look::near_solid, "near solid", "one colour all over, no further pass would show"},
}};
static_assert(measure::one_row_each(looks));
std::string_view word_for(Look look);
Look look_for(double variation_de00, double chance_de00 = 0.0);
// What shows on top of that from close by: single fibres of strongly differing colours; specks of neps and
// waste, which no carding mixes in.
enum class Fleck { none, salt_and_pepper, tweedy };
std::string_view word_for(Fleck fleck);  // "", "salt and pepper", "tweedy"
// The word and what it means: "striped: the colours lie side by side, as other colours".
std::string explained(Look look);

// What the eye and the wheel bring to a batt.
struct BattObserver {
    std::vector<colour::Spectrum> reflectances;  // one per portion
    colour::OpticsModel optics;
    colour::Light light = colour::Light::d65;
    double fibres_in_section = 100.0;  // of the planned single
    double batt_grams = 60.0;
    std::vector<double> tex;  // of a fibre, one per portion; empty: all alike
};
// One reflectance per portion from one per strand, blended within the portion.
std::vector<colour::Spectrum> portion_reflectances(std::span<const Portion> portions,
                                                   std::span<const recipe::Strand> strands,
                                                   std::span<const colour::Spectrum> of_strands,
                                                   const colour::OpticsModel& optics);

struct Measures {
    int pass = 1;
    double intensity = 0.0;  // between drafting patches, resolved and unresolved
    double resolved_intensity = 0.0;
    double scale_mm = 0.0;  // the smallest of the three, which is what drafting meets first
    double scale_round_mm = 0.0, scale_across_mm = 0.0, scale_depth_mm = 0.0;  // depth of the lofty batt
    double ibi = 1.0;                   // expected, of the planned single drawn patch by patch
    double strip_variation_de00 = 0.0;  // over all the strips
    double within_strip_de00 = 0.0;     // mean over the strips of the variation inside one
    // What the variation would be if every fibre lay where chance puts it: shares of a section of n fibres
    // vary by p q / n (Danckwerts 1952; for fibres of differing fineness Stange 1954). Always in the above.
    double chance_de00 = 0.0;
    // The same and what is unresolved, between spots so small that the eye just tells them apart.
    double fleck_de00 = 0.0;
    Look look = Look::near_solid;  // with specks at most heathered
    Fleck fleck = Fleck::none;
};
// The word for a person: "heathered", "near solid, salt and pepper close up", "tweedy on an even ground".
std::string described(const Measures& measures);
// `portions` tells which of them are lumps; none given: none are.
Measures measured(const Pass& batt, const BattObserver& observer, int strips,
                  std::span<const Portion> portions = {});
// All passes, on `threads` threads.
std::vector<Measures> measured(std::span<const Pass> passes, const BattObserver& observer, int strips,
                               int threads = 0, std::span<const Portion> portions = {});

// Common practice, no source: the finest portion of some weight decides how many passes are safe.
enum class Risk { low, some, high };
std::string_view word_for(Risk risk);  // "low", "some", "high"
struct OverCarding {
    Risk risk = Risk::low;
    int safe_passes = 0;
    std::string text;
};
OverCarding over_carding(std::span<const Portion> portions, double teeth_per_square_inch, int passes,
                         ToolKind tool = ToolKind::drum);

// "How many passes for this look?" The first pass at which the batt looks at least so well mixed, on the
// coarse grid, up to `most`; nothing when it never does. Portions added on the setup's last pass stay on the
// last.
struct PassesFor {
    std::optional<int> passes;
    OverCarding nep_risk;  // of that many passes, or of `most`
};
PassesFor passes_for(Look look, const Setup& setup, const BattObserver& observer,
                     double teeth_per_square_inch, int most = recipe::most_passes, int threads = 0);

}  // namespace battwright::carding
