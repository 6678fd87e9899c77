#include "recipe/feeding.hpp"

#include <algorithm>
#include <array>
#include <string>
#include <vector>

#include "measure/nearest.hpp"

namespace battwright::recipe {
namespace {

constexpr std::array<std::string_view, 6> manner_words{"layers",          "sandwich",       "stripes",
                                                       "gradient-across", "gradient-round", "dabs"};
constexpr std::array<std::string_view, 3> refeed_words{"strips", "tear-and-fold", "halves"};

template <class Enum, std::size_t N>
measure::Expected<Enum> parse(std::string_view text, const std::array<std::string_view, N>& words,
                              const std::string& noun) {
    const auto found = std::find(words.begin(), words.end(), text);
    if (found != words.end()) return static_cast<Enum>(found - words.begin());
    const std::vector<std::string> known(words.begin(), words.end());
    std::string mend = measure::did_you_mean(text, known);
    if (mend.empty()) {
        mend = "write one of";
        for (const auto& word : known) mend += " " + word;
    }
    return tl::unexpected(measure::Complaint{"unknown " + noun + " " + measure::quoted(text), mend});
}

}  // namespace

std::string_view word_for(Manner manner) {
    return manner_words[static_cast<std::size_t>(manner)];
}
std::string_view word_for(Refeed refeed) {
    return refeed_words[static_cast<std::size_t>(refeed)];
}
measure::Expected<Manner> parse_manner(std::string_view text) {
    return parse<Manner>(text, manner_words, "way to feed");
}
measure::Expected<Refeed> parse_refeed(std::string_view text) {
    return parse<Refeed>(text, refeed_words, "way to feed again");
}

}  // namespace battwright::recipe
