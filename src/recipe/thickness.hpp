// How thick the yarn is wanted: in wraps, in tex or by the name of its class.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "measure/complaint.hpp"
#include "recipe/recipe.hpp"

namespace battwright::recipe {

// "lace", "super fine", ... "jumbo", finest first: the eight classes of the Craft Yarn Council system.
const std::vector<std::string>& thickness_classes();

// "12 wpi", "200 tex" or a class name in any case. The size of the number is judged by check().
measure::Expected<Thickness> parse_thickness(std::string_view text);
// Text that parse_thickness() reads back to the same value.
std::string write_thickness(const Thickness& thickness);

// "woollen", "semi-woollen", "worsted".
const std::vector<std::string>& preparation_words();
std::string_view word_for(Preparation preparation);
measure::Expected<Preparation> parse_preparation(std::string_view text);

}  // namespace battwright::recipe
