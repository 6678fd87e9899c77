#include "forecast/without_drum.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <string_view>

#include "text/believe.hpp"

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

// How long the longest of the names is that the text begins with, as whole words; 0: with none.
std::size_t name_length(std::string_view text, std::span<const std::string> names) {
    std::size_t longest = 0;
    for (const std::string& name : names) {
        if (!text.starts_with(name)) continue;
        if (text.size() == name.size() || !in_word(text[name.size()]))
            longest = std::max(longest, name.size());
    }
    return longest;
}

std::size_t word_length(std::string_view text) {
    const auto end = std::find_if_not(text.begin(), text.end(), in_word);
    return std::max<std::size_t>(1, static_cast<std::size_t>(end - text.begin()));
}

}  // namespace

std::string without_drum(const std::string& text, std::span<const std::string> names,
                         const recipe::Carder& carder) {
    BATTWRIGHT_BELIEVE(recipe::is_flat(carder));
    const bool cards = carder.kind == recipe::ToolKind::hand_cards;
    std::string told;
    for (std::string_view left = text; !left.empty();) {
        const std::size_t name = name_length(left, names);
        std::string_view word = left.substr(0, name > 0 ? name : word_length(left));
        left.remove_prefix(word.size());
        for (const Said& row : said) {
            if (name > 0 || row.on_drum != word) continue;
            word = cards ? row.on_cards : row.on_board;
            break;
        }
        told += word;
    }
    return told;
}

void say_without_drum(staple::Finding& finding, std::span<const std::string> names,
                      const recipe::Carder& carder) {
    for (std::string* text :
         {&finding.text, &finding.remedy, &finding.text_with_quantities, &finding.remedy_with_quantities})
        *text = without_drum(*text, names, carder);
}

}  // namespace battwright::forecast
