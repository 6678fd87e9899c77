// Photos of batts held against what the forecast says of them, and what they taught laid on the bench.
#pragma once

#include <string>
#include <vector>

#include "colour/calibration.hpp"
#include "fibre/catalogue.hpp"
#include "forecast/batt_photo.hpp"
#include "stash/stash.hpp"

namespace battwright::shelving {

// The bench as these hands have it: m and how sure it is, and the mixing.
void lay_on(const stash::Hands& hands, forecast::Bench& bench);

// The photo with what was foretold (by these hands) and what it says of them. `recipe`: the text of what was
// carded. A photo that is not fit says nothing. A complaint when the recipe cannot be read.
measure::Expected<stash::BattPhoto> judged(stash::BattPhoto photo, const std::string& recipe,
                                           const stash::Hands& hands, const fibre::Catalogue& catalogue);

// The recipe a photo is of: the sample's own or its batt's.
measure::Expected<std::string> recipe_of(const stash::BattPhoto& photo, const stash::Stash& stash);

// A second opinion on m: by least squares alone over the photos that are learnt from, neither prior nor
// errors weighed (colour::calibrated_m). A complaint when they cannot tell.
measure::Expected<colour::Calibration> fitted_m(const stash::Stash& stash, const fibre::Catalogue& catalogue);

}  // namespace battwright::shelving
