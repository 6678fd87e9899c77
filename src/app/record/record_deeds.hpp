// The record's deeds done to a file. No display.
#pragma once

#include "app/shelf/stash_requests.hpp"
#include "stash/stash.hpp"

namespace battwright::app {

// The number of what was made goes into the answer, and the short lines of a refused weigh-out.
measure::Expected<void> do_record_deed(stash::Stash& stash, const RecordDeed& deed, StashAnswer& answer);
// The backup a deed wants back, or nullptr: the one deed for a file that does not open any more.
const RestoreFrom* restore_in(const StashDeed& deed);

}  // namespace battwright::app
