// Colours out of photos: made-up photos whose colours are known, and Little CMS's opinion on white balance.
#include "colour/palette.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <random>

#include "colour/clusters.hpp"
#include "colour/spaces.hpp"
#include "lcms.hpp"

using namespace battwright;
using namespace battwright::colour;
using battwright::testing::lcms_d65;

namespace {

struct Photo {
    int width = 0, height = 0;
    std::vector<std::uint8_t> rgb;

    Pixels pixels() const { return {rgb, width, height}; }
};

Srgb colour_of(const char* hex) {
    return *parse_hex(hex);
}

// Codes with a normal error of `noise`, as a camera in poor light adds.
struct Camera {
    std::mt19937 random{7};
    double noise = 0.0;

    std::uint8_t code(double value) {
        std::normal_distribution<double> error(0.0, noise > 0.0 ? noise : 1.0);
        const double coded = 255.0 * value + (noise > 0.0 ? error(random) : 0.0);
        return static_cast<std::uint8_t>(std::clamp(std::round(coded), 0.0, 255.0));
    }
    void take(Photo& photo, const Srgb& c) {
        for (const double channel : {c.r, c.g, c.b}) photo.rgb.push_back(code(channel));
    }
};

template <class ColourAt>
Photo photo_of(int width, int height, double noise, const ColourAt& colour_at) {
    Photo photo{width, height, {}};
    Camera camera;
    camera.noise = noise;
    for (int y = 0; y < height; ++y)
        for (int x = 0; x < width; ++x) camera.take(photo, colour_at(x, y));
    return photo;
}

Photo plain(int width, int height, const char* hex, double noise = 0.0) {
    return photo_of(width, height, noise, [c = colour_of(hex)](int, int) { return c; });
}

// Stripes of the colours, their widths in tenths of the picture.
Photo striped(const std::vector<std::pair<const char*, int>>& stripes, double noise, int width = 300) {
    std::vector<Srgb> tenths;
    for (const auto& [hex, count] : stripes)
        for (int i = 0; i < count; ++i) tenths.push_back(colour_of(hex));
    REQUIRE(tenths.size() == 10);
    return photo_of(width, 200, noise,
                    [&](int x, int) { return tenths[static_cast<std::size_t>(10 * x / width)]; });
}

// The worst CIEDE2000 between the palette and what was painted, stripe by stripe.
double worst_of(const Palette& palette, const std::vector<std::pair<const char*, int>>& stripes) {
    double worst = 0.0;
    for (const auto& [hex, count] : stripes) {
        double nearest = 1e9;
        for (const Shade& shade : palette.shades)
            nearest = std::min(nearest, ciede2000(lab(colour_of(hex)), lab(shade.colour)));
        worst = std::max(worst, nearest);
    }
    return worst;
}

const std::vector<std::pair<const char*, int>> kelp_and_brass{{"#2f5d50", 5}, {"#b08d3c", 3}, {"#8c2f39", 2}};

}  // namespace

TEST_CASE("colours and shares of a striped photo come back, noise or not") {
    for (const double noise : {0.0, 4.0, 10.0}) {
        CAPTURE(noise);
        const Photo photo = striped(kelp_and_brass, noise);
        const auto palette = palette_of(photo.pixels(), {});
        REQUIRE(palette);
        REQUIRE(palette->shades.size() == 3);
        // A just noticeable difference is about 1 (from memory); 8-bit codes alone are about 0.2.
        CHECK(worst_of(*palette, kelp_and_brass) < (noise > 5.0 ? 1.5 : 0.6));
        CHECK(palette->shades[0].share_pct == doctest::Approx(50.0).epsilon(0.03));
        CHECK(palette->shades[1].share_pct == doctest::Approx(30.0).epsilon(0.05));
        CHECK(palette->shades[2].share_pct == doctest::Approx(20.0).epsilon(0.05));
    }
}

