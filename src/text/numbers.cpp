#include "text/numbers.hpp"

#include <fmt/format.h>

#include <charconv>
#include <cmath>
#include <cstdlib>
#include <limits>

#include "text/believe.hpp"

namespace battwright::text {
namespace {

// Beyond a double's own 17 figures more decimals say nothing.
constexpr double whole_from = 1e12;

bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

std::size_t digits_from(std::string_view text, std::size_t at) {
    while (at < text.size() && is_digit(text[at])) ++at;
    return at;
}

// Where an exponent that starts at `at` ends; `at` itself when there is none.
std::size_t exponent_from(std::string_view text, std::size_t at) {
    if (at >= text.size() || (text[at] != 'e' && text[at] != 'E')) return at;
    std::size_t first = at + 1;
    if (first < text.size() && (text[first] == '+' || text[first] == '-')) ++first;
    const std::size_t last = digits_from(text, first);
    return last > first ? last : at;
}

// How many bytes at the front of `text` are a decimal.
std::size_t decimal_length(std::string_view text) {
    std::size_t end = digits_from(text, 0);
    std::size_t digits = end;
    if (end < text.size() && text[end] == '.') {
        const std::size_t last = digits_from(text, end + 1);
        digits += last - end - 1;
        end = last;
    }
    return digits > 0 ? exponent_from(text, end) : 0;
}

// `digits` is a decimal and nothing else.
std::optional<double> converted(std::string_view digits) {
    double value = 0.0;
#ifdef __cpp_lib_to_chars
    const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), value);
    if (error != std::errc{}) return std::nullopt;
#else
    // A standard library without from_chars for double, as in a WebAssembly build, whose C library has one
    // locale.
    value = std::strtod(std::string(digits).c_str(), nullptr);
    if (!std::isfinite(value)) return std::nullopt;
#endif
    return value;
}

}  // namespace

std::string number(double value, int decimals) {
    return fmt::format("{:.{}f}", value, decimals);
}

std::string rounded(double value, int most_decimals) {
    if (!std::isfinite(value)) return "?";
    const double scale = std::pow(10.0, most_decimals);
    return shortest(std::abs(value) < whole_from ? std::round(value * scale) / scale : value);
}

std::string figures(double value, int most_figures) {
    return fmt::format("{:.{}g}", value, most_figures);
}

std::string shortest(double value) {
    if (value == 0.0) return "0";
    std::string text = fmt::format("{}", value);
    const double size = std::abs(value);
    const std::size_t exponent = text.find('e');
    if (exponent == std::string::npos || size < 1e-5 || size > 1.0) return text;
    // "1.25e-05": as many decimals as the figures reach.
    const bool pointed = text.find('.') != std::string::npos;
    const int figures = static_cast<int>(exponent) - (value < 0.0 ? 1 : 0) - (pointed ? 1 : 0);
    return number(value, figures - 1 - static_cast<int>(std::floor(std::log10(size))));
}

double to_figures(double value, int figures) {
    BATTWRIGHT_BELIEVE(figures >= 1 && figures <= std::numeric_limits<double>::max_digits10);
    const std::string text = fmt::format("{:.{}e}", value, figures - 1);
    return read_decimal(text).value_or(value);
}

std::optional<double> take_decimal(std::string_view& text) {
    const std::size_t length = decimal_length(text);
    if (length == 0) return std::nullopt;
    const auto value = converted(text.substr(0, length));
    if (value) text.remove_prefix(length);
    return value;
}

std::optional<double> read_decimal(std::string_view text) {
    const bool negative = text.starts_with('-');
    if (negative || text.starts_with('+')) text.remove_prefix(1);
    const auto value = take_decimal(text);
    if (!value || !text.empty()) return std::nullopt;
    return negative ? -*value : *value;
}

}  // namespace battwright::text
