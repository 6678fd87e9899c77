// `battwright strip --view single|plied|swatch`: a picture, and a caption that says what is on it.
#include <doctest/doctest.h>

#include "program.hpp"

using program::blends;
using program::Outcome;
using program::run;
using program::Scratch;
using program::slurp;

TEST_CASE("the yarn is drawn as a PNG, and what is on show is told") {
    const Scratch scratch;
    const std::string recipe = "strip '" + blends + "dawn-tide.toml' -o yarn.png --width 400 --height 60";
    std::string last;
    for (const char* view : {"single", "plied", "swatch"}) {
        const Outcome outcome = run(scratch, recipe + " --view " + view);
        CHECK(outcome.code == 0);
        CHECK(outcome.err.empty());
        CHECK(outcome.out.find(" m of ") != std::string::npos);
        CHECK(outcome.out.find("from the start of the batt") != std::string::npos);
        CHECK(outcome.out.find("1 mm = ") != std::string::npos);
        const std::string png = slurp(scratch.folder / "yarn.png");
        REQUIRE(png.size() > 24);
        CHECK(png.substr(1, 3) == "PNG");
        CHECK(png != last);
        last = png;
    }
    // Elsewhere along a gradient the picture is another.
    const Outcome later = run(scratch, recipe + " --view swatch --from 60 --pull long-strip");
    CHECK(later.code == 0);
    CHECK(later.out.find("from 60 % of the way along") != std::string::npos);
    CHECK(slurp(scratch.folder / "yarn.png") != last);
}

TEST_CASE("a yarn picture asked for amiss: one line, exit code 2, nothing written") {
    const Scratch scratch;
    for (const char* wrong : {"--view plied --pull sideways", "--view single --from 120",
                              "--view single --from -1", "--view knitted"}) {
        CAPTURE(wrong);
        const Outcome outcome =
            run(scratch, "strip '" + blends + "dawn-tide.toml' -o x.png " + std::string(wrong));
        CHECK(outcome.code == 2);
        CHECK(std::count(outcome.err.begin(), outcome.err.end(), '\n') == 1);
        CHECK_FALSE(program::fs::exists(scratch.folder / "x.png"));
    }
}
