// Colours as people write them, declared in colour/spaces.hpp.
#include <algorithm>
#include <cmath>
#include <cstdint>
#include <string>

#include "colour/spaces.hpp"
#include "text/words.hpp"

namespace battwright::colour {
namespace {

using measure::Complaint;

constexpr std::string_view mend = "write # and six hexadecimal digits, as in \"#2f5d50\"";

tl::unexpected<Complaint> complaint(std::string what) {
    return tl::unexpected(Complaint{std::move(what), std::string(mend)});
}

int digit(char c) {
    if (c >= '0' && c <= '9') return c - '0';
    if (c >= 'a' && c <= 'f') return c - 'a' + 10;
    if (c >= 'A' && c <= 'F') return c - 'A' + 10;
    return -1;
}

double channel(int high, int low) {
    return (16 * high + low) / 255.0;
}

void write_channel(std::string& out, double value) {
    constexpr std::string_view digits = "0123456789abcdef";
    // Not a number goes to black rather than to an undefined conversion.
    const double inside = value > 0.0 ? std::min(value, 1.0) : 0.0;
    const auto byte = static_cast<std::uint8_t>(std::lround(255.0 * inside));
    out += digits[byte / 16U];
    out += digits[byte % 16U];
}

}  // namespace

measure::Expected<Srgb> parse_hex(std::string_view text) {
    const std::string_view given = text::trimmed(text);
    if (given.empty()) return complaint("the colour is empty");
    if (given.front() != '#') return complaint("the colour does not start with #: " + measure::quoted(text));
    const std::string_view figures = given.substr(1);
    if (!std::all_of(figures.begin(), figures.end(), [](char c) { return digit(c) >= 0; }))
        return complaint("the colour has something other than digits 0-9 and a-f: " + measure::quoted(text));
    const auto at = [&](std::size_t i) { return digit(figures[i]); };
    if (figures.size() == 3) return Srgb{channel(at(0), at(0)), channel(at(1), at(1)), channel(at(2), at(2))};
    if (figures.size() == 6) return Srgb{channel(at(0), at(1)), channel(at(2), at(3)), channel(at(4), at(5))};
    return complaint("the colour has " + std::to_string(figures.size()) +
                     " digits where it needs 6 (or 3): " + measure::quoted(text));
}

std::string hex(const Srgb& colour) {
    std::string text = "#";
    write_channel(text, colour.r);
    write_channel(text, colour.g);
    write_channel(text, colour.b);
    return text;
}

}  // namespace battwright::colour
