// Inside this room: which pixels of a photo stand for an area of it.
#pragma once

#include "colour/palette.hpp"

namespace battwright::colour {

// What is wrong with the picture or the area as such.
std::optional<measure::Complaint> fault_in(const Pixels& photo, const Area& area);

// Pixels of a row from `from` to before `to`.
struct PixelRun {
    int row = 0, from = 0, to = 0;
};
// All whose centre lies in the area, from the top.
std::vector<PixelRun> runs_in(const Pixels& photo, const Area& area);

// Pixels whose centre lies in the area: all of them when there are at most `most`, else about that many, one
// at a random place in each cell of a grid; each the mean in linear light of up to `grain` pixels side by
// side, a quarter of the cell at most. The same every time.
std::vector<Srgb> sampled(const Pixels& photo, const Area& area, std::size_t most, int grain = 1);

}  // namespace battwright::colour
