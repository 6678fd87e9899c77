// Reading the quantities people write.
#include <array>
#include <cmath>
#include <optional>
#include <utility>

#include "measure/unit_tables.hpp"
#include "measure/units.hpp"
#include "text/numbers.hpp"
#include "text/words.hpp"

namespace battwright::measure {
namespace {

// What a caller expects, for its complaints.
struct Wanted {
    std::string_view noun;     // "weight"
    std::string_view example;  // "25 g"
};

bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

tl::unexpected<Complaint> complain(std::string what, std::string mend) {
    return tl::make_unexpected(Complaint{std::move(what), std::move(mend)});
}

std::string as_in(const Wanted& wanted) {
    return "as in \"" + std::string(wanted.example) + "\"";
}

// The single-character fractions of keyboards and word processors.
std::optional<double> take_vulgar(std::string_view& rest) {
    struct Vulgar {
        std::string_view text;
        double value;
    };
    static constexpr std::array<Vulgar, 9> vulgars{{{"\u00bd", 1.0 / 2.0},
                                                    {"\u00bc", 1.0 / 4.0},
                                                    {"\u00be", 3.0 / 4.0},
                                                    {"\u2153", 1.0 / 3.0},
                                                    {"\u2154", 2.0 / 3.0},
                                                    {"\u215b", 1.0 / 8.0},
                                                    {"\u215c", 3.0 / 8.0},
                                                    {"\u215d", 5.0 / 8.0},
                                                    {"\u215e", 7.0 / 8.0}}};
    for (const Vulgar& vulgar : vulgars) {
        if (!rest.starts_with(vulgar.text)) continue;
        rest.remove_prefix(vulgar.text.size());
        return vulgar.value;
    }
    return std::nullopt;
}

// "/2" after a number: its divisor, taken off `rest`.
std::optional<double> take_divisor(std::string_view& rest) {
    std::string_view after = text::trimmed(rest);
    if (after.empty() || after.front() != '/') return std::nullopt;
    after.remove_prefix(1);
    after = text::trimmed(after);
    const auto divisor = text::take_decimal(after);
    if (divisor) rest = after;
    return divisor;
}

// "1/2", or a one-character fraction, after the whole number of "3 1/2".
std::optional<double> take_fraction(std::string_view& rest) {
    std::string_view after = text::trimmed(rest);
    if (const auto vulgar = take_vulgar(after)) {
        rest = after;
        return vulgar;
    }
    const auto top = text::take_decimal(after);
    if (!top) return std::nullopt;
    const auto bottom = take_divisor(after);
    if (!bottom) return std::nullopt;
    rest = after;
    return *top / *bottom;  // dividing by zero ends as "not a finite number"
}

// "3.5", "1/2", "3 1/2", "3\u00bd" at the front of `rest`.
std::optional<double> take_number(std::string_view& rest) {
    if (const auto vulgar = take_vulgar(rest)) return vulgar;
    const auto first = text::take_decimal(rest);
    if (!first) return std::nullopt;
    if (const auto divisor = take_divisor(rest)) return *first / *divisor;
    const auto fraction = take_fraction(rest);
    return *first + fraction.value_or(0.0);
}

// A comma between digits, as most of Europe writes it; which it means we must not guess.
bool has_decimal_comma(std::string_view text) {
    for (std::size_t i = 1; i + 1 < text.size(); ++i) {
        if (text[i] == ',' && is_digit(text[i - 1]) && is_digit(text[i + 1])) return true;
    }
    return false;
}

std::string with_points(std::string_view text) {
    std::string result(text);
    for (char& c : result) c = c == ',' ? '.' : c;
    return result;
}

Expected<Quantity> read_quantity(std::string_view text, const Wanted& wanted) {
    const std::string noun(wanted.noun);
    std::string_view rest = text::trimmed(text);
    if (rest.empty())
        return complain("the " + noun + " is empty", "write a number and a unit, " + as_in(wanted));
    if (has_decimal_comma(rest)) {
        return complain("the " + noun + " " + measure::quoted(text) + " has a comma in its number",
                        "write a point for the decimal mark, as in " + measure::quoted(with_points(rest)));
    }
    const bool negative = rest.front() == '-' || rest.starts_with("\u2212");
    if (negative) rest.remove_prefix(rest.front() == '-' ? 1 : 3);
    rest = text::trimmed(rest);
    const auto value = take_number(rest);
    if (!value) {
        return complain("the " + noun + " " + measure::quoted(text) + " does not start with a number",
                        "write a number and a unit, " + as_in(wanted));
    }
    if (!std::isfinite(*value)) {
        return complain("the " + noun + " " + measure::quoted(text) + " is not a finite number",
                        "write it " + as_in(wanted));
    }
    if (negative && *value != 0.0) {
        return complain("the " + noun + " is negative: " + measure::quoted(text),
                        "write it above zero, " + as_in(wanted));
    }
    return Quantity{*value, std::string(text::trimmed(rest))};
}

// A quantity's number, and its unit by `from`; `choices` are offered when it is none.
template <class From>
auto read_in(std::string_view text, const Wanted& wanted, const From& from, const std::string& choices)
    -> Expected<std::pair<double, typename decltype(from(text))::value_type>> {
    const auto quantity = read_quantity(text, wanted);
    if (!quantity) return tl::make_unexpected(quantity.error());
    const std::string noun(wanted.noun);
    std::string_view word = quantity->unit;
    if (word.empty()) {
        return complain("the " + noun + " " + quoted(text) + " has no unit",
                        "add " + choices + ", " + as_in(wanted));
    }
    if (word.size() > 1 && word.back() == '.') word.remove_suffix(1);
    if (const auto unit = from(word)) return std::pair{quantity->value, *unit};
    return complain("the " + noun + " " + quoted(text) + " has an unknown unit " + quoted(word),
                    "use " + choices + ", " + as_in(wanted));
}

template <class Rows>
std::string choices_of(const Rows& rows) {
    return text::listed(words_of(rows), "or");
}

// The one unit of a quantity that has no other.
std::optional<bool> diameter_unit_from(std::string_view word) {
    constexpr std::string_view spellings = "um \u00b5m \u03bcm micron microns micrometre micrometres";
    return is_spelling(word, spellings) ? std::optional(true) : std::nullopt;
}
std::optional<bool> percent_unit_from(std::string_view word) {
    const bool known = is_spelling(word, "% percent pct") || text::same_word(word, "per cent");
    return known ? std::optional(true) : std::nullopt;
}

double number_of(const std::pair<double, bool>& read) {
    return read.first;
}

}  // namespace

Expected<Quantity> parse_quantity(std::string_view text, std::string_view noun, std::string_view example) {
    return read_quantity(text, Wanted{noun, example});
}

Expected<Mass> parse_mass(std::string_view text) {
    const auto read = read_in(text, {"weight", "25 g"}, mass_unit_from, choices_of(mass_units));
    if (!read) return tl::make_unexpected(read.error());
    const Mass mass{grams_from(read->first, read->second), read->second};
    if (!std::isfinite(mass.grams))
        return complain("the weight " + measure::quoted(text) + " is too large", "check it");
    return mass;
}

Expected<Length> parse_length(std::string_view text) {
    const auto read = read_in(text, {"length", "95 mm"}, length_unit_from, choices_of(length_units));
    if (!read) return tl::make_unexpected(read.error());
    const Length length{millimetres_from(read->first, read->second), read->second};
    if (!std::isfinite(length.millimetres))
        return complain("the length " + measure::quoted(text) + " is too large", "check it");
    return length;
}

Expected<double> parse_yarn_length_metres(std::string_view text) {
    return read_in(text, {"yarn length", "400 m"}, yarn_length_unit_from, choices_of(yarn_length_units))
        .map([](const auto& read) { return read.first * row_of(yarn_length_units, read.second).size; });
}

Expected<double> parse_diameter_micrometres(std::string_view text) {
    return read_in(text, {"diameter", "21 um"}, diameter_unit_from, "um or micron").map(number_of);
}

Expected<double> parse_percent(std::string_view text) {
    return read_in(text, {"percentage", "60 %"}, percent_unit_from, "%").map(number_of);
}

Expected<double> parse_parts(std::string_view text) {
    constexpr Wanted wanted{"number of parts", "3"};
    const auto quantity = read_quantity(text, wanted);
    if (!quantity) return tl::make_unexpected(quantity.error());
    if (!quantity->unit.empty() && !text::same_word(quantity->unit, "part") &&
        !text::same_word(quantity->unit, "parts")) {
        return complain(
            "the number of parts " + quoted(text) + " has an unknown unit " + measure::quoted(quantity->unit),
            "write the number alone, " + as_in(wanted));
    }
    return quantity->value;
}

}  // namespace battwright::measure
