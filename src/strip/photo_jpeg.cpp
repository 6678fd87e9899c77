#include <turbojpeg.h>

#include <algorithm>
#include <memory>

#include "strip/photo_formats.hpp"

namespace battwright::strip {
namespace {

using Decoder = std::unique_ptr<void, int (*)(tjhandle)>;

struct JpegHeader {
    int width = 0, height = 0, sampling = 0, colours = 0;
};

const unsigned char* jpeg_data(std::string_view bytes) {
    return reinterpret_cast<const unsigned char*>(bytes.data());
}

measure::Expected<JpegHeader> read_header(const Decoder& decoder, std::string_view bytes) {
    JpegHeader header;
    if (tjDecompressHeader3(decoder.get(), jpeg_data(bytes), bytes.size(), &header.width, &header.height,
                            &header.sampling, &header.colours) != 0)
        return damaged_photo(tjGetErrorStr2(decoder.get()));
    if (header.colours == TJCS_CMYK || header.colours == TJCS_YCCK)
        return tl::make_unexpected(
            measure::Complaint{"is a picture in printing inks (CMYK)", "save it in RGB, as cameras do"});
    return header;
}

measure::Expected<PhotoSize> jpeg_size(std::string_view bytes) {
    const Decoder decoder(tjInitDecompress(), tjDestroy);
    return read_header(decoder, bytes).map([](const JpegHeader& header) {
        return PhotoSize{header.width, header.height};
    });
}

// Some cameras leave odd bytes between the parts, which harms nothing; an end that is missing does.
bool is_harmless(const Decoder& decoder) {
    const std::string_view words = tjGetErrorStr2(decoder.get());
    return tjGetErrorCode(decoder.get()) == TJERR_WARNING &&
           words.find("extraneous") != std::string_view::npos;
}

// An eighth, a quarter or a half of a side is decoded without decoding the rest.
tjscalingfactor smaller_by(const JpegHeader& header, int least_side) {
    if (least_side <= 0) return {1, 1};
    for (const int by : {8, 4, 2})
        if (std::min(header.width, header.height) / by >= least_side) return {1, by};
    return {1, 1};
}

measure::Expected<Image> jpeg_pixels(std::string_view bytes, int least_side) {
    const Decoder decoder(tjInitDecompress(), tjDestroy);
    const auto header = read_header(decoder, bytes);
    if (!header) return tl::make_unexpected(header.error());
    Image image;
    const tjscalingfactor factor = smaller_by(*header, least_side);
    image.width = TJSCALED(header->width, factor);
    image.height = TJSCALED(header->height, factor);
    image.rgb.resize(3 * static_cast<std::size_t>(image.width) * static_cast<std::size_t>(image.height));
    // A progressive file of thousands of scans would take minutes.
    const int done =
        tjDecompress2(decoder.get(), jpeg_data(bytes), bytes.size(), image.rgb.data(), image.width, 0,
                      image.height, TJPF_RGB, TJFLAG_ACCURATEDCT | TJFLAG_LIMITSCANS);
    if (done != 0 && !is_harmless(decoder)) return damaged_photo(tjGetErrorStr2(decoder.get()));
    return image;
}

}  // namespace

const PhotoFormat jpeg_format{"\xff\xd8\xff", jpeg_size, jpeg_pixels};

}  // namespace battwright::strip