TEST_CASE("the number of colours is found for one to six colours under noise") {
    const std::vector<std::vector<std::pair<const char*, int>>> photos{
        {{"#7a6a8c", 10}},
        {{"#f2ead8", 7}, {"#1d2b3a", 3}},
        kelp_and_brass,
        {{"#d94f30", 4}, {"#3060a0", 2}, {"#f0d060", 2}, {"#205030", 2}},
        {{"#d94f30", 2}, {"#3060a0", 2}, {"#f0d060", 2}, {"#205030", 2}, {"#f4efe6", 2}},
        {{"#d94f30", 2}, {"#3060a0", 2}, {"#f0d060", 2}, {"#205030", 2}, {"#f4efe6", 1}, {"#50285a", 1}}};
    for (const auto& stripes : photos) {
        const Photo photo = striped(stripes, 5.0);
        const auto palette = palette_of(photo.pixels(), {});
        REQUIRE(palette);
        CAPTURE(stripes.size());
        CHECK(palette->shades.size() == stripes.size());
        CHECK(worst_of(*palette, stripes) < 1.0);
    }
}

TEST_CASE("shadow in the folds does not part one colour in two") {
    // Lightness falls by a third of its light across the lock, again and again.
    const LinearRgb lit = linear(colour_of("#5f7f9f"));
    const Photo photo = photo_of(200, 200, 3.0, [&](int x, int) {
        const double shade = 0.82 + 0.18 * std::sin(x / 9.0);
        return encoded({lit.r * shade, lit.g * shade, lit.b * shade});
    });
    const auto palette = palette_of(photo.pixels(), {});
    REQUIRE(palette);
    CHECK(palette->shades.size() == 1);
}

TEST_CASE("asked for so many colours, it gives no more, and none twice") {
    const Photo photo = striped(kelp_and_brass, 4.0);
    PaletteOptions wish;
    for (const int count : {1, 2, 3, 8, 12}) {
        wish.colours = count;
        const auto palette = palette_of(photo.pixels(), {}, wish);
        REQUIRE(palette);
        CHECK(palette->shades.size() == static_cast<std::size_t>(std::min(count, 3)));
        double sum = 0.0;
        for (std::size_t i = 0; i < palette->shades.size(); ++i) {
            sum += palette->shades[i].share_pct;
            for (std::size_t j = 0; j < i; ++j)
                CHECK(ciede2000(lab(palette->shades[i].colour), lab(palette->shades[j].colour), 2.0) >=
                      merge_de00);
        }
        CHECK(sum == doctest::Approx(100.0));
    }
}

TEST_CASE("a speck of dust is no colour of its own") {
    const Photo photo = photo_of(200, 200, 2.0, [](int x, int y) {
        return colour_of(x < 16 && y < 16 ? "#101010" : "#c9a06a");  // 0.64 % of the photo
    });
    const auto palette = palette_of(photo.pixels(), {});
    REQUIRE(palette);
    CHECK(palette->shades.size() == 1);
}

TEST_CASE("one colour or two: by their difference with lightness at half weight, and by their share") {
    PaletteOptions two;
    two.colours = 2;
    const auto shades = [&](const Photo& photo) {
        return palette_of(photo.pixels(), {}, two).value().shades.size();
    };
    // CIEDE2000 with kL = 2, as the textile trade weighs lightness (ISO 105-J03 for CMC 2:1): greys of L* 50
    // and 62 are 5.6 apart, of 50 and 64 are 6.4. That a person names them apart from about 6 on is common
    // practice, no source.
    const Lab dark{50.0, 0.0, 0.0};
    const auto photo_with = [&](double lightness) {
        const Srgb a = srgb_from(dark), b = srgb_from(Lab{lightness, 0.0, 0.0});
        return photo_of(200, 200, 0.0, [=](int x, int) { return x < 100 ? a : b; });
    };
    CHECK(shades(photo_with(62.0)) == 1);
    CHECK(shades(photo_with(64.0)) == 2);
    // A lash of another lock is 1.4 % of the photo, a colour 1.7 % (common practice, no source); a photo so
    // small is looked at whole.
    const auto spotted = [](int wide, int high) {
        return photo_of(100, 100, 0.0, [=](int x, int y) {
            return colour_of(x < wide && y < high ? "#d94f30" : "#3060a0");
        });
    };
    CHECK(shades(spotted(10, 14)) == 1);
    CHECK(shades(spotted(10, 17)) == 2);
}

