// Inside this room: a catalogue file's text as a TOML document.
#pragma once

#include <string>
#include <string_view>

#include "measure/complaint.hpp"
#include "toml/toml.hpp"

namespace battwright::fibre {

// The document, or the complaint of the first place that is not UTF-8 or not TOML.
measure::Expected<toml::Table> parse_document(std::string_view text, const std::string& path);

}  // namespace battwright::fibre
