// Photos made small.
#include <doctest/doctest.h>

#include <turbojpeg.h>

#include <cmath>
#include <filesystem>
#include <fstream>
#include <memory>

#include "colour/spaces.hpp"
#include "strip/photo_file.hpp"

namespace thumbnail_test {

using namespace battwright;
namespace fs = std::filesystem;

namespace {

struct Scratch {
    fs::path path = fs::temp_directory_path() / "battwright-thumbnails";
    Scratch() { fs::create_directories(path); }
    ~Scratch() { fs::remove_all(path); }
};

// Columns of black and white in turn, two pixels wide.
strip::Image stripes(int width, int height) {
    strip::Image image{width, height, {}};
    for (int i = 0; i < width * height; ++i)
        for (int c = 0; c < 3; ++c)
            image.rgb.push_back(static_cast<std::uint8_t>(i % width / 2 % 2 == 0 ? 0 : 255));
    return image;
}

void save_jpeg(const strip::Image& image, const fs::path& path) {
    const std::unique_ptr<void, int (*)(tjhandle)> encoder(tjInitCompress(), tjDestroy);
    unsigned char* bytes = nullptr;
    unsigned long size = 0;
    REQUIRE(tjCompress2(encoder.get(), image.rgb.data(), image.width, 0, image.height, TJPF_RGB, &bytes,
                        &size, TJSAMP_444, 95, 0) == 0);
    std::ofstream(path, std::ios::binary).write(reinterpret_cast<char*>(bytes), static_cast<long>(size));
    tjFree(bytes);
}

}  // namespace

TEST_CASE("a small picture keeps its shape and its light") {
    const Scratch scratch;
    const auto path = scratch.path / "stripes.png";
    REQUIRE(strip::save_png(stripes(400, 200), path.string()));
    const auto small = strip::load_thumbnail(path, 100);
    REQUIRE(small.has_value());
    CHECK(small->image.width == 100);
    CHECK(small->image.height == 50);
    CHECK(small->whole_width == 400);
    // Half the light of white: 188 of 255 by IEC 61966-2-1, not 128.
    for (const std::uint8_t value : small->image.rgb) CHECK(std::abs(value - 188) <= 1);
    const auto as_it_is = strip::load_thumbnail(path, 1000);
    CHECK(as_it_is->image.rgb == strip::load_photo(path)->rgb);
}

TEST_CASE("a JPEG made small looks as the whole one made small") {
    const Scratch scratch;
    strip::Image ramp{800, 600, {}};
    for (int y = 0; y < 600; ++y)
        for (int x = 0; x < 800; ++x)
            for (const int v : {x * 255 / 800, y * 255 / 600, 120})
                ramp.rgb.push_back(static_cast<std::uint8_t>(v));
    save_jpeg(ramp, scratch.path / "ramp.jpg");
    REQUIRE(strip::save_png(ramp, (scratch.path / "ramp.png").string()));
    // libjpeg decodes to an eighth, a quarter or a half of it: 75, 150 or 300 px high.
    for (const int side : {50, 64, 100, 180, 500}) {
        CAPTURE(side);
        const auto jpeg = strip::load_thumbnail(scratch.path / "ramp.jpg", side);
        const auto png = strip::load_thumbnail(scratch.path / "ramp.png", side);
        REQUIRE(jpeg.has_value());
        REQUIRE(png.has_value());
        CHECK(jpeg->whole_height == 600);
        REQUIRE(jpeg->image.rgb.size() == png->image.rgb.size());
        int most = 0;
        for (std::size_t i = 0; i < png->image.rgb.size(); ++i)
            most = std::max(most, std::abs(jpeg->image.rgb[i] - png->image.rgb[i]));
        CHECK(most <= 6);
    }
}

TEST_CASE("a photo too large or broken is one line that names it") {
    const Scratch scratch;
    // A PNG's header alone, of a million pixels a side (ISO/IEC 15948, 11.2.2).
    std::ofstream(scratch.path / "huge.png", std::ios::binary) << std::string(
        "\x89PNG\r\n\x1a\n\0\0\0\rIHDR\0\x0f\x42\x40\0\x0f\x42\x40\x08\x02\0\0\0\x16\x2e\x9d\x2c", 33);
    std::ofstream(scratch.path / "broken.jpg", std::ios::binary) << "\xff\xd8\xff nothing";
    for (const char* name : {"huge.png", "broken.jpg", "none.jpg"}) {
        CAPTURE(name);
        const auto small = strip::load_thumbnail(scratch.path / name, 64);
        REQUIRE_FALSE(small.has_value());
        CHECK(measure::to_line(small.error()).find(name) != std::string::npos);
    }
}

}  // namespace thumbnail_test
