// Lengths, pitch and angles measured on the yarn picture itself, against the forecast's.
#include <doctest/doctest.h>

#include <cmath>
#include <numbers>
#include <vector>

#include "examples.hpp"
#include "strip/yarn_picture.hpp"

using namespace battwright;
using strip::YarnView;

namespace {

constexpr double degree = std::numbers::pi / 180.0;

// Tar and foam side by side across the drum, so that the two halves are black and white.
examples::Made tar_and_foam(recipe::Plying plying, int plies) {
    recipe::Recipe recipe = examples::recipe_of(examples::folder() / "dawn-tide.toml");
    recipe.components.resize(2);
    recipe.components[0].palette = {{colour::parse_hex("#101014").value(), 100.0}};
    recipe.components[1].palette = {{colour::parse_hex("#f4f4f0").value(), 100.0}};
    recipe.spinning.plying = plying;
    recipe.spinning.plies = plies;
    recipe.spinning.thread.reset();
    return examples::made(recipe);
}

double brightness(const strip::Image& image, int x, int y) {
    const auto at = 3 * (static_cast<std::size_t>(y) * static_cast<std::size_t>(image.width) +
                         static_cast<std::size_t>(x));
    return (image.rgb[at] + image.rgb[at + 1] + image.rgb[at + 2]) / 3.0;
}

std::vector<double> line_of(const strip::Image& image, int y) {
    std::vector<double> line;
    double mean = 0.0;
    for (int x = 0; x < image.width; ++x) mean += brightness(image, x, y) / image.width;
    for (int x = 0; x < image.width; ++x) line.push_back(brightness(image, x, y) - mean);
    return line;
}

// Mean product of one line with another shifted by so many pixels to the right.
double likeness(const std::vector<double>& first, const std::vector<double>& second, int shift) {
    double sum = 0.0;
    int count = 0;
    for (int x = 0; x < static_cast<int>(first.size()); ++x) {
        if (x + shift < 0 || x + shift >= static_cast<int>(second.size())) continue;
        sum += first[static_cast<std::size_t>(x)] * second[static_cast<std::size_t>(x + shift)];
        ++count;
    }
    return sum / std::max(1, count);
}

// Turns of the plies in a metre of finished yarn: the wash shortens it, and its turns stay.
double finished_ply_turns(const yarn::YarnForecast& yarn) {
    return yarn.ply_twist_per_m * yarn.length_before_wash_m / yarn.length_m;
}

// How far to the right the picture's lines move from one row of pixels to another: where it is most like it.
int moved(const strip::Image& image, const std::vector<int>& rows, int lower, int most) {
    int best = 0;
    double most_alike = -1e300;
    for (int shift = -most; shift <= most; ++shift) {
        double alike = 0.0;
        for (const int y : rows) alike += likeness(line_of(image, y), line_of(image, y + lower), shift);
        if (alike > most_alike) {
            most_alike = alike;
            best = shift;
        }
    }
    return best;
}

}  // namespace

TEST_CASE("a barber pole's stripes come round once a turn of the ply, and lean as an S") {
    const auto made = tar_and_foam(recipe::Plying::barber_pole, 2);
    const auto scene = strip::yarn_scene(made.forecast, made.batt, made.last(),
                                         carding::Pull::torn_lengthwise, YarnView::plied, {0.0, 4.0});
    const double pitch = 1000.0 * scene.pixels_per_mm / finished_ply_turns(made.forecast.yarn);
    const auto image = strip::draw(scene, 1600, static_cast<int>(5.0f * scene.yarn_px));
    for (int row = 0; row < 4; ++row) {
        const int middle = static_cast<int>((static_cast<float>(row) + 0.5f) * scene.yarn_px);
        const auto line = line_of(image, middle);
        int best = 0;
        for (int shift = static_cast<int>(0.6 * pitch); shift < static_cast<int>(1.5 * pitch); ++shift)
            if (best == 0 || likeness(line, line, shift) > likeness(line, line, best)) best = shift;
        CAPTURE(row);
        CHECK(best == doctest::Approx(pitch).epsilon(0.03));
        // Lower down, the same stripe lies further right.
        CHECK(moved(image, {middle}, static_cast<int>(0.12f * scene.yarn_px), static_cast<int>(0.4 * pitch)) >
              2);
    }
}

TEST_CASE("the single's fibres lie at the angle of its turns on its own thickness, and lean as a Z") {
    for (const auto twist : {recipe::Twist::soft, recipe::Twist::medium, recipe::Twist::firm}) {
        recipe::Recipe recipe = examples::recipe_of(examples::folder() / "boat-shed-naturals.toml");
        recipe.spinning.plies = 1;
        recipe.spinning.twist = twist;
        const auto made = examples::made(recipe, true);
        const auto scene = strip::yarn_scene(made.forecast, made.batt, made.last(),
                                             carding::Pull::torn_lengthwise, YarnView::single, {0.0, 8.0});
        const auto image = strip::draw(scene, 1600, static_cast<int>(4.0f * scene.yarn_px));
        // From a little above the middle of each row of yarn to as much below it.
        const int half = static_cast<int>(0.05f * scene.yarn_px);
        std::vector<int> rows;
        for (int row = 0; row < 4; ++row)
            rows.push_back(static_cast<int>((static_cast<float>(row) + 0.5f) * scene.yarn_px) - half);
        const int right = moved(image, rows, 2 * half, 60);
        CHECK(right < 0);
        // Morton & Hearle: tan(angle) = pi d turns.
        const double turns_per_mm = 0.001 * made.forecast.yarn.twist_per_m;
        const double tangent = std::numbers::pi * made.forecast.yarn.diameter_mm * turns_per_mm;
        CAPTURE(right);
        CHECK(std::abs(std::atan2(2.0 * half, -right) - std::atan(tangent)) < 3.0 * degree);
    }
}

