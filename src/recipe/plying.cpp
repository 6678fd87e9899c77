#include "recipe/plying.hpp"

#include "recipe/load.hpp"

namespace battwright::recipe {

std::string_view file_word(Plying plying) {
    return measure::row_of(plyings, plying).word;
}
std::string_view word_for(Twist twist) {
    return measure::row_of(twists, twist).word;
}
measure::Expected<Plying> parse_plying(std::string_view text) {
    return measure::parse_word(plyings, text, "way to ply");
}
measure::Expected<Twist> parse_twist(std::string_view text) {
    return measure::parse_word(twists, text, "twist");
}
measure::Expected<double> parse_wheel_ratio(std::string_view text) {
    return parse_ratio(text, "wheel's ratio", "the flyer's turns to one of the wheel, as in \"8.5:1\"");
}

}  // namespace battwright::recipe
