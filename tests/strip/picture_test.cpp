#include "strip/picture.hpp"
#include "place.hpp"
#include "strip/jpeg_file.hpp"

#include <doctest/doctest.h>
#include <stb/stb_image.h>
#include <unistd.h>

#include <array>
#include <cmath>
#include <filesystem>

#include "batts.hpp"
#include "recipe/file.hpp"
#include "strip/function.hpp"
#include "strip/jpeg_file.hpp"

using namespace battwright;

namespace {

double difference(const forecast::Forecast& forecast, const strip::Image& image) {
    const colour::Srgb mean = colour::encoded(strip::mean_colour(image));
    return colour::ciede2000(colour::lab(forecast.colour.srgb), colour::lab(mean));
}

strip::Image usual(const strip::Scene& scene) {
    return strip::draw(scene, strip::usual_width_px, strip::usual_height_px);
}

// A folder that is gone when the test is.
class PictureFolder {
  public:
    PictureFolder()
        : path_(std::filesystem::temp_directory_path() / ("strip-test-" + std::to_string(getpid()))) {
        std::filesystem::create_directories(path_);
    }
    PictureFolder(const PictureFolder&) = delete;
    PictureFolder& operator=(const PictureFolder&) = delete;
    ~PictureFolder() {
        std::error_code ignored;
        std::filesystem::remove_all(path_, ignored);
    }
    std::string file(const std::string& name) const { return (path_ / name).string(); }
    std::size_t entries() const {
        std::size_t count = 0;
        for (const auto& entry : std::filesystem::directory_iterator(path_)) count += entry.exists() ? 1 : 0;
        return count;
    }

  private:
    std::filesystem::path path_;
};

// Mean linear colour of a range of columns.
std::array<double, 3> mean_of_columns(const strip::Image& image, int from, int to) {
    strip::Image part{to - from, image.height, {}};
    for (int y = 0; y < image.height; ++y) {
        const auto row = image.rgb.begin() + 3 * static_cast<std::ptrdiff_t>(y) * image.width;
        part.rgb.insert(part.rgb.end(), row + 3 * from, row + 3 * to);
    }
    const auto mean = strip::mean_colour(part);
    return {mean.r, mean.g, mean.b};
}

}  // namespace

// The bound is the promise that strip and swatch agree at viewing distance; 1 CIEDE2000 is about the least
// difference an eye sees side by side (common practice, no source). What is reached is mostly under 0.4.
TEST_CASE("the strip seen from afar has the forecast colour: made-up batts") {
    for (const batts::Batt& batt : batts::all()) {
        const batts::Carded carded(batt);
        CAPTURE(batt.name);
        strip::Scene scene = strip::scene_of(carded.forecast, 3);
        CHECK(difference(carded.forecast, usual(scene)) < 0.7);
        scene.seed += 77;  // not the luck of one seed
        CHECK(difference(carded.forecast, usual(scene)) < 0.7);
    }
}

TEST_CASE("the strip seen from afar has the forecast colour: the example recipes") {
    const auto& catalogue = fibre::Catalogue::builtin();
    forecast::Bench bench;
    bench.catalogue = &catalogue;
    int examples = 0;
    for (const auto& entry :
         std::filesystem::directory_iterator(battwright::testing::source_dir() + "/blends")) {
        if (entry.path().extension() != ".toml") continue;
        CAPTURE(entry.path().string());
        const auto recipe = recipe::read_file(entry.path(), catalogue);
        REQUIRE_MESSAGE(recipe.has_value(), measure::to_line(recipe.error()));
        for (const colour::Light light : {colour::Light::d65, colour::Light::a}) {
            bench.light = light;
            const auto forecast = forecast::forecast(*recipe, bench);
            REQUIRE_MESSAGE(forecast.has_value(), measure::to_line(forecast.error()));
            CHECK(difference(*forecast, usual(strip::scene_of(*forecast, 3))) < 1.0);
        }
        ++examples;
    }
    CHECK(examples > 0);
}

TEST_CASE("the strip is the same every time and on any number of threads") {
    const batts::Carded carded(batts::all().front());
    for (const int passes : {1, 2, 3}) {
        const strip::Scene scene = strip::scene_of(carded.forecast, passes);
        const auto once = strip::draw(scene, 401, 77, 1);
        CHECK(once.rgb.size() == 3u * 401u * 77u);
        for (const int threads : {0, 2, 3, 64})
            CHECK(strip::draw(strip::scene_of(carded.forecast, passes), 401, 77, threads).rgb == once.rgb);
    }
}

