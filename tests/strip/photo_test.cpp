// Photos in: what is refused before it is decoded, which way up, and broken ones. The pictures are written by
// libpng and libjpeg-turbo or by hand after the formats' specifications.
#include <doctest/doctest.h>
#include <png.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <turbojpeg.h>
#include <unistd.h>

#include <fstream>
#include <random>

#include "folder.hpp"
#include "strip/photo_file.hpp"
#include "strip/png_file.hpp"

namespace fs = std::filesystem;
using namespace battwright;
using battwright::testing::Folder;

namespace {

constexpr const char* red_green_blue_grey[] = {"red", "green", "blue", "grey"};

// Four patches of 16 x 16: red and green above, blue and grey below. Wider than high when `wide`.
strip::Image patches(int wide = 2) {
    const std::uint8_t colours[4][3] = {{200, 30, 30}, {30, 180, 30}, {30, 30, 200}, {128, 128, 128}};
    strip::Image image;
    image.width = 16 * wide;
    image.height = 32;
    for (int y = 0; y < image.height; ++y)
        for (int x = 0; x < image.width; ++x) {
            const auto& colour = colours[(y / 16) * 2 + (x < 16 ? 0 : 1)];
            image.rgb.insert(image.rgb.end(), colour, colour + 3);
        }
    return image;
}

std::string jpeg_of(const strip::Image& image) {
    const tjhandle encoder = tjInitCompress();
    unsigned char* bytes = nullptr;
    unsigned long size = 0;
    REQUIRE(tjCompress2(encoder, image.rgb.data(), image.width, 0, image.height, TJPF_RGB, &bytes, &size,
                        TJSAMP_444, 95, 0) == 0);
    std::string result(reinterpret_cast<const char*>(bytes), size);
    tjFree(bytes);
    tjDestroy(encoder);
    return result;
}

// Exif 2.3 in an APP1 segment of its own after the start of the image: one entry, the orientation.
std::string with_orientation(const std::string& jpeg, int orientation, bool motorola) {
    const auto two = [&](int value) {
        const char high = static_cast<char>(value >> 8), low = static_cast<char>(value & 255);
        return motorola ? std::string{high, low} : std::string{low, high};
    };
    const auto four = [&](int value) { return motorola ? two(0) + two(value) : two(value) + two(0); };
    const std::string tiff = (motorola ? std::string("MM") : std::string("II")) + two(42) + four(8) + two(1) +
                             two(0x0112) + two(3) + four(1) + two(orientation) + two(0) + four(0);
    const std::string body = std::string("Exif\0\0", 6) + tiff;
    const int length = static_cast<int>(body.size()) + 2;
    return jpeg.substr(0, 2) + "\xff\xe1" + static_cast<char>(length >> 8) + static_cast<char>(length & 255) +
           body + jpeg.substr(2);
}

// Which of the four patches is seen in the middle of the corner.
std::string patch_at(const strip::Image& image, bool right, bool low) {
    const int x = right ? image.width - 8 : 8, y = low ? image.height - 8 : 8;
    const std::uint8_t* c = &image.rgb[3 * static_cast<std::size_t>(y * image.width + x)];
    if (c[0] > 160) return red_green_blue_grey[0];
    if (c[1] > 150) return red_green_blue_grey[1];
    return red_green_blue_grey[c[2] > 160 ? 2 : 3];
}

std::string corners(const strip::Image& image) {
    return patch_at(image, false, false) + " " + patch_at(image, true, false) + " " +
           patch_at(image, false, true) + " " + patch_at(image, true, true);
}

std::string png_header(std::uint32_t width, std::uint32_t height, char depth, char colour) {
    return std::string("\x89PNG\r\n\x1a\n") +
           strip::png_chunk("IHDR", strip::png_number(width) + strip::png_number(height) + depth + colour +
                                        std::string(3, '\0'));
}

std::string refused(const std::string& bytes) {
    const auto image = strip::photo_of(bytes, "tide.png");
    REQUIRE_FALSE(image.has_value());
    CHECK_FALSE(image.error().mend.empty());
    const std::string line = measure::to_line(image.error());
    CHECK(line.starts_with("tide.png: "));
    return line;
}

bool says(const std::string& text, std::string_view part) {
    return text.find(part) != std::string::npos;
}

// The most this process has held, in bytes.
double most_memory() {
    rusage usage{};
    ::getrusage(RUSAGE_SELF, &usage);
    return 1024.0 * static_cast<double>(usage.ru_maxrss);
}

double cpu_seconds() {
    rusage usage{};
    ::getrusage(RUSAGE_SELF, &usage);
    return static_cast<double>(usage.ru_utime.tv_sec) + 1e-6 * static_cast<double>(usage.ru_utime.tv_usec);
}

}  // namespace

