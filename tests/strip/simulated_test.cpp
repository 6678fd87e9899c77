// The picture of the carded batt against the forecast it is made from.
#include <doctest/doctest.h>

#include <filesystem>

#include "place.hpp"
#include "recipe/file.hpp"
#include "strip/simulated.hpp"

using namespace battwright;

namespace {

forecast::Forecast example(const std::filesystem::path& path) {
    const auto& catalogue = fibre::Catalogue::builtin();
    forecast::Bench bench;
    bench.catalogue = &catalogue;
    const auto recipe = recipe::read_file(path, catalogue);
    REQUIRE(recipe.has_value());
    auto forecast = forecast::forecast(*recipe, bench);
    REQUIRE(forecast.has_value());
    return *forecast;
}

const std::filesystem::path blends = std::filesystem::path(battwright::testing::source_dir()) / "blends";

colour::Lab mean_lab(const strip::Scene& scene) {
    return colour::lab(colour::encoded(strip::mean_colour(strip::draw(scene, 960, 160))));
}

}  // namespace

TEST_CASE("carded three times, the picture's mean colour is the forecast's within 2 CIEDE2000") {
    // Where tufts and specks still lie unmixed the batt is a little lighter than the intimate blend: a mean
    // of reflectances lies over the reflectance of the mean (Stearns & Noechel's function is convex).
    for (const auto& entry : std::filesystem::directory_iterator(blends)) {
        CAPTURE(entry.path().filename().string());
        const auto forecast = example(entry.path());
        if (forecast.carder.kind == recipe::ToolKind::board) continue;  // does not card its bands together
        const double off =
            colour::ciede2000(mean_lab(strip::carded_scene(forecast, 3)), colour::lab(forecast.colour.srgb));
        CHECK(off < 2.0);
    }
}

TEST_CASE("every cell of a simulated picture holds the whole batt's strands in shares that sum to 1") {
    const auto forecast = example(blends / "low-tide-scraps.toml");
    const auto batt = forecast::batt_of(forecast);
    for (const auto view : {strip::View::edge, strip::View::face}) {
        const auto field = strip::simulated_field(forecast, batt, batt.passes.front(), view);
        const auto strands = static_cast<std::size_t>(field.strands);
        REQUIRE(field.shares.size() ==
                static_cast<std::size_t>(field.columns) * static_cast<std::size_t>(field.rows) * strands);
        for (std::size_t cell = 0; cell < field.shares.size(); cell += strands) {
            double sum = 0.0;
            for (std::size_t i = 0; i < strands; ++i) {
                REQUIRE(field.shares[cell + i] >= 0.0);
                sum += field.shares[cell + i];
            }
            REQUIRE(sum == doctest::Approx(1.0).epsilon(1e-9));
        }
    }
}

TEST_CASE("a gradient across keeps its order of colours along the torn strips") {
    const auto forecast = example(blends / "dawn-tide.toml");
    const auto batt = forecast::batt_of(forecast);
    const auto field = strip::simulated_field(forecast, batt, batt.passes.back(), strip::View::edge);
    // Share of the last colour fed, at the start, in the middle and at the end of the yarn.
    const auto last_colour = [&](int column) {
        double sum = 0.0;
        for (int row = 0; row < field.rows; ++row)
            sum += field.shares[static_cast<std::size_t>((row * field.columns + column) * field.strands +
                                                         field.strands - 1)];
        return sum / field.rows;
    };
    CHECK(last_colour(0) < 0.05);
    CHECK(last_colour(field.columns / 2) < 0.5);
    CHECK(last_colour(field.columns - 1) > 0.9);
}
