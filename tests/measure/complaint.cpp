#include "measure/complaint.hpp"

#include <doctest/doctest.h>

#include "measure/nearest.hpp"

namespace measure = battwright::measure;

TEST_CASE("a complaint is one line with the parts that are known") {
    CHECK(measure::to_line({"bad", "mend it", "a.toml", 3, 7}) == "a.toml:3:7: bad; mend it");
    CHECK(measure::to_line({"bad", "mend it", "a.toml", 3, 0}) == "a.toml:3: bad; mend it");
    CHECK(measure::to_line({"bad", "mend it", "total"}) == "total: bad; mend it");
    CHECK(measure::to_line({"bad", ""}) == "bad");
    CHECK(measure::to_line({"two\nlines\rand\ta\x1b[31m", "", "f"}) == "f: two lines and a?[31m");
}

TEST_CASE("quoting keeps characters whole and takes out what would spoil a terminal") {
    CHECK(measure::quoted("kelp") == "\"kelp\"");
    CHECK(measure::quoted("ke\x07lp\xff") == "\"ke?lp?\"");
    CHECK(measure::quoted("h\u00e5vn") == "\"h\u00e5vn\"");
    const std::string long_text = std::string(59, 'a') + "\u00e5" + std::string(10, 'b');
    CHECK(measure::quoted(long_text) == '"' + std::string(59, 'a') + "\u00e5...\"");
}

TEST_CASE("UTF-8 is judged as RFC 3629 has it") {
    const auto npos = std::string_view::npos;
    CHECK(measure::first_not_utf8("") == npos);
    CHECK(measure::first_not_utf8("gull \u00e9 \u20ac \U0001F411") == npos);
    CHECK(measure::first_not_utf8("ab\xff") == 2);
    CHECK(measure::first_not_utf8("ab\xc3") == 2);               // cut short
    CHECK(measure::first_not_utf8("\xc0\xaf") == 0);             // overlong (RFC 3629, section 10)
    CHECK(measure::first_not_utf8("\xe0\x80\xaf") == 0);         // overlong
    CHECK(measure::first_not_utf8("a\xed\xa0\x80") == 1);        // a surrogate (RFC 3629, section 3)
    CHECK(measure::first_not_utf8("\xf4\x90\x80\x80") == 0);     // past U+10FFFF
    CHECK(measure::first_not_utf8("\xf4\x8f\xbf\xbf") == npos);  // U+10FFFF itself
}

TEST_CASE("nearest words by optimal string alignment") {
    const std::vector<std::string> known{"corriedale", "cormo", "merino-fine", "romney", "share", "staple"};
    CHECK(measure::nearest_words("coriedale", known).front() == "corriedale");
    CHECK(measure::nearest_words("Romney", known).front() == "romney");
    CHECK(measure::nearest_words("sahre", known).front() == "share");  // two letters swapped: one step
    CHECK(measure::nearest_words("xyzzy", known).empty());
    CHECK(measure::nearest_words("", known).empty());
    CHECK(measure::nearest_words(std::string(1u << 20, 'a'), known).empty());
    CHECK(measure::did_you_mean("stapel", {"staple"}) == "did you mean staple?");
    CHECK(measure::did_you_mean("ab", {"ax", "ay", "az", "aw"}) == "did you mean ax, ay or az?");
    CHECK(measure::did_you_mean("gull", {"kelp-and-brass"}).empty());
    CHECK(measure::did_you_mean("ply", {"plies", "plying"}) == "did you mean plying?");  // begun
    // Half the letters wrong is another word.
    CHECK(measure::did_you_mean("anemone", {"angora"}).empty());
    CHECK(measure::did_you_mean("bling", {"lincoln"}).empty());
}