TEST_CASE("the same pixels come back from PNG, and nearly so from JPEG") {
    const strip::Image image = patches();
    const auto png = strip::photo_of(strip::png_bytes(image), "a");
    REQUIRE(png.has_value());
    CHECK(png->rgb == image.rgb);
    const auto jpeg = strip::photo_of(jpeg_of(image), "a");
    REQUIRE(jpeg.has_value());
    CHECK(corners(*jpeg) == "red green blue grey");
}

TEST_CASE("photos stand upright, whichever way the camera was held") {
    // JEITA CP-3451: what the rows and columns of the file are in the picture as seen.
    const std::string as_seen[] = {"red green blue grey", "green red grey blue", "grey blue green red",
                                   "blue grey red green", "red blue green grey", "blue red grey green",
                                   "grey green blue red", "green grey red blue"};
    const std::string jpeg = jpeg_of(patches(3));
    for (int orientation = 0; orientation <= 9; ++orientation) {
        for (const bool motorola : {false, true}) {
            CAPTURE(orientation);
            const auto image = strip::photo_of(with_orientation(jpeg, orientation, motorola), "a");
            REQUIRE(image.has_value());
            const bool known = orientation >= 1 && orientation <= 8;
            CHECK(corners(*image) == as_seen[known ? orientation - 1 : 0]);
            CHECK(image->width == (known && orientation >= 5 ? 32 : 48));
            CHECK(image->height == (known && orientation >= 5 ? 48 : 32));
        }
    }
}

TEST_CASE("sixteen bits, grey, palettes and transparency are colours like any other") {
    for (const auto& [format, bytes_a_pixel] : {std::pair(PNG_FORMAT_GRAY, 1), {PNG_FORMAT_RGBA, 4}}) {
        std::vector<std::uint8_t> pixels(static_cast<std::size_t>(4 * bytes_a_pixel), 120);
        png_image image{};
        image.version = PNG_IMAGE_VERSION;
        image.width = image.height = 2;
        image.format = static_cast<png_uint_32>(format);
        png_alloc_size_t size = 0;
        REQUIRE(png_image_write_get_memory_size(image, size, 0, pixels.data(), 0, nullptr) != 0);
        std::string bytes(size, '\0');
        REQUIRE(png_image_write_to_memory(&image, bytes.data(), &size, 0, pixels.data(), 0, nullptr) != 0);
        const auto read = strip::photo_of(bytes, "a");
        REQUIRE(read.has_value());
        CHECK(read->rgb == std::vector<std::uint8_t>(12, 120));
    }
}

TEST_CASE("what is too large is refused by its header, at once and in little memory") {
    const double memory = most_memory(), seconds = cpu_seconds();
    CHECK(says(refused(png_header(12'000, 12'000, 16, 6) + strip::png_chunk("IDAT", "x")),
               "12000 x 12000 pixels"));
    CHECK(says(refused(png_header(0x7fffffff, 0x7fffffff, 8, 2) + strip::png_chunk("IDAT", "x")), "; "));
    CHECK(says(refused(png_header(0, 0, 8, 2) + strip::png_chunk("IDAT", "x")), "damaged"));
    // A JPEG whose header says 65,500 x 65,500.
    std::string jpeg = jpeg_of(patches());
    const std::size_t frame = jpeg.find("\xff\xc0");
    REQUIRE(frame != std::string::npos);
    jpeg.replace(frame + 5, 4, "\xff\xdc\xff\xdc");
    CHECK(says(refused(jpeg), "65500 x 65500 pixels, more than 52 million; scale it down"));
    // The 118-byte bitmap of negative height, and every other format.
    std::string bitmap = "BM" + std::string(116, '\0');
    CHECK(says(refused(bitmap), "neither a JPEG nor a PNG"));
    for (const char* start : {"GIF89a", "8BPS", "#?RADIANCE", "P6\n1 1\n255\nabc", "", "gulls"})
        CHECK(says(refused(start), "neither a JPEG nor a PNG"));
    CHECK(most_memory() - memory < 64e6);
    CHECK(cpu_seconds() - seconds < 5.0);
}

