// Text that may go to a terminal, into a file name or a table.
#pragma once

#include <string>
#include <string_view>

namespace battwright::measure {

enum class Lines { one, many };  // many: line ends and tabs are part of the text

// Has it a control character? Of ASCII, of Latin-1 (U+0080 to U+009F, which some terminals obey), and what
// turns the direction of writing or ends a line unseen (U+061C, U+200E, U+200F, U+2028 to U+202E, U+2066 to
// U+2069, U+FEFF; Unicode, general categories Cc and Cf, Zl, Zp).
bool has_control(std::string_view text, Lines lines);
// The text with each of these, and each byte that is not UTF-8, as '?'.
std::string printable(std::string_view text, Lines lines);

}  // namespace battwright::measure
