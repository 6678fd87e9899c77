#include "carding/words.hpp"

#include <algorithm>

#include "text/words.hpp"

namespace battwright::carding {

int pieces_of(const Feed& feed, int strips, int pass) {
    const int own = measure::row_of(recipe::refeeds, feed.refeed_on(pass)).pieces;
    return own > 0 ? own : std::max(1, strips);
}

std::string split_words(const Feed& feed, int strips, int pass) {
    constexpr std::string_view mark = "%k";
    std::string words(measure::row_of(recipe::refeeds, feed.refeed_on(pass)).split);
    const std::size_t at = words.find(mark);
    if (at != std::string::npos)
        words.replace(at, mark.size(), std::to_string(pieces_of(feed, strips, pass)));
    return words;
}

std::string feed_words(const Feed& feed) {
    if (feed.by_hand) return "laid by hand, as the steps say";
    return "fed " + std::string(measure::row_of(recipe::manners, feed.manner).phrase);
}

std::string carding_words(const Feed& feed, int passes, int strips) {
    std::string words = text::capitalised(feed_words(feed)) + ". " + text::counted(passes, "pass", "passes");
    if (passes < 2) return words + ".";
    if (feed.recombine)
        words += "; after the first, a strip of every batt goes into each batt (when there are several)";
    const bool alike = std::all_of(feed.refeeds.begin(), feed.refeeds.end(),
                                   [&](Refeed refeed) { return refeed == feed.refeed_on(2); });
    if (passes == 2 || feed.refeeds.empty() || (alike && feed.refeed == feed.refeed_on(2)))
        return words + "; between them, " + split_words(feed, strips) + ".";
    for (int pass = 2; pass <= passes; ++pass)
        words += "; before pass " + std::to_string(pass) + ", " + split_words(feed, strips, pass);
    return words + ".";
}

}  // namespace battwright::carding
