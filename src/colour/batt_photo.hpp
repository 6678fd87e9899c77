// What a photo of a finished batt shows: its mean colour, how far places differ, how wide its streaks are.
#pragma once

#include <cstddef>
#include <optional>
#include <string_view>

#include "colour/palette.hpp"
#include "measure/choices.hpp"

namespace battwright::colour {

// The batt laid flat, its torn edge seen end on, or a pinch of the same mixture carded by hand until it is
// even (which says nothing of the drum).
enum class Taken { face, edge, sample };
inline constexpr std::array<measure::Word<Taken>, 3> all_taken{
    {{Taken::face, "face"}, {Taken::edge, "edge"}, {Taken::sample, "sample"}}};
static_assert(measure::one_row_each(all_taken));
std::string_view word_for(Taken taken);
measure::Expected<Taken> parse_taken(std::string_view word);

// How large the photographed thing is, and how much of it counts as one place. Precondition: all above zero.
struct PhotoScale {
    double mm_per_pixel = 1.0;
    double patch_wide_mm = 12.0, patch_high_mm = 60.0;  // as they lie in the picture
};

// Why a photo is looked at and not learnt from.
enum class Unfit { none, no_white, bad_white, lamp_light, overexposed, uneven_light, too_small };
struct UnfitRow {
    Unfit value;
    std::string_view word;  // as the stash and JSON write it; "" when nothing is wrong
    std::string_view what, mend;
};
inline constexpr std::array<UnfitRow, 7> all_unfit{{
    {Unfit::none, "", "", ""},
    {Unfit::no_white, "no-white", "nothing white was pointed at, so nobody knows the light",
     "lay white paper beside the batt and mark it"},
    {Unfit::bad_white, "bad-white",
     "what was pointed at as white is overexposed, too dark or coloured, so nobody knows the light",
     "point at white paper, a little in the shade"},
    {Unfit::lamp_light, "lamp-light", "the white is that of a lamp, which shows colours otherwise than day",
     "take it by daylight, out of the sun"},
    {Unfit::overexposed, "overexposed", "the light parts are cut off", "take it darker"},
    {Unfit::uneven_light, "uneven-light", "the light falls off by more than half across it",
     "take it where the light is even, such as in open shade"},
    {Unfit::too_small, "too-small", "the fibre fills too little of the photo",
     "go nearer, or spread more of it"},
}};
static_assert(measure::one_row_each(all_unfit));
const UnfitRow& row_for(Unfit unfit);
measure::Expected<Unfit> parse_unfit(std::string_view word);

// A lamp: how far to the yellow its white lies (b* against D65). The CIE's own: D50 18, F2 30, A 62; a phone
// that puts half of it right leaves some 30 of A. Limit: common practice, no source.
inline constexpr double lamp_b = 25.0;
// Fibre smaller than this, or of fewer pixels, does not speak for a batt. Common practice, no source.
inline constexpr double least_fibre_mm2 = 400.0;
inline constexpr std::size_t least_fibre_pixels = 2'000;
// Light at one edge of more than so much above that at the other is taken out no more: the camera's own curve
// and the batt's own colours are in it by then. Common practice, no source.
inline constexpr double most_slope_pct = 100.0;
// Fewer places than this say nothing of how they vary. Common practice, no source.
inline constexpr std::size_t least_patches = 12;

// What judges a photo and what learns from it must share. Which forecast judged it: photos of the present one
// are learnt from.
inline constexpr int photo_model = 1;
// Prior on ln mixing, normal: one spinner's batt after three passes is as another's after four or two and a
// half. Common practice, no source. Of ln m: OpticsModel.
inline constexpr double mixing_prior_log_sd = 0.4;

struct BattReading {
    Lab mean;  // of the light of the area, D65; white and exposure put right
    // Mean CIEDE2000 of the patches from their mean, after an even slope of the light over the picture was
    // taken out. None with too few patches.
    std::optional<double> variation_de00;
    std::size_t patches = 0;
    // Integral scale (Danckwerts 1952) of the colour along the picture's rows; none where nothing varies.
    std::optional<double> streak_mm;
    double slope_pct = 0.0;  // of that slope, from one edge of the area to the other
    Unfit unfit = Unfit::none;
};

// Pure: pixels, the area of the fibre, the light as something white shows it (none: not known), the scale. A
// complaint for an area with no pixel of the photo, or with a corner outside it: its width would not be what
// was measured.
measure::Expected<BattReading> read_batt(const Pixels& photo, const Area& area,
                                         const std::optional<WhiteBalance>& white, const PhotoScale& scale);

// Where something white lies in the photo, and how much light it throws back.
struct WhiteReference {
    Area area;
    double reflects = paper_reflects;
};
// The same with the light read off that. One that nothing can be read from makes the photo unfit; a complaint
// for one outside the photo, or within the area of the fibre.
measure::Expected<BattReading> read_batt_beside(const Pixels& photo, const Area& area,
                                                const std::optional<WhiteReference>& white,
                                                const PhotoScale& scale);

}  // namespace battwright::colour
