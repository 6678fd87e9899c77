// Reading the quantities people write.
#include <array>
#include <charconv>
#include <cmath>
#include <optional>
#include <utility>

#include "measure/units.hpp"

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
bool is_space(char c) {
    return c == ' ' || c == '\t';
}

std::string_view trim(std::string_view text) {
    while (!text.empty() && is_space(text.front())) text.remove_prefix(1);
    while (!text.empty() && is_space(text.back())) text.remove_suffix(1);
    return text;
}

tl::unexpected<Complaint> complain(std::string what, std::string mend) {
    return tl::make_unexpected(Complaint{std::move(what), std::move(mend)});
}

std::string as_in(const Wanted& wanted) {
    return "as in \"" + std::string(wanted.example) + "\"";
}

// One plain decimal at the front of `rest`, taken off it. Nothing when there is none or it is too large.
std::optional<double> take_decimal(std::string_view& rest) {
    if (rest.empty() ||
        !(is_digit(rest.front()) || (rest.front() == '.' && rest.size() > 1 && is_digit(rest[1])))) {
        return std::nullopt;
    }
    double value = 0.0;
    const auto [end, error] = std::from_chars(rest.data(), rest.data() + rest.size(), value);
    if (error != std::errc{}) return std::nullopt;
    rest.remove_prefix(static_cast<std::size_t>(end - rest.data()));
    return value;
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
    std::string_view after = trim(rest);
    if (after.empty() || after.front() != '/') return std::nullopt;
    after.remove_prefix(1);
    after = trim(after);
    const auto divisor = take_decimal(after);
    if (divisor) rest = after;
    return divisor;
}

// "1/2", or a one-character fraction, after the whole number of "3 1/2".
std::optional<double> take_fraction(std::string_view& rest) {
    std::string_view after = trim(rest);
    if (const auto vulgar = take_vulgar(after)) {
        rest = after;
        return vulgar;
    }
    const auto top = take_decimal(after);
    if (!top) return std::nullopt;
    const auto bottom = take_divisor(after);
    if (!bottom) return std::nullopt;
    rest = after;
    return *top / *bottom;  // dividing by zero ends as "not a finite number"
}

// "3.5", "1/2", "3 1/2", "3\u00bd" at the front of `rest`.
std::optional<double> take_number(std::string_view& rest) {
    if (const auto vulgar = take_vulgar(rest)) return vulgar;
    const auto first = take_decimal(rest);
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
    std::string_view rest = trim(text);
    if (rest.empty())
        return complain("the " + noun + " is empty", "write a number and a unit, " + as_in(wanted));
    if (has_decimal_comma(rest)) {
        return complain("the " + noun + " " + measure::quoted(text) + " has a comma in its number",
                        "write a point for the decimal mark, as in " + measure::quoted(with_points(rest)));
    }
    const bool negative = rest.front() == '-' || rest.starts_with("\u2212");
    if (negative) rest.remove_prefix(rest.front() == '-' ? 1 : 3);
    rest = trim(rest);
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
    return Quantity{*value, std::string(trim(rest))};
}

bool same_word(std::string_view a, std::string_view b) {
    if (a.size() != b.size()) return false;
    for (std::size_t i = 0; i < a.size(); ++i) {
        const char lower = a[i] >= 'A' && a[i] <= 'Z' ? static_cast<char>(a[i] - 'A' + 'a') : a[i];
        if (lower != b[i]) return false;
    }
    return true;
}

template <class Unit>
using Words = std::pair<std::string_view, Unit>;

template <class Unit, std::size_t N>
Expected<Unit> find_unit(std::string_view word, std::string_view text,
                         const std::array<Words<Unit>, N>& known, const Wanted& wanted, const char* choices) {
    const std::string noun(wanted.noun);
    if (word.empty()) {
        return complain("the " + noun + " " + measure::quoted(text) + " has no unit",
                        std::string("add ") + choices + ", " + as_in(wanted));
    }
    if (word.size() > 1 && word.back() == '.') word.remove_suffix(1);
    for (const auto& [spelling, unit] : known) {
        if (same_word(word, spelling)) return unit;
    }
    return complain(
        "the " + noun + " " + measure::quoted(text) + " has an unknown unit " + measure::quoted(word),
        std::string("use ") + choices + ", " + as_in(wanted));
}

constexpr std::array<Words<MassUnit>, 18> mass_words{{{"g", MassUnit::gram},
                                                      {"gm", MassUnit::gram},
                                                      {"gram", MassUnit::gram},
                                                      {"grams", MassUnit::gram},
                                                      {"gramme", MassUnit::gram},
                                                      {"grammes", MassUnit::gram},
                                                      {"kg", MassUnit::kilogram},
                                                      {"kilo", MassUnit::kilogram},
                                                      {"kilos", MassUnit::kilogram},
                                                      {"kilogram", MassUnit::kilogram},
                                                      {"kilograms", MassUnit::kilogram},
                                                      {"oz", MassUnit::ounce},
                                                      {"ounce", MassUnit::ounce},
                                                      {"ounces", MassUnit::ounce},
                                                      {"lb", MassUnit::pound},
                                                      {"lbs", MassUnit::pound},
                                                      {"pound", MassUnit::pound},
                                                      {"pounds", MassUnit::pound}}};

