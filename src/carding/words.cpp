#include "carding/words.hpp"

#include <algorithm>

#include "text/words.hpp"

namespace battwright::carding {

int pieces_of(const Feed& feed, int strips) {
    const int own = measure::row_of(recipe::refeeds, feed.refeed).pieces;
    return own > 0 ? own : std::max(1, strips);
}

std::string split_words(const Feed& feed, int strips) {
    constexpr std::string_view mark = "%k";
    std::string words(measure::row_of(recipe::refeeds, feed.refeed).split);
    const std::size_t at = words.find(mark);
    if (at != std::string::npos) words.replace(at, mark.size(), std::to_string(pieces_of(feed, strips)));
    return words;
}

std::string feed_words(const Feed& feed) {
    return "fed " + std::string(measure::row_of(recipe::manners, feed.manner).phrase);
}

std::string carding_words(const Feed& feed, int passes, int strips) {
    const std::string words =
        text::capitalised(feed_words(feed)) + ". " + text::counted(passes, "pass", "passes");
    return passes > 1 ? words + "; between them, " + split_words(feed, strips) + "." : words + ".";
}

}  // namespace battwright::carding
