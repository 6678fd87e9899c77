// Colours by name: the named colours of CSS Color Module Level 4 (W3C), and words it lacks ("charcoal") from
// a public-domain survey of colour names.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "colour/spaces.hpp"

namespace battwright::colour {

// "dark blue", "DarkBlue", "dark-gray"; empty when nobody calls a colour that.
std::optional<Srgb> colour_named(std::string_view name);
// Every name, as one word in lower case.
std::vector<std::string> colour_names();
// A name, or # and digits as parse_hex() reads them. Fails with the nearest names.
measure::Expected<Srgb> parse_colour(std::string_view text);

}  // namespace battwright::colour
