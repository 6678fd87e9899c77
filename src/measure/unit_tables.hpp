// Inside this room: one table for each enum of units.
#pragma once

#include "measure/choices.hpp"
#include "measure/units.hpp"

namespace battwright::measure {

// The first column of a row is the unit, the second the word we write; `also`: the other spellings people
// use, parted by spaces; `size`: one of it in grams, metres or millimetres.
struct MassRow {
    MassUnit value;
    std::string_view word, also;
    double size;
    double scale_step;  // of a kitchen scale that shows this unit, in it
};
struct YarnLengthRow {
    YarnLengthUnit value;
    std::string_view word, also;
    double size;
};
struct LengthRow {
    LengthUnit value;
    std::string_view word, also;
    double size;
    int decimals;  // as many as a person can use
};

inline constexpr std::array<MassRow, 4> mass_units{{
    {MassUnit::gram, "g", "gm gram grams gramme grammes", 1.0, 0.1},
    {MassUnit::kilogram, "kg", "kilo kilos kilogram kilograms", 1000.0, 0.0001},
    {MassUnit::ounce, "oz", "ounce ounces", grams_per_ounce, 0.01},
    {MassUnit::pound, "lb", "lbs pound pounds", grams_per_pound, 0.001},
}};
inline constexpr std::array<YarnLengthRow, 2> yarn_length_units{{
    {YarnLengthUnit::metre, "m", "metre metres meter meters", 1.0},
    {YarnLengthUnit::yard, "yd", "yds yard yards", metres_per_yard},
}};
inline constexpr std::array<LengthRow, 3> length_units{{
    {LengthUnit::millimetre, "mm", "millimetre millimetres millimeter millimeters", 1.0, 0},
    {LengthUnit::centimetre, "cm", "centimetre centimetres centimeter centimeters", 10.0, 1},
    {LengthUnit::inch, "in", "inch inches \" '' \u2033 \u201d", millimetres_per_inch, 2},
}};
static_assert(one_row_each(mass_units) && one_row_each(yarn_length_units) && one_row_each(length_units));

// Whether `word` is one of the spellings in `also`, case ignored.
bool is_spelling(std::string_view word, std::string_view also);

template <class Row, std::size_t n>
std::optional<decltype(Row::value)> unit_from(const std::array<Row, n>& rows, std::string_view word) {
    for (const Row& row : rows)
        if (text::same_word(row.word, word) || is_spelling(word, row.also)) return row.value;
    return std::nullopt;
}

}  // namespace battwright::measure
