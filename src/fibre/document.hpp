// Inside this room: a catalogue file's text as a TOML document.
#pragma once

#include <toml++/toml.h>

#include <string>
#include <string_view>

#include "measure/complaint.hpp"

namespace battwright::fibre {

// The document, or the complaint of the first place that is not UTF-8 or not TOML.
measure::Expected<toml::table> parse_document(std::string_view text, const std::string& path);

}  // namespace battwright::fibre
