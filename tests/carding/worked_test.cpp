// Small things about a carder worked by hand: what is counted, measured or told the same way apart from the
// code.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <string>

#include "carding/flat.hpp"
#include "carding/lay.hpp"
#include "carding/loss.hpp"
#include "carding/photo.hpp"
#include "carding/pull.hpp"
#include "carding/words.hpp"
#include "colour/optics.hpp"
#include "colour/spaces.hpp"
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

TEST_CASE("the scale of segregation of stripes, by hand") {
    // Danckwerts (1952): the integral of the autocorrelation up to its first zero. Of stripes of two colours
    // the autocorrelation falls in a straight line from 1 to 0 over half a stripe: a quarter of a stripe.
    for (const std::size_t cells : {2U, 4U, 8U}) {  // a stripe's round the drum, of 10 mm each
        CAPTURE(cells);
        Field field = empty_field({48, 5, 3}, 2, 480.0, 200.0);
        for (std::size_t i = 0; i < field.block_size(); ++i) {
            const bool first = i % field.grid.round / cells % 2 == 0;
            field.shares[i] = first ? 1.0 : 0.0;
            field.shares[field.block_size() + i] = first ? 0.0 : 1.0;
        }
        const double stripe_mm = 10.0 * static_cast<double>(cells);
        CHECK(scale(field).round_mm == Approx(0.25 * stripe_mm).epsilon(1e-9).scale(0.0));
    }
}

TEST_CASE("a finer grid has two cells for one, each way") {
    constexpr Grid grid{3, 5, 7};
    CHECK(grid.halved() == Grid{6, 10, 14});
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
    CHECK(pieces_of({Manner::layers, Refeed::halves}, 4, 2) == 2);
}

TEST_CASE("a board and hand cards beside a drum") {
    Portion wool;
    wool.grams = 30.0;
    wool.staple_mm = 80.0;
    wool.diameter_um = 21.0;
    wool.slipperiness = 0.2;
    const std::vector one{wool};
    const recipe::Carder& board = *recipe::find_carder("blending-board");
    const recipe::Carder& cards = *recipe::find_carder("hand-cards");
    // Drawn over one cloth by another of equal collecting power a tuft is parted once.
    CHECK(opening_of(board, one, 30.0, false).shrink == Approx(0.5).epsilon(0.05).scale(0.0));
    CHECK(opening_of(board, one, 30.0, false).cut == Approx(0.5).epsilon(0.05).scale(0.0));
    // Sideways a fibre keeps to its gap: half of 25.4 / sqrt(72) mm. Along, its mass lies anywhere within its
    // length: a rectangle's standard deviation, 80 / sqrt(12).
    const Spread brushed = spread_of(board, one, 30.0, false);
    CHECK(brushed.across_mm == Approx(0.5 * 25.4 / std::sqrt(72.0)));
    CHECK(brushed.round_mm == Approx(80.0 / std::sqrt(12.0)));
    // The brush stirs half as deep as a drum does, two thirds to a half of a fibre: 30 g on 300 x 300 mm of
    // wool of 1.31 g/cm3 and 21 um are 12 fibres deep.
    const double fibres = 30.0 / 0.09 / (1.31e6 * 21e-6);
    CHECK(brushed.depth_share * fibres > 0.26);
    CHECK(brushed.depth_share * fibres < 0.33);
    // A stroke of a card goes astray by a fifth of an inch.
    CHECK(spread_of(cards, one, 6.0, false).across_mm == Approx(25.4 / 5.0).epsilon(0.12).scale(0.0));
    // Of the fibres that a pass of a drum breaks one of hand cards breaks three in ten, a board one (common
    // practice, no source).
    std::vector<Portion> portions{wool};
    portions[0].strands = {0};
    recipe::Strand strand;
    strand.kind = fibre::Catalogue::builtin().share("corriedale");
    strand.grams = strand.mass_share = strand.count_share = 1.0;
    strand.staple_mm = strand.fibre_mm = 85.0;
    strand.diameter_um = 25.0;
    const std::vector strands{strand};
    const auto broken = [&](ToolKind tool) {
        return 1.0 / wear_of(portions, strands, 1, tool).length_share - 1.0;
    };
    CHECK(broken(ToolKind::hand_cards) / broken(ToolKind::drum) == Approx(0.3).epsilon(0.1).scale(0.0));
    CHECK(broken(ToolKind::board) / broken(ToolKind::drum) == Approx(0.1).epsilon(0.1).scale(0.0));
}

