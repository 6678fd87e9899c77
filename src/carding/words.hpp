// How a batt is fed and fed again, in words: said here for the plan, the card, the command line and the
// window.
#pragma once

#include <string>

#include "carding/feed.hpp"

namespace battwright::carding {

// Into how many pieces the batt is parted for a pass (2, 3, ...).
int pieces_of(const Feed& feed, int strips, int pass);
// "split the batt lengthwise into 4 strips", "split the batt lengthwise into two halves".
std::string split_words(const Feed& feed, int strips, int pass = 2);
// "fed as a gradient across the drum".
std::string feed_words(const Feed& feed);
// The carding of a batt in one or two sentences: "Fed in layers over the full width. 3 passes; between them,
// split the batt lengthwise into 4 strips."
std::string carding_words(const Feed& feed, int passes, int strips);

}  // namespace battwright::carding
