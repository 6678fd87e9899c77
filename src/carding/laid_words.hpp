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
// The portion a lay is judged by: the largest of a small blend's.
std::size_t chief_of(const Lay& lay, const Layings& layings);
// In mm, with what is laid over its neighbours.
struct Across {
    double from = 0.0, to = 0.0;
};
Across across_mm(const Lay& lay, const recipe::Carder& carder);
// For staple::words_in: "{mm 75}".
std::string whole_mm(double mm);
// Of a share, without the sign: "25".
std::string whole_pct(double share);
// Where it lies: "from {mm 0} to {mm 67} across the drum". `batt_share`: of what is laid, that goes into one
// batt.
std::string place_words(const Turn& turn, double batt_share, const recipe::Carder& carder);
// What a step of laying has of its turn: where all of it lies, how thick, in what manner, and of which
// layings. Precondition: the step has its grams.
void set_place(Step& step, const Turn& turn, const recipe::Carder& carder);
// The lays of a pass (0: of all) at a place in the depth (none named: at any), those alike that come in turn
// as one, and those that differ in their places alone.
std::vector<Turn> turns_of(const std::vector<Lay>& lays, int pass, std::optional<recipe::Lies> lies);

// What a step of laying by hand says.
struct LaidWords {
    std::string what;  // "6 g of harbour wool"
    const Turn& turn;
    double batt_share = 1.0;  // of what is laid, that goes into one batt
    const recipe::Carder& carder;
    bool licker_in_keeps_it = false;
    bool is_lumps = false;
};
std::string laid_text(const Step& step, const LaidWords& words);
// What is laid, by its portion's name or the small blend's.
std::string name_of(const Lay& lay, const std::vector<std::string>& names, const Layings& layings);
// What a small blend takes of each for one batt: "{weigh 6} of harbour wool".
std::vector<std::string> parts_of(const Small& small, double batt_share,
                                  const std::vector<std::string>& names, const Layings& layings);
std::string small_blend_text(const Small& small, const std::vector<std::string>& parts, ToolKind tool);

}  // namespace battwright::carding
