// PNG files as this program makes them (Portable Network Graphics, second edition, ISO/IEC 15948).
#pragma once

#include <string>
#include <string_view>

#include "strip/picture.hpp"

namespace battwright::strip {

// One chunk, with its length and check sum; a type of four letters and what it holds.
std::string png_chunk(std::string_view type, std::string_view body);
// A whole number as PNG writes it: four bytes, the largest first.
std::string png_number(std::uint32_t value);
// The picture as a file that names this program as its maker, with `chunks` of the caller's after its header.
// Empty for an empty picture or when memory runs out.
std::string png_bytes(const Image& image, std::string_view chunks = {});

}  // namespace battwright::strip
