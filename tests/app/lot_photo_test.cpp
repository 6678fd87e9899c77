// Reading a lot's palette off a photo that was made up pixel by pixel.
#include "app/shelf/palette_reader.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <atomic>
#include <chrono>
#include <cmath>
#include <cstdint>
#include <memory>
#include <thread>

#include "colour/spaces.hpp"

using namespace battwright;

namespace {

// Paper (sRGB 243, as 0.9 of the light) on the left fifth, then two colours in the ratio 3 to 1, on a table.
struct Picture {
    static constexpr int width = 200, height = 100;
    std::vector<std::uint8_t> rgb;
    colour::Pixels pixels() const { return {rgb, width, height}; }
};

// What a lamp of that tint makes of a colour: each channel's light times a factor.
Picture picture(const colour::Srgb& first, const colour::Srgb& second, const colour::LinearRgb& lamp) {
    const colour::Srgb paper = colour::encoded({0.9, 0.9, 0.9}), table{0.2, 0.2, 0.2};
    Picture made;
    for (int y = 0; y < Picture::height; ++y) {
        for (int x = 0; x < Picture::width; ++x) {
            const bool fibre = x >= 60 && x < 180 && y >= 20 && y < 80;
            const colour::Srgb& colour = x < 40 ? paper : !fibre ? table : x < 150 ? first : second;
            const auto light = colour::linear(colour);
            const auto seen =
                colour::clipped(colour::encoded({light.r * lamp.r, light.g * lamp.g, light.b * lamp.b}));
            for (const double channel : {seen.r, seen.g, seen.b})
                made.rgb.push_back(static_cast<std::uint8_t>(std::lround(255.0 * channel)));
        }
    }
    return made;
}

double away(const colour::Srgb& a, const colour::Srgb& b) {
    return colour::ciede2000(colour::lab(a), colour::lab(b));
}

const colour::Srgb kelp{0.29, 0.35, 0.17}, winch{0.55, 0.27, 0.15};

app::PhotoMarks fibre_marked() {
    app::PhotoMarks marks;
    marks.fibre = {60.0, 20.0, 120.0, 60.0};
    return marks;
}

}  // namespace

TEST_CASE("the fibre's colours come out with their shares, the table and the paper do not") {
    const auto photo = picture(kelp, winch, {1.0, 1.0, 1.0});
    const auto palette = app::read_palette(photo.pixels(), fibre_marked());
    REQUIRE(palette);
    REQUIRE(palette->size() == 2);
    CHECK(away((*palette)[0].colour, kelp) < 1.0);
    CHECK(away((*palette)[1].colour, winch) < 1.0);
    CHECK((*palette)[0].share_pct == doctest::Approx(75.0).epsilon(0.02));
    CHECK((*palette)[0].share_pct + (*palette)[1].share_pct == doctest::Approx(100.0));
}

TEST_CASE("pointing at the paper takes a warm lamp out of the colours") {
    const auto photo = picture(kelp, winch, {1.0, 0.78, 0.55});
    auto marks = fibre_marked();
    const auto as_is = app::read_palette(photo.pixels(), marks);
    marks.white = colour::Point{20.0, 50.0};
    const auto put_right = app::read_palette(photo.pixels(), marks);
    auto over_the_paper = marks;
    over_the_paper.fibre = {10.0, 20.0, 120.0, 60.0};
    const auto refused = app::read_palette(photo.pixels(), over_the_paper);
    REQUIRE_FALSE(refused);
    CHECK(refused.error().where == "area");
    REQUIRE(as_is);
    REQUIRE(put_right);
    const auto nearest = [](const std::vector<recipe::Tint>& palette, const colour::Srgb& colour) {
        double least = 1e9;
        for (const auto& tint : palette) least = std::min(least, away(tint.colour, colour));
        return least;
    };
    CHECK(nearest(*put_right, kelp) < 3.0);
    CHECK(nearest(*put_right, winch) < 3.0);
    CHECK(nearest(*as_is, kelp) > 2.0 * nearest(*put_right, kelp));
}

TEST_CASE("at most as many colours as asked for; something black for white is refused") {
    const auto photo = picture(kelp, winch, {1.0, 1.0, 1.0});
    auto marks = fibre_marked();
    marks.colours = 1;
    CHECK(app::read_palette(photo.pixels(), marks).value().size() == 1);
    marks.fibre.reset();
    marks.colours = 0;
    CHECK(app::read_palette(photo.pixels(), marks).value().size() > 2);
    const Picture dark{std::vector<std::uint8_t>(3u * Picture::width * Picture::height, 0)};
    marks.white = colour::Point{5.0, 5.0};
    CHECK_FALSE(app::read_palette(dark.pixels(), marks));
}

TEST_CASE("a drag in any direction is a patch within the photo") {
    const auto patch = app::patch_between({150.0, 90.0}, {-20.0, 30.0}, 100, 80);
    CHECK(patch.x == 0.0);
    CHECK(patch.y == 30.0);
    CHECK(patch.width == 100.0);
    CHECK(patch.height == 50.0);
}

TEST_CASE("the palette is read beside the window's thread, and of many wishes the last one counts") {
    const auto photo = picture(kelp, winch, {1.0, 1.0, 1.0});
    const auto read = std::make_shared<const app::PhotoRead>(
        app::PhotoRead{"kelp.png", 1, strip::Image{Picture::width, Picture::height, photo.rgb}});
    std::atomic<int> woken = 0;
    app::PaletteReader reader([&woken] { ++woken; });
    CHECK_FALSE(reader.take());
    CHECK_FALSE(reader.busy());
    for (int colours = 1; colours <= 5; ++colours) {
        auto marks = fibre_marked();
        marks.colours = colours == 5 ? 1 : colours + 1;
        reader.read(read, marks);
    }
    std::shared_ptr<const app::PaletteRead> last;
    for (int i = 0; i < 3000 && reader.busy(); ++i) {
        if (auto taken = reader.take()) last = std::move(taken);
        std::this_thread::sleep_for(std::chrono::milliseconds(10));
    }
    REQUIRE(last);
    CHECK(last->photo == read);
    REQUIRE(last->palette);
    CHECK(last->palette->size() == 1);  // as the last wish said
    CHECK(woken > 0);
    CHECK_FALSE(reader.has_news());

    auto nowhere = fibre_marked();
    nowhere.white = colour::Point{100.0, 50.0};  // on the kelp, which is no white
    const auto by_hand = app::read_palette(photo.pixels(), nowhere);
    reader.read(read, nowhere);
    for (int i = 0; i < 3000 && !reader.has_news(); ++i)
        std::this_thread::sleep_for(std::chrono::milliseconds(10));
    const auto same = reader.take();
    REQUIRE(same);
    CHECK(same->palette.has_value() == by_hand.has_value());
}
