// The words for optics and lights, declared in colour/optics.hpp.
#include <algorithm>
#include <array>
#include <string>
#include <vector>

#include "colour/optics.hpp"
#include "measure/nearest.hpp"

namespace battwright::colour {
namespace {

constexpr std::array all_optics = {Optics::stearns_noechel, Optics::friele, Optics::kubelka_munk};
constexpr std::array all_lights = {Light::d65, Light::a, Light::f2};

// ASCII only: the words are.
bool same_ignoring_case(std::string_view a, std::string_view b) {
    const auto lower = [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; };
    return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                      [&](char x, char y) { return lower(x) == lower(y); });
}

std::string listed(const std::vector<std::string>& words) {
    std::string text;
    for (std::size_t i = 0; i < words.size(); ++i) {
        if (i > 0) text += i + 1 == words.size() ? " or " : ", ";
        text += words[i];
    }
    return text;
}

template <class Value, std::size_t n>
measure::Expected<Value> parse_word(std::string_view text, const std::array<Value, n>& all,
                                    std::string_view noun) {
    std::vector<std::string> words;
    for (const Value value : all) {
        if (same_ignoring_case(text, word_for(value))) return value;
        words.emplace_back(word_for(value));
    }
    std::string mend = "write " + listed(words);
    const std::string question = measure::did_you_mean(text, words);
    if (!question.empty()) mend += "; " + question;
    return tl::unexpected(
        measure::Complaint{"no " + std::string(noun) + " is called " + measure::quoted(text), mend});
}

}  // namespace

std::string_view word_for(Optics optics) {
    switch (optics) {
        case Optics::friele:
            return "friele";
        case Optics::kubelka_munk:
            return "kubelka-munk";
        case Optics::stearns_noechel:
            break;
    }
    return "stearns-noechel";
}

std::string_view word_for(Light light) {
    switch (light) {
        case Light::a:
            return "A";
        case Light::f2:
            return "F2";
        case Light::d65:
            break;
    }
    return "D65";
}

measure::Expected<Optics> parse_optics(std::string_view text) {
    return parse_word(text, all_optics, "optics model");
}

measure::Expected<Light> parse_light(std::string_view text) {
    return parse_word(text, all_lights, "light");
}

}  // namespace battwright::colour
