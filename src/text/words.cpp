#include "text/words.hpp"

#include <algorithm>
#include <sstream>

namespace battwright::text {
namespace {

bool is_letter_or_digit(char c) {
    const char low = lower(c);
    return (low >= 'a' && low <= 'z') || (c >= '0' && c <= '9');
}

}  // namespace

char lower(char c) {
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}

std::string lower(std::string_view text) {
    std::string result(text);
    for (char& c : result) c = lower(c);
    return result;
}

std::string capitalised(std::string text) {
    if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 'a' + 'A');
    return text;
}

bool same_word(std::string_view a, std::string_view b) {
    return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                      [](char x, char y) { return lower(x) == lower(y); });
}

std::string_view trimmed(std::string_view text) {
    constexpr std::string_view blank = " \t\r\n";
    const std::size_t first = text.find_first_not_of(blank);
    if (first == std::string_view::npos) return {};
    return text.substr(first, text.find_last_not_of(blank) - first + 1);
}

bool is_blank(std::string_view text) {
    return trimmed(text).empty();
}

std::string_view cut(std::string_view text, std::size_t most_bytes) {
    std::size_t end = std::min(text.size(), most_bytes);
    while (end > 0 && end < text.size() && (static_cast<unsigned char>(text[end]) & 0xc0u) == 0x80u) --end;
    return text.substr(0, end);
}

std::vector<std::string> split(std::string_view text) {
    std::istringstream stream{std::string(text)};
    std::vector<std::string> words;
    for (std::string word; stream >> word;) words.push_back(word);
    return words;
}

std::string listed(std::span<const std::string> words, std::string_view joint) {
    const std::string last = " " + std::string(joint) + " ";
    std::string text;
    for (std::size_t i = 0; i < words.size(); ++i) {
        if (i > 0) text += i + 1 == words.size() ? last : ", ";
        text += words[i];
    }
    return text;
}

std::string counted(std::int64_t count, std::string_view one, std::string_view many) {
    return std::to_string(count).append(" ").append(count == 1 ? one : many);
}

std::string file_stem(std::string_view name, std::string_view otherwise) {
    std::string stem;
    for (const char c : name) {
        if (is_letter_or_digit(c))
            stem += lower(c);
        else if (!stem.empty() && stem.back() != '-')
            stem += '-';
    }
    while (!stem.empty() && stem.back() == '-') stem.pop_back();
    return stem.empty() ? std::string(otherwise) : stem;
}

}  // namespace battwright::text