TEST_CASE("what lies side by side, and one laid round the other") {
    std::vector<Portion> portions(2);
    for (Portion& portion : portions) portion.grams = 20.0;
    // Two stripes, each half of the width: over half of the narrower, a quarter of the width, both lie, half
    // of it to either side of the border.
    const auto stripes = lays_of(portions, {Manner::stripes_across, Refeed::strips, 8, 0.5});
    REQUIRE(stripes.size() == 2);
    CHECK(stripes[0].across.over_to == Approx(0.125));
    CHECK(stripes[1].across.over_from == Approx(0.125));
    // A gradient's colours run into each other over a third of a neighbour's width (common practice, no
    // source).
    const auto gradient = lays_of(portions, {Manner::gradient_across});
    CHECK(gradient[0].across.soft / 0.5 > 0.30);
    CHECK(gradient[0].across.soft / 0.5 < 0.38);
    // A sandwich of two has three layers: half of the bread, what is in it, the other half.
    const auto sandwich = first_lays(portions, Manner::sandwich);
    REQUIRE(sandwich.size() == 3);
    CHECK(sandwich[0].portion == sandwich[2].portion);
    CHECK(sandwich[0].grams == Approx(10.0));
    CHECK(sandwich[1].portion != sandwich[0].portion);
    // Slick fibre between grippy, of two as of more.
    portions[0].slipperiness = 0.9;
    const auto closed = first_lays(portions, Manner::layers);
    REQUIRE(closed.size() == 3);
    CHECK(closed[1].portion == 0);
}

TEST_CASE("laid straight onto the drum handfuls are drawn out to five inches and a half") {
    // Two places one handful apart correlate by (9/70) / (26/35) = 0.173, as across.
    Field shape = empty_field({560, 30, 1}, 1, 5600.0, 1800.0);
    Lay lay{0, 10.0};
    lay.on_drum = true;
    double apart = 0.0, all = 0.0;
    for (std::uint64_t seed = 1; seed <= 6; ++seed) {
        const auto thick = placed_thickness(lay, 3, shape, seed);
        for (std::size_t y = 0; y < 30; ++y)
            for (std::size_t x = 0; x < 560; ++x) {
                const double here = thick[y * 560 + x] - 1.0;
                apart += here * (thick[y * 560 + (x + 14) % 560] - 1.0);
                all += here * here;
            }
    }
    CHECK(apart / all == Approx(0.173).epsilon(0.25).scale(0.0));
}

TEST_CASE("the single yarn's irregularity from tufts below the grid, in closed form") {
    // Coplan & Klein (1955): sqrt(1 + (n - 1) I). What varies among tufts of 50 mg (what feed rollers give
    // up; common practice, no source), seen in sections of the single over one drafting patch of 560 / 9 mm:
    // 100 fibres of 0.4 tex are 40 mg a metre, 2.49 mg; of the variance t / (t + m) is left.
    Pass batt{1, empty_field({1, 80, 48}, 2, 560.0, 200.0), {}};
    std::fill(batt.field.shares.begin(), batt.field.shares.end(), 0.5);
    batt.field.unresolved.assign(batt.field.block_size(), 0.2);
    batt.field.clumped.assign(batt.field.block_size(), 0.02);  // tufts of a tenth of the fresh ones: 5 mg
    BattObserver observer = testing::eye_for(2);
    observer.tex = {0.4, 0.4};
    observer.fibres_in_section = 100.0;
    const double single_mg = 40.0 * 0.560 / 9.0;
    const double left = 0.2 * 5.0 / (5.0 + single_mg) / 0.5;
    CHECK(measured(batt, observer, 1).ibi == Approx(std::sqrt(1.0 + 99.0 * left)).epsilon(0.01).scale(0.0));
}

