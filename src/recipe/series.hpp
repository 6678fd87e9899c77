// One recipe and several batts (or rolags) that step from its mixture to another.
#pragma once

#include <string>
#include <vector>

#include "measure/units.hpp"

namespace battwright::recipe {

struct SeriesPart {
    std::string what;  // a component, as a laying names it
    double share_pct = 0.0;
    bool operator==(const SeriesPart&) const = default;
};
// The first batt is the recipe as its components say; the last is `to`.
struct Series {
    int count = 2;
    bool rolags = false;  // what they are called
    measure::Mass each;
    std::vector<SeriesPart> to;
    bool by_eye = false;  // steps alike to the eye (CIEDE2000) instead of by weight
    bool operator==(const Series&) const = default;
};

}  // namespace battwright::recipe
