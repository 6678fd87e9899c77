// Printed cards against pictures kept with the tests, which somebody has looked at. Compared at a quarter of
// the size and with a tolerance, so that another version of the font or of the drawing library may pass and a
// lost line, a clipped name or another colour may not. BATTWRIGHT_GOLDEN=write makes them anew: then look.
#include <doctest/doctest.h>
#include <stb/stb_image.h>
#include <stb/stb_image_write.h>

#include <cmath>
#include <cstdlib>
#include <vector>

#include "place.hpp"
#include "program.hpp"

using namespace program;

namespace {

struct Grey {
    int width = 0, height = 0;
    std::vector<unsigned char> rgb;
};

Grey load(const fs::path& path) {
    Grey picture;
    int channels = 0;
    unsigned char* pixels = stbi_load(path.c_str(), &picture.width, &picture.height, &channels, 3);
    REQUIRE_MESSAGE(pixels != nullptr, path.string());
    picture.rgb.assign(pixels, pixels + 3 * picture.width * picture.height);
    stbi_image_free(pixels);
    return picture;
}

// Means of 4 by 4 pixels.
Grey quarter(const Grey& full) {
    Grey small{full.width / 4, full.height / 4, {}};
    for (int y = 0; y < small.height; ++y)
        for (int x = 0; x < small.width; ++x)
            for (int c = 0; c < 3; ++c) {
                int sum = 0;
                for (int i = 0; i < 16; ++i)
                    sum += full.rgb[static_cast<std::size_t>(
                        3 * ((4 * y + i / 4) * full.width + 4 * x + i % 4) + c)];
                small.rgb.push_back(static_cast<unsigned char>(sum / 16));
            }
    return small;
}

double mean_difference(const Grey& a, const Grey& b) {
    double sum = 0.0;
    for (std::size_t i = 0; i < a.rgb.size(); ++i) sum += std::abs(a.rgb[i] - b.rgb[i]);
    return sum / static_cast<double>(a.rgb.size());
}

}  // namespace

TEST_CASE("cards look as they did when they were last looked at") {
    const Scratch scratch;
    const fs::path kept = fs::path(battwright::testing::source_dir()) / "tests" / "pictures";
    const bool writing = std::getenv("BATTWRIGHT_GOLDEN") != nullptr;
    for (const char* name : {"kelp-and-brass", "gull-speckle", "low-tide-scraps"}) {
        CAPTURE(name);
        const std::string stem(name);
        REQUIRE(run(scratch, "card '" + blends + stem + ".toml' -o card.png --date none").code == 0);
        const Grey card = quarter(load(scratch.folder / "card.png"));
        const fs::path golden = kept / ("card-" + stem + ".png");
        if (writing)
            stbi_write_png(golden.c_str(), card.width, card.height, 3, card.rgb.data(), 3 * card.width);
        const Grey wanted = load(golden);
        REQUIRE(card.width == wanted.width);
        REQUIRE(card.height == wanted.height);
        CHECK(mean_difference(card, wanted) < 4.0);
    }
}
