#include "forecast/without_drum.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <string_view>

namespace battwright::forecast {
namespace {

struct Said {
    std::string_view on_drum, on_board, on_cards;
};
constexpr std::array<Said, 12> said{{{"drum", "board", "cards"},
                                     {"drums", "board", "cards"},
                                     {"tray", "board", "card"},
                                     {"carder", "board", "cards"},
                                     {"feed", "lay", "lay"},
                                     {"Feed", "Lay", "Lay"},
                                     {"fed", "laid", "laid"},
                                     {"Fed", "Laid", "Laid"},
                                     {"feeding", "laying", "laying"},
                                     {"pass", "pass", "transfer"},
                                     {"passes", "passes", "transfers"},
                                     {"batts", "boards", "rolags"}}};

bool in_word(char c) {
    return std::isalpha(static_cast<unsigned char>(c)) != 0 || c == '-';
}

}  // namespace

std::string without_drum(const std::string& text, const recipe::Carder& carder) {
    const bool cards = carder.kind == recipe::ToolKind::hand_cards;
    std::string told;
    for (std::size_t at = 0; at < text.size();) {
        std::size_t end = at;
        while (end < text.size() && in_word(text[end])) ++end;
        std::string_view word = std::string_view(text).substr(at, std::max<std::size_t>(1, end - at));
        at += word.size();
        for (const Said& row : said) {
            if (row.on_drum != word) continue;
            word = cards ? row.on_cards : row.on_board;
            break;
        }
        told += word;
    }
    return told;
}

void say_without_drum(staple::Finding& finding, const recipe::Carder& carder) {
    for (std::string* text :
         {&finding.text, &finding.remedy, &finding.text_with_quantities, &finding.remedy_with_quantities})
        *text = without_drum(*text, carder);
}

}  // namespace battwright::forecast