TEST_CASE("rows of yarn lie as close as the wraps, and hold the metres the caption tells") {
    const auto made = tar_and_foam(recipe::Plying::plied, 2);
    const auto scene = strip::yarn_scene(made.forecast, made.batt, made.last(),
                                         carding::Pull::torn_lengthwise, YarnView::plied);
    const double wraps_per_inch = 25.4 * scene.pixels_per_mm / double{scene.yarn_px};
    CHECK(wraps_per_inch == doctest::Approx(made.forecast.yarn.wpi).epsilon(1e-4));
    const auto shown = strip::on_show(scene, 1000, 100);
    CHECK(shown.rows == doctest::Approx(100.0 / double{scene.yarn_px}));
    CHECK(shown.metres == doctest::Approx(shown.rows * 1000.0 / scene.pixels_per_mm / 1000.0));
    // Asked for from the end on, there is nothing left of it.
    const auto last = strip::yarn_scene(made.forecast, made.batt, made.last(), carding::Pull::torn_lengthwise,
                                        YarnView::plied, {1.0, 1.0});
    CHECK(strip::on_show(last, 1000, 100).metres == 0.0);
}

TEST_CASE("the swatch's gauge follows from the wraps, and its yarn from the stitches") {
    const auto made = tar_and_foam(recipe::Plying::plied, 1);
    const auto scene = strip::yarn_scene(made.forecast, made.batt, made.last(),
                                         carding::Pull::torn_lengthwise, YarnView::swatch);
    const double stitches_per_inch = 25.4 * scene.pixels_per_mm / double{scene.stitch_width_px};
    CHECK(stitches_per_inch == doctest::Approx(0.5 * made.forecast.yarn.wpi).epsilon(1e-4));
    // Munden 1959, from memory: wales and courses in a stitch's length of yarn, wet relaxed.
    CHECK(double{scene.stitch_yarn_px / scene.stitch_width_px} == doctest::Approx(4.1).epsilon(1e-4));
    CHECK(double{scene.stitch_yarn_px / scene.stitch_height_px} == doctest::Approx(5.3).epsilon(1e-4));
    const auto shown = strip::on_show(scene, 600, 90);
    CHECK(shown.stitches == static_cast<int>(std::ceil(600.0 / double{scene.stitch_width_px})));
    CHECK(shown.metres == doctest::Approx(shown.stitches * shown.rows * double{scene.stitch_yarn_px} /
                                          scene.pixels_per_mm / 1000.0));
}

TEST_CASE("a swatch is knitted back and forth: from right to left, then on from left to right, upwards") {
    // Torn across, the yarn runs from black to white and back at every strip.
    const auto made = tar_and_foam(recipe::Plying::plied, 1);
    const auto scene = strip::yarn_scene(made.forecast, made.batt, made.last(), carding::Pull::torn_across,
                                         YarnView::swatch);
    constexpr int width = 9000;
    const int height = static_cast<int>(4.0f * scene.stitch_height_px);
    const auto image = strip::draw(scene, width, height);
    const auto run = strip::run_of(scene, 4000);
    const double row_m =
        strip::on_show(scene, width, height).metres * double{scene.stitch_height_px} / height;
    int changes = 0;
    for (int row = 0; row < 4; ++row) {
        double before = -1.0;
        for (int part = 0; part < 30; ++part) {
            // Where along the yarn the middle of the part lies.
            const double across = (part + 0.5) / 30.0;
            const double metre = row_m * (row + (row % 2 == 0 ? 1.0 - across : across));
            const auto colour = run[0][static_cast<std::size_t>(metre / scene.length_m * 4000.0)];
            // The middle of the row, where its neighbours' stitches do not reach. It is lighter than all
            // of it, as nothing lies over it.
            strip::Image tile{width / 30, static_cast<int>(0.3f * scene.stitch_height_px), {}};
            const int top =
                height - static_cast<int>((static_cast<float>(row) + 0.6f) * scene.stitch_height_px);
            for (int y = top; y < top + tile.height; ++y) {
                const auto at = image.rgb.begin() + 3 * (y * width + part * tile.width);
                tile.rgb.insert(tile.rgb.end(), at, at + 3 * tile.width);
            }
            const double seen = colour::lab(colour::encoded(strip::mean_colour(tile))).l;
            CAPTURE(row);
            CAPTURE(part);
            CHECK(std::abs(seen - colour::lab(colour).l) < 14.0);
            if (before >= 0.0 && std::abs(seen - before) > 6.0) ++changes;
            before = seen;
        }
    }
    CHECK(changes > 3);
}
