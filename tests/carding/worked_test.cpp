// Small things about a carder worked by hand: what is counted, measured or told the same way apart from the
// code.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <string>

#include "carding/flat.hpp"
#include "carding/lay.hpp"
#include "carding/pull.hpp"
#include "carding/words.hpp"
#include "making.hpp"

using namespace battwright;
using namespace battwright::carding;
using doctest::Approx;

TEST_CASE("strokes of one transfer between hand cards, counted") {
    // Half of what the teeth reach goes over each time. They reach 26 % of a full card: 13 % each time, and
    // 22 % are left after six strokes; then half of all that is left each time, 11 and 5.5 %. The last tenth
    // comes off in one (common practice, no source).
    CHECK(transfer_of(48, 0.26).strokes == 8);
    // 27 %: 19 % after six, 9.5 % after seven, a little less than a tenth.
    CHECK(transfer_of(48, 0.27).strokes == 7);
    // However thick it lies, ten to thirteen strokes and the card is turned (common practice, no source).
    CHECK(transfer_of(48, 0.05).strokes >= 10);
    CHECK(transfer_of(48, 0.05).strokes <= 13);
    // The teeth reach into the upper half of each other's (a spinner's page: cards that mesh tear), and a
    // full load is as thick as they are long.
    const recipe::Carder& cards = *recipe::find_carder("hand-cards");
    CHECK(reach_of_strokes(cards, cards.load_high_grams) == Approx(0.5).epsilon(0.05).scale(0.0));
    CHECK(reach_of_strokes(cards, 2.0 * cards.load_high_grams) == Approx(0.25).epsilon(0.05).scale(0.0));
    CHECK(reach_of_strokes(cards, 0.25 * cards.load_high_grams) == 1.0);
}

TEST_CASE("a lump wanders as far as the card spreads fibre, and as the normal distribution has it") {
    Setup setup;
    setup.portions.resize(1);
    setup.feed.refeed = Refeed::own_places;
    setup.circumference_mm = setup.width_mm = 1000.0;
    setup.spread.across_mm = 10.0;
    setup.spread.depth_share = 0.05;
    Pass batt{1, empty_field({1, 4, 4}, 1, 1000.0, 1000.0), {}};
    std::fill(batt.field.shares.begin(), batt.field.shares.end(), 1.0);
    constexpr std::uint32_t lumps = 8000;
    for (std::uint32_t n = 0; n < lumps; ++n) batt.spots.push_back({0, n, 500.0f, 500.0f, 0.5f});
    const Pass next = carded_again(batt, setup, 1);
    REQUIRE(next.spots.size() == lumps);
    // Half way round goes in half way through the batt: the depth is a half.
    double across = 0.0, depth = 0.0, squares = 0.0, deep = 0.0, both = 0.0, far = 0.0, round = 0.0;
    for (const Spot& spot : next.spots) {
        const double a = (static_cast<double>(spot.across_mm) - 500.0) / 10.0;
        const double d = (static_cast<double>(spot.depth) - 0.5) / 0.05;
        across += a / lumps;
        depth += d / lumps;
        squares += a * a / lumps;
        deep += d * d / lumps;
        both += a * d / lumps;
        far += (std::abs(a) > 1.96 ? 1.0 : 0.0) / lumps;  // one in twenty of a normal distribution
        round += static_cast<double>(spot.round_mm) / 1000.0 / lumps;
    }
    const double error = 5.0 / std::sqrt(lumps);
    CHECK(std::abs(across) < error);
    CHECK(std::abs(depth) < error);
    CHECK(std::abs(both) < error);
    CHECK(squares == Approx(1.0).epsilon(error * std::sqrt(2.0)).scale(0.0));
    CHECK(deep == Approx(1.0).epsilon(error * std::sqrt(2.0)).scale(0.0));
    CHECK(far == Approx(0.05).epsilon(error * std::sqrt(0.95 / 0.05)).scale(0.0));
    CHECK(round == Approx(0.5).epsilon(error));  // the drum turns many times: anywhere round it
}

