// Numbers as people write and read them. Nothing here knows the process's locale: the mark is a point.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace battwright::text {

// "3.50": exactly so many decimals, as the C library's %.*f rounds (to even on a tie).
std::string number(double value, int decimals = 0);
// "3.5", "4": at most so many decimals, without trailing zeros, never "-0"; "?" when not finite.
std::string rounded(double value, int most_decimals);
// "0.123", "1.5": at most so many significant figures, as %.*g.
std::string figures(double value, int most_figures);
// The shortest decimal that reads back to the same double, with no exponent for everyday sizes (1e-5 to
// 1e16).
std::string shortest(double value);

// The double nearest to `value` cut to so many significant figures. Precondition: 1 <= figures <= 17.
double to_figures(double value, int figures);

// One plain decimal without a sign ("3", ".5", "1.5e3") at the front of `text`, taken off it. Nothing, and
// `text` as it was, when there is none or a double cannot hold it.
std::optional<double> take_decimal(std::string_view& text);
// The whole of `text` as one decimal, with or without a sign.
std::optional<double> read_decimal(std::string_view text);

}  // namespace battwright::text