TEST_CASE("lightness counts half, as for textiles: of three colours the two that differ in it go together") {
    // 20 of L* at half weight are 10, less than 11 of a*; ISO 105-J03 takes lightness half, too (CMC 2:1).
    const std::vector<Srgb> three{srgb_from(Lab{50.0, 0.0, 0.0}), srgb_from(Lab{70.0, 0.0, 0.0}),
                                  srgb_from(Lab{50.0, 11.0, 0.0})};
    const auto photo =
        photo_of(300, 100, 0.0, [&](int x, int) { return three[static_cast<std::size_t>(x / 100)]; });
    PaletteOptions two;
    two.colours = 2;
    const auto palette = palette_of(photo.pixels(), {}, two);
    REQUIRE(palette);
    REQUIRE(palette->shades.size() == 2);
    CHECK(lab(palette->shades[1].colour).a == doctest::Approx(11.0).epsilon(0.1));
}

TEST_CASE("an even spread cut in two has a gap of the square root of twelve") {
    // The standard deviation of an even spread is its width over sqrt(12); the halves' middles are that far
    // apart.
    std::vector<Eigen::Vector3d> points;
    Clusters halves{{{0.25, 0.0, 0.0}, {0.75, 0.0, 0.0}}, {}, 0.0};
    for (int i = 0; i < 1000; ++i) {
        points.emplace_back((i + 0.5) / 1000.0, 0.0, 0.0);
        halves.of.push_back(i < 500 ? 0 : 1);
    }
    CHECK(least_gap_between(points, halves) == doctest::Approx(std::sqrt(12.0)).epsilon(1e-3));
}

TEST_CASE("unasked, a photo is taken for eight colours and no more") {
    // Common practice, no source: more colours than that nobody mixes out of one photo.
    const std::vector<const char*> dyes{"#000000", "#ffffff", "#c00000", "#00a000", "#0000d0",
                                        "#e0d000", "#d000d0", "#00c0c0", "#804000", "#f09060"};
    const auto photo = photo_of(
        300, 100, 0.0, [&](int x, int) { return colour_of(dyes[static_cast<std::size_t>(x / 30)]); });
    CHECK(palette_of(photo.pixels(), {}).value().shades.size() == 8);
}

TEST_CASE("only the marked area counts, and an area over the edge is cut off") {
    const Photo photo = striped({{"#f2ead8", 5}, {"#1d2b3a", 5}}, 0.0, 100);
    const auto left = palette_of(photo.pixels(), rectangle(-50, -50, 99, 500));
    REQUIRE(left);
    REQUIRE(left->shades.size() == 1);
    CHECK(left->pixels_seen == 49 * 200);
    CHECK(hex(left->shades[0].colour) == "#f2ead8");
    // A triangle on each side of the middle: areas by hand, 1/2 * 40 * 200 and 1/2 * 20 * 200.
    const auto both =
        palette_of(photo.pixels(), {{10, 0}, {50, 100}, {70, 0}, {70, 200}, {50, 100}, {10, 200}});
    REQUIRE(both);
    REQUIRE(both->shades.size() == 2);
    CHECK(hex(both->shades[0].colour) == "#f2ead8");
    CHECK(both->shades[0].share_pct == doctest::Approx(200.0 / 3.0).epsilon(0.02));
}

TEST_CASE("the smallest photos, and areas of nothing") {
    const Photo one = plain(1, 1, "#2f5d50");
    const auto palette = palette_of(one.pixels(), {});
    REQUIRE(palette);
    REQUIRE(palette->shades.size() == 1);
    CHECK(hex(palette->shades[0].colour) == "#2f5d50");
    CHECK(palette->shades[0].spread_de00 == doctest::Approx(0.0));

    const Photo photo = plain(20, 20, "#808080");
    PaletteOptions wish;
    wish.colours = 5;
    CHECK(palette_of(photo.pixels(), {}, wish)->shades.size() == 1);
    const double bad = std::nan("");
    for (const Area& area :
         {rectangle(30, 30, 5, 5), rectangle(2, 2, 0, 5), rectangle(3.6, 3.6, 0.5, 0.5),
          rectangle(3.52, 3.0, 0.5, 2.0), Area{{1, 1}, {10, 10}}, Area{{1, 1}}, rectangle(bad, 0, 5, 5)}) {
        const auto refused = palette_of(photo.pixels(), area);
        REQUIRE_FALSE(refused);
        CHECK(refused.error().where == "area");
        CHECK_FALSE(refused.error().mend.empty());
    }
    CHECK_FALSE(palette_of(Pixels{}, {}));
    CHECK_FALSE(palette_of(Pixels{photo.rgb, 20, 21}, {}));
    wish.colours = 13;  // a dozen is what a person tells apart in a photo (common practice, no source)
    CHECK_FALSE(palette_of(photo.pixels(), {}, wish));
    wish.colours = -1;
    CHECK_FALSE(palette_of(photo.pixels(), {}, wish));
}

