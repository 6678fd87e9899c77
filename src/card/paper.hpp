// Paper sizes.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "measure/complaint.hpp"

namespace battwright::card {

// A sizes: ISO 216. Letter 8.5 x 11 in (ANSI/ASME Y14.1); index card 6 x 4 in. The tag is our own.
enum class Paper { a6, a5, a4, letter, index, tag };

struct PaperSize {
    double width_mm = 0.0, height_mm = 0.0;
    double margin_mm = 0.0;
    double letter_pt = 0.0;  // of plain text
};
PaperSize size_of(Paper paper);

std::string_view word_for(Paper paper);  // "A6", "letter"
// Case ignored; the complaint names the sizes there are.
measure::Expected<Paper> parse_paper(std::string_view word);

inline constexpr double points_per_millimetre = 72.0 / 25.4;
inline constexpr double print_dpi = 300.0;

}  // namespace battwright::card
