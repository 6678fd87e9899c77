#include "carding/words.hpp"

#include <algorithm>

#include "text/words.hpp"

namespace battwright::carding {
namespace {

void put(std::string& words, std::string_view mark, std::string_view text) {
    const std::size_t at = words.find(mark);
    if (at != std::string::npos) words.replace(at, mark.size(), text);
}

std::string rolled_words(const Feed& feed) {
    if (feed.tool == ToolKind::hand_cards) return " Each filling is rolled off as one rolag.";
    if (feed.tool != ToolKind::board) return "";
    if (feed.rolags < 1) return " It is lifted off whole, as a batt.";
    return feed.rolags == 1 ? " Rolled off as one rolag."
                            : " Rolled off in " + std::to_string(feed.rolags) + " rolags.";
}

}  // namespace

int pieces_of(const Feed& feed, int strips, int pass) {
    const int own = measure::row_of(recipe::refeeds, feed.refeed_on(pass)).pieces;
    return own > 0 ? own : std::max(1, strips);
}

std::string split_words(const Feed& feed, int strips, int pass) {
    if (feed.tool == ToolKind::hand_cards) return "take all of it over to the other card";
    const auto& row = measure::row_of(recipe::refeeds, feed.refeed_on(pass));
    std::string words(feed.tool == ToolKind::board ? row.laid : row.split);
    put(words, "%k", std::to_string(pieces_of(feed, strips, pass)));
    return words;
}

std::string feed_words(const Feed& feed) {
    if (feed.by_hand) return "laid by hand, as the steps say";
    const auto& tool = measure::row_of(recipe::tool_rows, feed.tool);
    std::string words(feed.tool == ToolKind::drum ? "fed " : "laid ");
    words += measure::row_of(recipe::manners, feed.manner).phrase;
    put(words, "%a", tool.along);
    put(words, "%s", tool.surface);
    return words;
}

std::string carding_words(const Feed& feed, int passes, int strips) {
    const auto& tool = measure::row_of(recipe::tool_rows, feed.tool);
    const std::string rolled = rolled_words(feed);
    std::string words = text::capitalised(feed_words(feed)) + ". " +
                        text::counted(passes, std::string(tool.pass), std::string(tool.passes));
    if (passes < 2) return words + "." + rolled;
    if (feed.tool == ToolKind::hand_cards) return words + " from one card to the other." + rolled;
    if (feed.recombine)
        words += "; after the first, a strip of every batt goes into each batt (when there are several)";
    const bool alike = std::all_of(feed.refeeds.begin(), feed.refeeds.end(),
                                   [&](Refeed refeed) { return refeed == feed.refeed; });
    if (passes == 2 || alike) return words + "; between them, " + split_words(feed, strips) + "." + rolled;
    for (int pass = 2; pass <= passes; ++pass)
        words += "; before pass " + std::to_string(pass) + ", " + split_words(feed, strips, pass);
    return words + "." + rolled;
}

}  // namespace battwright::carding