TEST_CASE("twice the same photo, twice the same digits") {
    const Photo photo = striped(kelp_and_brass, 8.0);
    const auto first = palette_of(photo.pixels(), {}), second = palette_of(photo.pixels(), {});
    REQUIRE(first->shades.size() == second->shades.size());
    for (std::size_t i = 0; i < first->shades.size(); ++i) {
        CHECK(first->shades[i].colour == second->shades[i].colour);
        CHECK(first->shades[i].share_pct == second->shades[i].share_pct);
    }
}

TEST_CASE("white balance is Little CMS's Bradford adaptation") {
    // A white sheet under a lamp, in a camera set to daylight: CIE A, x, y = 0.4476, 0.4075 (CIE 15).
    const cmsCIExyY lamp_xyy{0.4476, 0.4075, 1.0};
    cmsCIEXYZ lamp;
    cmsxyY2XYZ(&lamp, &lamp_xyy);
    WhiteBalance balance;
    balance.white = {100.0 * lamp.X, 100.0 * lamp.Y, 100.0 * lamp.Z};
    const cmsCIEXYZ d65 = lcms_d65();
    for (const char* hex : {"#2f5d50", "#b08d3c", "#8c2f39", "#808080", "#d8c38a"}) {
        const Xyz here = xyz_from(linear(colour_of(hex)));
        const cmsCIEXYZ from{here.x / 100.0, here.y / 100.0, here.z / 100.0};
        cmsCIEXYZ there;
        REQUIRE(cmsAdaptToIlluminant(&there, &lamp, &d65, &from));
        const Lab ours = lab(xyz_from(linear(balanced(colour_of(hex), balance))), srgb_white());
        const Lab theirs = lab(Xyz{100.0 * there.X, 100.0 * there.Y, 100.0 * there.Z}, srgb_white());
        // sRGB's matrix puts its white 0.02 from the D65 of x, y = 0.3127, 0.3290; no more is between us.
        CHECK(ciede2000(ours, theirs) < 0.05);
    }
}

TEST_CASE("pointing at white takes a lamp's tint away") {
    // The same cast on everything, as a lamp lays it in linear light.
    const auto lamplit = [](const char* hex) {
        const LinearRgb light = linear(colour_of(hex));
        return encoded({0.85 * light.r, 0.65 * light.g, 0.35 * light.b});
    };
    const Photo photo =
        photo_of(200, 100, 1.0, [&](int x, int) { return lamplit(x < 100 ? "#e8e8e8" : "#7d8a94"); });
    const auto balance = white_from(photo.pixels(), rectangle(10, 10, 60, 60));
    REQUIRE(balance);
    const auto sheet = palette_of(photo.pixels(), rectangle(0, 0, 100, 100), {1, 8, *balance});
    REQUIRE(sheet);
    const Lab white = lab(sheet->shades[0].colour);
    CHECK(std::hypot(white.a, white.b) < 0.5);
    const auto fibre = palette_of(photo.pixels(), rectangle(110, 0, 80, 100), {1, 8, *balance});
    const auto untouched = palette_of(photo.pixels(), rectangle(110, 0, 80, 100), {1, 8, {}});
    const Lab truth = lab(colour_of("#7d8a94"));
    // The exposure is kept, so lightness is not compared.
    const auto tint_off = [&](const Palette& p) {
        const Lab seen = lab(p.shades[0].colour);
        return ciede2000({truth.l, seen.a, seen.b}, truth);
    };
    CHECK(tint_off(*fibre) < 3.0);
    CHECK(tint_off(*untouched) > 15.0);

    const double sheet_reflects = xyz_from(linear(colour_of("#e8e8e8"))).y / 100.0;
    const auto exposed = white_from(photo.pixels(), rectangle(10, 10, 60, 60), sheet_reflects);
    REQUIRE(exposed);
    const auto put_right = palette_of(photo.pixels(), rectangle(110, 0, 80, 100), {1, 8, *exposed});
    CHECK(ciede2000(lab(put_right->shades[0].colour), truth) < 3.0);
}

