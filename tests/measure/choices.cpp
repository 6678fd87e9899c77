// The table that stands for an enum. That an incomplete one does not compile is asserted at compile time.
#include "measure/choices.hpp"

#include <doctest/doctest.h>

#include "measure/units.hpp"

using namespace battwright;

namespace {

enum class Tide { ebb, slack, flood };
constexpr std::array<measure::Word<Tide>, 3> tides{
    {{Tide::ebb, "ebb"}, {Tide::slack, "slack"}, {Tide::flood, "flood"}}};
constexpr std::array<measure::Word<Tide>, 2> one_missing{{{Tide::ebb, "ebb"}, {Tide::slack, "slack"}}};
constexpr std::array<measure::Word<Tide>, 3> out_of_order{
    {{Tide::slack, "slack"}, {Tide::ebb, "ebb"}, {Tide::flood, "flood"}}};

static_assert(measure::count_of<Tide>() == 3);
static_assert(measure::one_row_each(tides));
static_assert(!measure::one_row_each(one_missing));
static_assert(!measure::one_row_each(out_of_order));

}  // namespace

TEST_CASE("a word of a table is read in any case, another is a complaint that helps") {
    CHECK(measure::parse_word(tides, "Slack", "tide") == Tide::slack);
    CHECK(measure::to_line(measure::parse_word(tides, "flod", "tide").error()) ==
          "unknown tide \"flod\"; did you mean flood?");
    CHECK(measure::to_line(measure::parse_word(tides, "spring tide", "tide").error()) ==
          "unknown tide \"spring tide\"; write ebb, slack or flood");
    CHECK(measure::row_of(tides, Tide::flood).word == "flood");
}

TEST_CASE("a unit is known by every spelling of its row") {
    using measure::MassUnit;
    for (const auto unit : {MassUnit::gram, MassUnit::kilogram, MassUnit::ounce, MassUnit::pound})
        CHECK(measure::mass_unit_from(measure::word_for(unit)) == unit);
    CHECK(measure::mass_unit_from("Grammes") == MassUnit::gram);
    CHECK(measure::length_unit_from("\u2033") == measure::LengthUnit::inch);
    CHECK_FALSE(measure::mass_unit_from("gra"));
    CHECK_FALSE(measure::mass_unit_from("gram grams"));
    CHECK_FALSE(measure::mass_unit_from(""));
}
