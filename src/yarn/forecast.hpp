// From batt to skein: everything the tool says about the yarn before a fibre is drafted.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "measure/complaint.hpp"
#include "recipe/composition.hpp"
#include "yarn/calibration.hpp"
#include "yarn/ply.hpp"
#include "yarn/thickness.hpp"

namespace battwright::yarn {

// One thickness the same batt could be spun to.
struct CurvePoint {
    double wpi = 0.0;
    double tex = 0.0;
    double length_m = 0.0;
    bool spinnable = false;
};

// Lengths, thickness and tex are of the finished yarn, washed and dry, unless said.
struct YarnForecast {
    recipe::Preparation preparation = recipe::Preparation::woollen;
    Plying plying = Plying::plied;
    int plies = 0;  // strands, a thread counted

    double batt_grams = 0.0, yarn_grams = 0.0;  // yarn: of the batt's own fibre, a thread's weight left out
    double spinning_loss_pct = 0.0;

    recipe::ThicknessIn planned_in = recipe::ThicknessIn::wpi;
    double wpi = 0.0;  // relaxed: as wanted, usual for the name, or what the grist comes to
    double tex = 0.0;
    std::string class_name;       // of the standard system
    std::string thickness_words;  // both systems: "sport (fine, 2)"
    // What the aim learnt makes of wraps wanted: what to expect, and what to ask for to get them. As wanted
    // until a habit is known.
    double expected_wpi = 0.0, aim_for_wpi = 0.0;
    int aims_logged = 0;
    double diameter_mm = 0.0;  // relaxed: 25.4 / wpi

    double length_m = 0.0;                           // median
    double length_low_m = 0.0, length_high_m = 0.0;  // 80 % of skeins
    double nominal_length_m = 0.0;                   // before calibration: what Calibration::update wants
    double log_sd = 0.0;                             // of the length
    int skeins_logged = 0;
    yarn::Makeup makeup;  // what moved the length besides the thickness

    double fibre_tex = 0.0;          // of one fibre, number-true
    double fibres_in_section = 0.0;  // of the single, as spun, at the length expected
    // The same if the yarn truly were as thin as wanted: a wrap count is read with error, so most yarn
    // counted as very fine is not quite so fine. This is what the limit is held against.
    double fibres_wanted = 0.0;
    double least_fibres = 0.0;   // hold without constant breaks
    double fewest_fibres = 0.0;  // below this it does not hold at all
    bool spinnable = false;
    double finest_wpi = 0.0;  // of the finished yarn with these plies, at `least_fibres`
    double finest_wpi_low = 0.0, finest_wpi_high = 0.0;  // 80 % range, to `fewest_fibres` in good hands
    double finest_tex = 0.0;
    double finest_single_tex = 0.0;

    double singles_tex = 0.0;         // as spun
    double single_length_m = 0.0;     // as spun, all strands together
    double single_diameter_mm = 0.0;  // taut at the wheel: the thickness twist angles are measured on
    double twist_angle_degrees = 0.0;
    Twist twist_word = Twist::medium;
    double twist_per_m = 0.0, twist_per_inch = 0.0;  // of the single
    double ply_twist_per_m = 0.0, ply_twist_per_inch = 0.0;
    double treadles_per_m = 0.0, ply_treadles_per_m = 0.0;  // 0 when the plan names no wheel
    double take_up_pct = 0.0;

    double evenness_limit_pct = 0.0;        // Martindale's limit, CV of mass of the single
    double plied_evenness_limit_pct = 0.0;  // the same over sqrt(strands) (law of doubling)

    double shrink_pct = 0.0, bloom_pct = 0.0;  // by the wash, typical
    double shrink_low_pct = 0.0, shrink_high_pct = 0.0;
    double length_before_wash_m = 0.0;
    double length_before_wash_low_m = 0.0, length_before_wash_high_m = 0.0;  // of this length, by the wash
    double wpi_before_wash = 0.0;

    PlyEffect effect;
    double thread_needed_m = 0.0;                        // 0 without a thread
    std::optional<measure::Complaint> thread_complaint;  // too short, or thicker than the yarn wanted

    std::vector<CurvePoint> curve;  // thick to fine
};

// Thinnest and thickest plan taken, as in a recipe.
inline constexpr double least_wpi = 2.0, most_wpi = 120.0;
inline constexpr int most_plies = 12;

// What is wrong with a plan: a batt of no weight, 400 wraps, 0 plies, a class nobody knows, a thread missing.
std::optional<measure::Complaint> fault_in(const recipe::Spinning& spinning, double batt_grams);

// `batt_grams`: the carded batt as it lies on the scale (finish.hpp goes there from the fibre weighed out).
// The calibration moves metres per gram: by aim and loft for a plan in wraps, as a whole for a plan by name
// or grist (a grist is a length already: only the spread of holding to it is left). A plan with a fault, or
// no strands with a mass, gives zeros and no curve.
YarnForecast yarn_of(const recipe::Spinning& spinning, std::span<const recipe::Strand> strands,
                     double batt_grams, const Calibration& calibration);

// A skein in hand: its length by weight and wraps, loft alone being uncertain. Metres, median and 80 % range.
struct LengthInHand {
    double metres = 0.0, low_m = 0.0, high_m = 0.0;
    double tex = 0.0;
    int skeins_logged = 0;
};
// Preconditions: grams and wpi above zero. `unknown_share`: of fibre of unknown kind, 0..1.
LengthInHand length_in_hand(double grams, double wpi, const Makeup& makeup, recipe::Preparation preparation,
                            const Calibration& calibration, double unknown_share = 0.0);
double unknown_share_of(std::span<const recipe::Strand> strands);

}  // namespace battwright::yarn
