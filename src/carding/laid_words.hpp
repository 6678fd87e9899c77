// Inside this room: a list of layings in words that a person can follow at the carder.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "carding/layings.hpp"
#include "carding/plan.hpp"

namespace battwright::carding {

// A lay and how often it comes round; or one of several that differ in their places alone.
struct Turn {
    Lay lay;
    int times = 1;
    bool with_others = false;            // in turn with its neighbours
    std::vector<Lay> elsewhere{};        // laid like it right after it, at other places
    std::vector<std::size_t> layings{};  // of the recipe, that it stands for
    double grams() const;
};
// The lays of a pass (0: of all) at a place in the depth (none named: at any), those alike that come in turn
// as one, and those that differ in their places alone.
std::vector<Turn> turns_of(const std::vector<Lay>& lays, int pass, std::optional<recipe::Lies> lies);

// What a step of laying by hand says.
struct LaidWords {
    std::string what;  // "6 g of harbour wool"
    const Turn& turn;
    double batt_share = 1.0;  // of what is laid, that goes into one batt
    double width_mm = 0.0;    // of the drum
    bool licker_in_keeps_it = false;
    bool is_lumps = false;
};
std::string laid_text(const Step& step, const LaidWords& words);
std::string small_blend_text(const Small& small, const std::vector<std::string>& parts, ToolKind tool);

}  // namespace battwright::carding
