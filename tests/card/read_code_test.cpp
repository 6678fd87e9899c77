// The recipe off a photo of a printed card. The photos are the printed page turned, blurred, unevenly lit and
// saved as JPEG by ImageMagick; the codes are libqrencode's, read by ZBar.
#include "card/read_code.hpp"

#include <algorithm>
#include <random>

#include "card/examples.hpp"
#include "card/layout.hpp"
#include "card/output.hpp"
#include "card/recipe_card.hpp"
#include "colour/spaces.hpp"
#include "strip/photo_file.hpp"

using namespace battwright;

namespace {

std::string printed_card(const examples::Scratch& scratch, const forecast::Forecast& f) {
    card::CardOptions options;
    options.date = "2026-03-21";
    const auto files = card::write(card::recipe_card(f, options), card::Paper::a5, scratch.path("card.png"));
    REQUIRE(files.has_value());
    return files->back().string();
}

measure::Expected<std::string> code_on(const std::string& path) {
    const auto photo = strip::load_photo(path);
    REQUIRE(photo.has_value());
    return card::code_in(*photo);
}

}  // namespace

TEST_CASE("the printed page, and photos of it, give the recipe back") {
    const examples::Scratch scratch;
    for (const char* name : {"dawn-tide", "low-tide-scraps"}) {
        CAPTURE(name);
        const auto f = examples::from_file(name);
        const std::string page = printed_card(scratch, f);
        const std::string photo = scratch.path("photo.jpg");
        for (const char* taken :
             {"", "-resize 160%", "-background '#8a7a60' -rotate 5",
              "-background '#404040' -rotate 93 -blur 0x1.2",
              "-background white -gravity center -extent 140%x140% -sigmoidal-contrast 3 -modulate 60"}) {
            CAPTURE(taken);
            examples::output_of("convert '" + page + "' " + taken + " -quality 85 '" + photo + "'");
            const auto text = code_on(photo);
            REQUIRE(text.has_value());
            const auto again = examples::forecast_of(examples::recipe_of(*text));
            CHECK(again.total_grams == doctest::Approx(f.total_grams).epsilon(1e-12));
            CHECK(colour::hex(again.colour.srgb) == colour::hex(f.colour.srgb));
            CHECK(again.components.size() == f.components.size());
        }
    }
}

TEST_CASE("letters outside ASCII come back as they were") {
    const examples::Scratch scratch;
    auto f = examples::from_file("harbour-heather");
    f.recipe.name = "M\u00f6we und Tang, \u6d77\u85fb";
    const auto text = code_on(printed_card(scratch, f));
    REQUIRE(text.has_value());
    CHECK(examples::recipe_of(*text).name == f.recipe.name);
}

TEST_CASE("a code under a camera's grain is read from further off, where the grain is gone") {
    card::Page page;
    const std::string text = "ebb and flood";
    page.blocks.emplace_back(card::Code{text, "", ""});
    const card::Laid laid = card::lay_out(page, card::Paper::a6);
    strip::Image photo = card::raster(laid, 0, 300.0);
    // The code's corner alone, each dot as large as makes 1,300 px of it.
    const int side = static_cast<int>(laid.sides[0].placed[0].width / 72.0 * 300.0) + 90;
    strip::Image near{1300, 1300, {}};
    std::mt19937 random(5);
    for (int y = 0; y < 1300; ++y)
        for (int x = 0; x < 1300; ++x)
            for (int c = 0; c < 3; ++c) {
                const auto at =
                    static_cast<std::size_t>(3 * (y * side / 1300 * photo.width + x * side / 1300));
                const double grain = 20.0 * (static_cast<double>(random() % 1001) / 500.0 - 1.0);
                near.rgb.push_back(
                    static_cast<std::uint8_t>(std::clamp(60.0 + 0.5 * photo.rgb[at] + grain, 0.0, 255.0)));
            }
    const auto read = card::code_in(near);
    REQUIRE(read.has_value());
    CHECK(*read == text);
}

TEST_CASE("a picture without a code is told") {
    strip::Image grey{900, 700, std::vector<std::uint8_t>(900 * 700 * 3, 130)};
    const auto none = card::code_in(grey);
    REQUIRE_FALSE(none.has_value());
    CHECK_FALSE(none.error().mend.empty());
    CHECK_FALSE(card::code_in({1, 1, {0, 0, 0}}).has_value());
}
