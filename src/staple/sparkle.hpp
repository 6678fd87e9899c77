// How much sparkle a batt holds.
#pragma once

namespace battwright::staple {

// Of the batt's mass. Common practice, no source: more than this the fibre around it does not hold.
inline constexpr double most_sparkle_share = 0.05;

}  // namespace battwright::staple
