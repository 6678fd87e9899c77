// JPEG files (ISO/IEC 10918-1), for pictures that go into a larger file.
#pragma once

#include <string>

#include "strip/picture.hpp"

namespace battwright::strip {

// The picture at a quality at which fibres stay sharp and colours their own (no subsampling). Empty for an
// empty picture or when memory runs out.
std::string jpeg_bytes(const Image& image);

}  // namespace battwright::strip
