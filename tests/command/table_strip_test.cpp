// `battwright strip --table` and the views that are seen whole: a picture of the size asked for, its scale in
// it.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "program.hpp"

using program::blends;
using program::Outcome;
using program::run;
using program::Scratch;
using program::slurp;

namespace {

// A whole number of four bytes, the largest first (PNG, ISO/IEC 15948).
std::uint32_t number_at(const std::string& png, std::size_t at) {
    std::uint32_t value = 0;
    for (std::size_t i = 0; i < 4; ++i) value = (value << 8) | static_cast<unsigned char>(png[at + i]);
    return value;
}

}  // namespace

TEST_CASE("what lies on the table is written as a PNG of the size asked for that states its scale") {
    const Scratch scratch;
    const std::string recipe =
        "strip '" + blends + "dawn-tide.toml' -o t.png --width 520 --height 400 --replace";
    for (const char* view : {"edge --table", "face --table", "rolled", "roving", "rolags", "single --table",
                             "plied --table", "skein", "swatch --table", "face --each-pass"}) {
        CAPTURE(view);
        const Outcome outcome = run(scratch, recipe + " --view " + view);
        CHECK(outcome.code == 0);
        CHECK(outcome.err.empty());
        const std::size_t scale = outcome.out.find("1 mm = ");
        REQUIRE(scale != std::string::npos);
        const double told = std::stod(outcome.out.substr(scale + 7));
        const std::string png = slurp(scratch.folder / "t.png");
        REQUIRE(png.size() > 60);
        CHECK(number_at(png, 16) == 520);
        CHECK(number_at(png, 20) == 400);
        // Pixels per metre both ways.
        const std::size_t at = png.find("pHYs");
        REQUIRE(at != std::string::npos);
        CHECK(std::abs(number_at(png, at + 4) / 1000.0 - told) < 0.01 * told);
        CHECK(number_at(png, at + 4) == number_at(png, at + 8));
    }
    const Outcome inches = run(scratch, recipe + " --view face --table --lengths in");
    CHECK(inches.out.find(" in by ") != std::string::npos);
    const Outcome near = run(scratch, recipe + " --view face --zoom 4 --middle 20,80");
    const Outcome whole = run(scratch, recipe + " --view face --table");
    const auto scale_of = [](const Outcome& outcome) {
        return std::stod(outcome.out.substr(outcome.out.find("1 mm = ") + 7));
    };
    CHECK(scale_of(near) == doctest::Approx(4.0 * scale_of(whole)).epsilon(0.02));
}

TEST_CASE("a table asked for amiss: one line, exit code 2, nothing written") {
    const Scratch scratch;
    for (const char* wrong : {"--view long-strip --table", "--view face --zoom 0", "--view face --middle 30",
                              "--view face --middle 30,140", "--view face --table --lengths ells",
                              "--view coiled", "--view skein --width 20000"}) {
        CAPTURE(wrong);
        const Outcome outcome =
            run(scratch, "strip '" + blends + "dawn-tide.toml' -o x.png " + std::string(wrong));
        CHECK(outcome.code == 2);
        CHECK(std::count(outcome.err.begin(), outcome.err.end(), '\n') == 1);
        CHECK_FALSE(program::fs::exists(scratch.folder / "x.png"));
    }
}
