// Where the colour of a component was taken from, which says how sure it is (forecast/colour_doubt.hpp).
#pragma once

#include <array>
#include <string_view>

#include "measure/choices.hpp"

namespace battwright::recipe {

enum class ColourFrom { eye, photo, tag, measured };
struct ColourFromRow {
    ColourFrom value;
    std::string_view word;    // in a recipe
    std::string_view phrase;  // "a colour ..."
};
inline constexpr std::array<ColourFromRow, 4> colour_origins{{
    {ColourFrom::eye, "eye", "picked by eye on a screen"},
    {ColourFrom::photo, "photo", "from a photo with something white in it"},
    {ColourFrom::tag, "tag", "from a tag or a dye card"},
    {ColourFrom::measured, "measured", "measured on the fibre"},
}};
static_assert(measure::one_row_each(colour_origins));

}  // namespace battwright::recipe
