#include "command/units.hpp"

#include "command/complain.hpp"
#include "measure/unit_tables.hpp"

namespace battwright::command {
namespace {

template <class Row>
bool is_printed(const Row& row) {
    if constexpr (requires { row.printed; }) return row.printed;
    return true;
}

template <class Row, std::size_t n>
std::string words_printed(const std::array<Row, n>& rows) {
    std::vector<std::string> words;
    for (const Row& row : rows)
        if (is_printed(row)) words.emplace_back(row.word);
    return text::listed(words, "or");
}

template <class Row, std::size_t n>
auto unit_printed(const std::array<Row, n>& rows, const std::string& word, const std::string& noun,
                  const char* option) {
    for (const Row& row : rows)
        if (row.word == word && is_printed(row)) return row.value;
    fail("no " + noun + " unit '" + word + "'", "use " + words_printed(rows), option);
}

}  // namespace

Units parse_units(const std::string& weights, const std::string& lengths) {
    return {unit_printed(measure::mass_units, weights, "weight", "--weights"),
            unit_printed(measure::length_units, lengths, "length", "--lengths")};
}

measure::YarnLengthUnit yarn_length_unit(const std::string& lengths) {
    return unit_printed(measure::yarn_length_units, lengths, "yarn length", "--lengths");
}

std::string mass_units_printed() {
    return words_printed(measure::mass_units);
}
std::string length_units_printed() {
    return words_printed(measure::length_units);
}
std::string yarn_length_units_printed() {
    return words_printed(measure::yarn_length_units);
}

}  // namespace battwright::command
