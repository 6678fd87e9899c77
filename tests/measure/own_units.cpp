// What the stash says, in the user's units. 1 oz = 28.349523125 g, 1 yd = 0.9144 m (1959, exact).
#include "measure/own_units.hpp"

#include <doctest/doctest.h>

using namespace battwright;

TEST_CASE("weights and lengths of a complaint are told in ounces and yards, other numbers and quotes stay") {
    const measure::OwnUnits own{measure::MassUnit::ounce, measure::YarnLengthUnit::yard};
    CHECK(measure::in_units("the batt weighs 56.7 g where 28.35 g were fed", own) ==
          "the batt weighs 2 oz where 1 oz were fed");
    CHECK(measure::in_units("the skein \"5 g left\" has 91.44 m left", own) ==
          "the skein \"5 g left\" has 100 yd left");
    CHECK(measure::in_units("there is no batt 12; 3 gulls, 2 mm, 4 m.", own) ==
          "there is no batt 12; 3 gulls, 2 mm, " +
              measure::print_yarn_length(4.0, measure::YarnLengthUnit::yard) + ".");
    CHECK(measure::in_units("60 g", {}) == "60 g");
    const auto complaint = measure::in_units(measure::Complaint{"40 g", "write 20 g", "weight"}, own);
    CHECK(complaint.what == measure::print_mass(40.0, measure::MassUnit::ounce));
    CHECK(complaint.mend == "write " + measure::print_mass(20.0, measure::MassUnit::ounce));
    CHECK(complaint.where == "weight");
}
