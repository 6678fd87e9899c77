// Inside this room: what to say of a carding on a blending board or on hand cards.
#pragma once

#include <span>
#include <vector>

#include "carding/feed.hpp"
#include "staple/findings.hpp"

namespace battwright::carding {

// `lays`: of a list of layings, else empty. `first`: portions of the first pass.
void add_flat_findings(const recipe::Recipe& recipe, std::span<const Lay> lays, std::size_t first,
                       std::vector<staple::Finding>& findings);

}  // namespace battwright::carding
