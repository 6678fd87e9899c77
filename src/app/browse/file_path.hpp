// Paths as people type, paste and drop them.
#pragma once

#include <filesystem>
#include <string_view>

#include "measure/complaint.hpp"

namespace battwright::app {

// Of a text field: "~/boats" begins at home, "file:///boats/a%20b.png" is that path (RFC 8089, RFC 3986), one
// pair of quotes and blanks around it are left out. Relative ones are within `folder`. An empty text is an
// empty path.
std::filesystem::path typed_path(std::string_view typed, const std::filesystem::path& folder);

// The first path in what was copied: a path or a file's address in text, one a line, as file managers copy
// them (text/uri-list of RFC 2483, or with "copy" or "cut" before it). A complaint when there is none:
// GLFW hands over text alone, so the pixels of a copied picture cannot be pasted.
measure::Expected<std::filesystem::path> pasted_path(std::string_view clipboard);

}  // namespace battwright::app
