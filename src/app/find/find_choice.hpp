// What a person asks for when she looks for blends, as she chose and typed it, and what that comes to. No
// display, no files.
#pragma once

#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "app/bench/sheet.hpp"
#include "fibre/catalogue.hpp"
#include "measure/units.hpp"
#include "recipe/carder.hpp"
#include "shelving/stock.hpp"
#include "shelving/wishes.hpp"

namespace battwright::app {

enum class FindFrom { shelf, batt };
enum class UseUpWhat { nothing, scraps, all };
enum class FindColour { any, one, gradient };

// A colour to reach; with the reflectance behind it where that is known, so that it holds under every light.
struct WantedColour {
    colour::Srgb colour;
    std::optional<colour::Spectrum> reflectance;
    bool operator==(const WantedColour&) const = default;
};
WantedColour wanted_of(const colour::Spectrum& reflectance);
// "wool", at least so much, at most so much: percent as typed, empty for no bound.
struct BoundRow {
    std::string what = "wool";
    std::string least, most;
    bool operator==(const BoundRow&) const = default;
};

struct FindChoice {
    FindFrom from = FindFrom::shelf;
    std::string words;  // of the lots on show
    bool scraps_only = false;
    std::set<std::string> left_out;  // ids not to be used

    UseUpWhat use_up = UseUpWhat::scraps;
    solve::UseUpBy by = solve::UseUpBy::weight;
    FindColour colour = FindColour::any;
    WantedColour target{{0.43, 0.48, 0.42}, {}}, far_end{{0.76, 0.60, 0.29}, {}};
    int steps = 4;  // batts of a gradient

    std::vector<BoundRow> bounds;
    std::string total;         // "100 g", "80-120 g"; a bare number is in the user's unit
    bool within_load = false;  // each batt within the carder's load
    int batts = 1;             // 0: as few as the load allows
    int most_lots = 0;         // 0: any number
    std::string most_cost, staple_spread;
    std::string keep_back;                                 // percent of every lot
    std::string step;                                      // of the scale; empty: as fine as is usual
    double least_used_grams = shelving::least_used_grams;  // of a lot that is used at all

    bool operator==(const FindChoice&) const = default;
};
inline constexpr int most_steps = 12, most_batts = 24, most_lots_offered = 20;

// Indices of the lots on show: those whose id, name or kinds hold every word typed.
std::vector<std::size_t> listed(const FindChoice& choice, const shelving::Stock& stock,
                                const fibre::Catalogue& catalogue);
// What a bound may be about: the families and kinds in these lots, most common first.
std::vector<std::string> bounded_words(const shelving::Stock& stock, const fibre::Catalogue& catalogue);

// What the choice comes to. `bound_rows` says which row each of the problem's shares came from.
struct FindProblem {
    shelving::Stock stock;  // the chosen lots
    solve::Problem problem;
    std::vector<solve::Target> targets;  // of a gradient; else empty
    std::vector<std::size_t> bound_rows;
};
// A complaint's `where` is the field it is about: "total", "bound 2", "lots", ...
measure::Expected<FindProblem> problem_of(const FindChoice& choice, const shelving::Stock& stock,
                                          const recipe::Carder& carder, const fibre::Catalogue& catalogue,
                                          measure::MassUnit unit);

// The choice with the least change of a conflict made, as it would be typed.
FindChoice with_changes(FindChoice choice, const FindProblem& problem,
                        const std::vector<solve::Change>& changes, measure::MassUnit unit);

// The bench with a found batt on it: its components and total, all else stays as it was. A bench without a
// name takes the batt's.
Sheet take_to_bench(const Sheet& bench, const recipe::Recipe& found);

// What a view may ask for; see action.hpp.
struct ChangeFind {
    FindChoice choice;
};
struct StopFind {};
struct FindAgain {};

}  // namespace battwright::app
