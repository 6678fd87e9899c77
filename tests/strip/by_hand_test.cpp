// Pictures worked out by hand: what lies where, and how much of it is seen.
#include <doctest/doctest.h>

#include <cmath>
#include <cstdio>
#include <numbers>

#include "on_table.hpp"
#include "strip/drum.hpp"
#include "strip/glyph.hpp"
#include "strip/simulated.hpp"
#include "strip/table_paint.hpp"
#include "strip/table_shape.hpp"

namespace by_hand_test {

using namespace battwright;
using batts::OnTable;
using doctest::Approx;

namespace {

// Tar on the first half of the drum's width and foam on the other, nothing mixed.
struct TarAndFoam : OnTable {
    TarAndFoam(double staple_mm, int strips) : OnTable({"by hand", {{"#000000", 0.5}, {"#ffffff", 0.5}}}) {
        carding::Field& field = batt.passes.back().field;
        for (std::size_t p = 0; p < 2; ++p) {
            auto block = field.block(p);
            for (std::size_t cell = 0; cell < block.size(); ++cell) {
                const bool first = cell / field.grid.round % field.grid.across < field.grid.across / 2;
                block[cell] = first == (p == 0) ? 1.0 : 0.0;
            }
        }
        field.unresolved.assign(field.block_size(), 0.0);
        field.clumped.assign(field.block_size(), 0.0);
        for (carding::Portion& portion : batt.portions) portion.staple_mm = staple_mm;
        carded.forecast.recipe.carding.strips = strips;
    }
};

// Share of foam in each column of the torn edge.
std::vector<double> foam_along(const OnTable& table) {
    const strip::Field field =
        strip::simulated_field(table.carded.forecast, table.batt, table.last(), strip::View::edge);
    std::vector<double> foam;
    for (int column = 0; column < field.columns; ++column) {
        double sum = 0.0;
        for (int row = 0; row < field.rows; ++row)
            sum += field.shares[static_cast<std::size_t>(2 * (row * field.columns + column) + 1)];
        foam.push_back(sum / field.rows);
    }
    return foam;
}

strip::Image plain(int width, int height, const std::uint8_t (&rgb)[3]) {
    strip::Image image{width, height, {}};
    for (int i = 0; i < width * height; ++i) image.rgb.insert(image.rgb.end(), rgb, rgb + 3);
    return image;
}

double inside(const strip::Shape& shape) {
    constexpr int steps = 500;
    double count = 0.0;
    for (int i = 0; i < steps * steps; ++i) {
        strip::Spot spot;
        const double x = (i % steps + 0.5) / steps * shape.wide, y = (i / steps + 0.5) / steps * shape.tall;
        if (strip::spot_in(shape, static_cast<float>(x), static_cast<float>(y), spot)) count += 1.0;
    }
    return count / (steps * steps) * shape.wide * shape.tall;
}

double number_after(const std::string& text, const std::string& words) {
    const std::size_t at = text.find(words);
    REQUIRE(at != std::string::npos);
    return std::stod(text.substr(at + words.size()));
}

}  // namespace

TEST_CASE("two strips laid over each other by a staple: half of each where they meet, and evenly less") {
    // As long a staple as a strip: from the joint it reaches to the middle, no further.
    const auto wide = foam_along(TarAndFoam(600.0, 2));
    REQUIRE(wide.size() == 32);
    CHECK(wide[15] == Approx(0.5).epsilon(0.04).scale(0.0));
    CHECK(wide[8] < 0.02);
    CHECK(wide[0] == Approx(0.0));
    // From a half to nothing, alike on both sides of their middle: a quarter on average, over eight columns.
    double over = 0.0;
    for (int column = 8; column < 16; ++column) over += wide[static_cast<std::size_t>(column)];
    CHECK(over == Approx(2.0).epsilon(0.03).scale(0.0));
    // What the one takes of the other, the other takes of it.
    for (const double staple : {60.0, 150.0, 600.0}) {
        const auto foam = foam_along(TarAndFoam(staple, 2));
        for (std::size_t i = 0; i < 16; ++i) CHECK(foam[i] + foam[31 - i] == Approx(1.0));
    }
}

TEST_CASE("of many strips all are seen, one after another") {
    for (const int strips : {4, 12, 64}) {
        CAPTURE(strips);
        const auto foam = foam_along(TarAndFoam(20.0, strips));
        CHECK(foam.size() % static_cast<std::size_t>(strips) == 0);
        const auto at = [&](double share) {
            return foam[static_cast<std::size_t>(share * double(foam.size()))];
        };
        CHECK(at(0.1) < 0.01);
        CHECK(at(0.45) < 0.3);
        CHECK(at(0.55) > 0.7);
        CHECK(at(0.9) > 0.99);
    }
}

TEST_CASE("two halves lie alike from either end of the strip as it is fed") {
    const batts::Carded carded({"halves", {{"#000000", 0.5}, {"#ffffff", 0.5}}});
    const strip::Field field = strip::feed_field(carded.forecast);
    const auto share = [&](int column, int strand) {
        return field.shares[static_cast<std::size_t>(2 * column + strand)];
    };
    for (int column = 0; column < field.columns; ++column)
        CHECK(share(column, 0) == Approx(share(field.columns - 1 - column, 1)));
}

TEST_CASE("from afar four pixels are one of their mean light") {
    const std::uint8_t kelp[] = {90, 160, 220};
    CHECK(strip::seen_from_afar(plain(6, 4, kelp), 2).rgb == plain(3, 2, kelp).rgb);
    // Blocks of one colour each are that colour; of black and white in turn half the light: 188 of 255 (IEC
    // 61966-2-1).
    strip::Image blocks{8, 4, {}}, board{8, 4, {}};
    for (int y = 0; y < 4; ++y)
        for (int x = 0; x < 8; ++x)
            for (int c = 0; c < 3; ++c) {
                blocks.rgb.push_back(static_cast<std::uint8_t>(30 * (x / 2) + 90 * (y / 2) + 7 * c));
                board.rgb.push_back((x + y) % 2 == 0 ? 0 : 255);
            }
    const strip::Image far = strip::seen_from_afar(blocks, 2);
    REQUIRE(far.width == 4);
    REQUIRE(far.height == 2);
    for (int i = 0; i < 8; ++i)
        for (int c = 0; c < 3; ++c)
            CHECK(far.rgb[static_cast<std::size_t>(3 * i + c)] == 30 * (i % 4) + 90 * (i / 4) + 7 * c);
    for (const std::uint8_t value : strip::seen_from_afar(board, 2).rgb) CHECK(std::abs(value - 188) <= 1);
}

TEST_CASE("a pixel shows what lies under its middle") {
    const batts::Carded carded({"tar", {{"#000000", 1.0}}});
    const auto scene = std::make_shared<const strip::Scene>(
        strip::scene_of(carded.forecast, strip::ideal_field(carded.forecast), 3));
    // Ten millimetres at one pixel each, from a little before a pixel's middle and from a little behind it.
    for (const double from : {10.45, 10.55}) {
        CAPTURE(from);
        strip::Laid piece;
        piece.left_mm = piece.top_mm = from;
        piece.shape = strip::flat(10.0, 10.0);
        piece.surface = {10.0, 10.0};
        piece.fibre = scene;
        const strip::Image image = strip::painted({piece}, {30, 30, 1.0, 0.0, 0.0}, {1.0, 1.0, 1.0}, 1, 1);
        const auto dark = [&](int x, int y) {
            return image.rgb[static_cast<std::size_t>(3 * (y * 30 + x))] < 128;
        };
        const int first = from < 10.5 ? 10 : 11;
        for (int i = 0; i < 30; ++i) {
            CAPTURE(i);
            CHECK(dark(i, 15) == (i >= first && i < first + 10));
            CHECK(dark(15, i) == (i >= first && i < first + 10));
        }
    }
}

TEST_CASE("few turns keep their area too, and a short turn of yarn is half straight and half round") {
    CHECK(inside(strip::roll_end(60.0, 20.0)) == Approx(1200.0).epsilon(0.02));
    // Half a metre round two half circles: a quarter of it straight on each side.
    const strip::Shape skein = strip::loop(500.0, 10.0, 1.5);
    CHECK(skein.wide - skein.tall == Approx(125.0));
}

TEST_CASE("where nothing lies a hand moves nothing, and at an end as much is left free as round the whole") {
    strip::TableSettings ask;
    const auto moved = strip::moved(ask, {}, strip::frame_of({}, ask, 900, 400), 30.0, 20.0);
    CHECK(moved.middle_x == 0.5);
    CHECK(moved.middle_y == 0.5);
    const strip::TableSize size{560.0, 203.0};
    const double free_px =
        -strip::frame_of(size, ask, 900, 400).left_mm * strip::frame_of(size, ask, 900, 400).pixels_per_mm;
    ask.zoom = 5.0;
    for (const double end : {0.0, 1.0}) {
        ask.middle_x = end;
        const auto frame = strip::frame_of(size, ask, 900, 400);
        const double past = end == 0.0 ? -frame.left_mm : frame.left_mm + 900.0 / frame.pixels_per_mm - 560.0;
        CHECK(past * frame.pixels_per_mm == Approx(free_px).epsilon(0.08).scale(0.0));
    }
}

TEST_CASE("one looks no nearer than through a reading glass, on a screen of 96 pixels to the inch") {
    // Two to five times as large (common practice, no source); CSS's reference pixel is the 96th of an inch.
    CHECK(strip::most_pixels_per_mm / (96.0 / 25.4) > 2.0);
    CHECK(strip::most_pixels_per_mm / (96.0 / 25.4) < 5.0);
    // And fibre is as long as it is, however short.
    const auto px_of = [](fibre::Form form, double mm) {
        const batts::Carded carded({"short", {{"#000000", 1.0, form, mm}}});
        return 2.0 * double{strip::look_of(carded.forecast.strands[0]).half_length_px};
    };
    for (const auto form : {fibre::Form::fibre, fibre::Form::lock})
        CHECK(px_of(form, 3.0) == Approx(0.25 * px_of(form, 12.0)));
}

TEST_CASE("a scale bar of metres says so") {
    const auto bar = strip::scale_bar(0.2, 210.0, measure::LengthUnit::millimetre);
    CHECK(bar.words == "1 m");
    CHECK(bar.px == Approx(200.0));
    CHECK(strip::scale_bar(0.1, 210.0, measure::LengthUnit::millimetre).words == "2 m");
    CHECK(strip::scale_bar(0.04, 210.0, measure::LengthUnit::millimetre).words == "5 m");
    CHECK(strip::scale_bar(900.0, 100.0, measure::LengthUnit::millimetre).words == "0.1 mm");
}

TEST_CASE("a skein lies no wider than two hands, and its turn is told as winders are sold") {
    OnTable table(batts::batt_named("low tide"));
    strip::TableSettings ask;
    ask.view = strip::TableView::skein;
    // A hand with its thumb is about 4 in broad, the unit of horses: two, and a finger each (common practice,
    // no source).
    double widest = 0.0;
    for (double metres = 60.0; metres < 1500.0; metres *= 1.12) {
        table.carded.forecast.yarn.length_m = table.carded.forecast.yarn.length_before_wash_m = metres;
        const auto picture = table.table(ask, 40, 30);
        // A turn of a metre and a half goes round a hollow of 60 mm.
        widest = std::max(widest, 0.5 * picture.size.tall_mm - 60.0);
    }
    CHECK(widest < 2.0 * 4.0 * 25.4 + 2.0 * 15.0);
    CHECK(widest > 2.0 * 4.0 * 25.4 - 20.0);
    // Winders are made in hundredths of a metre or a yard at best; a hand is about 0.2 m round (gloves of
    // sizes 7 to 9 are so many inches: 0.18 to 0.23 m), and nothing is wound on less.
    const auto turn_told = [&](double metres, measure::LengthUnit unit) {
        ask.turn_m = metres;
        return strip::table_picture(table.carded.forecast, table.batt, ask, {40, 30, {}, unit, 22.0, 0})
            .caption;
    };
    CHECK(turn_told(1.3, measure::LengthUnit::inch).find("turns of 1.42 yd") != std::string::npos);
    const double least = number_after(turn_told(0.01, measure::LengthUnit::millimetre), "turns of ");
    CHECK(least >= 0.18);
    CHECK(least <= 0.23);
}

TEST_CASE("a batt torn into the usual number of strips is seen whole, and the scale is of three figures") {
    OnTable table(batts::batt_named("low tide"));
    strip::TableSettings ask;
    ask.view = strip::TableView::edge;
    // Common practice, no source: four to eight strips.
    table.carded.forecast.recipe.carding.strips = 8;
    CHECK(table.table(ask, 60, 40).caption.find("the first") == std::string::npos);
    table.carded.forecast.recipe.carding.strips = 9;
    CHECK(table.table(ask, 60, 40).caption.find("the first 8 of 9 strips") != std::string::npos);
    const auto figures_in = [](const std::string& text) {
        const std::size_t from = text.find("1 mm = ") + 7, to = text.find(" px", from);
        int figures = 0;
        for (const char c : text.substr(from, to - from)) figures += c >= '0' && c <= '9' ? 1 : 0;
        return figures - (text[from] == '0' ? 1 : 0);
    };
    // A thousandth of a scale is less than the edge of fibre is sharp.
    for (const int width : {317, 443, 571}) {
        CHECK(figures_in(table.table(ask, width, 211).scale) == 3);
        CHECK(figures_in(strip::caption(table.scene(strip::YarnView::plied), 300, 90, width / 91.0)) == 3);
    }
}

TEST_CASE("a yarn's caption says where it begins and what gauge it knits to") {
    OnTable table(batts::batt_named("low tide"));
    const auto told = [&](strip::YarnView view, double from) {
        return strip::caption(table.scene(view, {from, 1.0}), 300, 90);
    };
    CHECK(told(strip::YarnView::single, 0.45).find("from 45 % of the way along") != std::string::npos);
    // Whole per cents: half of one and more is one.
    CHECK(told(strip::YarnView::single, 0.0055).find("from 1 % of the way along") != std::string::npos);
    CHECK(told(strip::YarnView::single, 0.0045).find("from the start") != std::string::npos);
    // Half as many stitches as wraps: yarn of 2 mm wraps 50 times round 10 cm and knits to 25; rows by Munden
    // (1959, from memory) are 5.3 to 4.1 wales, 32.
    CHECK(told(strip::YarnView::swatch, 0.0).find("(25 by 32 in 10 cm)") != std::string::npos);
}

TEST_CASE("a loop of a chain goes there, back, and there again") {
    OnTable table(batts::batt_named("signal flags"));
    table.plan_yarn(yarn::Plying::chain, 3);
    auto& yarn = table.carded.forecast.yarn;
    yarn.length_m = yarn.length_before_wash_m = 30.0;
    yarn.single_length_m = 90.0;
    const auto chain = strip::run_of(table.scene(strip::YarnView::plied), 3000);
    const auto single = strip::run_of(table.scene(strip::YarnView::single), 9000)[0];
    REQUIRE(chain.size() == 3);
    const auto off = [](const colour::Srgb& a, const colour::Srgb& b) {
        return colour::ciede2000(colour::lab(a), colour::lab(b));
    };
    // Half a metre to a loop: 50 of the 3,000 places, and 150 of the single's 9,000.
    double worst = 0.0;
    for (std::size_t i = 0; i < 3000; i += 7) {
        const std::size_t before = i / 50 * 150, along = i % 50;
        worst = std::max({worst, off(chain[0][i], single[before + along]),
                          off(chain[1][i], single[before + 99 - along]),
                          off(chain[2][i], single[before + 100 + along])});
    }
    CHECK(worst < 0.5);
}

TEST_CASE("of a barber pole the first half's single is shown: half of all there is") {
    OnTable table(batts::batt_named("signal flags"));
    table.plan_yarn(yarn::Plying::barber_pole, 2);
    const auto scene = table.scene(strip::YarnView::single, {0.5, 1.0});
    CHECK(scene.length_m == Approx(130.0));
    CHECK(scene.from_m == Approx(65.0));
}

TEST_CASE("the mark under the run of a long yarn is two pixels each way, which is seen") {
    OnTable table(batts::batt_named("low tide"));
    auto& yarn = table.carded.forecast.yarn;
    yarn.length_m = yarn.length_before_wash_m = 5000.0;
    const auto scene = table.scene(strip::YarnView::plied);
    const auto split = strip::yarn_split(60);
    const auto image = strip::draw_with_run(scene, 80, 60, {1, 1, 1}, {0, 0, 0});
    int wide = 0, tall = 0;
    for (int i = 0; i < 80; ++i)
        wide += image.rgb[static_cast<std::size_t>(3 * ((split.run + 2) * 80 + i))] < 50 ? 1 : 0;
    for (int y = split.run; y < split.run + split.between; ++y)
        tall += image.rgb[static_cast<std::size_t>(3 * y * 80)] < 50 ? 1 : 0;
    CHECK(wide == 2);
    CHECK(tall == 2);
}

TEST_CASE("a cell of the drum that one fibre has to itself is of its colour") {
    TarAndFoam table(75.0, 4);
    carding::Field& field = table.batt.passes.back().field;
    // Half of the way round tar, the other half foam.
    for (std::size_t p = 0; p < 2; ++p) {
        auto block = field.block(p);
        for (std::size_t cell = 0; cell < block.size(); ++cell)
            block[cell] = (cell % field.grid.round < field.grid.round / 2) == (p == 0) ? 1.0 : 0.0;
    }
    auto& f = table.carded.forecast;
    f.components.resize(2);
    const auto drum = strip::drum_picture(f, table.batt, table.last());
    REQUIRE(drum.colours.size() == drum.round * drum.depth);
    for (std::size_t z = 0; z < drum.depth; ++z)
        for (std::size_t x = 0; x < drum.round; ++x) {
            const double lightness = colour::lab(drum.colours[z * drum.round + x]).l;
            CHECK((x < drum.round / 2 ? lightness < 5.0 : lightness > 95.0));
        }
}

}  // namespace by_hand_test
