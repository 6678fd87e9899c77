// The actions done to a stash.
#pragma once

#include "app/shelf/stash_requests.hpp"
#include "stash/stash.hpp"

namespace battwright::app {

// The number and mark of what was made go into the answer, and the short lines of a refused weigh-out.
measure::Expected<void> perform(stash::Stash& stash, const StashAction& action, StashAnswer& answer,
                                const fibre::Catalogue& catalogue);

}  // namespace battwright::app
