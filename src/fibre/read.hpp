// Inside this room: from a catalogue file's text to kinds.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "fibre/catalogue.hpp"
#include "measure/complaint.hpp"

namespace battwright::fibre {

// The kinds in the order of the file, each complete and within sane bounds; of all faults the first in the
// file is told. A kind may be `like` a [base.NAME] of the file, an earlier kind, or a kind of `below`.
measure::Expected<std::vector<Kind>> read_kinds(std::string_view text, const std::string& path,
                                                const Catalogue& below);

}  // namespace battwright::fibre
