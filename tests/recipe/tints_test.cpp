#include "recipe/tints.hpp"

#include <doctest/doctest.h>

#include "colour/spaces.hpp"

using namespace battwright;

TEST_CASE(
    "a photo's palette becomes tints: each colour once in eight bits, the largest first, 100 % in all") {
    // The second and third differ by less than an eighth bit and are one.
    const colour::Palette palette{
        {{{0.2, 0.3, 0.4}, 36.04, 1.0}, {{0.5, 0.5, 0.5}, 33.33, 1.0}, {{0.5001, 0.5, 0.5}, 30.63, 1.0}},
        900};
    const auto tints = recipe::tints_of(palette);
    REQUIRE(tints.size() == 2);
    CHECK(colour::hex(tints[0].colour) == colour::hex({0.5, 0.5, 0.5}));
    CHECK(tints[0].colour == colour::parse_hex(colour::hex(tints[0].colour)).value());
    CHECK(tints[0].share_pct == doctest::Approx(64.0));
    CHECK(tints[0].share_pct + tints[1].share_pct == doctest::Approx(100.0));
    CHECK(recipe::tints_of({}).empty());
}
