// Inside this room: colours read from a photo as options ask for it.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "colour/palette.hpp"
#include "command/stash_common.hpp"
#include "recipe/recipe.hpp"

namespace battwright::command {

struct PhotoOptions {
    std::string photo;
    std::string area;            // pixels, or percent of the photo
    std::string white;           // a point or an area
    std::string white_reflects;  // percent
    int shades = 0;              // 0: as many as there are
};
// All but the photo's own name.
void add_photo_options(Command& app, PhotoOptions& options);

// The first of those that was given; null when none was.
const char* photo_option_given(const Common& common);
// One of them was given, and no photo.
[[noreturn]] void fail_without_photo(const char* option);

// "120,80,400,300" (left, top, width, height), or the corners "10,10 90,20 50,80"; each number in pixels, or
// with % in percent of the photo's width or height. The complaint names the option.
colour::Area parse_area(const std::string& text, int width, int height, const char* option);

// What --area marks; empty, the whole photo, without it.
colour::Area area_in(const PhotoOptions& options, const colour::Pixels& pixels);

// The white thing; none when nothing was pointed at. How much light it throws back only where the options
// say.
struct WhiteAsked {
    colour::Area area;
    std::optional<double> reflects;
};
std::optional<WhiteAsked> white_in(const PhotoOptions& options, const colour::Pixels& pixels);

// The fibre's colours with shares to a tenth of a percent that sum to 100.
std::vector<recipe::Tint> palette_from(const PhotoOptions& options);

}  // namespace battwright::command