TEST_CASE("dabs are as wide as a pinch, one to a hand's breadth, and none lies on another") {
    // Across the tray: a dab of 45 mm (an inch and a half to two inches) every 80 mm or so (a hand's
    // breadth). exp(-(y / h)^4) with h half its width is at half its height over 2 h (ln 2)^(1/4) = 41.1 mm.
    // A way round that has room for one dab, so that none lies behind another.
    Field shape = empty_field({1, 8000, 1}, 1, 190.0, 8000.0);
    Lay dabs{0, 10.0};
    dabs.how = recipe::Spreading::dabs;
    dabs.dab_mm = 45.0;
    dabs.across = {0.0, 1.0 - 1e-9};  // given a place: no handfuls, which would make them uneven
    const auto thick = placed_thickness(dabs, 3, shape, 11);
    const auto [floor, top] = std::minmax_element(thick.begin(), thick.end());
    std::vector<double> middles, widths;
    for (std::size_t y = 0; y < thick.size(); ++y) {
        if (thick[y] < 0.5 * (*floor + *top)) continue;
        const std::size_t begin = y;
        while (y < thick.size() && thick[y] >= 0.5 * (*floor + *top)) ++y;
        if (begin == 0 || y == thick.size() || y - begin > 50) continue;  // cut by the edge, or two in one
        middles.push_back(0.5 * static_cast<double>(begin + y));
        widths.push_back(static_cast<double>(y - begin));
    }
    std::nth_element(widths.begin(), widths.begin() + static_cast<std::ptrdiff_t>(widths.size() / 2),
                     widths.end());
    CHECK(widths[widths.size() / 2] == Approx(41.1).epsilon(0.06).scale(0.0));
    CHECK(middles.size() >= 90);  // one every 80 mm, less those that touch
    CHECK(middles.size() <= 100);
    // Each keeps to the middle half of its own field, all of which it uses.
    double least = 80.0, most = 0.0;
    for (const double middle : middles) {
        const double within = std::fmod(middle, 80.0);
        least = std::min(least, within);
        most = std::max(most, within);
    }
    CHECK(least == Approx(20.0).epsilon(0.12).scale(0.0));
    CHECK(most == Approx(60.0).epsilon(0.04).scale(0.0));
}

TEST_CASE("on the drum a dab is drawn out to three times its width") {
    // An ellipse of 140 mm by 45 mm to each field of 190 mm by 80 mm. Half its height it has within
    // pi (70 x 22.5) sqrt(ln 2) = 4119 mm2 of 15200, less where two meet.
    Field shape = empty_field({380, 320, 1}, 1, 3800.0, 1600.0);
    Lay dabs{0, 10.0};
    dabs.how = recipe::Spreading::dabs;
    dabs.dab_mm = 45.0;
    dabs.across = {0.0, 1.0 - 1e-9};  // given a place: no handfuls, which would make them uneven
    dabs.on_drum = true;
    const auto thick = placed_thickness(dabs, 3, shape, 11);
    const double floor = *std::min_element(thick.begin(), thick.end());
    std::vector<double> sorted(thick);
    std::sort(sorted.begin(), sorted.end());
    const double top = sorted[sorted.size() - sorted.size() / 50];  // the middle of one dab alone
    const auto high =
        std::count_if(thick.begin(), thick.end(), [&](double t) { return t >= 0.5 * (floor + top); });
    CHECK(static_cast<double>(high) / static_cast<double>(thick.size()) ==
          Approx(4119.0 / 15200.0).epsilon(0.06).scale(0.0));
}

TEST_CASE("a long strip leans: in one turn it moves over by its own width") {
    // Shares that rise evenly from edge to edge tell where a strip's middle lies.
    Field field = empty_field({4, 4000, 1}, 1, 560.0, 200.0);
    for (std::size_t i = 0; i < field.block_size(); ++i)
        field.shares[i] = (static_cast<double>(i / 4) + 0.5) / 4000.0;
    const Sequence strip = sequence_of(field, Pull::long_strip, 4, 5.0);
    const std::size_t turn = 112;  // 560 mm in steps of 5 mm
    REQUIRE(strip.steps() == 4 * turn);
    // Half way round the second turn it lies where the second of four strips torn lengthwise lies.
    const double middle = 0.5 * (strip.at(turn + turn / 2 - 1)[0] + strip.at(turn + turn / 2)[0]);
    CHECK(std::abs(middle - 1.5 / 4.0) < 1e-6);
    // From turn to turn it goes on where it was.
    const double step = strip.at(turn + 1)[0] - strip.at(turn)[0];
    CHECK(std::abs(step - 1.0 / 4.0 / 112.0) < 1e-6);
    CHECK(std::abs(strip.at(2 * turn)[0] - strip.at(2 * turn - 1)[0] - step) < 1e-6);
    // At the edges it is cut from what is there.
    CHECK(std::abs(strip.at(0)[0] - 1.0 / 8.0) < 1e-6);
    CHECK(std::abs(strip.at(4 * turn - 1)[0] - 7.0 / 8.0) < 1e-6);
}

TEST_CASE("a carding in words: each pass's own way back, where they differ") {
    Feed feed{Manner::layers, Refeed::strips};
    feed.refeeds = {Refeed::halves};
    const std::string halves = split_words({Manner::layers, Refeed::halves}, 4);
    const std::string strips = split_words({Manner::layers, Refeed::strips}, 4);
    REQUIRE(halves != strips);
    CHECK(carding_words(feed, 2, 4) ==
          "Fed in layers over the full width. 2 passes; between them, " + halves + ".");
    CHECK(carding_words(feed, 3, 4) == "Fed in layers over the full width. 3 passes; before pass 2, " +
                                           halves + "; before pass 3, " + strips + ".");
    feed.refeeds = {Refeed::strips};
    CHECK(carding_words(feed, 3, 4).find("between them, " + strips) != std::string::npos);
    CHECK(pieces_of({Manner::layers, Refeed::halves}, 4) == 2);
}
