// The tables of optics and lights, declared in colour/optics.hpp.
#include "colour/optics.hpp"

namespace battwright::colour {

std::string_view word_for(Optics optics) {
    return measure::row_of(all_optics, optics).word;
}
std::string_view word_for(Light light) {
    return measure::row_of(all_lights, light).word;
}
measure::Expected<Optics> parse_optics(std::string_view text) {
    return measure::parse_word(all_optics, text, "optics model");
}
measure::Expected<Light> parse_light(std::string_view text) {
    return measure::parse_word(all_lights, text, "light");
}

}  // namespace battwright::colour
