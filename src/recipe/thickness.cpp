#include "recipe/thickness.hpp"

#include <algorithm>
#include <array>

#include "measure/nearest.hpp"
#include "text/words.hpp"

namespace battwright::recipe {
namespace {

// Trade words and wraps: common practice, no source. Plies: as the United Kingdom and Australia count them,
// from memory.
constexpr std::array names{
    ThicknessName{"cobweb", 0, 30.0},     ThicknessName{"lace", 0, 20.0},
    ThicknessName{"2-ply", 0, 20.0},      ThicknessName{"light fingering", 1, 17.0},
    ThicknessName{"3-ply", 1, 17.0},      ThicknessName{"super fine", 1, 15.5},
    ThicknessName{"fingering", 1, 15.5},  ThicknessName{"sock", 1, 15.5},
    ThicknessName{"4-ply", 1, 15.5},      ThicknessName{"fine", 2, 12.5},
    ThicknessName{"sport", 2, 12.5},      ThicknessName{"5-ply", 2, 12.5},
    ThicknessName{"light", 3, 11.0},      ThicknessName{"DK", 3, 11.0},
    ThicknessName{"8-ply", 3, 11.0},      ThicknessName{"medium", 4, 9.0},
    ThicknessName{"worsted", 4, 9.0},     ThicknessName{"10-ply", 4, 9.0},
    ThicknessName{"aran", 4, 8.5},        ThicknessName{"bulky", 5, 7.0},
    ThicknessName{"chunky", 5, 7.0},      ThicknessName{"12-ply", 5, 7.0},
    ThicknessName{"super bulky", 6, 5.5}, ThicknessName{"jumbo", 7, 3.5},
};
constexpr std::string_view class_prefix = "class ", weight_ending = " weight";

// Lower case, a hyphen as a space, "4ply" as "4 ply", "worsted weight" as "worsted".
std::string plain_word(std::string_view text) {
    std::string word = text::lower(text);
    std::replace(word.begin(), word.end(), '-', ' ');
    if (const auto ply = word.find("ply"); ply != std::string::npos && ply > 0 && word[ply - 1] != ' ')
        word.insert(ply, " ");
    if (word.ends_with(weight_ending) && word.size() > weight_ending.size())
        word.resize(word.size() - weight_ending.size());
    return word;
}

tl::unexpected<measure::Complaint> unknown(std::string_view text) {
    std::string mend = "write \"12 wpi\", \"200 tex\" or a name such as lace, sport or bulky";
    std::vector<std::string> words;
    for (const ThicknessName& name : names) words.emplace_back(name.word);
    const std::string question = measure::did_you_mean(text::lower(text), words);
    if (!question.empty()) mend = question + " (or " + mend + ")";
    return tl::make_unexpected(
        measure::Complaint{"the thickness " + measure::quoted(text) + " is not known", mend});
}

}  // namespace

std::span<const ThicknessName> thickness_names() {
    return names;
}

const ThicknessName* thickness_named(std::string_view text) {
    std::string word = plain_word(text);
    if (word.size() == class_prefix.size() + 1 && word.starts_with(class_prefix)) {
        const int number = word.back() - '0';
        if (number < 0 || number >= static_cast<int>(thickness_classes().size())) return nullptr;
        word = thickness_classes()[static_cast<std::size_t>(number)];
    }
    const auto* const found = std::find_if(
        names.begin(), names.end(), [&](const ThicknessName& name) { return plain_word(name.word) == word; });
    return found == names.end() ? nullptr : found;
}

const std::vector<std::string>& thickness_classes() {
    static const std::vector<std::string> classes{"lace",   "super fine", "fine",        "light",
                                                  "medium", "bulky",      "super bulky", "jumbo"};
    return classes;
}

measure::Expected<Thickness> parse_thickness(std::string_view text) {
    Thickness thickness;
    if (const ThicknessName* name = thickness_named(text)) {
        thickness.in = ThicknessIn::class_name;
        thickness.class_name = name->word;
        return thickness;
    }
    const bool numeric = text.find_first_of("0123456789") != std::string_view::npos;
    if (!numeric) return unknown(text);
    const auto quantity = measure::parse_quantity(text, "thickness", "12 wpi");
    if (!quantity) return tl::make_unexpected(quantity.error());
    const std::string unit = text::lower(quantity->unit);
    if (unit != "wpi" && unit != "tex") return unknown(text);
    thickness.in = unit == "wpi" ? ThicknessIn::wpi : ThicknessIn::tex;
    thickness.value = quantity->value;
    return thickness;
}

std::string write_thickness(const Thickness& thickness) {
    if (thickness.in == ThicknessIn::class_name) return thickness.class_name;
    return measure::write_number(thickness.value) + (thickness.in == ThicknessIn::wpi ? " wpi" : " tex");
}

const std::vector<std::string>& preparation_words() {
    static const std::vector<std::string> words = measure::words_of(preparations);
    return words;
}

std::string_view word_for(Preparation preparation) {
    return measure::row_of(preparations, preparation).word;
}

measure::Expected<Preparation> parse_preparation(std::string_view text) {
    return measure::parse_word(preparations, text, "preparation");
}

}  // namespace battwright::recipe
