// Inside this room: what to do at a blending board or with hand cards, step by step.
#pragma once

#include <string>
#include <vector>

#include "carding/layings.hpp"
#include "carding/plan.hpp"

namespace battwright::carding {

struct FlatWork {
    const recipe::Carder& carder;
    const std::vector<Portion>& portions;
    const std::vector<std::string>& names;  // of the portions
    const Layings& layings;                 // empty: as the plan's feed says
    const Plan& plan;                       // feed, passes, strips and batts
};
// For one board or one rolag. Minutes are common practice, no source.
std::vector<Step> flat_steps(const FlatWork& work);

}  // namespace battwright::carding
