// How far the colour may be off: bounds that follow from the definition, and Wei, Wan, Li (2017) for the
// model.
#include "forecast/colour_doubt.hpp"
#include "forecast/foretold.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <string>

using namespace battwright;

namespace {

forecast::Forecast made(const std::string& components) {
    return testing::foretold("format = 1\n" + components);
}

std::string part(const std::string& fibre, const std::string& colour, int grams,
                 const std::string& from = "photo") {
    return "[[component]]\nfibre = \"" + fibre + "\"\n" +
           (colour.empty() ? "" : "colour = \"" + colour + "\"\n") +
           (colour.empty() || from.empty() ? "" : "colour_from = \"" + from + "\"\n") + "weight = \"" +
           std::to_string(grams) + " g\"\n";
}

}  // namespace

TEST_CASE("one fibre: its own doubt and the model's, as errors that do not know of each other") {
    const auto doubt = forecast::colour_doubt(made(part("corriedale", "teal", 40)));
    // Root of the sum of squares: 5.0 by hand of a phone's camera, 1.23 of the model.
    CHECK(doubt.blend_de00 == doctest::Approx(5.149).epsilon(0.03));
    const auto natural = forecast::colour_doubt(made(part("corriedale", "", 40)));
    CHECK(natural.blend_de00 < doubt.blend_de00);
    CHECK(natural.blend_de00 > 1.23);
}

TEST_CASE("where a colour is from says how sure it is") {
    const auto doubt = [](const std::string& from) {
        return forecast::colour_doubt(made(part("corriedale", "teal", 40, from)));
    };
    // Color Research and Application 22 (1997): two people's matches lie 2.5 apart, before any screen.
    CHECK(doubt("eye").components_de00.front() > 2.5);
    // Half of what a phone's camera gives without a chart, which is over 10.
    CHECK(doubt("photo").components_de00.front() == 5.0);
    CHECK(doubt("photo").components_de00.front() < doubt("eye").components_de00.front());
    // Dyers take 1 to 2 for the same colour; an instrument repeats itself within 0.15 on cloth.
    CHECK(doubt("tag").components_de00.front() <= 2.0);
    CHECK(doubt("tag").components_de00.front() >= 1.0);
    CHECK(doubt("measured").components_de00.front() >= 0.15);
    // With measured fibre what is left is the model's own 1.23 (Wei, Wan, Li 2017).
    CHECK(doubt("measured").blend_de00 == doctest::Approx(1.23).epsilon(0.1).scale(0.0));
    CHECK(doubt("tag").blend_de00 == doctest::Approx(std::hypot(2.0, 1.23)).epsilon(0.03).scale(0.0));
    // Nobody said: no surer than the eye.
    CHECK(doubt("").components_de00 == doubt("eye").components_de00);
    const auto words = forecast::origins_in_words(
        made(part("corriedale", "teal", 40, "tag") + part("romney", "", 20) + part("cormo", "red", 20, ""))
            .recipe);
    CHECK(words.find("a tag or a dye card may be 2 off") != std::string::npos);
    CHECK(words.find("undyed") != std::string::npos);
    CHECK(words.find("does not say") != std::string::npos);
}

TEST_CASE("many fibres of one colour are less in doubt than one, and never less than the model") {
    const auto one = forecast::colour_doubt(made(part("corriedale", "#2f5d50", 40)));
    const auto four =
        forecast::colour_doubt(made(part("corriedale", "#2f5d50", 10) + part("romney", "#2f5d50", 10) +
                                    part("cormo", "#2f5d50", 10) + part("polwarth", "#2f5d50", 10)));
    REQUIRE(four.components_de00.size() == 4);
    CHECK(four.components_de00.front() == one.components_de00.front());
    // Four independent errors of equal weight come to half of one.
    CHECK(four.blend_de00 == doctest::Approx(std::hypot(1.23, 2.5)).epsilon(0.08).scale(0.0));
}

TEST_CASE("the less sure colour counts by its weight") {
    // Colours near each other, so that weights alone decide (propagation of independent errors).
    const auto mostly =
        forecast::colour_doubt(made(part("corriedale", "", 4) + part("romney", "#e8e0d0", 36)));
    const auto little =
        forecast::colour_doubt(made(part("corriedale", "", 36) + part("romney", "#e8e0d0", 4)));
    CHECK(mostly.blend_de00 > little.blend_de00 + 1.0);
    CHECK(mostly.components_de00.back() > mostly.components_de00.front());
}
