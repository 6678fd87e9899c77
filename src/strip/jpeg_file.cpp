#include "strip/jpeg_file.hpp"

#include <turbojpeg.h>

#include <memory>

namespace battwright::strip {
namespace {

constexpr int quality = 85;

}  // namespace

std::string jpeg_bytes(const Image& image) {
    if (image.rgb.empty()) return {};
    const std::unique_ptr<void, int (*)(tjhandle)> encoder(tjInitCompress(), tjDestroy);
    unsigned char* bytes = nullptr;
    unsigned long size = 0;
    const int done = encoder == nullptr
                         ? -1
                         : tjCompress2(encoder.get(), image.rgb.data(), image.width, 0, image.height,
                                       TJPF_RGB, &bytes, &size, TJSAMP_444, quality, 0);
    const std::unique_ptr<unsigned char, void (*)(unsigned char*)> owned(bytes, tjFree);
    return done == 0 ? std::string(reinterpret_cast<const char*>(bytes), size) : std::string();
}

}  // namespace battwright::strip
