// Inside this room: a look at TOML text before the library reads it.
#pragma once

#include <cstddef>
#include <string_view>

namespace battwright::recipe {

// Where a byte stands, counted from 1; columns count characters, not bytes.
struct Position {
    int line = 1;
    int column = 1;
};
Position position_of(std::string_view text, std::size_t byte);

struct Scan {
    bool comments = false;
    // The first dot of a key of more parts than any recipe has, or npos. The library builds one table a part
    // and would run out of stack on a file of nothing but dots.
    std::size_t too_deep = std::string_view::npos;
};
Scan scan_toml(std::string_view text);

}  // namespace battwright::recipe
