// Counts and compact diameters, against their definitions and handbook examples.
#include "yarn/count.hpp"

#include <doctest/doctest.h>

#include <array>
#include <cmath>

using namespace battwright;
using doctest::Approx;
using yarn::CountSystem;

namespace {

double yards_per_pound_of(const char* text) {
    const auto count = yarn::parse_count(text);
    REQUIRE(count.has_value());
    return yarn::yards_per_pound(yarn::tex_of(*count));
}

}  // namespace

TEST_CASE("constants of the count systems") {
    // ISO 1144 for tex; pound and yard of the agreement of 1959; hanks of 560 and 840 yd by definition.
    CHECK(std::abs(yarn::yards_per_pound(1.0) - 496054.65) < 0.01);
    CHECK(std::abs(yarn::count_from(1.0, CountSystem::worsted) - 885.8) < 0.05);
    CHECK(std::abs(yarn::count_from(1.0, CountSystem::cotton) - 590.5) < 0.05);
    CHECK(yarn::count_from(1.0, CountSystem::metric) == Approx(1000.0));
    CHECK(yarn::count_from(1.0, CountSystem::denier) == Approx(9.0));
    CHECK(yarn::count_from(1.0, CountSystem::decitex) == Approx(10.0));
    CHECK(yarn::metres_per_100_g(250.0) == Approx(400.0));
}

TEST_CASE("plied counts as the trade writes them") {
    // Count systems by definition: the worked examples of the project's check values.
    CHECK(yards_per_pound_of("2/24 worsted") == Approx(6720.0).epsilon(1e-12));
    CHECK(yards_per_pound_of("2/28 worsted") == Approx(7840.0).epsilon(1e-12));
    CHECK(yards_per_pound_of("3/15 Nw") == Approx(2800.0).epsilon(1e-12));
    CHECK(yards_per_pound_of("16/2 cotton") == Approx(6720.0).epsilon(1e-12));
    CHECK(yards_per_pound_of("8/1 Ne") == Approx(6720.0).epsilon(1e-12));
    CHECK(yards_per_pound_of("20 / 2 ne") == Approx(8400.0).epsilon(1e-12));
    CHECK(yards_per_pound_of("6720 yd/lb") == Approx(6720.0).epsilon(1e-12));
    // Two ends of 30 tex are 60 tex; two of Nm 28 are 1000/14 tex.
    CHECK(yarn::tex_of(*yarn::parse_count("30/2 tex")) == Approx(60.0));
    CHECK(yarn::tex_of(*yarn::parse_count("2/28 Nm")) == Approx(1000.0 / 14.0));
    // Stranded embroidery cotton, six strands of two, is the most that goes by a plied count (from memory).
    CHECK(yarn::tex_of(*yarn::parse_count("12/40 Nm")) == Approx(12.0 * 25.0));
}

TEST_CASE("a count that cannot be read says how to write one") {
    for (const char* text : {"", "worsted", "2/24", "0/24 Nw", "2/0 Nw", "-3 tex", "2.5/24 Nw", "24/30 Nw",
                             "13/24 Nw", "60 stone", "1e999 tex", "inf tex", "2//24 Nw"}) {
        CAPTURE(text);
        const auto count = yarn::parse_count(text);
        REQUIRE_FALSE(count.has_value());
        CHECK(measure::to_line(count.error()).find("2/24 worsted") != std::string::npos);
    }
}

TEST_CASE("every count goes round and comes back to 1e-12") {
    constexpr std::array systems{
        CountSystem::tex,     CountSystem::decitex, CountSystem::denier,         CountSystem::metric,
        CountSystem::worsted, CountSystem::cotton,  CountSystem::yards_per_pound};
    for (double tex = 1.0; tex < 20000.0; tex *= 1.37) {
        for (const CountSystem system : systems)
            CHECK(std::abs(yarn::tex_from(yarn::count_from(tex, system), system) / tex - 1.0) < 1e-12);
    }
}

TEST_CASE("Ashenhurst's diameters per inch") {
    // A handbook's worked example, in the project's check values: 425 yd in 4 oz, worsted-spun, 37.1
    // diameters.
    const double tex = 1000.0 * 4.0 * measure::grams_per_ounce / (425.0 * measure::metres_per_yard);
    CHECK(yarn::yards_per_pound(tex) == Approx(1700.0));
    const double diameters = yarn::compact_diameters_per_inch(tex, yarn::ashenhurst_firm_worsted);
    CHECK(std::abs(diameters - 37.1) < 0.05);
    CHECK(yarn::compact_diameter_mm(tex, yarn::ashenhurst_firm_worsted) == Approx(25.4 / diameters));
    // A firmer yarn of the same grist is thinner.
    CHECK(yarn::ashenhurst_soft_woollen < yarn::ashenhurst_firm_worsted);
    CHECK(yarn::ashenhurst_firm_worsted < yarn::ashenhurst_very_firm);
    CHECK(yarn::compact_diameter_mm(0.0, 0.9) == 0.0);
}
