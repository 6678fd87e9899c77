#define STB_IMAGE_WRITE_IMPLEMENTATION
#define STB_IMAGE_WRITE_STATIC
#if defined(__GNUC__)
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wunused-function"
#endif
#include <stb/stb_image_write.h>
#if defined(__GNUC__)
#pragma GCC diagnostic pop
#endif

#include "measure/replace.hpp"
#include "strip/png_file.hpp"

namespace battwright::strip {
namespace {

// ISO 3309 check sum of a PNG chunk (PNG specification, section on CRCs).
std::uint32_t check_sum(std::string_view bytes) {
    std::uint32_t sum = 0xFFFFFFFFU;
    for (const char byte : bytes) {
        sum ^= static_cast<unsigned char>(byte);
        for (int bit = 0; bit < 8; ++bit) sum = (sum >> 1) ^ ((sum & 1U) != 0 ? 0xEDB88320U : 0U);
    }
    return ~sum;
}

}  // namespace

std::string png_number(std::uint32_t value) {
    std::string bytes;
    for (int shift = 24; shift >= 0; shift -= 8) bytes += static_cast<char>((value >> shift) & 0xFFU);
    return bytes;
}

std::string png_chunk(std::string_view type, std::string_view body) {
    const std::string summed = std::string(type) + std::string(body);
    return png_number(static_cast<std::uint32_t>(body.size())) + summed + png_number(check_sum(summed));
}

std::string png_bytes(const Image& image, std::string_view chunks) {
    std::string bytes;
    if (image.rgb.empty()) return bytes;
    const auto append = [](void* to, void* data, int size) {
        static_cast<std::string*>(to)->append(static_cast<const char*>(data), static_cast<std::size_t>(size));
    };
    if (stbi_write_png_to_func(append, &bytes, image.width, image.height, 3, image.rgb.data(),
                               3 * image.width) == 0)
        return {};
    // After the header chunk, 8 + 25 bytes from the start.
    constexpr std::size_t after_header = 33;
    const std::string maker = std::string("Software") + '\0' + std::string(measure::maker_mark);
    bytes.insert(after_header, png_chunk("tEXt", maker) + std::string(chunks));
    return bytes;
}

measure::Expected<void> save_png(const Image& image, const std::string& path, const measure::Saving& saving) {
    if (image.rgb.empty())
        return tl::make_unexpected(measure::Complaint{"the picture has no pixels",
                                                      "ask for a width and a height of at least 1", path});
    const std::string bytes = png_bytes(image);
    if (bytes.empty())
        return tl::make_unexpected(measure::Complaint{"the picture does not fit into memory as a PNG",
                                                      "ask for a smaller one", path});
    return measure::save_as(measure::FileKind::png, path, bytes, saving);
}

}  // namespace battwright::strip
