#include "toml/scan.hpp"

#include <string>

namespace battwright::toml {
namespace {

constexpr int most_dots = 8;

// Just past the string that starts at `at` with a quote; an unclosed one ends with its line or the text.
std::size_t past_string(std::string_view text, std::size_t at) {
    const char quote = text[at];
    const bool escapes = quote == '"';
    const std::string triple(3, quote);
    const bool lines = text.substr(at).starts_with(triple);
    const std::size_t closing = lines ? triple.size() : 1;
    std::size_t run = 0;
    for (at += closing; at < text.size(); ++at) {
        if (text[at] == '\n' && !lines) return at;
        if (text[at] == '\\' && escapes) {
            ++at;
            run = 0;
            continue;
        }
        run = text[at] == quote ? run + 1 : 0;
        if (run < closing) continue;
        ++at;
        // A string of several lines may end in quotes of its own.
        while (lines && at < text.size() && text[at] == quote) ++at;
        return at;
    }
    return text.size();
}

std::size_t past_line(std::string_view text, std::size_t at) {
    const std::size_t end = text.find('\n', at);
    return end == std::string_view::npos ? text.size() : end;
}

bool ends_key(char c) {
    return c == '\n' || c == '=' || c == ',' || c == '[' || c == ']' || c == '{' || c == '}';
}

}  // namespace

Place place_of(std::string_view text, std::size_t byte) {
    Place place{1, 1};
    for (std::size_t i = 0; i < byte && i < text.size(); ++i) {
        const auto c = static_cast<unsigned char>(text[i]);
        if (c == '\n') {
            ++place.line;
            place.column = 1;
        } else if ((c & 0xc0u) != 0x80u) {
            ++place.column;
        }
    }
    return place;
}

Scan scan(std::string_view text) {
    Scan seen;
    int dots = 0;
    std::size_t at = 0;
    while (at < text.size()) {
        const char c = text[at];
        if (c == '"' || c == '\'') {
            at = past_string(text, at);
            continue;
        }
        if (c == '#') {
            seen.comments = true;
            at = past_line(text, at);
            continue;
        }
        if (ends_key(c)) dots = 0;
        if (c == '.' && ++dots > most_dots && seen.too_deep == std::string_view::npos) seen.too_deep = at;
        ++at;
    }
    return seen;
}

}  // namespace battwright::toml
