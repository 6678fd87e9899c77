#include "recipe/feeding.hpp"

namespace battwright::recipe {

std::string_view word_for(Manner manner) {
    return measure::row_of(manners, manner).word;
}
std::string_view word_for(Refeed refeed) {
    return measure::row_of(refeeds, refeed).word;
}
measure::Expected<Manner> parse_manner(std::string_view text) {
    // The plain word for the commoner of the two.
    if (text::same_word(text, "gradient")) return Manner::gradient_across;
    return measure::parse_word(manners, text, "way to feed");
}
measure::Expected<Refeed> parse_refeed(std::string_view text) {
    return measure::parse_word(refeeds, text, "way to feed again");
}

}  // namespace battwright::recipe
