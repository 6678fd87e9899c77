// Kinds and colours with their shares on one line, as people write them in a table cell or an option.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "measure/complaint.hpp"
#include "recipe/recipe.hpp"

namespace battwright::stash {

// "merino-fine 70 %; tussah silk 30": words for kinds (not looked up here), the share in percent. One
// alone needs no share; when none of several has one they are equal. "" is nothing at all. Complaints leave
// `where` empty; whether shares come to 100 is for fault_in() to say.
measure::Expected<std::vector<recipe::Content>> parse_content(std::string_view text);
// The same with colours: "#2f5d50 60; #b08d3c 40".
measure::Expected<std::vector<recipe::Tint>> parse_palette(std::string_view text);
// What the above read back to the same: shares exactly, colours to 8 bits a channel.
std::string write_content(const std::vector<recipe::Content>& content);
std::string write_palette(const std::vector<recipe::Tint>& palette);

}  // namespace battwright::stash
