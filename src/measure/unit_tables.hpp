// One table for each enum of units. What is read and written, shown, offered to choose and rounded follows
// from its rows.
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
    double scale_step;         // of a kitchen scale that shows this unit, in it: common practice, no source
    double fibre_step;         // as fine as fibre to card is told, in it
    bool printed = true;       // a command prints in it when it is asked to
    std::string_view label{};  // as the window offers it; empty: it does not
};
struct YarnLengthRow {
    YarnLengthUnit value;
    std::string_view word, also;
    double size;
    std::string_view name, plural;  // "5 g a metre"; "metres" at an axis
    double grist_grams;             // the weight whose length is the grist, and the words after that length
    std::string_view grist;
    double turns_metres;  // the length that turns and treadles at the wheel are told for, "an inch"
    std::string_view turns;
    int turns_decimals;
};
struct LengthRow {
    LengthUnit value;
    std::string_view word, also;
    double size;
    int decimals;              // as many as a person can use
    int fine_decimals;         // the same of a yarn's diameter
    double parts;              // of one of it that a hand can keep to
    double key_step;           // of an arrow key on the canvas, in it; so are the next two
    double ruler_step;         // between a ruler's numbers
    double axis_step;          // between a plot's
    YarnLengthUnit yarn;       // yarn's lengths are told in that beside it
    std::string_view axis;     // as a plot names it
    std::string_view label{};  // as the window offers it; empty: it does not
};

inline constexpr std::array<MassRow, 4> mass_units{{
    {MassUnit::gram, "g", "gm gram grams gramme grammes", 1.0, 0.1, 1.0, true, "grams"},
    {MassUnit::kilogram, "kg", "kilo kilos kilogram kilograms", 1000.0, 0.0001, 0.001, false},
    {MassUnit::ounce, "oz", "ounce ounces", grams_per_ounce, 0.01, 0.1, true, "ounces"},
    {MassUnit::pound, "lb", "lbs pound pounds", grams_per_pound, 0.001, 0.01},
}};
inline constexpr std::array<YarnLengthRow, 2> yarn_length_units{{
    {YarnLengthUnit::metre, "m", "metre metres meter meters", 1.0, "metre", "metres", 100.0, "m per 100 g",
     1.0, "a metre", 0},
    {YarnLengthUnit::yard, "yd", "yds yard yards", metres_per_yard, "yard", "yards", grams_per_pound, "yd/lb",
     0.001 * millimetres_per_inch, "an inch", 2},
}};
inline constexpr std::array<LengthRow, 3> length_units{{
    {.value = LengthUnit::millimetre,
     .word = "mm",
     .also = "millimetre millimetres millimeter millimeters",
     .size = 1.0,
     .decimals = 0,
     .fine_decimals = 2,
     .parts = 1.0,
     .key_step = 5.0,
     .ruler_step = 100.0,
     .axis_step = 25.0,
     .yarn = YarnLengthUnit::metre,
     .axis = "mm",
     .label = "millimetres"},
    {.value = LengthUnit::centimetre,
     .word = "cm",
     .also = "centimetre centimetres centimeter centimeters",
     .size = 10.0,
     .decimals = 1,
     .fine_decimals = 3,
     .parts = 10.0,
     .key_step = 0.5,
     .ruler_step = 10.0,
     .axis_step = 2.5,
     .yarn = YarnLengthUnit::metre,
     .axis = "cm"},
    {.value = LengthUnit::inch,
     .word = "in",
     .also = "inch inches \" '' \u2033 \u201d",
     .size = millimetres_per_inch,
     .decimals = 2,
     .fine_decimals = 3,
     .parts = 8.0,
     .key_step = 0.25,
     .ruler_step = 4.0,
     .axis_step = 1.0,
     .yarn = YarnLengthUnit::yard,
     .axis = "inches",
     .label = "inches"},
}};
static_assert(one_row_each(mass_units) && one_row_each(yarn_length_units) && one_row_each(length_units));

// The least a kitchen scale that shows this unit can tell.
constexpr double usual_scale_grams(MassUnit unit) {
    const MassRow& row = row_of(mass_units, unit);
    return row.scale_step * row.size;
}

constexpr YarnLengthUnit yarn_unit_beside(LengthUnit unit) {
    return row_of(length_units, unit).yarn;
}

// Whether `word` is one of the spellings in `also`, case ignored.
bool is_spelling(std::string_view word, std::string_view also);

template <class Row, std::size_t n>
std::optional<decltype(Row::value)> unit_from(const std::array<Row, n>& rows, std::string_view word) {
    for (const Row& row : rows)
        if (text::same_word(row.word, word) || is_spelling(word, row.also)) return row.value;
    return std::nullopt;
}

}  // namespace battwright::measure