TEST_CASE("a photo of a batt's face: the middle of its two faces, since nobody says which lay up") {
    const auto coloured = [](double l, double a, double b) {
        return colour::reflectance_of(colour::clipped(colour::srgb_from(colour::Lab{l, a, b})));
    };
    BattObserver observer;
    observer.reflectances = {coloured(40.0, 20.0, -20.0), coloured(44.0, 22.0, -18.0),
                             coloured(70.0, -12.0, 15.0), coloured(82.0, -10.0, 18.0)};
    // Each face has one colour on its left half and one on its right.
    const auto batt_of = [](std::size_t left, std::size_t right, std::size_t outer_left,
                            std::size_t outer_right) {
        Pass batt{1, empty_field({1, 80, 48}, 4, 560.0, 200.0), {}};
        for (std::size_t z = 0; z < 48; ++z)
            for (std::size_t y = 0; y < 80; ++y) {
                const std::size_t here =
                    z < 24 ? (y < 40 ? left : right) : (y < 40 ? outer_left : outer_right);
                batt.field.block(here)[z * 80 + y] = 1.0;
            }
        return batt;
    };
    const auto inner = photographed(batt_of(0, 1, 0, 1), observer, Side::face);
    const auto outer = photographed(batt_of(2, 3, 2, 3), observer, Side::face);
    const auto both = photographed(batt_of(0, 1, 2, 3), observer, Side::face);
    CHECK(inner.mean.l > 41.5);
    CHECK(inner.mean.l < 42.5);
    CHECK(inner.face_off.l == Approx(0.0));
    for (const auto axis : {&colour::Lab::l, &colour::Lab::a, &colour::Lab::b}) {
        CHECK(both.mean.*axis == Approx(0.5 * (inner.mean.*axis + outer.mean.*axis)));
        CHECK(both.face_off.*axis == Approx(0.5 * (outer.mean.*axis - inner.mean.*axis)));
    }
    CHECK(both.variation_de00 == Approx(std::sqrt(inner.variation_de00 * outer.variation_de00)));
    CHECK(both.face_off_log == Approx(0.5 * std::log(outer.variation_de00 / inner.variation_de00)));
    // Light goes two or three mean free paths into the 30 mm, a millimetre each: what lies 4 mm down is not
    // seen, what lies at 2 mm is.
    Pass skin = batt_of(0, 0, 0, 0);
    for (std::size_t y = 0; y < 80; ++y) {
        skin.field.block(0)[6 * 80 + y] = skin.field.block(0)[41 * 80 + y] = 0.0;  // a layer 4 mm down
        skin.field.block(3)[6 * 80 + y] = skin.field.block(3)[41 * 80 + y] = 1.0;
    }
    const double plain = photographed(batt_of(0, 0, 0, 0), observer, Side::face).mean.l;
    CHECK(photographed(skin, observer, Side::face).mean.l == Approx(plain));
    for (std::size_t y = 0; y < 80; ++y)
        std::swap(skin.field.block(0)[3 * 80 + y], skin.field.block(3)[3 * 80 + y]);
    // A quarter of the 2.5 mm that are seen is of the other colour now, on one face.
    const std::vector<colour::Portion> parts{{0.75, observer.reflectances[0]},
                                             {0.25, observer.reflectances[3]}};
    const double there = colour::lab_under(colour::blend(parts, observer.optics), observer.light).l;
    CHECK(photographed(skin, observer, Side::face).mean.l == Approx(0.5 * (plain + there)).epsilon(0.005));
}
