#include "card/qr.hpp"

#include <qrencode.h>

#include <algorithm>
#include <memory>

namespace battwright::card {
namespace {

constexpr unsigned utf8_designator = 26;  // ECI assignment for UTF-8 (AIM ITS/04-023)

std::optional<QrCode> encode(const std::string& text, QRecLevel level) {
    const std::unique_ptr<QRinput, decltype(&QRinput_free)> input(QRinput_new2(0, level), QRinput_free);
    if (!input) return std::nullopt;
    const bool ascii = std::all_of(text.begin(), text.end(), [](char c) { return (c & '\x80') == 0; });
    if (!ascii && QRinput_appendECIheader(input.get(), utf8_designator) != 0) return std::nullopt;
    if (QRinput_append(input.get(), QR_MODE_8, static_cast<int>(text.size()),
                       reinterpret_cast<const unsigned char*>(text.data())) != 0)
        return std::nullopt;
    const std::unique_ptr<QRcode, decltype(&QRcode_free)> code(QRcode_encodeInput(input.get()), QRcode_free);
    if (!code) return std::nullopt;
    QrCode result;
    result.modules = code->width;
    const auto count = static_cast<std::size_t>(code->width) * static_cast<std::size_t>(code->width);
    for (std::size_t i = 0; i < count; ++i) result.dark.push_back((code->data[i] & 1U) != 0);
    return result;
}

}  // namespace

std::optional<QrCode> qr_of(const std::string& text, int most_modules) {
    if (text.empty()) return std::nullopt;
    auto strong = encode(text, QR_ECLEVEL_M);
    if (strong && strong->modules <= most_modules) return strong;
    return encode(text, QR_ECLEVEL_L);
}

}  // namespace battwright::card
