// Inside this room: what the findings about a drum's feeding and about a board's are both made with, and the
// latter.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "carding/feed.hpp"
#include "staple/findings.hpp"

namespace battwright::carding {

// Its words settled.
staple::Finding finding_of(std::string code, staple::Severity severity, std::string text, std::string remedy);

// What of the passes before this one has a place of its own: across, and round the drum or along what lies
// flat.
struct Placed {
    bool across = false, round = false;
};
Placed placed_before(std::span<const Lay> lays, int pass);

// What to say of a carding on a blending board or on hand cards. `lays`: of a list of layings, else empty.
// `first`: portions of the first pass.
void add_flat_findings(const recipe::Recipe& recipe, std::span<const Lay> lays, std::size_t first,
                       std::vector<staple::Finding>& findings);

}  // namespace battwright::carding
