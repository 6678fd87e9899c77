// The colours of fibre in a photo: white balance on something white, then a few colours with their shares.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "colour/spectrum.hpp"
#include "measure/complaint.hpp"

namespace battwright::colour {

// 8-bit sRGB, three bytes a pixel, row by row from the top. A view: the owner keeps the bytes.
struct Pixels {
    std::span<const std::uint8_t> rgb;
    int width = 0, height = 0;
};
// In pixels from the picture's top left corner; the first pixel reaches from 0 to 1.
struct Point {
    double x = 0.0, y = 0.0;
};
// A closed polygon, even-odd; what lies outside the picture is cut off. Empty: the whole picture.
using Area = std::vector<Point>;
Area rectangle(double x, double y, double width, double height);

// The photo's light, as a white thing in it shows it; the photo's own white (D65) when nothing was pointed
// at.
struct WhiteBalance {
    Xyz white;          // Y = 100
    double gain = 1.0;  // of all light, to put the exposure right
    WhiteBalance();
};
// A patch counts as overexposed when more than this share of its pixels has a channel at the end of its scale
// (254 and up): the camera has cut that colour off. Below least_white_y (of 100) it is too dark to tell.
inline constexpr double most_cut_off_share = 0.01;
inline constexpr double least_white_y = 3.0;
// From a patch that is white or grey in truth: its mean in linear light. `reflectance` (0..1), when given, is
// how much light the thing throws back (as paper_reflects), so that lightness is put right too; else
// the exposure is kept. A complaint for a patch with no pixel, overexposed, too dark, or with hardly any
// light in one channel.
measure::Expected<WhiteBalance> white_from(const Pixels& photo, const Area& patch,
                                           std::optional<double> reflectance = {});
// How much light plain paper throws back. Common practice, no source.
inline constexpr double paper_reflects = 0.9;
// What is taken for the white thing when one point of it is given: a square of 2 % of the photo's shorter
// side, at least 5 pixels. Wide enough to even out a camera's noise, narrow enough for the edge of a sheet of
// paper. Common practice, no source.
Area patch_around(const Point& point, const Pixels& photo);
// The colour as daylight (D65) would show it: Bradford adaptation (ICC.1, Annex E) in linear light. Not
// clipped.
Srgb balanced(const Srgb& colour, const WhiteBalance& balance);

// Two colours of a palette nearer than this (CIEDE2000 with kL = 2 as for textiles, since folds throw
// shadows) are one. Common practice, no source: about where a person begins to give them different names.
inline constexpr double merge_de00 = 6.0;
// A colour of less than this share is counted with its nearest: dust, a lash of another lock. Common
// practice, no source.
inline constexpr double least_share_pct = 1.5;
// When the number of colours is not given it is the largest that either earns its keep, since its last colour
// takes away at least this part of the squared distance (L* halved) that was left without it (the part is
// common practice, no source),
inline constexpr double least_gain = 0.4;
// or has a gap between any two: their distance is at least so many standard deviations of their pixels along
// the line between them. Cutting one even spread of colours in pieces gives sqrt(12) = 3.46 (the standard
// deviation of an even spread is its width over sqrt(12)), a normal one in two 2.65.
inline constexpr double least_gap = 4.0;
inline constexpr int most_colours = 12;

struct PaletteOptions {
    int colours = 0;       // 1..most_colours: at most so many; 0: chosen as above
    int up_to = 8;         // when chosen
    WhiteBalance balance;  // the photo as it is, unless set
};
struct Shade {
    Srgb colour;               // mean in linear light of its pixels, clipped
    double share_pct = 0.0;    // of the area; all sum to 100
    double spread_de00 = 0.0;  // mean CIEDE2000 of its pixels from it
};
struct Palette {
    std::vector<Shade> shades;  // largest share first
    std::size_t pixels_seen = 0;
};

// Clusters the area's pixels in Lab under D65 with L* halved, by k-means: seeds after Arthur and
// Vassilvitskii (k-means++, 2007) from a fixed seed, several restarts, Lloyd's iteration (1982); then merges
// what is too near or too small. A large area is sampled, a few pixels side by side (their mean, for the
// grain of the camera) at a random place in each cell of a grid, so the time does not grow with the photo.
// Deterministic. A complaint for a picture of no size or one that
// is shorter than it says, an area with no pixel, a corner that is no number, or a wish out of range.
measure::Expected<Palette> palette_of(const Pixels& photo, const Area& area, const PaletteOptions& wish = {});

}  // namespace battwright::colour
