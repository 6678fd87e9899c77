// Small blends, carded beforehand and laid as a fibre is, as pure functions of the sheet.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "app/lay/laying_edits.hpp"
#include "measure/units.hpp"

namespace battwright::app {

// One of the things a small blend is made of: a component, one colour of it or another small blend, as a
// laying names it, and how much of it for one batt.
struct BlendPart {
    std::string what;
    std::optional<colour::Srgb> colour;
    measure::Mass weight;
};

// Why a small blend cannot go by that name: it has none, or something in the batt has it already.
std::optional<measure::Complaint> bad_blend_name(const Sheet& sheet, const std::string& name);
// Carded by itself in so many passes; laid evenly until a stroke places it. No more is taken of a fibre than
// is left of it, and a line says so; made of nothing, the sheet stays as it is. Weights are of one batt of
// `batts` equal ones. Precondition: the name is not bad. A sheet without a list (see as_list) is given one.
Laid make_blend(const Sheet& sheet, const std::string& name, const std::vector<BlendPart>& parts, int passes,
                std::size_t batts);
// What is in it goes back to what is left; strokes of it are taken off, those in other small blends too.
Laid take_blend_apart(const Sheet& sheet, const std::string& name);

}  // namespace battwright::app
