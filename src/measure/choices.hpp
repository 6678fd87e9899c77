// One table for an enum: a row for each value, in the enum's order, checked by the compiler.
#pragma once

#include <algorithm>
#include <array>
#include <cstddef>
#include <string>
#include <string_view>
#include <type_traits>
#include <vector>

#include "measure/complaint.hpp"
#include "measure/nearest.hpp"
#include "text/believe.hpp"
#include "text/words.hpp"

namespace battwright::measure {

// The least a row holds; a table that needs more has a row type of its own that begins with these two.
template <class Enum>
struct Word {
    Enum value;
    std::string_view word;  // as files and options write it
};

// A value that has a name is spelt by it, any other as a cast: "(Manner)6" (GCC and Clang).
template <class Enum, Enum value>
consteval bool is_named() {
    const std::string_view spelt = __PRETTY_FUNCTION__;
    constexpr std::string_view before = "value = ";
    return spelt[spelt.rfind(before) + before.size()] != '(';
}

// How many values an enum has that counts from 0 without gaps.
template <class Enum, std::size_t from = 0>
consteval std::size_t count_of() {
    if constexpr (is_named<Enum, static_cast<Enum>(from)>()) {
        return count_of<Enum, from + 1>();
    } else {
        return from;
    }
}

// For a static_assert beside the table: a row each, none twice, none left out, in order.
template <class Row, std::size_t n>
consteval bool one_row_each(const std::array<Row, n>& rows) {
    using Enum = std::remove_cv_t<decltype(Row::value)>;
    if (n != count_of<Enum>()) return false;
    for (std::size_t i = 0; i < n; ++i)
        if (rows[i].value != static_cast<Enum>(i)) return false;
    return true;
}

// Precondition: the table has passed one_row_each().
template <class Row, std::size_t n>
constexpr const Row& row_of(const std::array<Row, n>& rows, decltype(Row::value) value) {
    const auto at = static_cast<std::size_t>(value);
    BATTWRIGHT_BELIEVE(at < n && rows[at].value == value);
    return rows[at];
}

template <class Row, std::size_t n>
std::vector<std::string> words_of(const std::array<Row, n>& rows) {
    std::vector<std::string> words;
    words.reserve(n);
    for (const Row& row : rows) words.emplace_back(row.word);
    return words;
}

// The complaint for a word that is none of `known`: "unknown twist "sfot"; did you mean soft?".
Complaint unknown_word(std::string_view text, std::string_view noun, const std::vector<std::string>& known);

// The value whose word is `text`, case ignored; else the complaint of unknown_word().
template <class Row, std::size_t n>
Expected<decltype(Row::value)> parse_word(const std::array<Row, n>& rows, std::string_view text,
                                          std::string_view noun) {
    const auto found = std::find_if(rows.begin(), rows.end(),
                                    [text](const Row& row) { return text::same_word(row.word, text); });
    if (found != rows.end()) return found->value;
    return tl::make_unexpected(unknown_word(text, noun, words_of(rows)));
}

}  // namespace battwright::measure
