#include "recipe/feeding.hpp"

namespace battwright::recipe {

std::string_view word_for(Manner manner, bool is_flat) {
    if (is_flat && manner == Manner::gradient_round) return gradient_along;
    return measure::row_of(manners, manner).word;
}
std::string_view word_for(Refeed refeed) {
    return measure::row_of(refeeds, refeed).word;
}
std::string told_on(std::string_view text, std::string_view surface) {
    std::string told(text);
    if (surface.empty()) return told;
    const auto put = [&](std::string_view word, const std::string& other) {
        for (std::size_t at = 0; (at = told.find(word, at)) != std::string::npos; at += other.size())
            told.replace(at, word.size(), other);
    };
    put("gradient round", "gradient along");
    put("round the drum", "along the " + std::string(surface));
    put("the drum", "the " + std::string(surface));
    return told;
}
measure::Expected<Manner> parse_manner(std::string_view text) {
    // The plain word for the commoner of the two.
    if (text::same_word(text, "gradient")) return Manner::gradient_across;
    if (text::same_word(text, gradient_along)) return Manner::gradient_round;
    return measure::parse_word(manners, text, "way to feed");
}
measure::Expected<Refeed> parse_refeed(std::string_view text) {
    return measure::parse_word(refeeds, text, "way to feed again");
}

}  // namespace battwright::recipe
