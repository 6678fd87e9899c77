// What a camera would see of a carded batt.
#pragma once

#include <array>
#include <string_view>

#include "carding/measures.hpp"
#include "measure/choices.hpp"

namespace battwright::carding {

// The batt laid flat; or the edge where it was torn across, seen end on.
enum class Side { face, edge };
inline constexpr std::array<measure::Word<Side>, 2> all_sides{{{Side::face, "face"}, {Side::edge, "edge"}}};
static_assert(measure::one_row_each(all_sides));

// Mean of the light of the patches, and their mean CIEDE2000 from it. Of the face, the middle of both faces,
// since nobody says which one lay up, and how far each lies from that middle.
struct Photographed {
    colour::Lab mean;
    double variation_de00 = 0.0;
    colour::Lab face_off;       // half of one face less the other; nought of an edge
    double face_off_log = 0.0;  // the same of ln(variation)
};
// An edge shows what the drafting hands draw from: fibres of a staple's length hang out of it. A face shows
// patches as wide and long, and as deep as light goes: a mean free path of pi/4 d / packing is 1 mm of 30 for
// 20 um fibre; two to three of them.
Photographed photographed(const Pass& batt, const BattObserver& observer, Side side);

// How large such a patch lies in a photo: wide across the drum and high round it; of an edge `high` is its
// part of the height of what the photo shows.
struct PhotoPatch {
    double wide_mm = 0.0;
    double high_mm = 0.0;     // of a face
    double high_share = 0.0;  // of an edge
};
PhotoPatch photo_patch();

}  // namespace battwright::carding
