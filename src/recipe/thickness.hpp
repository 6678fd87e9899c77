// How thick the yarn is wanted: in wraps, in tex or by the name of its class.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "measure/complaint.hpp"
#include "recipe/recipe.hpp"

namespace battwright::recipe {

// A word for a thickness: the standard's own ("medium"), a trade's ("worsted", which is no way of spinning
// here), or a land's count of plies ("10-ply", whatever the number of strands).
struct ThicknessName {
    std::string_view word;
    int number = 0;          // of the Craft Yarn Council system, 0 lace to 7 jumbo
    double usual_wpi = 0.0;  // wraps per inch it is usually taken to mean. Common practice, no source.
};
// Finest first, the standard's own word first within a number.
std::span<const ThicknessName> thickness_names();
// Case, and a hyphen or space, ignored: "DK", "dk", "super-bulky", "4 ply", "worsted weight", "class 4";
// nullptr when unknown.
const ThicknessName* thickness_named(std::string_view word);

// "lace", "super fine", ... "jumbo", finest first: the eight classes of the Craft Yarn Council system.
const std::vector<std::string>& thickness_classes();

// "12 wpi", "200 tex", or a name, which is kept as thickness_names() writes it. The size of the number is
// judged by check().
measure::Expected<Thickness> parse_thickness(std::string_view text);
// Text that parse_thickness() reads back to the same value.
std::string write_thickness(const Thickness& thickness);

// "woollen", "semi-woollen", "worsted".
const std::vector<std::string>& preparation_words();
std::string_view word_for(Preparation preparation);
measure::Expected<Preparation> parse_preparation(std::string_view text);

}  // namespace battwright::recipe
