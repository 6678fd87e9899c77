// Bounds, totals and colours as a person writes them.
#include "shelving/wishes.hpp"

#include <doctest/doctest.h>

#include "colour/spaces.hpp"

using namespace battwright;
using shelving::parse_share_bound;
using shelving::parse_target;
using shelving::parse_total;
using solve::ShareOf;

namespace {

const fibre::Catalogue& whole_catalogue() {
    return fibre::Catalogue::builtin();
}

std::vector<solve::Lot> two_lots() {
    std::vector<solve::Lot> lots(2);
    lots[0].id = "KF7R3X";
    lots[0].name = "Kelp at low water";
    lots[1].id = std::to_string(2);
    return lots;
}

solve::ShareBound bound(const std::string& text) {
    const auto read = parse_share_bound(text, whole_catalogue(), two_lots());
    CAPTURE(text);
    REQUIRE(read);
    return *read;
}

}  // namespace

TEST_CASE("a bound is read in every way it may be written") {
    struct Row {
        const char* text;
        ShareOf of;
        const char* what;
        double least, most;
    };
    const Row rows[] = {{"wool >= 60 %", ShareOf::family, "wool", 60.0, 100.0},
                        {"Wool at least 60%", ShareOf::family, "wool", 60.0, 100.0},
                        {"wool \u2265 60 %", ShareOf::family, "wool", 60.0, 100.0},
                        {"sparkle <= 3 %", ShareOf::family, "sparkle", 0.0, 3.0},
                        {"sparkle at most 3 percent", ShareOf::family, "sparkle", 0.0, 3.0},
                        {"silk 10-20 %", ShareOf::family, "silk", 10.0, 20.0},
                        {"silk 10 % - 20 %", ShareOf::family, "silk", 10.0, 20.0},
                        {"silk 10 to 20 %", ShareOf::family, "silk", 10.0, 20.0},
                        {"silk = 12.5 %", ShareOf::family, "silk", 12.5, 12.5},
                        {"silk 12.5 %", ShareOf::family, "silk", 12.5, 12.5},
                        {"merino-fine>=30%", ShareOf::kind, "merino-fine", 30.0, 100.0},
                        {"Merino, fine 30-40 %", ShareOf::kind, "merino-fine", 30.0, 40.0},
                        {"Tussah silk >= 30 %", ShareOf::kind, "tussah-silk", 30.0, 100.0},
                        {"BFL 30-40 %", ShareOf::kind, "bluefaced-leicester", 30.0, 40.0},
                        {"kf7r3x >= 5 %", ShareOf::lot, "KF7R3X", 5.0, 100.0},
                        {"Kelp at low water <= 5 %", ShareOf::lot, "KF7R3X", 0.0, 5.0},
                        {"2 10-20 %", ShareOf::lot, "2", 10.0, 20.0}};
    for (const Row& row : rows) {
        CAPTURE(row.text);
        const auto read = bound(row.text);
        CHECK(read.of == row.of);
        CHECK(read.what == row.what);
        CHECK(read.least_pct == row.least);
        CHECK(read.most_pct == row.most);
    }
}

TEST_CASE("every family and every kind can be bounded") {
    for (const auto& kind : whole_catalogue().kinds()) {
        CAPTURE(kind.id);
        const auto read = bound(std::string(kind.id).append(" 10-20 %"));
        CHECK(read.of != ShareOf::lot);
        const auto family = bound(std::string(fibre::word_for(kind.family)).append(" <= 3 %"));
        CHECK(family.of == ShareOf::family);
    }
}

TEST_CASE("a bad bound is one complaint that says how to mend it") {
    const char* bad[] = {"",
                         "wool",
                         ">= 60 %",
                         "wool >=",
                         "wool >= 60",
                         "wool >= sixty %",
                         "wool >= 110 %",
                         "wool >= -1 %",
                         "silk 20-10 %",
                         "wol >= 60 %",
                         "merinofine 3 %",
                         "wool >= nan %",
                         "wool > > 3 %"};
    for (const char* text : bad) {
        CAPTURE(text);
        const auto read = parse_share_bound(text, whole_catalogue(), two_lots());
        REQUIRE_FALSE(read);
        CHECK_FALSE(read.error().what.empty());
        CHECK_FALSE(read.error().mend.empty());
    }
    const auto near = parse_share_bound("wol >= 60 %", whole_catalogue(), {});
    CHECK(near.error().mend.find("wool") != std::string::npos);
    const auto several = parse_share_bound("merino >= 60 %", whole_catalogue(), two_lots());
    CHECK(several.error().mend == "did you mean merino-extrafine, merino-fine or merino-medium?");
}

