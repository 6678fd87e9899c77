#include "recipe/plying.hpp"

#include <algorithm>

#include "measure/nearest.hpp"
#include "recipe/load.hpp"

namespace battwright::recipe {
namespace {

template <class Enum>
measure::Expected<Enum> parse(std::string_view text, const std::vector<std::string>& words,
                              const std::string& noun) {
    const auto found = std::find(words.begin(), words.end(), text);
    if (found != words.end()) return static_cast<Enum>(found - words.begin());
    std::string mend = measure::did_you_mean(text, words);
    if (mend.empty()) {
        mend = "write one of";
        for (const auto& word : words) mend += " " + word;
    }
    return tl::unexpected(measure::Complaint{"unknown " + noun + " " + measure::quoted(text), mend});
}

}  // namespace

const std::vector<std::string>& plying_words() {
    static const std::vector<std::string> words{"plied", "chain", "barber-pole", "with-thread"};
    return words;
}
const std::vector<std::string>& twist_words() {
    static const std::vector<std::string> words{"soft", "medium", "firm"};
    return words;
}
std::string_view file_word(Plying plying) {
    return plying_words()[static_cast<std::size_t>(plying)];
}
std::string_view word_for(Twist twist) {
    return twist_words()[static_cast<std::size_t>(twist)];
}
measure::Expected<Plying> parse_plying(std::string_view text) {
    return parse<Plying>(text, plying_words(), "way to ply");
}
measure::Expected<Twist> parse_twist(std::string_view text) {
    return parse<Twist>(text, twist_words(), "twist");
}
measure::Expected<double> parse_wheel_ratio(std::string_view text) {
    return parse_ratio(text, "wheel's ratio", "the flyer's turns to one of the wheel, as in \"8.5:1\"");
}

}  // namespace battwright::recipe
