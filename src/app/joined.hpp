// Short pieces of text in one line, with a point between them.
#pragma once

#include <string>
#include <string_view>

namespace battwright::app {

inline constexpr std::string_view point = " \u00b7 ";

inline bool is_blank(std::string_view words) {
    return words.find_first_not_of(" \t") == std::string_view::npos;
}

// Adds a piece; an empty one adds nothing.
inline void append(std::string& line, std::string_view words) {
    if (words.empty()) return;
    if (!line.empty()) line += point;
    line += words;
}

}  // namespace battwright::app
