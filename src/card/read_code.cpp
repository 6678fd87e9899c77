#include "card/read_code.hpp"

#include <zbar.h>

#include <algorithm>
#include <cstdint>
#include <memory>
#include <utility>
#include <vector>

#include "strip/photo_file.hpp"
#include "strip/picture.hpp"

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
    // Green, of which a camera's sensor has most and so the least grain: a code is black on white.
    for (std::size_t i = 1; i < image.rgb.size(); i += 3) grey.pixels.push_back(image.rgb[i]);
    return grey;
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

// From further off: takes the camera's grain out.
strip::Image halved(strip::Image image) {
    return strip::seen_from_afar(std::move(image), 2);
}

// Scanned from this side on: larger takes longer and finds no more.
constexpr int scanned_side = 3000;
// A code that fills a quarter of this still has pixels enough.
constexpr int least_scanned_side = 600;

}  // namespace

measure::Expected<std::string> code_in(const strip::Image& image) {
    const auto side = [](const strip::Image& seen) { return std::max(seen.width, seen.height); };
    strip::Image seen = image;
    while (side(seen) > scanned_side) seen = halved(std::move(seen));
    do {
        if (std::string text = longest_text(grey_of(seen)); !text.empty()) return text;
        seen = halved(std::move(seen));
    } while (side(seen) >= least_scanned_side);
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
