#include "recipe/thickness.hpp"

#include <algorithm>

#include "measure/nearest.hpp"
#include "text/words.hpp"

namespace battwright::recipe {
namespace {

bool is_class(const std::string& word) {
    const auto& names = thickness_classes();
    return std::find(names.begin(), names.end(), word) != names.end();
}

tl::unexpected<measure::Complaint> unknown(std::string_view text) {
    std::string mend = "write \"12 wpi\", \"200 tex\" or a class from lace to jumbo";
    const std::string question = measure::did_you_mean(text::lower(text), thickness_classes());
    if (!question.empty()) mend = question + " (or " + mend + ")";
    return tl::make_unexpected(
        measure::Complaint{"the thickness " + measure::quoted(text) + " is not known", mend});
}

}  // namespace

const std::vector<std::string>& thickness_classes() {
    static const std::vector<std::string> names{"lace",   "super fine", "fine",        "light",
                                                "medium", "bulky",      "super bulky", "jumbo"};
    return names;
}

measure::Expected<Thickness> parse_thickness(std::string_view text) {
    Thickness thickness;
    if (const std::string word = text::lower(text); is_class(word)) {
        thickness.in = ThicknessIn::class_name;
        thickness.class_name = word;
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