TEST_CASE("pointing takes five by five pixels, and a fiftieth of a large photo") {
    // As a pipette does (common practice, no source).
    const auto side = [](int width, int height) {
        const Photo photo = plain(width, height, "#c0c0c0");
        const Area patch = patch_around({50.0, 40.0}, photo.pixels());
        CHECK(0.5 * (patch[0].x + patch[2].x) == doctest::Approx(50.0));
        CHECK(0.5 * (patch[0].y + patch[2].y) == doctest::Approx(40.0));
        return patch[2].x - patch[0].x;
    };
    CHECK(side(120, 90) == doctest::Approx(5.0));
    CHECK(side(800, 500) == doctest::Approx(10.0));
}

TEST_CASE("a neutral patch changes nothing") {
    const Photo photo = plain(10, 10, "#c0c0c0");
    const auto balance = white_from(photo.pixels(), {});
    REQUIRE(balance);
    for (const char* word : {"#2f5d50", "#ffffff", "#000000"})
        CHECK(hex(balanced(colour_of(word), *balance)) == word);
}

TEST_CASE("what cannot be white is refused in one line that says what to do") {
    const Photo burnt = plain(10, 10, "#ffffff"), dark = plain(10, 10, "#0a0a0a"),
                red = plain(10, 10, "#e00808"), one_channel = plain(10, 10, "#fef0e0"),
                fine = plain(10, 10, "#e0e0e0");
    const auto refusal = [](const Photo& photo, const Area& patch, std::optional<double> reflects = {}) {
        const auto balance = white_from(photo.pixels(), patch, reflects);
        REQUIRE_FALSE(balance);
        CHECK_FALSE(balance.error().mend.empty());
        return balance.error().what;
    };
    CHECK(refusal(burnt, {}).find("overexposed") != std::string::npos);
    CHECK(refusal(one_channel, {}).find("overexposed") != std::string::npos);
    CHECK(refusal(dark, {}).find("too dark") != std::string::npos);
    CHECK(refusal(red, {}).find("colour of its own") != std::string::npos);
    CHECK(refusal(fine, rectangle(20, 20, 3, 3)).find("no pixel") != std::string::npos);
    // Three hundredths of the light that fills the picture (common practice, no source): by IEC 61966-2-1
    // 0x32 is 0.0319, 0x2f 0.0284.
    CHECK(white_from(plain(10, 10, "#323232").pixels(), {}).has_value());
    CHECK(refusal(plain(10, 10, "#2f2f2f"), {}).find("too dark") != std::string::npos);
    // A channel of a hundredth of the brightest in linear light (IEC 61966-2-1: 0x16 is 0.0080, 0xe0 is
    // 0.745).
    CHECK(white_from(plain(10, 10, "#e0e016").pixels(), {}).has_value());
    CHECK(refusal(plain(10, 10, "#e0e014"), {}).find("colour of its own") != std::string::npos);
    for (const double reflects : {0.0, -1.0, 1.01, std::nan("")})
        CHECK(refusal(fine, {}, reflects).find("throws back") != std::string::npos);
}

namespace {

// Grain in four greys, in bands.
Photo banded(int width, int height) {
    Photo photo{width, height, {}};
    photo.rgb.resize(static_cast<std::size_t>(width) * static_cast<std::size_t>(height) * 3);
    std::mt19937 random(3);
    for (std::size_t i = 0; i < photo.rgb.size(); ++i) {
        const std::size_t column = i / 3 % static_cast<std::size_t>(width);
        photo.rgb[i] =
            static_cast<std::uint8_t>(4 * column / static_cast<std::size_t>(width) * 60 + random() % 24);
    }
    return photo;
}

// The best of a few, since other programs run beside the test.
double seconds_for(const Photo& photo) {
    double best = 1e9;
    for (int run = 0; run < 3; ++run) {
        const auto start = std::chrono::steady_clock::now();
        const auto palette = palette_of(photo.pixels(), {});
        const std::chrono::duration<double> took = std::chrono::steady_clock::now() - start;
        REQUIRE(palette);
        CHECK(palette->shades.size() == 4);
        CHECK(palette->pixels_seen <= 13'000);
        best = std::min(best, took.count());
    }
    return best;
}

}  // namespace

TEST_CASE("a photo of twelve million pixels takes hardly longer than a small one") {
    const double small = seconds_for(banded(120, 100)), large = seconds_for(banded(4000, 3000));
    MESSAGE("12,000 pixels: ", small, " s; 12,000,000: ", large, " s");
    CHECK(large < 4.0 * small);  // a thousand times the pixels
}
