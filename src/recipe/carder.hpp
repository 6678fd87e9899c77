// What a batt is made on: a drum carder, a blending board or a pair of hand cards.
#pragma once

#include <array>
#include <string>
#include <string_view>
#include <vector>

#include "measure/choices.hpp"

namespace battwright::recipe {

inline constexpr int most_passes = 20;  // through a carder, of one batt
inline constexpr int most_strips = 64;  // that one batt is split into

// `drum`: turns while fibre goes in by a tray. `board`: a flat cloth that fibre is laid and brushed on.
// `hand_cards`: two small cloths; fibre goes from one to the other and back.
enum class ToolKind { drum, board, hand_cards };
struct ToolRow {
    ToolKind value;
    std::string_view word;          // in a recipe
    std::string_view surface;       // what fibre lies on
    std::string_view along;         // how the line that is not across runs
    std::string_view load, loads;   // what one filling gives
    std::string_view pass, passes;  // once over
};
inline constexpr std::array<ToolRow, 3> tool_rows{{
    {ToolKind::drum, "drum carder", "drum", "round", "batt", "batts", "pass", "passes"},
    {ToolKind::board, "blending board", "board", "along", "board", "boards", "pass", "passes"},
    {ToolKind::hand_cards, "hand cards", "cards", "along", "rolag", "rolags", "transfer", "transfers"},
}};
static_assert(measure::one_row_each(tool_rows));

// Common practice, no source: most drums turn four to six times as fast.
inline constexpr double usual_licker_in_ratio = 5.0;

// In a recipe: a preset's id, or { name (may be left out), drum_circumference = "560 mm", width = "200 mm",
// clothing = 72 (teeth per square inch), load = "40-80 g" (least and most, one text), licker_in = "5:1" (may
// be left out) }; of a board or cards { tool = "blending board", length = "300 mm", width = "300 mm",
// clothing = 72, load = "10-40 g" }. Loads are in grams of clean fibre, of hand cards one rolag's (common
// practice, no source).
struct Carder {
    std::string id;
    std::string name;
    // Of a board or a card how long its cloth is, along the strokes of the brush or of the other card.
    double drum_circumference_mm = 0.0;
    double width_mm = 0.0;
    double teeth_per_square_inch = 0.0;
    double load_low_grams = 0.0;   // a thin, easy batt
    double load_high_grams = 0.0;  // fibre reaches the tips of the teeth
    // Turns of the drum for one of the licker-in, the small roller that takes the fibre in: the higher, the
    // more the fibre is opened and the slower it goes in.
    double licker_in_ratio = usual_licker_in_ratio;
    ToolKind kind = ToolKind::drum;
    bool operator==(const Carder&) const = default;
};

const ToolRow& words_of(const Carder& carder);
// A board or hand cards: nothing turns, there is no tray and no licker-in.
bool is_flat(const Carder& carder);

// Four drums, "table-small", "table-standard", "table-wide" and "fine-cloth"; then "blending-board" and
// "hand-cards".
const std::vector<Carder>& carder_presets();
const Carder* find_carder(std::string_view id);  // nullptr when unknown

}  // namespace battwright::recipe
