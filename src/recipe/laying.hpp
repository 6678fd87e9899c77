// A feed written as a list of layings: what, how much, where and how; and small blends carded beforehand.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "colour/spectrum.hpp"
#include "measure/choices.hpp"
#include "recipe/amount.hpp"
#include "recipe/feeding.hpp"

namespace battwright::recipe {

struct Carder;

// In one list; nobody lays so many by hand.
inline constexpr std::size_t most_layings = 400;

// Through the tray fibre has a place across only: the drum turns many times while it goes in, so it lies all
// round, carded and drawn out. Straight onto the drum it has a place round it, too, and is hardly carded on
// this pass.
enum class Way { tray, drum };
inline constexpr std::array<measure::Word<Way>, 2> ways{
    {{Way::tray, "through the tray"}, {Way::drum, "onto the drum"}}};
// How it is put down. `even`: as a practised hand spreads it. `dabs`: apart, nearly nothing between them.
// `wisps`: small and drawn thin, some fibre between. `handfuls`: as it comes out of the bag.
enum class Spreading { even, dabs, wisps, handfuls };
struct SpreadingRow {
    Spreading value;
    std::string_view word;
    double wide_mm;  // one of them, when nobody says; 0: all over (common practice, no source)
    double stray;    // how much lies between them, of what lies on them (common practice, no source)
};
inline constexpr std::array<SpreadingRow, 4> spreadings{{{Spreading::even, "even", 0.0, 0.0},
                                                         {Spreading::dabs, "in dabs", 45.0, 0.02},
                                                         {Spreading::wisps, "in wisps", 20.0, 0.15},
                                                         {Spreading::handfuls, "in handfuls", 70.0, 0.3}}};
// On a later pass: on the bare drum before the batt goes back, when half of it is in, or when all of it is.
enum class Lies { under, between, over };
inline constexpr std::array<measure::Word<Lies>, 3> lies_words{
    {{Lies::under, "under"}, {Lies::between, "between"}, {Lies::over, "over"}}};
static_assert(measure::one_row_each(ways) && measure::one_row_each(spreadings) &&
              measure::one_row_each(lies_words));

// How long something is across or round: per cent of the whole, or with a unit millimetres.
struct Extent {
    double value = 0.0;
    std::optional<measure::LengthUnit> unit;
    bool operator==(const Extent&) const = default;

    double share_of(double whole_mm) const { return value / (unit ? whole_mm : 100.0); }
};
// A stretch of the width, from its left edge, or of the way round, from the seam.
struct Stretch {
    double from = 0.0, to = 100.0;            // per cent, or mm when there is a unit
    std::optional<measure::LengthUnit> unit;  // it was written in
    bool operator==(const Stretch&) const = default;

    bool is_whole() const { return !unit && from <= 0.0 && to >= 100.0; }
    std::pair<double, double> shares_of(double whole_mm) const {
        const double whole = unit ? whole_mm : 100.0;
        return {from / whole, to / whole};
    }
};

// What the other layings leave of it.
struct Rest {
    bool operator==(const Rest&) const = default;
};
using LaidAmount = std::variant<Rest, measure::Mass, Percent>;

struct Laying {
    std::string what;                    // a component, by its name or fibre, or a small blend
    std::optional<colour::Srgb> colour;  // only this colour of the component
    LaidAmount amount = Rest{};
    Stretch across, round;
    std::optional<Extent> fade;     // over which its ends run out (a standard deviation)
    std::optional<Extent> overlap;  // it lies over its neighbours by so much, and they over it
    Spreading how = Spreading::even;
    std::optional<measure::Length> size;  // of a dab, a wisp or a handful
    std::optional<int> pass;              // unsaid: the component's own; `last_pass`: the last
    Lies lies = Lies::between;            // on a later pass than the first
    std::optional<Way> way;  // unsaid: onto the drum in dabs or with a place round, else the tray
    int times = 1;           // laid in so many parts, in turn with its neighbours that say so too
    bool operator==(const Laying&) const = default;
};
std::string_view word_for(Way way);
Way way_of(const Laying& laying);
// Along what its fade and its overlap run: the way round when only that is bounded, else the width; the
// shorter of the two when both are.
double edge_length_mm(const Laying& laying, const Carder& carder);

// Carded by itself before the batt is fed; what it is made of may be other small blends.
struct SmallBlend {
    std::string name;
    int passes = 1;
    int strips = usual_strips;
    std::vector<Refeed> refeeds{Refeed::strips};  // of pass 2, 3, ...; the last one stands for the rest
    std::vector<Laying> layings;
    bool operator==(const SmallBlend&) const = default;
};

// "0-60 mm", "25 % to 50 %", "left third", "full width" across; "all", "first half", "0-280 mm" round.
measure::Expected<Stretch> parse_across(std::string_view text);
measure::Expected<Stretch> parse_round(std::string_view text);
std::string write_across(const Stretch& stretch);
std::string write_round(const Stretch& stretch);
// "20 mm", "5 %".
measure::Expected<Extent> parse_extent(std::string_view text);
std::string write_extent(const Extent& extent);
// "even", "in dabs", "in dabs of 40 mm"; the small word may be left out.
struct SpreadingSize {
    Spreading how = Spreading::even;
    std::optional<measure::Length> size;
};
measure::Expected<SpreadingSize> parse_spreading(std::string_view text);
std::string write_spreading(Spreading how, const std::optional<measure::Length>& size);

}  // namespace battwright::recipe
