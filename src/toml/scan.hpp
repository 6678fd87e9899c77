// Inside this room: a look at TOML text before the library reads it.
#pragma once

#include <cstddef>
#include <string_view>

#include "toml/toml.hpp"

namespace battwright::toml {

Place place_of(std::string_view text, std::size_t byte);

struct Scan {
    bool comments = false;
    // The first dot of a key of more parts than any file of ours has, or npos. The library builds one table a
    // part and would run out of stack on a file of nothing but dots.
    std::size_t too_deep = std::string_view::npos;
};
Scan scan(std::string_view text);

}  // namespace battwright::toml
