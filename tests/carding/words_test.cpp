#include "carding/words.hpp"

#include <doctest/doctest.h>

using namespace battwright;
using carding::Manner;
using carding::Refeed;

TEST_CASE(
    "halves are two and a turned batt is one, whatever the recipe's strips; others are as many as it says") {
    for (const auto& row : recipe::refeeds) {
        const carding::Feed feed{Manner::layers, row.value};
        CAPTURE(row.word);
        const std::string words = carding::split_words(feed, 5);
        if (row.pieces > 0) {
            CHECK(carding::pieces_of(feed, 5, 2) == row.pieces);
            CHECK(words.find('5') == std::string::npos);
        } else if (row.value == Refeed::sideways) {
            CHECK(words.find("staple") != std::string::npos);  // as many as the staple makes
        } else {
            CHECK(carding::pieces_of(feed, 5, 2) == 5);
            CHECK(words.find('5') != std::string::npos);
        }
        CHECK(words.find('%') == std::string::npos);
    }
    CHECK(carding::pieces_of({Manner::layers, Refeed::halves}, 5, 2) == 2);
    CHECK(carding::pieces_of({Manner::layers, Refeed::quarter_turn}, 5, 2) == 1);
}

TEST_CASE("a carding in words names the feed, and the split only where there is another pass") {
    const carding::Feed fade{Manner::gradient_round, Refeed::halves};
    CHECK(carding::carding_words(fade, 2, 4) ==
          "Fed as a gradient round the drum. 2 passes; between them, split the batt lengthwise into two "
          "halves and lay one on the other.");
    CHECK(carding::carding_words(fade, 1, 4) == "Fed as a gradient round the drum. 1 pass.");
}

TEST_CASE("no two manners or ways to feed again are told by the same word, label or phrase") {
    for (const auto& a : recipe::manners)
        for (const auto& b : recipe::manners) {
            if (a.value == b.value) continue;
            CHECK(a.word != b.word);
            CHECK(a.label != b.label);
            CHECK(a.phrase != b.phrase);
        }
    for (const auto& a : recipe::refeeds)
        for (const auto& b : recipe::refeeds) {
            if (a.value == b.value) continue;
            CHECK(a.word != b.word);
            CHECK(a.split != b.split);
        }
}
