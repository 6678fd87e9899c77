// Inside this room: columns and wrapped lines of plain text.
#pragma once

#include <string>

#include "text/numbers.hpp"

namespace battwright::command {

using text::number;
// Width in characters, not bytes: a name may hold accents.
std::size_t width_of(const std::string& text);
std::string left(const std::string& text, std::size_t width);
std::string right(const std::string& text, std::size_t width);
// Lines of at most 92 columns, each indented.
std::string wrapped(const std::string& text, std::size_t indent);

}  // namespace battwright::command