TEST_CASE("a total is a weight, a range or one end of it") {
    const auto fixed = parse_total("100 g");
    REQUIRE(fixed);
    CHECK(*fixed->least_grams == 100.0);
    CHECK(*fixed->most_grams == 100.0);
    for (const char* text : {"80-120 g", "80 g - 120 g", "80 to 120 g", " 80 g\u2013120 g "}) {
        CAPTURE(text);
        const auto range = parse_total(text);
        REQUIRE(range);
        CHECK(*range->least_grams == 80.0);
        CHECK(*range->most_grams == 120.0);
    }
    const auto least = parse_total(">= 80 g");
    REQUIRE(least);
    CHECK(*least->least_grams == 80.0);
    CHECK_FALSE(least->most_grams);
    const auto most = parse_total("at most 4 oz");
    REQUIRE(most);
    CHECK_FALSE(most->least_grams);
    // International yard and pound agreement of 1959.
    CHECK(*most->most_grams == doctest::Approx(4.0 * 453.59237 / 16.0));
    for (const char* text : {"", "100", "0 g", "-5 g", "120-80 g", "80-120", "80 mm", ">= ", "a to b"}) {
        CAPTURE(text);
        const auto read = parse_total(text);
        REQUIRE_FALSE(read);
        CHECK_FALSE(read.error().mend.empty());
    }
}

TEST_CASE("a total reads back as it prints") {
    using measure::MassUnit;
    const solve::Total totals[] = {{100.0, 100.0}, {80.0, 120.5}, {80.0, {}}, {{}, 120.0}};
    for (const auto& total : totals) {
        for (const MassUnit unit : {MassUnit::gram, MassUnit::ounce}) {
            const std::string text = shelving::print_total(total, unit);
            CAPTURE(text);
            const auto read = parse_total(text);
            REQUIRE(read);
            CHECK(read->least_grams.has_value() == total.least_grams.has_value());
            CHECK(read->most_grams.has_value() == total.most_grams.has_value());
            CHECK(read->least_grams.value_or(0.0) == doctest::Approx(total.least_grams.value_or(0.0)));
            CHECK(read->most_grams.value_or(0.0) == doctest::Approx(total.most_grams.value_or(0.0)));
        }
    }
    CHECK(shelving::print_total({}, MassUnit::gram).empty());
}

TEST_CASE("a target is hex or Lab, or none of ours") {
    const auto hex = parse_target("#2f5d50");
    REQUIRE(hex);
    REQUIRE(*hex);
    CHECK(colour::ciede2000((*hex)->lab, colour::lab(*colour::parse_hex("#2f5d50"))) < 0.05);
    const auto named = parse_target("dark blue");
    REQUIRE(named);
    REQUIRE(*named);
    // CSS Color Module Level 4, 6.1.
    CHECK(colour::ciede2000((*named)->lab, colour::lab(*colour::parse_hex("#00008b"))) < 0.05);
    const auto lab = parse_target("50, 10,-20");
    REQUIRE(lab);
    REQUIRE(*lab);
    CHECK((*lab)->lab.l == 50.0);
    CHECK((*lab)->lab.a == 10.0);
    CHECK((*lab)->lab.b == -20.0);
    for (const char* text : {"kelp.toml", "", "blends/50,10.toml", "50"}) {
        CAPTURE(text);
        CHECK_FALSE(parse_target(text));
    }
    for (const char* text : {"#2f5d5", "#ggg", "50,10", "50,10,-20,3", "50,,1", "110,10,-20", "50,10,-900",
                             "50,160,0", "50,0,-160"}) {
        CAPTURE(text);
        const auto read = parse_target(text);
        REQUIRE(read);
        CHECK_FALSE(*read);
    }
}
