// What the next stroke lays, and where.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "app/bench/sheet.hpp"
#include "app/lay/surface.hpp"
#include "recipe/laying.hpp"

namespace battwright::app {

// Borders a stroke keeps to.
enum class Snap { none, quarters, thirds };

struct Brush {
    std::string what;                    // a component or a small blend, as a laying names it
    std::optional<colour::Srgb> colour;  // only this colour of it
    recipe::Spreading how = recipe::Spreading::even;
    std::optional<measure::Length> size;  // of a dab, a wisp or a handful
    recipe::Way way = recipe::Way::drum;
    int pass = 1;
    recipe::Lies lies = recipe::Lies::over;  // on a later pass
    bool by_weight = false;                  // so many grams a stroke, however large it is
    double grams = 2.0;
    double grams_per_cm2 = 0.02;
    measure::MassUnit mass_unit = measure::MassUnit::gram;
    measure::LengthUnit length_unit = measure::LengthUnit::millimetre;
    Snap snap = Snap::none;
    recipe::Stretch across{0.0, 60.0, measure::LengthUnit::millimetre};
    recipe::Stretch round{0.0, 80.0, measure::LengthUnit::millimetre};
    bool operator==(const Brush&) const = default;
};
inline constexpr double thinnest_g_cm2 = 0.001, thickest_g_cm2 = 0.2;

// In millimetres on the surface.
struct Region {
    double across_from = 0.0, across_to = 0.0;
    double along_from = 0.0, along_to = 0.0;
    bool operator==(const Region&) const = default;

    double area_cm2() const { return (across_to - across_from) * (along_to - along_from) / 100.0; }
};
// Through a tray fibre lies all along.
Region region_of(const recipe::Stretch& across, const recipe::Stretch& round, recipe::Way way,
                 const Surface& surface);
Region region_of(const Brush& brush, const Surface& surface);
// The brush there: at its borders when it snaps, else by whole millimetres or eighths of an inch. It may lie
// partly or wholly off the surface.
Brush placed(Brush brush, const Region& region, const Surface& surface);
// A place as it is written: what is the whole of it, or a third or a quarter, in words.
recipe::Stretch stretch_of(double from_mm, double to_mm, double whole_mm, Snap snap,
                           measure::LengthUnit unit);
// A dab's size for a stroke that was only a press.
double dab_mm(const Brush& brush);
// The brush moved, or made larger, by so many steps across and along: 5 mm or 1/4 in, or from border to
// border.
Brush moved(const Brush& brush, int across, int along, const Surface& surface);
Brush grown(const Brush& brush, int across, int along, const Surface& surface);
// What a stroke there weighs.
double stroke_grams(const Brush& brush, const Surface& surface);

// What can be laid: a component, each colour of one with several, a small blend.
struct Tile {
    std::string what;
    std::optional<colour::Srgb> colour;
    std::size_t component = 0;  // of the recipe, unless it is a blend
    bool is_blend = false;
    double grams = 0.0;           // weighed out for the whole making
    double left = 0.0;            // of it, in "the rest": no stroke has placed it
    std::vector<double> parts{};  // of a small blend: grams of each of the recipe's components
};
// Empty while the weights do not close. A recipe that is fed in a manner has none left but what its list
// would call the rest: see as_list().
std::vector<Tile> tiles_of(const Sheet& sheet);
// The tile the brush lays, or none.
const Tile* tile_of(const std::vector<Tile>& tiles, const Brush& brush);

}  // namespace battwright::app
