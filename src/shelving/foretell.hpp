// What the forecast says of yarn from batts that were carded, from the recipes kept with them.
#pragma once

#include <optional>
#include <vector>

#include "fibre/catalogue.hpp"
#include "stash/making.hpp"
#include "yarn/calibration.hpp"
#include "yarn/finish.hpp"

namespace battwright::shelving {

struct SpunFrom {
    stash::Batt batt;
    double share_pct = 100.0;
};
// What the spinner does otherwise than the recipe plans.
struct OtherPlan {
    std::optional<recipe::Preparation> preparation;
    int plies = 0;  // 0: as planned
};
struct ForetoldSkein {
    stash::Foretold foretold;
    recipe::Preparation preparation = recipe::Preparation::woollen;  // of the largest share
    int plies = 0;                                                   // the same
};

// Length and weight of all these batts spun up, metres per gram by their shares. The weight is from what came
// off the drum where that is known, else from what was fed. Complaints: a recipe that cannot be read any
// more, one that makes no yarn. Precondition: `from` is not empty.
measure::Expected<ForetoldSkein> foretold_of(const std::vector<SpunFrom>& from,
                                             const yarn::Calibration& calibration,
                                             const fibre::Catalogue& catalogue, const OtherPlan& plan = {});

// Percent of the length that the wash takes of yarn of these batts, by their fibre and shares; batts whose
// recipe cannot be read are left out. Of none: a middling wool's.
yarn::Spread wash_shrink_pct(const std::vector<SpunFrom>& from, const fibre::Catalogue& catalogue);

}  // namespace battwright::shelving
