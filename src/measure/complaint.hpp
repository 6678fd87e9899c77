// What is wrong with something a person gave us, where, and how to mend it.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <tl/expected.hpp>

namespace battwright::measure {

// One line for a person. `line` and `column` count from 1; 0 means "not in a text file".
// `field` names the place where there is no line (an option, a table cell).
struct Complaint {
    std::string what;     // "the weight is negative: -4 g"
    std::string mend;     // "write a weight above zero, as in weight = \"25 g\""
    std::string where{};  // file path or field name; may be empty
    int line = 0;
    int column = 0;

    bool operator==(const Complaint&) const = default;
};

// A value, or the one complaint that stopped us.
template <class T>
using Expected = tl::expected<T, Complaint>;

// "where:line:column: what; mend" with the parts that are known. Never more than one line.
std::string to_line(const Complaint& complaint);

// What a person typed, in double quotes, fit to stand in a complaint: control bytes and bytes that are not
// UTF-8 become '?', and a long text is cut after 60 bytes (never within a character).
std::string quoted(std::string_view text);
// The byte at which `text` stops being UTF-8 (RFC 3629), or npos when all of it is.
std::size_t first_not_utf8(std::string_view text);

}  // namespace battwright::measure