// The picture function read as it stands, one point after the other, is the plain form.
TEST_CASE("the strip drawn tile by tile is the one drawn point by point") {
    for (const batts::Batt& batt : batts::all()) {
        const batts::Carded carded(batt);
        CAPTURE(batt.name);
        for (const int passes : {1, 2, 3}) {
            const strip::Scene scene = strip::scene_of(carded.forecast, passes);
            const auto image = strip::draw(scene, 331, 149);
            strip::shader::Function function(scene, 331.0f, 149.0f);
            std::vector<std::uint8_t> by_points;
            for (int y = 0; y < image.height; ++y) {
                for (int x = 0; x < image.width; ++x) {
                    const glm::vec3 colour =
                        function.strip_colour({static_cast<float>(x) + 0.5f, static_cast<float>(y) + 0.5f});
                    for (const float channel : {colour.x, colour.y, colour.z})
                        by_points.push_back(static_cast<std::uint8_t>(std::lround(channel * 255.0f)));
                }
            }
            CHECK(image.rgb == by_points);
        }
    }
}

TEST_CASE("a blended strip of any length is a window on the same sheet") {
    const batts::Carded carded(batts::all().front());
    const strip::Scene scene = strip::scene_of(carded.forecast, 3);
    const auto small = strip::draw(scene, 200, 60), large = strip::draw(scene, 700, 160);
    for (int y = 0; y < small.height; ++y) {
        const auto* here = small.rgb.data() + 3 * static_cast<std::size_t>(y) * 200;
        const auto* there = large.rgb.data() + 3 * static_cast<std::size_t>(y) * 700;
        REQUIRE(std::equal(here, here + 600, there));
    }
}

TEST_CASE("another name or seed lays the fibres otherwise; the colour stays") {
    batts::Batt batt = batts::all().front();
    const batts::Carded first(batt);
    batt.name = "another tide";
    const batts::Carded second(batt);
    const auto here = strip::scene_of(first.forecast, 3), there = strip::scene_of(second.forecast, 3);
    CHECK(here.seed != there.seed);
    const auto one = strip::draw(here, 300, 80), other = strip::draw(there, 300, 80);
    std::size_t changed = 0;
    for (std::size_t i = 0; i < one.rgb.size(); ++i) changed += one.rgb[i] != other.rgb[i] ? 1 : 0;
    CHECK(changed > one.rgb.size() / 2);
}

TEST_CASE("single fibres show: a blend is no plain field, and less mixed is more contrast") {
    const batts::Carded carded(batts::all().front());
    const auto spread = [&](int passes) {
        const auto image = strip::draw(
            strip::scene_of(carded.forecast, strip::ideal_field(carded.forecast), passes), 600, 120);
        double sum = 0.0, squares = 0.0;
        for (const auto value : image.rgb) {
            sum += value;
            squares += double(value) * value;
        }
        const auto count = static_cast<double>(image.rgb.size());
        return std::sqrt(squares / count - sum / count * sum / count);
    };
    CHECK(spread(3) > 10.0);
    CHECK(spread(2) > spread(6));
}

TEST_CASE("after one pass the components lie along the strip in the order they were fed") {
    const batts::Carded carded({"three bands", {{"#b03030", 0.5}, {"#30a040", 0.25}, {"#3050c0", 0.25}}});
    const auto image = usual(strip::scene_of(carded.forecast, 1));
    const auto red = mean_of_columns(image, 100, 800);
    const auto green = mean_of_columns(image, 1060, 1340);
    const auto blue = mean_of_columns(image, 1560, 1820);
    CHECK(red[0] > 2.0 * std::max(red[1], red[2]));
    CHECK(green[1] > 2.0 * std::max(green[0], green[2]));
    CHECK(blue[2] > 2.0 * std::max(blue[0], blue[1]));
    // In the middle of a band it is the component's own colour.
    const auto own = carded.forecast.strand_colours[0];
    CHECK(colour::ciede2000(colour::lab(colour::encoded(own)),
                            colour::lab(colour::encoded({red[0], red[1], red[2]}))) < 1.0);
}

TEST_CASE("after two passes there are streaks that three have not") {
    const batts::Carded carded(batts::all()[1]);
    const auto unevenness = [&](int passes) {
        const auto image = usual(strip::scene_of(carded.forecast, passes));
        double sum = 0.0, squares = 0.0;
        constexpr int parts = 24;
        for (int i = 0; i < parts; ++i) {
            strip::Image tile{image.width / parts, 16, {}};
            for (int y = 60; y < 76; ++y) {
                const auto at = image.rgb.begin() + 3 * (y * image.width + i * tile.width);
                tile.rgb.insert(tile.rgb.end(), at, at + 3 * tile.width);
            }
            const double light = strip::mean_colour(tile).g;
            sum += light;
            squares += light * light;
        }
        return std::sqrt(std::max(0.0, squares / parts - sum / parts * sum / parts)) / (sum / parts);
    };
    CHECK(unevenness(2) > 2.0 * unevenness(3));
}

