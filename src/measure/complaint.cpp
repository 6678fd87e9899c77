#include "measure/complaint.hpp"

#include <algorithm>

namespace battwright::measure {
namespace {

constexpr std::size_t longest_quote = 60;

bool is_control(char c) {
    return static_cast<unsigned char>(c) < 0x20 || c == 0x7f;
}

// Line breaks and tabs become spaces, other control bytes '?', so that one complaint stays one line.
std::string one_line(std::string text) {
    for (char& c : text) {
        if (c == '\n' || c == '\r' || c == '\t') {
            c = ' ';
        } else if (is_control(c)) {
            c = '?';
        }
    }
    return text;
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

}  // namespace

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
    std::string result = "\"";
    std::size_t at = 0;
    while (at < text.size() && at < longest_quote) {
        const std::size_t length = character_length(text, at);
        if (length == 0 || is_control(text[at])) {
            result += '?';
        } else {
            result += text.substr(at, length);
        }
        at += std::max<std::size_t>(length, 1);
    }
    return result + (at < text.size() ? "...\"" : "\"");
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
