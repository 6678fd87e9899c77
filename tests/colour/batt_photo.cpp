// Photos of batts made here with known colours, and lights of the CIE's tables (colord-data).
#include "colour/batt_photo.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>
#include <vector>

#include "colour/sighting.hpp"
#include "colour/spaces.hpp"

namespace batt_photo_test {

using namespace battwright;
using namespace battwright::colour;

namespace {

// White paper in the left 40 columns, fibre to the right, under a light, as a camera set to daylight takes
// it.
struct Photo {
    int width = 440, height = 240;
    std::vector<std::uint8_t> rgb;
    Pixels pixels() const { return {rgb, width, height}; }
};
constexpr double paper = 0.9;

// `fibre(x, y)`: XYZ under D65, Y = 100 for white; `light`: the lamp's white; grain in 8-bit steps.
template <class Fibre>
Photo taken(const Fibre& fibre, const Xyz& light, double exposure, double grain) {
    Photo photo;
    std::mt19937 random(7);
    std::normal_distribution<double> noise(0.0, 1.0);
    for (int y = 0; y < photo.height; ++y)
        for (int x = 0; x < photo.width; ++x) {
            const Xyz white = srgb_white();
            const Xyz truth =
                x < 40 ? Xyz{paper * white.x, paper * white.y, paper * white.z} : fibre(x - 40, y);
            const Xyz lit = adapted(truth, white, light);
            const Srgb c = encoded(linear_from({lit.x * exposure, lit.y * exposure, lit.z * exposure}));
            for (const double v : {c.r, c.g, c.b})
                photo.rgb.push_back(static_cast<std::uint8_t>(
                    std::clamp(std::lround(255.0 * v + grain * noise(random)), 0L, 255L)));
        }
    return photo;
}

Xyz of_lab(double l, double a, double b) {
    return xyz_from(Lab{l, a, b}, srgb_white());
}
const Area fibre_area = rectangle(40, 0, 400, 240);
WhiteBalance white_in(const Photo& photo) {
    const auto balance = white_from(photo.pixels(), rectangle(5, 5, 30, 200), paper);
    REQUIRE(balance.has_value());
    return *balance;
}
BattReading read(const Photo& photo, const PhotoScale& scale = {}) {
    const auto reading = read_batt(photo.pixels(), fibre_area, white_in(photo), scale);
    REQUIRE(reading.has_value());
    return *reading;
}
Xyz light_of(double x, double y) {
    return {100.0 * x / y, 100.0, 100.0 * (1.0 - x - y) / y};
}
// Chromaticities of CIE 15: D50, D65, F2 and A.
const Xyz d50 = light_of(0.34567, 0.35850), f2 = light_of(0.37208, 0.37529), a = light_of(0.44757, 0.40745);

}  // namespace

TEST_CASE("an even batt's colour comes back, whatever the daylight and the exposure") {
    for (const Xyz& light : {srgb_white(), d50})
        for (const double exposure : {0.4, 0.8}) {
            const Lab truth{46.0, 18.0, -22.0};
            const auto photo =
                taken([&](int, int) { return of_lab(truth.l, truth.a, truth.b); }, light, exposure, 2.0);
            const BattReading reading = read(photo);
            CHECK(ciede2000(reading.mean, truth) < 0.5);
            REQUIRE(reading.variation_de00.has_value());
            CHECK(*reading.variation_de00 < 0.3);
            CHECK_FALSE(reading.streak_mm.has_value());
            CHECK(reading.unfit == Unfit::none);
        }
}

TEST_CASE("places that differ are seen to differ by as much, grain or none") {
    // A board of 10 by 60 mm fields, two colours in turn: their mean distance from the mean of their light.
    const Lab one{60.0, 10.0, 20.0}, other{50.0, 0.0, 5.0};
    const Xyz p = of_lab(one.l, one.a, one.b), q = of_lab(other.l, other.a, other.b);
    const Lab middle = lab(Xyz{0.5 * (p.x + q.x), 0.5 * (p.y + q.y), 0.5 * (p.z + q.z)}, srgb_white());
    const double wanted = 0.5 * (ciede2000(middle, one) + ciede2000(middle, other));
    for (const double grain : {0.0, 4.0}) {
        const auto photo =
            taken([&](int x, int y) { return (x / 10 + y / 60) % 2 == 0 ? p : q; }, srgb_white(), 0.8, grain);
        const BattReading reading = read(photo, {1.0, 10.0, 60.0});
        CHECK(reading.patches == 40 * 4);
        CHECK(*reading.variation_de00 == doctest::Approx(wanted).epsilon(0.04).scale(0.0));
    }
}

TEST_CASE("the scale of streaks is Danckwerts' integral of the autocorrelation") {
    // A square wave of period P: its autocorrelation falls evenly from 1 to 0 at P/4, so the integral is P/8.
    const Xyz p = of_lab(60.0, 10.0, 20.0), q = of_lab(50.0, 0.0, 5.0);
    const auto narrow = taken([&](int x, int) { return x % 8 < 4 ? p : q; }, srgb_white(), 0.8, 0.0);
    CHECK(*read(narrow, {1.0, 4.0, 60.0}).streak_mm == doctest::Approx(1.0).epsilon(0.02).scale(0.0));
    // Here it falls through nought between two lags.
    const auto six = taken([&](int x, int) { return x % 6 < 3 ? p : q; }, srgb_white(), 0.8, 0.0);
    CHECK(*read(six, {1.0, 4.0, 60.0}).streak_mm == doctest::Approx(0.75).epsilon(0.01).scale(0.0));
    // Three lags are the least of which an integral is made: six millimetres (common practice, no source).
    const auto strip = [&](double wide) {
        return read_batt(narrow.pixels(), rectangle(40.0, 0.0, wide, 240.0), white_in(narrow),
                         {1.0, 3.0, 20.0});
    };
    CHECK(strip(7.0)->streak_mm.has_value());
    CHECK_FALSE(strip(5.0)->streak_mm.has_value());
    for (const int period : {16, 40}) {
        const auto stripes =
            taken([&](int x, int) { return x % period < period / 2 ? p : q; }, srgb_white(), 0.8, 3.0);
        const auto reading = read(stripes, {1.0, 4.0, 60.0});
        REQUIRE(reading.streak_mm.has_value());
        CHECK(*reading.streak_mm == doctest::Approx(period / 8.0).epsilon(0.12).scale(0.0));
        // Taken from twice as far away, so that a pixel is two millimetres.
        const auto far = read(stripes, {2.0, 8.0, 60.0});
        CHECK(*far.streak_mm == doctest::Approx(2.0 * period / 8.0).epsilon(0.12));
    }
    // A camera in poor light: grain as strong as the stripes, alike at no two places, lengthens and shortens
    // nothing.
    const auto grainy = taken([&](int x, int) { return x % 40 < 20 ? p : q; }, srgb_white(), 0.8, 12.0);
    CHECK(*read(grainy, {1.0, 4.0, 60.0}).streak_mm == doctest::Approx(40.0 / 8.0).epsilon(0.12).scale(0.0));
    // A cosine: the integral of cos up to its first zero is P / (2 pi).
    const auto wave =
        taken([&](int x,
                  int) { return of_lab(55.0 + 5.0 * std::cos(2.0 * std::numbers::pi * x / 50.0), 5.0, 5.0); },
              srgb_white(), 0.8, 2.0);
    CHECK(*read(wave).streak_mm == doctest::Approx(50.0 / (2.0 * std::numbers::pi)).epsilon(0.08));
}

TEST_CASE("a dozen places tell how a batt varies, fewer do not") {
    // Common practice, no source.
    const auto photo = taken([](int x, int) { return of_lab(50.0 + (x / 12 % 2) * 6.0, 5.0, 10.0); },
                             srgb_white(), 0.8, 1.0);
    for (const int places : {6, 11, 12, 13, 20}) {
        CAPTURE(places);
        const auto reading =
            read_batt(photo.pixels(), rectangle(40.0, 0.0, 12.0 * places, 60.0), white_in(photo), {});
        REQUIRE(reading.has_value());
        CHECK(reading->patches == static_cast<std::size_t>(places));
        CHECK(reading->variation_de00.has_value() == (places >= 12));
    }
}

TEST_CASE("a place is 12 mm of the width and 60 of the height unless said: 33 by 4 on 400 by 240 mm") {
    // A place is about what a spinner draws from at once. Common practice, no source.
    CHECK(read(taken([](int, int) { return of_lab(50.0, 5.0, 10.0); }, srgb_white(), 0.8, 0.0)).patches ==
          33 * 4);
}

TEST_CASE("light that falls off evenly is told and is no variation of the batt") {
    const Xyz p = of_lab(50.0, 5.0, 10.0);
    const auto photo = taken(
        [&](int x, int) {
            const double by = std::exp(0.2 * (x - 200.0) / 400.0);
            return Xyz{p.x * by, p.y * by, p.z * by};
        },
        srgb_white(), 0.8, 2.0);
    // From above as well, over the 240 mm that the photo is high.
    const auto from_above = taken(
        [&](int, int y) {
            const double by = std::exp(0.2 * (y - 120.0) / 240.0);
            return Xyz{p.x * by, p.y * by, p.z * by};
        },
        srgb_white(), 0.8, 0.0);
    const BattReading down = read(from_above, {1.0, 12.0, 30.0});
    CHECK(*down.variation_de00 < 0.3);
    CHECK(down.slope_pct == doctest::Approx(100.0 * (std::exp(0.2) - 1.0)).epsilon(0.03).scale(0.0));
    const BattReading reading = read(photo);
    CHECK(*reading.variation_de00 < 0.3);
    CHECK(reading.slope_pct == doctest::Approx(100.0 * (std::exp(0.2) - 1.0)).epsilon(0.08).scale(0.0));
    CHECK_FALSE(reading.streak_mm.has_value());
}

TEST_CASE("lamp light, no white, cut-off light and too little fibre are told") {
    const auto even = [](int, int) { return of_lab(50.0, 5.0, 10.0); };
    // Lit as by CIE A, a lamp; F2, a tube; D50, daylight at noon.
    CHECK(read(taken(even, a, 0.5, 1.0)).unfit == Unfit::lamp_light);
    CHECK(read(taken(even, f2, 0.5, 1.0)).unfit == Unfit::lamp_light);
    CHECK(read(taken(even, d50, 0.8, 1.0)).unfit == Unfit::none);
    const auto photo = taken(even, srgb_white(), 0.8, 1.0);
    CHECK(read_batt(photo.pixels(), fibre_area, {}, {})->unfit == Unfit::no_white);
    CHECK(read_batt(photo.pixels(), rectangle(50, 10, 30, 30), white_in(photo), {})->unfit ==
          Unfit::too_small);
    CHECK(read(photo, {0.05, 12.0, 60.0}).unfit == Unfit::too_small);  // 12 by 20 mm in truth
    const auto glare =
        taken([](int x, int) { return of_lab(x < 30 ? 112.0 : 50.0, 0.0, 0.0); }, srgb_white(), 0.9, 1.0);
    CHECK(read(glare).unfit == Unfit::overexposed);
    CHECK_FALSE(read_batt(photo.pixels(), rectangle(900, 0, 40, 40), white_in(photo), {}).has_value());
    // Half a pixel over the edge is the rounding of who marked it, more is not.
    CHECK(read_batt(photo.pixels(), rectangle(40.0, -0.5, 400.5, 241.0), white_in(photo), {}).has_value());
    CHECK_FALSE(
        read_batt(photo.pixels(), rectangle(40.0, 0.0, 400.55, 240.0), white_in(photo), {}).has_value());
    // Half off the photo: what is left is not as wide as was said.
    const auto off = read_batt(photo.pixels(), rectangle(240, 0, 400, 240), white_in(photo), {});
    REQUIRE_FALSE(off.has_value());
    CHECK(off.error().what.find("440 x 240") != std::string::npos);
}

TEST_CASE("a pinch of two by two centimetres is enough, and a hundredth of it may be cut off") {
    // Common practice, no source.
    const auto photo = taken([](int, int) { return of_lab(50.0, 5.0, 10.0); }, srgb_white(), 0.8, 1.0);
    const auto unfit = [&](double wide, double high, double mm) {
        return read_batt(photo.pixels(), rectangle(60, 20, wide, high), white_in(photo), {mm, 12.0, 60.0})
            ->unfit;
    };
    CHECK(unfit(220, 200, 0.1) == Unfit::none);  // 4.4 cm^2
    CHECK(unfit(190, 190, 0.1) == Unfit::too_small);
    CHECK(unfit(47, 46, 1.0) == Unfit::none);  // some 2,000 pixels
    CHECK(unfit(40, 45, 1.0) == Unfit::too_small);
    const auto with_glare = [](int rows) {
        return read(taken([=](int x, int y) { return of_lab(x < 20 && y < rows ? 112.0 : 50.0, 0.0, 0.0); },
                          srgb_white(), 0.9, 0.0))
            .unfit;
    };
    CHECK(with_glare(43) == Unfit::none);         // 860 of 96,000
    CHECK(with_glare(53) == Unfit::overexposed);  // 1,060
}

TEST_CASE("light that falls off by more than half teaches nothing, by half it does") {
    const Xyz p = of_lab(45.0, 5.0, 10.0);
    const auto falling = [&](double whole) {
        return read(taken(
                        [&](int x, int) {
                            const double by = std::exp(std::log(whole) * (x / 400.0 - 1.0));
                            return Xyz{p.x * by, p.y * by, p.z * by};
                        },
                        srgb_white(), 0.8, 1.0))
            .unfit;
    };
    CHECK(falling(1.9) == Unfit::none);
    CHECK(falling(2.12) == Unfit::uneven_light);
}

TEST_CASE("what was pointed at as white: on the fibre and off the photo refused, a bad one told") {
    const auto photo = taken([](int, int) { return of_lab(50.0, 5.0, 10.0); }, srgb_white(), 0.8, 1.0);
    const auto beside = [&](const Area& white) {
        return read_batt_beside(photo.pixels(), fibre_area, WhiteReference{white}, {});
    };
    const auto sound = beside(rectangle(5, 5, 30, 200));
    REQUIRE(sound.has_value());
    CHECK(sound->unfit == Unfit::none);
    CHECK(sound->mean.l == doctest::Approx(read(photo).mean.l));
    const auto inside = beside(rectangle(30, 5, 30, 30));
    REQUIRE_FALSE(inside.has_value());
    CHECK(inside.error().where == "area");
    CHECK_FALSE(beside(rectangle(900, 5, 30, 30)).has_value());
    // Pure green, and nearly no light, where the paper was.
    for (const std::array<std::uint8_t, 3> bad : {std::array<std::uint8_t, 3>{0, 200, 0}, {3, 3, 3}}) {
        Photo wrong = photo;
        for (int y = 0; y < wrong.height; ++y)
            for (std::size_t x = 0; x < 40; ++x)
                for (std::size_t c = 0; c < 3; ++c)
                    wrong.rgb[3 * (static_cast<std::size_t>(y) * 440 + x) + c] = bad.at(c);
        const auto told =
            read_batt_beside(wrong.pixels(), fibre_area, WhiteReference{rectangle(5, 5, 30, 200)}, {});
        REQUIRE(told.has_value());
        CHECK(told->unfit == Unfit::bad_white);
    }
    CHECK(read_batt_beside(photo.pixels(), fibre_area, {}, {})->unfit == Unfit::no_white);
}

TEST_CASE("a figure seen through a colour: generalised least squares where the model is a line") {
    // Lab = (50 - 6 x, 2 x, 0), errors along L and along a + b: (J' S^-1 J)^-1 by hand (Gelman and others,
    // Bayesian Data Analysis, 14.7: a line with known covariance).
    const auto line = [](double x) { return Lab{50.0 - 6.0 * x, 2.0 * x, 0.0}; };
    const std::vector<Lab> errors{{2.0, 0.0, 0.0}, {0.0, 1.0, 0.0}, {0.0, 0.0, 4.0}};
    const double information = 36.0 / 4.0 + 4.0 / 1.0;
    const Lab seen{47.0, 1.4, 0.5};
    const double wanted = (-6.0 * (47.0 - 50.0) / 4.0 + 2.0 * 1.4 / 1.0) / information;
    for (const double prior_sd : {0.1, 10.0}) {
        // What the colour says does not depend on what was believed before.
        const Sighting sighting = sighting_of(seen, line, errors, {0.3, prior_sd});
        CHECK(sighting.at == doctest::Approx(wanted).epsilon(1e-3).scale(0.0));
        CHECK(sighting.sd == doctest::Approx(1.0 / std::sqrt(information)).epsilon(1e-3).scale(0.0));
    }
    const Sighting none = sighting_of(seen, [](double) { return Lab{50.0, 0.0, 0.0}; }, errors, {0.0, 1.0});
    CHECK(std::isinf(none.sd));
}

TEST_CASE("sayings that are lines make the normal's own update; a parabola is believed where it touches") {
    // Precisions add, the mean is weighted by them (Gelman and others, Bayesian Data Analysis, 2.5).
    const std::vector<CurvedSighting> lines{{1.3, 0.5, 1.0, 2.0, 0.0}, {0.2, 0.4, 0.0, 1.0, 0.0}};
    const double precision = 1.0 / 0.09 + 4.0 / 0.25 + 1.0 / 0.16;
    const auto belief = believed({0.1, 0.3}, lines);
    const double mean = (0.1 / 0.09 + 2.0 * 0.3 / 0.25 + 0.2 / 0.16) / precision;
    CHECK(belief.mean == doctest::Approx(mean));
    CHECK(belief.variance == doctest::Approx(1.0 / precision));
    CHECK(belief.squares ==
          doctest::Approx(std::pow((mean - 0.1) / 0.3, 2.0) + std::pow((0.3 - 2.0 * mean) / 0.5, 2.0) +
                          std::pow((0.2 - mean) / 0.4, 2.0)));
    // A figure that both share: it moves what is seen, so x by its regression on both, and its doubt comes on
    // top as that of any known bias (propagation of one common error).
    auto shared = lines;
    for (auto& one : shared) one.by_other = 0.5;
    const auto moved = believed({0.1, 0.3}, shared, {0.4, 0.2});
    const double by = (2.0 / 0.25 + 1.0 / 0.16) * 0.5 / precision;
    CHECK(moved.mean == doctest::Approx(mean - by * 0.4));
    CHECK(moved.variance == doctest::Approx(1.0 / precision + std::pow(by * 0.2, 2.0)));
    // y = (x + 1)^2 seen as 4 beyond doubt: x = 1, where the tangent is 4.
    const std::vector<CurvedSighting> curve{{4.0, 1e-3, 1.0, 2.0, 1.0}};
    CHECK(believed({0.0, 1.0}, curve).mean == doctest::Approx(1.0).epsilon(1e-5).scale(0.0));
    CHECK(believed({0.0, 1.0}, curve).variance == doctest::Approx(1e-6 / 16.0).epsilon(1e-3).scale(0.0));
    CHECK(curve[0].foretold(-3.0) == 0.0);
    const std::vector<double> at{-1.0, 0.0, 1.0, 2.0}, values{6.0, 3.0, 4.0, 9.0};  // 3 - x + 2 x^2
    const auto through = curved_through(at, values);
    CHECK(through.level == doctest::Approx(3.0));
    CHECK(through.slope == doctest::Approx(-1.0));
    CHECK(through.bend == doctest::Approx(2.0));
    // Three points make a parabola.
    CHECK(curved_through(std::span(at).first(3), std::span(values).first(3)).bend == doctest::Approx(2.0));
}

TEST_CASE("errors of a colour lie as far from it as they say") {
    for (const Lab& c : {Lab{50, 40, -30}, Lab{30, 0, 0}, Lab{80, -20, 60}}) {
        double squares = 0.0;
        for (const Lab& e : errors_of(c, 1.2))
            squares += std::pow(ciede2000(c, {c.l + e.l, c.a + e.a, c.b + e.b}), 2.0);
        CHECK(std::sqrt(squares) == doctest::Approx(1.2).epsilon(0.05).scale(0.0));
    }
}

}  // namespace batt_photo_test
