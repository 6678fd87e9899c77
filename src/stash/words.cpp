// The words for forms, reasons and things, and marks as people type them.
#include <algorithm>
#include <array>
#include <cctype>

#include "measure/nearest.hpp"
#include "stash/lookup.hpp"
#include "stash/lot.hpp"
#include "stash/movement.hpp"

namespace battwright::stash {
namespace {

constexpr std::array<std::string_view, 12> forms{"top",    "roving", "sliver", "braid",   "batt",   "locks",
                                                 "fleece", "noils",  "neps",   "sparkle", "thread", "other"};
constexpr std::array<std::string_view, 8> reasons{"bought", "carded",  "taken back", "wasted",
                                                  "given",  "scoured", "weighed",    "corrected"};

template <std::size_t size>
std::vector<std::string> as_strings(const std::array<std::string_view, size>& words) {
    return {words.begin(), words.end()};
}

std::string lower(std::string_view text) {
    std::string result(text);
    for (char& c : result) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    return result;
}

template <std::size_t size>
measure::Expected<std::size_t> index_in(const std::array<std::string_view, size>& words,
                                        std::string_view text, const char* noun) {
    const auto found = std::find(words.begin(), words.end(), lower(text));
    if (found != words.end()) return static_cast<std::size_t>(found - words.begin());
    std::string mend = measure::did_you_mean(text, as_strings(words));
    if (mend.empty()) {
        mend = "write one of";
        for (const std::string_view word : words) mend += (word == words[0] ? " " : ", ") + std::string(word);
    }
    return tl::make_unexpected(measure::Complaint{
        std::string("the ") + noun + " " + measure::quoted(text) + " is not known", mend, noun});
}

}  // namespace

std::string_view word_for(Form form) {
    return forms[static_cast<std::size_t>(form)];
}
const std::vector<std::string>& form_words() {
    static const std::vector<std::string> words = as_strings(forms);
    return words;
}
measure::Expected<Form> parse_form(std::string_view text) {
    return index_in(forms, text, "form").map([](std::size_t at) { return static_cast<Form>(at); });
}

std::string_view word_for(Reason reason) {
    return reasons[static_cast<std::size_t>(reason)];
}
measure::Expected<Reason> parse_reason(std::string_view text) {
    return index_in(reasons, text, "reason").map([](std::size_t at) { return static_cast<Reason>(at); });
}

std::string_view word_for(Thing thing) {
    constexpr std::array<std::string_view, 3> words{"lot", "batt", "skein"};
    return words[static_cast<std::size_t>(thing)];
}

measure::Expected<std::string> parse_mark(std::string_view text) {
    std::string mark;
    bool letter = false;
    bool sound = true;
    for (const char c : text) {
        if (c == ' ' || c == '-') continue;
        const char upper = static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
        sound = sound && mark_alphabet.find(upper) != std::string_view::npos;
        letter = letter || std::isalpha(static_cast<unsigned char>(upper)) != 0;
        mark += upper;
    }
    if (sound && letter && mark.size() == mark_length) return mark;
    return tl::make_unexpected(measure::Complaint{
        "the mark " + measure::quoted(text) + " is none",
        "write the six characters on the bag's tag, of " + std::string(mark_alphabet), "mark"});
}

}  // namespace battwright::stash
