#include "command/layout.hpp"

#include <algorithm>

namespace battwright::command {

std::size_t width_of(const std::string& text) {
    return static_cast<std::size_t>(
        std::count_if(text.begin(), text.end(), [](char c) { return (c & '\xC0') != '\x80'; }));
}
std::string left(const std::string& text, std::size_t width) {
    const std::size_t have = width_of(text);
    return text + std::string(have < width ? width - have : 1, ' ');
}
std::string right(const std::string& text, std::size_t width) {
    const std::size_t have = width_of(text);
    return std::string(have < width ? width - have : 0, ' ') + text;
}

std::string wrapped(const std::string& text, std::size_t indent) {
    constexpr std::size_t columns = 92;
    std::string result, line(indent, ' '), word;
    const auto flush = [&] {
        if (width_of(line) + width_of(word) + 1 > columns && width_of(line) > indent) {
            result += line + "\n";
            line = std::string(indent, ' ');
        }
        line += (width_of(line) > indent ? " " : "") + word;
        word.clear();
    };
    for (const char c : text) {
        if (c == ' ')
            flush();
        else
            word += c;
    }
    flush();
    return result + line + "\n";
}

}  // namespace battwright::command
