#include "measure/parts.hpp"

#include <doctest/doctest.h>

TEST_CASE("the middles of four quarters") {
    CHECK(battwright::measure::middle_of(0, 4) == 0.125);
    CHECK(battwright::measure::middle_of(3u, 4.0) == 0.875);
}