constexpr std::array<Words<LengthUnit>, 17> length_words{{{"mm", LengthUnit::millimetre},
                                                          {"millimetre", LengthUnit::millimetre},
                                                          {"millimetres", LengthUnit::millimetre},
                                                          {"millimeter", LengthUnit::millimetre},
                                                          {"millimeters", LengthUnit::millimetre},
                                                          {"cm", LengthUnit::centimetre},
                                                          {"centimetre", LengthUnit::centimetre},
                                                          {"centimetres", LengthUnit::centimetre},
                                                          {"centimeter", LengthUnit::centimetre},
                                                          {"centimeters", LengthUnit::centimetre},
                                                          {"in", LengthUnit::inch},
                                                          {"inch", LengthUnit::inch},
                                                          {"inches", LengthUnit::inch},
                                                          {"\"", LengthUnit::inch},
                                                          {"''", LengthUnit::inch},
                                                          {"\u2033", LengthUnit::inch},
                                                          {"\u201d", LengthUnit::inch}}};

constexpr std::array<Words<YarnLengthUnit>, 9> yarn_words{{{"m", YarnLengthUnit::metre},
                                                           {"metre", YarnLengthUnit::metre},
                                                           {"metres", YarnLengthUnit::metre},
                                                           {"meter", YarnLengthUnit::metre},
                                                           {"meters", YarnLengthUnit::metre},
                                                           {"yd", YarnLengthUnit::yard},
                                                           {"yds", YarnLengthUnit::yard},
                                                           {"yard", YarnLengthUnit::yard},
                                                           {"yards", YarnLengthUnit::yard}}};

constexpr std::array<Words<int>, 7> diameter_words{{{"um", 0},
                                                    {"\u00b5m", 0},
                                                    {"\u03bcm", 0},
                                                    {"micron", 0},
                                                    {"microns", 0},
                                                    {"micrometre", 0},
                                                    {"micrometres", 0}}};

constexpr std::array<Words<int>, 4> percent_words{{{"%", 0}, {"percent", 0}, {"per cent", 0}, {"pct", 0}}};

}  // namespace

Expected<Quantity> parse_quantity(std::string_view text, std::string_view noun, std::string_view example) {
    return read_quantity(text, Wanted{noun, example});
}

Expected<Mass> parse_mass(std::string_view text) {
    constexpr Wanted wanted{"weight", "25 g"};
    const auto quantity = read_quantity(text, wanted);
    if (!quantity) return tl::make_unexpected(quantity.error());
    const auto unit = find_unit(quantity->unit, text, mass_words, wanted, "g, kg, oz or lb");
    if (!unit) return tl::make_unexpected(unit.error());
    const Mass mass{grams_from(quantity->value, *unit), *unit};
    if (!std::isfinite(mass.grams))
        return complain("the weight " + measure::quoted(text) + " is too large", "check it");
    return mass;
}

Expected<Length> parse_length(std::string_view text) {
    constexpr Wanted wanted{"length", "95 mm"};
    const auto quantity = read_quantity(text, wanted);
    if (!quantity) return tl::make_unexpected(quantity.error());
    const auto unit = find_unit(quantity->unit, text, length_words, wanted, "mm, cm or in");
    if (!unit) return tl::make_unexpected(unit.error());
    const Length length{millimetres_from(quantity->value, *unit), *unit};
    if (!std::isfinite(length.millimetres))
        return complain("the length " + measure::quoted(text) + " is too large", "check it");
    return length;
}

Expected<double> parse_yarn_length_metres(std::string_view text) {
    constexpr Wanted wanted{"yarn length", "400 m"};
    const auto quantity = read_quantity(text, wanted);
    if (!quantity) return tl::make_unexpected(quantity.error());
    const auto unit = find_unit(quantity->unit, text, yarn_words, wanted, "m or yd");
    if (!unit) return tl::make_unexpected(unit.error());
    return *unit == YarnLengthUnit::yard ? quantity->value * metres_per_yard : quantity->value;
}

Expected<double> parse_diameter_micrometres(std::string_view text) {
    constexpr Wanted wanted{"diameter", "21 um"};
    const auto quantity = read_quantity(text, wanted);
    if (!quantity) return tl::make_unexpected(quantity.error());
    const auto unit = find_unit(quantity->unit, text, diameter_words, wanted, "um or micron");
    if (!unit) return tl::make_unexpected(unit.error());
    return quantity->value;
}

Expected<double> parse_percent(std::string_view text) {
    constexpr Wanted wanted{"percentage", "60 %"};
    const auto quantity = read_quantity(text, wanted);
    if (!quantity) return tl::make_unexpected(quantity.error());
    const auto unit = find_unit(quantity->unit, text, percent_words, wanted, "%");
    if (!unit) return tl::make_unexpected(unit.error());
    return quantity->value;
}

Expected<double> parse_parts(std::string_view text) {
    constexpr Wanted wanted{"number of parts", "3"};
    const auto quantity = read_quantity(text, wanted);
    if (!quantity) return tl::make_unexpected(quantity.error());
    if (!quantity->unit.empty() && !same_word(quantity->unit, "part") &&
        !same_word(quantity->unit, "parts")) {
        return complain("the number of parts " + measure::quoted(text) + " has an unknown unit " +
                            measure::quoted(quantity->unit),
                        "write the number alone, " + as_in(wanted));
    }
    return quantity->value;
}

}  // namespace battwright::measure
