// More yarn in the record than there was fibre.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>

#include "stash/making.hpp"

namespace battwright::stash {

// Damp air alone makes wool heavier by some percent (13.6 % of its dry weight where the air is at 65 %, ASTM
// D1909; twice that in the wet), so yarn weighed on another day than its fibre may well weigh this much more.
// The share: common practice, no source.
inline constexpr double heavier_by_damp = 0.05;

struct MoreYarn {
    std::int64_t batt = 0;
    std::string name;
    double yarn_grams = 0.0;   // of this batt in all skeins
    double fibre_grams = 0.0;  // off the drum, else fed
};
// The first of the skein's batts of which there would be more yarn, with it, than there was fibre. `skeins`:
// those in the record; the skein's own line there, by its id, does not count.
std::optional<MoreYarn> more_yarn_than_fibre(const Skein& skein, std::span<const Batt> batts,
                                             std::span<const Skein> skeins);

}  // namespace battwright::stash
