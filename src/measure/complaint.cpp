#include "measure/complaint.hpp"

#include <algorithm>

#include "measure/printable.hpp"

namespace battwright::measure {
namespace {

constexpr std::size_t longest_quote = 60;

// Line breaks and tabs become spaces, other control characters '?', so that one complaint stays one line.
std::string one_line(std::string text) {
    for (char& c : text)
        if (c == '\n' || c == '\r' || c == '\t') c = ' ';
    return printable(text, Lines::one);
}

unsigned byte_at(std::string_view text, std::size_t at) {
    return static_cast<unsigned char>(text[at]);
}

// How many bytes the character at `at` takes by its first byte, 0 when no character starts so.
std::size_t promised_length(unsigned first) {
    if (first < 0x80) return 1;
    if (first >= 0xc2 && first <= 0xdf) return 2;
    if (first >= 0xe0 && first <= 0xef) return 3;
    if (first >= 0xf0 && first <= 0xf4) return 4;
    return 0;
}

// Overlong forms, surrogates and code points past U+10FFFF show in the second byte.
bool second_byte_fits(unsigned first, unsigned second) {
    if (first == 0xe0) return second >= 0xa0;
    if (first == 0xed) return second <= 0x9f;
    if (first == 0xf0) return second >= 0x90;
    if (first == 0xf4) return second <= 0x8f;
    return true;
}

// Length of the whole, valid character at `at`, 0 when there is none.
std::size_t character_length(std::string_view text, std::size_t at) {
    const unsigned first = byte_at(text, at);
    const std::size_t length = promised_length(first);
    if (length == 0 || at + length > text.size()) return 0;
    for (std::size_t i = 1; i < length; ++i) {
        if ((byte_at(text, at + i) & 0xc0u) != 0x80u) return 0;
    }
    return length == 1 || second_byte_fits(first, byte_at(text, at + 1)) ? length : 0;
}

// Of a whole, valid character.
char32_t code_point(std::string_view character) {
    const unsigned first = byte_at(character, 0);
    if (character.size() == 1) return first;
    char32_t code = first & (0x7fu >> character.size());
    for (std::size_t i = 1; i < character.size(); ++i) code = (code << 6) | (byte_at(character, i) & 0x3fu);
    return code;
}

bool is_control(char32_t code) {
    if (code < 0x20 || (code >= 0x7f && code <= 0x9f)) return true;
    return code == 0x061c || code == 0x200e || code == 0x200f || (code >= 0x2028 && code <= 0x202e) ||
           (code >= 0x2066 && code <= 0x2069) || code == 0xfeff;
}

// Does the character at `at` stand as it is? 0 when it does not, else its length.
std::size_t plain_length(std::string_view text, std::size_t at, Lines lines) {
    const std::size_t length = character_length(text, at);
    if (length == 0) return 0;
    const char32_t code = code_point(text.substr(at, length));
    const bool line_end = code == '\n' || code == '\r' || code == '\t';
    return line_end ? (lines == Lines::many ? length : 0) : (is_control(code) ? 0 : length);
}

}  // namespace

bool has_control(std::string_view text, Lines lines) {
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t length = character_length(text, at);
        if (length > 0 && plain_length(text, at, lines) == 0) return true;
        at += std::max<std::size_t>(length, 1);
    }
    return false;
}

std::string printable(std::string_view text, Lines lines) {
    const auto plain = [](char c) { return c >= 0x20 && c < 0x7f; };
    if (std::all_of(text.begin(), text.end(), plain)) return std::string(text);
    std::string result;
    result.reserve(text.size());
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t length = plain_length(text, at, lines);
        if (length > 0)
            result += text.substr(at, length);
        else
            result += '?';
        at += std::max<std::size_t>(character_length(text, at), 1);
    }
    return result;
}

std::string to_line(const Complaint& complaint) {
    std::string line = complaint.where;
    if (complaint.line > 0) {
        if (!line.empty()) line += ':';
        line += std::to_string(complaint.line);
        if (complaint.column > 0) line += ':' + std::to_string(complaint.column);
    }
    if (!line.empty()) line += ": ";
    line += complaint.what;
    if (!complaint.mend.empty()) line += "; " + complaint.mend;
    return one_line(std::move(line));
}

std::string quoted(std::string_view text) {
    std::size_t end = 0;
    while (end < text.size() && end < longest_quote)
        end += std::max<std::size_t>(character_length(text, end), 1);
    return '"' + printable(text.substr(0, end), Lines::one) + (end < text.size() ? "...\"" : "\"");
}

std::size_t first_not_utf8(std::string_view text) {
    std::size_t at = 0;
    while (at < text.size()) {
        const std::size_t length = character_length(text, at);
        if (length == 0) return at;
        at += length;
    }
    return std::string_view::npos;
}

}  // namespace battwright::measure
