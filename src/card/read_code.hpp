// The recipe off a picture of a printed card.
#pragma once

#include <filesystem>
#include <string>

#include "measure/complaint.hpp"
#include "strip/picture.hpp"

namespace battwright::card {

// The text in the QR code (ISO/IEC 18004) of the picture, read by ZBar; of several codes the longest text,
// which is the recipe's. A complaint when there is none to be read. Takes up to a second for a large photo;
// may be called from any thread.
measure::Expected<std::string> code_in(const strip::Image& image);
// The same of a photo's file; the complaint names it.
measure::Expected<std::string> code_on(const std::filesystem::path& photo);

}  // namespace battwright::card