TEST_CASE("fields: shares of every cell sum to one, and the batt's shares come back on average") {
    for (const batts::Batt& batt : batts::all()) {
        const batts::Carded carded(batt);
        for (const strip::Field& field :
             {strip::ideal_field(carded.forecast), strip::feed_field(carded.forecast),
              strip::streaky_field(carded.forecast)}) {
            const auto strands = static_cast<std::size_t>(field.strands);
            const std::size_t cells = field.shares.size() / strands;
            REQUIRE(cells == static_cast<std::size_t>(field.columns * field.rows));
            std::vector<double> mean(strands, 0.0);
            for (std::size_t cell = 0; cell < cells; ++cell) {
                double sum = 0.0;
                for (std::size_t i = 0; i < strands; ++i) {
                    sum += field.shares[cell * strands + i];
                    mean[i] += field.shares[cell * strands + i] / static_cast<double>(cells);
                }
                REQUIRE(sum == doctest::Approx(1.0).epsilon(1e-9));
            }
            for (std::size_t i = 0; i < strands; ++i)
                CHECK(std::abs(mean[i] - carded.forecast.strands[i].mass_share) < 0.02);
        }
    }
}

TEST_CASE("a PNG reads back pixel by pixel") {
    const PictureFolder folder;
    const batts::Carded carded(batts::all()[8]);
    const auto image = strip::draw(strip::scene_of(carded.forecast, 3), 123, 45);
    REQUIRE(strip::save_png(image, folder.file("strip.png")).has_value());
    int width = 0, height = 0, channels = 0;
    stbi_uc* pixels = stbi_load(folder.file("strip.png").c_str(), &width, &height, &channels, 0);
    REQUIRE(pixels != nullptr);
    CHECK(width == 123);
    CHECK(height == 45);
    CHECK(channels == 3);
    CHECK(std::equal(image.rgb.begin(), image.rgb.end(), pixels));
    stbi_image_free(pixels);
    CHECK(folder.entries() == 1);
}

TEST_CASE("a JPEG for a larger file is the picture to the eye") {
    const batts::Carded carded(batts::all()[8]);
    const auto image = strip::draw(strip::scene_of(carded.forecast, 3), 123, 45);
    const std::string bytes = strip::jpeg_bytes(image);
    CHECK(bytes.size() < image.rgb.size() / 2);
    int width = 0, height = 0, channels = 0;
    stbi_uc* pixels = stbi_load_from_memory(reinterpret_cast<const stbi_uc*>(bytes.data()),
                                            static_cast<int>(bytes.size()), &width, &height, &channels, 3);
    REQUIRE(pixels != nullptr);
    REQUIRE(width == 123);
    REQUIRE(height == 45);
    strip::Image back{width, height, {pixels, pixels + image.rgb.size()}};
    stbi_image_free(pixels);
    double squares = 0.0;
    for (std::size_t i = 0; i < image.rgb.size(); ++i)
        squares += std::pow(double(image.rgb[i]) - double(back.rgb[i]), 2.0);
    // 32 dB of signal to noise: differences are not seen at arm's length (common practice, no source).
    CHECK(10.0 * std::log10(255.0 * 255.0 * double(image.rgb.size()) / squares) > 32.0);
    // The colour from afar stays: under a just noticeable difference.
    CHECK(colour::ciede2000(colour::lab(colour::encoded(strip::mean_colour(image))),
                            colour::lab(colour::encoded(strip::mean_colour(back)))) < 0.3);
    CHECK(strip::jpeg_bytes(strip::Image{}).empty());
}

TEST_CASE("a PNG that cannot be written gets a complaint and leaves nothing behind") {
    const PictureFolder folder;
    const batts::Carded carded(batts::all().front());
    const auto image = strip::draw(strip::scene_of(carded.forecast, 3), 64, 16);
    std::filesystem::create_directory(folder.file("drawer"));
    for (const std::string& path : {folder.file("drawer"), folder.file("nowhere/strip.png"), std::string()}) {
        CAPTURE(path);
        const auto saved = strip::save_png(image, path);
        REQUIRE_FALSE(saved.has_value());
        CHECK_FALSE(saved.error().what.empty());
        CHECK_FALSE(saved.error().mend.empty());
    }
    CHECK_FALSE(strip::save_png(strip::Image{}, folder.file("empty.png")).has_value());
    CHECK(folder.entries() == 1);  // the drawer, as it was
}

TEST_CASE("sizes and scenes of nothing draw nothing") {
    const batts::Carded carded(batts::all().front());
    const auto scene = strip::scene_of(carded.forecast, 3);
    CHECK(strip::draw(scene, 0, 10).rgb.empty());
    CHECK(strip::draw(scene, 10, -1).rgb.empty());
    CHECK(strip::draw(scene, 1, 1).rgb.size() == 3);
    CHECK(strip::draw(strip::scene_of(forecast::Forecast{}, 3), 10, 10).rgb.empty());
    CHECK(strip::draw(strip::scene_of(forecast::Forecast{}, 1), 10, 10).rgb.empty());
}
