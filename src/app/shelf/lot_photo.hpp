// What is marked on a lot's photo, and the palette read from it. No display.
#pragma once

#include <optional>
#include <vector>

#include "colour/palette.hpp"
#include "recipe/recipe.hpp"

namespace battwright::app {

// In the photo's own pixels.
struct PhotoMarks {
    struct Patch {
        double x = 0.0, y = 0.0, width = 0.0, height = 0.0;
    };
    std::optional<Patch> fibre;          // none: the whole photo
    std::optional<colour::Point> white;  // something white; none: the photo's light is taken for daylight
    int colours = 0;                     // at most so many; 0: as many as there are
};

// The two corners of a drag, put the right way round and cut off at the photo's edge.
PhotoMarks::Patch patch_between(colour::Point first, colour::Point second, int width, int height);
// The light as the marked white, taken for paper, shows it; none when nothing white was marked.
measure::Expected<std::optional<colour::WhiteBalance>> white_of(const colour::Pixels& photo,
                                                                const PhotoMarks& marks);
// A palette for a lot: shares sum to 100, each colour once and whole in eight bits, largest share first.
measure::Expected<std::vector<recipe::Tint>> read_palette(const colour::Pixels& photo,
                                                          const PhotoMarks& marks);

}  // namespace battwright::app