TEST_CASE("a small file that unpacks to gigabytes does not") {
    // Stored deflate blocks are no bomb; zeroes packed by libpng itself are: a wide picture of nothing, whose
    // header then claims to be one pixel.
    png_image image{};
    image.version = PNG_IMAGE_VERSION;
    image.width = 4000;
    image.height = 4000;
    image.format = PNG_FORMAT_RGB;
    const std::vector<std::uint8_t> nothing(3u * 4000u * 4000u);
    png_alloc_size_t size = 0;
    REQUIRE(png_image_write_get_memory_size(image, size, 0, nothing.data(), 0, nullptr) != 0);
    std::string bytes(size, '\0');
    REQUIRE(png_image_write_to_memory(&image, bytes.data(), &size, 0, nothing.data(), 0, nullptr) != 0);
    CHECK(size < 100'000);
    const std::string small = png_header(1, 1, 8, 2) + bytes.substr(33);
    const double memory = most_memory();
    static_cast<void>(strip::photo_of(small, "a"));
    CHECK(most_memory() - memory < 16e6);
}

TEST_CASE("broken photos are told in one line, whatever is broken about them") {
    std::mt19937 random(11);
    const std::string whole[] = {strip::png_bytes(patches()), with_orientation(jpeg_of(patches()), 6, true)};
    int good = 0, bad = 0;
    for (int round = 0; round < 1500; ++round) {
        std::string bytes = whole[round % 2];
        if (round % 3 == 0) bytes.resize(random() % bytes.size());
        for (unsigned long flips = random() % 6; flips > 0 && !bytes.empty(); --flips) {
            // Mostly near the front, where the headers lie.
            const std::size_t within =
                random() % 2 == 0 ? std::min<std::size_t>(bytes.size(), 200) : bytes.size();
            bytes[random() % within] = static_cast<char>(random());
        }
        const auto image = strip::photo_of(bytes, "a");
        if (image) {
            ++good;
            CHECK(image->rgb.size() ==
                  3u * static_cast<std::size_t>(image->width) * static_cast<std::size_t>(image->height));
            continue;
        }
        ++bad;
        CHECK_FALSE(image.error().mend.empty());
        const std::string line = measure::to_line(image.error());
        CHECK(line.find('\n') == std::string::npos);
    }
    CHECK(good > 50);
    CHECK(bad > 300);
}

TEST_CASE("a pipe is not waited for") {
    const Folder folder;
    REQUIRE(::mkfifo((folder.path / "photo.png").c_str(), 0600) == 0);
    ::alarm(20);
    CHECK_FALSE(strip::load_photo(folder.path / "photo.png").has_value());
    ::alarm(0);
}

TEST_CASE("a file larger than any camera's is not read") {
    // A JPEG of 52 million pixels at its best takes about a byte a pixel (common practice, no source).
    const Folder folder;
    const fs::path path = folder.path / "tide.jpg";
    std::ofstream(path, std::ios::binary) << "\xff\xd8\xff";
    fs::resize_file(path, 60'000'000);
    const auto broken = strip::load_photo(path);
    REQUIRE_FALSE(broken.has_value());
    CHECK(says(broken.error().what, "damaged"));
    fs::resize_file(path, 70'000'000);
    const auto large = strip::load_photo(path);
    REQUIRE_FALSE(large.has_value());
    CHECK_FALSE(says(large.error().what, "damaged"));
}

TEST_CASE("our pictures say whose they are") {
    const std::string bytes = strip::png_bytes(patches());
    CHECK(bytes.find(std::string("tEXtSoftware") + '\0' + "Battwright") != std::string::npos);
    CHECK(strip::png_bytes({}).empty());
}
