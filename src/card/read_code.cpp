#include "card/read_code.hpp"

#include <zbar.h>

#include <algorithm>
#include <cstdint>
#include <memory>
#include <vector>

#include "strip/photo_file.hpp"

namespace battwright::card {
namespace {

using Scanner = std::unique_ptr<zbar::zbar_image_scanner_t, void (*)(zbar::zbar_image_scanner_t*)>;
using Scanned = std::unique_ptr<zbar::zbar_image_t, void (*)(zbar::zbar_image_t*)>;

// Eight bits of grey a pixel.
struct Grey {
    int width = 0, height = 0;
    std::vector<std::uint8_t> pixels;
};

Grey grey_of(const strip::Image& image) {
    Grey grey{image.width, image.height, {}};
    grey.pixels.reserve(image.rgb.size() / 3);
    for (std::size_t i = 0; i + 2 < image.rgb.size(); i += 3)
        // Luma of ITU-R BT.601, in 256ths.
        grey.pixels.push_back(static_cast<std::uint8_t>(
            (77 * image.rgb[i] + 150 * image.rgb[i + 1] + 29 * image.rgb[i + 2]) >> 8));
    return grey;
}

// Half as wide and high, each pixel the mean of four: takes the camera's grain out as well.
Grey halved(const Grey& grey) {
    Grey half{grey.width / 2, grey.height / 2, {}};
    half.pixels.reserve(static_cast<std::size_t>(half.width) * static_cast<std::size_t>(half.height));
    const auto width = static_cast<std::size_t>(grey.width);
    for (int y = 0; y < half.height; ++y)
        for (int x = 0; x < half.width; ++x) {
            const auto* at =
                grey.pixels.data() + 2 * (static_cast<std::size_t>(y) * width + static_cast<std::size_t>(x));
            half.pixels.push_back(static_cast<std::uint8_t>((at[0] + at[1] + at[width] + at[width + 1]) / 4));
        }
    return half;
}

// The longest text in a code of the picture; "" without one.
std::string longest_text(const Grey& grey) {
    const Scanner scanner(zbar::zbar_image_scanner_create(), zbar::zbar_image_scanner_destroy);
    zbar::zbar_image_scanner_set_config(scanner.get(), zbar::ZBAR_NONE, zbar::ZBAR_CFG_ENABLE, 0);
    zbar::zbar_image_scanner_set_config(scanner.get(), zbar::ZBAR_QRCODE, zbar::ZBAR_CFG_ENABLE, 1);
    // The bytes as they are: ours are UTF-8, and it would guess.
    zbar::zbar_image_scanner_set_config(scanner.get(), zbar::ZBAR_QRCODE, zbar::ZBAR_CFG_BINARY, 1);
    const Scanned image(zbar::zbar_image_create(), zbar::zbar_image_destroy);
    constexpr unsigned long y800 = 0x30303859;  // "Y800": grey, eight bits
    zbar::zbar_image_set_format(image.get(), y800);
    zbar::zbar_image_set_size(image.get(), static_cast<unsigned>(grey.width),
                              static_cast<unsigned>(grey.height));
    zbar::zbar_image_set_data(image.get(), grey.pixels.data(), grey.pixels.size(), nullptr);
    std::string longest;
    if (zbar::zbar_scan_image(scanner.get(), image.get()) <= 0) return longest;
    for (const auto* symbol = zbar::zbar_image_first_symbol(image.get()); symbol != nullptr;
         symbol = zbar::zbar_symbol_next(symbol)) {
        const std::string text(zbar::zbar_symbol_get_data(symbol), zbar::zbar_symbol_get_data_length(symbol));
        if (text.size() > longest.size()) longest = text;
    }
    return longest;
}

// A side of this is scanned as it is; a code that fills a quarter of it has pixels enough.
constexpr int scanned_side = 3000, least_scanned_side = 600;

}  // namespace

measure::Expected<std::string> code_in(const strip::Image& image) {
    Grey grey = grey_of(image);
    while (std::max(grey.width, grey.height) > scanned_side) grey = halved(grey);
    for (;; grey = halved(grey)) {
        if (std::string text = longest_text(grey); !text.empty()) return text;
        if (std::max(grey.width, grey.height) < 2 * least_scanned_side) break;
    }
    return tl::make_unexpected(
        measure::Complaint{"shows no code of a recipe that can be read",
                           "photograph the card's square code from straight above, sharp and large"});
}

measure::Expected<std::string> code_on(const std::filesystem::path& photo) {
    const auto image = strip::load_photo(photo);
    if (!image) return tl::make_unexpected(image.error());
    auto text = code_in(*image);
    if (!text) text.error().where = photo.string();
    return text;
}

}  // namespace battwright::card
