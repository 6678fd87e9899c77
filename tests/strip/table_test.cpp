// What lies on the table: its scale, its colours, its place under the hand.
#include "strip/table.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <numbers>
#include <set>

#include "carding/pull.hpp"
#include "colour/optics.hpp"
#include "colour/reflectance.hpp"
#include "examples.hpp"
#include "strip/table_shape.hpp"

using namespace battwright;
using strip::TableSettings;
using strip::TableView;

namespace {

constexpr colour::Srgb ground{1.0, 0.0, 1.0};  // no fibre here is of this colour

strip::TablePicture pictured(const examples::Made& made, const TableSettings& ask, int width, int height,
                             int threads = 0) {
    return strip::table_picture(made.forecast, made.batt, ask, {width, height, ground, {}, 22.0, threads});
}
TableSettings ask_for(TableView view) {
    TableSettings ask;
    ask.view = view;
    return ask;
}
bool bare(const strip::Image& image, int x, int y) {
    const std::uint8_t* at = image.rgb.data() + 3 * (y * image.width + x);
    return at[0] == 255 && at[1] == 0 && at[2] == 255;
}
struct Covered {
    int wide = 0, tall = 0;
    colour::LinearRgb mean;  // of pixels with fibre all round them: an edge is half ground
};
bool within(const strip::Image& image, int x, int y) {
    if (x == 0 || y == 0 || x + 1 == image.width || y + 1 == image.height) return false;
    // No fibre here is so red and so blue without green: what has ground in it shows.
    for (int i = 0; i < 9; ++i) {
        const std::uint8_t* at = image.rgb.data() + 3 * ((y + i / 3 - 1) * image.width + x + i % 3 - 1);
        if (at[0] > at[1] + 70 && at[2] > at[1] + 70) return false;
    }
    return true;
}
Covered covered(const strip::Image& image) {
    std::set<int> columns, rows;
    double count = 0.0;
    Covered seen;
    for (int y = 0; y < image.height; ++y)
        for (int x = 0; x < image.width; ++x) {
            if (bare(image, x, y)) continue;
            columns.insert(x);
            rows.insert(y);
            if (!within(image, x, y)) continue;
            const std::uint8_t* at = image.rgb.data() + 3 * (y * image.width + x);
            const auto light = colour::linear({at[0] / 255.0, at[1] / 255.0, at[2] / 255.0});
            seen.mean = {seen.mean.r + light.r, seen.mean.g + light.g, seen.mean.b + light.b};
            count += 1.0;
        }
    seen.wide = static_cast<int>(columns.size());
    seen.tall = static_cast<int>(rows.size());
    seen.mean = {seen.mean.r / count, seen.mean.g / count, seen.mean.b / count};
    return seen;
}
double off_by(const colour::Srgb& first, const colour::Srgb& second) {
    return colour::ciede2000(colour::lab(first), colour::lab(second));
}

}  // namespace

TEST_CASE("the batt lies there to scale, at any size of the picture") {
    const auto made = examples::made(examples::recipe_of(examples::folder() / "harbour-heather.toml"));
    const auto& field = made.last().field;
    double smallest = 0.0;
    for (const auto& [width, height] : {std::pair{400, 240}, std::pair{1200, 500}, std::pair{700, 900}}) {
        CAPTURE(width);
        const auto picture = pictured(made, ask_for(TableView::face), width, height);
        REQUIRE(picture.image.width == width);
        REQUIRE(picture.image.height == height);
        const double scale = picture.frame.pixels_per_mm;
        const Covered seen = covered(picture.image);
        // The carder's own measures: round the drum to the right, across it downwards.
        CHECK(std::abs(seen.wide - field.circumference_mm * scale) <= 2.0);
        CHECK(std::abs(seen.tall - field.width_mm * scale) <= 2.0);
        CHECK(picture.scale.find("1 mm = ") == 0);
        if (smallest == 0.0) smallest = scale;
        CHECK(scale >= smallest);
    }
}

TEST_CASE("well carded, all that is made of the batt has the forecast's colour, within 2 CIEDE2000") {
    const auto made = examples::made(examples::recipe_of(examples::folder() / "harbour-heather.toml"));
    for (const auto& row : strip::table_views) {
        CAPTURE(row.word);
        TableSettings ask = ask_for(row.value);
        if (row.value == TableView::roving) ask.zoom = 3.0;
        const auto picture = pictured(made, ask, 700, 360);
        REQUIRE(picture.remark.empty());
        const Covered seen = covered(picture.image);
        CHECK(seen.wide > 200);
        CHECK(off_by(colour::encoded(seen.mean), made.forecast.colour.srgb) < 2.0);
    }
}

TEST_CASE("the run of the yarn has the mean colours of the batt along the way it is spun") {
    const auto made = examples::made(examples::recipe_of(examples::folder() / "dawn-tide.toml"));
    const auto picture = pictured(made, ask_for(TableView::single), 600, 300);
    REQUIRE(picture.run.rows.size() == 1);
    const auto& run = picture.run.rows.front();
    // The simulated batt itself, pulled off the same way; blended as published (see tests/colour).
    const auto sequence = carding::sequence_of(made.last().field, carding::Pull::torn_lengthwise,
                                               made.forecast.recipe.carding.strips, 5.0);
    const std::size_t windows = 12;
    for (std::size_t window = 0; window < windows; ++window) {
        CAPTURE(window);
        std::vector<double> shares(made.batt.portions.size(), 0.0);
        const std::size_t from = sequence.steps() * window / windows,
                          to = sequence.steps() * (window + 1) / windows;
        for (std::size_t step = from; step < to; ++step)
            for (std::size_t p = 0; p < shares.size(); ++p)
                shares[p] += sequence.at(step)[p] / static_cast<double>(to - from);
        std::vector<colour::Portion> portions;
        for (std::size_t p = 0; p < shares.size(); ++p) {
            double grams = 0.0;
            for (const std::size_t i : made.batt.portions[p].strands) grams += made.forecast.strands[i].grams;
            for (const std::size_t i : made.batt.portions[p].strands)
                portions.push_back({shares[p] * made.forecast.strands[i].grams / grams,
                                    colour::reflectance_of(made.forecast.strands[i].colour)});
        }
        const auto meant = colour::encoded(
            forecast::seen(colour::blend(portions, made.forecast.optics), made.forecast.light));
        colour::LinearRgb seen;
        const std::size_t first = run.size() * window / windows, last = run.size() * (window + 1) / windows;
        for (std::size_t i = first; i < last; ++i) {
            const auto light = colour::linear(run[i]);
            const double part = 1.0 / static_cast<double>(last - first);
            seen = {seen.r + part * light.r, seen.g + part * light.g, seen.b + part * light.b};
        }
        CHECK(off_by(colour::encoded(seen), meant) < 4.0);
    }
    // A gradient: it begins and ends in other colours, which two metres of it never showed.
    CHECK(off_by(run.front(), run.back()) > 20.0);
    // All of it is on show, wound from the top down.
    CHECK(picture.run.from == doctest::Approx(0.0));
    CHECK(picture.run.to == doctest::Approx(1.0));
    CHECK(picture.run.metres == doctest::Approx(made.forecast.yarn.single_length_m));
}

TEST_CASE("what is enlarged of the yarn is marked on its run") {
    const auto made = examples::made(examples::recipe_of(examples::folder() / "dawn-tide.toml"));
    TableSettings ask = ask_for(TableView::plied);
    ask.zoom = 8.0;
    ask.middle_y = 0.75;
    const auto wound = pictured(made, ask, 600, 300);
    CHECK(wound.run.from > 0.55);
    CHECK(wound.run.to < 0.95);
    CHECK(wound.run.to > wound.run.from);
    // Knitted, the beginning is below.
    ask.view = TableView::swatch;
    const auto knitted = pictured(made, ask, 600, 300);
    CHECK(knitted.run.from > 0.05);
    CHECK(knitted.run.to < 0.45);
}

TEST_CASE("what a flat tool's plan rolls off lies there, in its own words") {
    const auto board = examples::made(examples::recipe_of(examples::folder() / "ebb-board.toml"));
    CHECK(pictured(board, ask_for(TableView::rolags), 300, 200).caption.starts_with("6 rolags of about "));
    // By hand cards each filling is one rolag.
    const auto cards = examples::made(examples::recipe_of(examples::folder() / "lamp-room-rolags.toml"));
    const auto caption = pictured(cards, ask_for(TableView::rolags), 300, 200).caption;
    CHECK(caption.starts_with("1 rolag of about "));
    CHECK(caption.ends_with("after transfer 4; one of 4 rolags"));
}

TEST_CASE("after each pass side by side, each with its word, the yarn's runs one under another") {
    auto recipe = examples::recipe_of(examples::folder() / "harbour-heather.toml");
    recipe.carding.passes = 3;
    const auto made = examples::made(recipe);
    TableSettings ask = ask_for(TableView::face);
    ask.passes = {1, 2, 3};
    const auto picture = pictured(made, ask, 900, 400);
    REQUIRE(picture.labels.size() == 3);
    for (std::size_t i = 0; i < 3; ++i)
        CHECK(picture.labels[i].words.find("after pass " + std::to_string(i + 1)) == 0);
    const auto one = pictured(made, ask_for(TableView::face), 900, 400);
    CHECK(one.labels.empty());
    CHECK(picture.frame.pixels_per_mm < one.frame.pixels_per_mm);
    ask.view = TableView::single;
    CHECK(pictured(made, ask, 900, 400).run.rows.size() == 3);
    // A pass the batt does not have is left out.
    ask.passes = {2, 9};
    CHECK(pictured(made, ask, 300, 200).labels.empty());
}

TEST_CASE(
    "rolags are as many as the recipe rolls off, and nothing of a board or of cards is torn into strips") {
    // A board's batt is rolled off across its length: each rolag is as long as the board is wide.
    auto recipe = examples::recipe_of(examples::folder() / "ebb-board.toml");
    for (const int rolags : {1, 3, 5, 16}) {
        CAPTURE(rolags);
        recipe.carding.rolags = rolags;
        const auto made = examples::made(recipe);
        const std::string count = std::to_string(rolags) + (rolags == 1 ? " rolag" : " rolags");
        CHECK(pictured(made, ask_for(TableView::rolags), 500, 300).caption.find(count + " of about ") == 0);
        const auto edge = pictured(made, ask_for(TableView::edge), 500, 300);
        CHECK(edge.caption.find(count + " before rolling") != std::string::npos);
        CHECK(edge.caption.find("torn") == std::string::npos);
        const Covered seen = covered(edge.image);
        CHECK(std::abs(seen.wide - made.last().field.width_mm * edge.frame.pixels_per_mm) <= 2.0);
    }
    CHECK(strip::view_words(TableView::edge, recipe.carding).button.find("torn") == std::string::npos);
    CHECK(strip::view_words(TableView::face, recipe.carding).help.find("drum") == std::string::npos);
    CHECK(strip::view_words(TableView::edge, {}).button == "torn edge");
    // A gradient along the board goes from the first rolag to the last, each of one colour.
    auto steps = recipe;
    steps.carding.layings.clear();
    steps.carding.feed = recipe::Manner::gradient_round;
    steps.carding.passes = 1;
    steps.carding.rolags = 4;
    const auto made = examples::made(steps);
    const auto edge = pictured(made, ask_for(TableView::edge), 400, 400);
    const auto row_mean = [&](double share) {
        const int y = static_cast<int>(share * edge.image.height);
        colour::LinearRgb sum;
        double count = 0.0;
        for (int x = 0; x < edge.image.width; ++x) {
            if (!within(edge.image, x, y)) continue;
            const std::uint8_t* at = edge.image.rgb.data() + 3 * (y * edge.image.width + x);
            const auto light = colour::linear({at[0] / 255.0, at[1] / 255.0, at[2] / 255.0});
            sum = {sum.r + light.r, sum.g + light.g, sum.b + light.b};
            count += 1.0;
        }
        return colour::encoded({sum.r / count, sum.g / count, sum.b / count});
    };
    int first = 0, last = edge.image.height - 1;
    const auto empty = [&](int y) {
        for (int x = 0; x < edge.image.width; ++x)
            if (within(edge.image, x, y)) return false;
        return true;
    };
    while (first < last && empty(first)) ++first;
    while (last > first && empty(last)) --last;
    const auto at = [&](int y) { return row_mean((y + 0.5) / edge.image.height); };
    CHECK(off_by(at(first + 2), at(last - 2)) > 8.0);

    const auto cards = examples::made(examples::recipe_of(examples::folder() / "lamp-room-rolags.toml"));
    CHECK(pictured(cards, ask_for(TableView::rolags), 500, 300).caption.find("1 rolag of about ") == 0);
    TableSettings two = ask_for(TableView::edge);
    two.passes = {1, 2};
    const auto after = pictured(cards, two, 500, 300);
    REQUIRE(after.labels.size() == 2);
    CHECK(after.labels[1].words.find("after transfer 2") == 0);
}

TEST_CASE("the picture does not depend on the number of threads") {
    const auto made = examples::made(examples::recipe_of(examples::folder() / "harbour-heather.toml"), true);
    for (const TableView view : {TableView::rolled, TableView::skein})
        CHECK(pictured(made, ask_for(view), 300, 200, 1).image.rgb ==
              pictured(made, ask_for(view), 300, 200, 3).image.rgb);
}

TEST_CASE("what is looked at closer, and not yet moved, is the middle: as much is hidden on either side") {
    const strip::TableSize size{560.0, 203.0};
    TableSettings ask;
    ask.zoom = 8.0;
    const auto frame = strip::frame_of(size, ask, 900, 400);
    CHECK(frame.left_mm > 0.0);
    CHECK(frame.left_mm + 900.0 / frame.pixels_per_mm == doctest::Approx(size.wide_mm - frame.left_mm));
    CHECK(frame.top_mm + 400.0 / frame.pixels_per_mm == doctest::Approx(size.tall_mm - frame.top_mm));
}

TEST_CASE("a hand moves the table by what it moves, and enlarges about the point it is on") {
    const strip::TableSize size{560.0, 203.0};
    TableSettings ask;
    ask.zoom = 4.0;
    const auto frame = strip::frame_of(size, ask, 900, 400);
    const auto moved = strip::moved(ask, size, frame, 30.0, -20.0);
    const auto after = strip::frame_of(size, moved, 900, 400);
    CHECK((frame.left_mm - after.left_mm) * frame.pixels_per_mm == doctest::Approx(30.0));
    CHECK((frame.top_mm - after.top_mm) * frame.pixels_per_mm == doctest::Approx(-20.0));
    const auto nearer = strip::frame_of(size, strip::zoomed(ask, size, frame, 1.5, 300.0, 250.0), 900, 400);
    CHECK(nearer.pixels_per_mm == doctest::Approx(1.5 * frame.pixels_per_mm));
    CHECK(nearer.left_mm + 300.0 / nearer.pixels_per_mm ==
          doctest::Approx(frame.left_mm + 300.0 / frame.pixels_per_mm));
    CHECK(nearer.top_mm + 250.0 / nearer.pixels_per_mm ==
          doctest::Approx(frame.top_mm + 250.0 / frame.pixels_per_mm));
    // Never nearer than fibre can be drawn, nor further than all of it.
    TableSettings much = ask;
    for (int i = 0; i < 40; ++i)
        much = strip::zoomed(much, size, strip::frame_of(size, much, 900, 400), 2.0, 0, 0);
    CHECK(strip::frame_of(size, much, 900, 400).pixels_per_mm == doctest::Approx(strip::most_pixels_per_mm));
    for (int i = 0; i < 40; ++i)
        much = strip::zoomed(much, size, strip::frame_of(size, much, 900, 400), 0.5, 0, 0);
    CHECK(much.zoom == doctest::Approx(1.0));
}

TEST_CASE("a scale bar is a round length in the user's unit, as long as there is room for") {
    using measure::LengthUnit;
    for (const double scale : {0.3, 0.81, 1.7, 4.0, 15.9}) {
        for (const auto unit : {LengthUnit::millimetre, LengthUnit::centimetre, LengthUnit::inch}) {
            CAPTURE(scale);
            const auto bar = strip::scale_bar(scale, 200.0, unit);
            CHECK(bar.px <= 200.0);
            CHECK(bar.px > 200.0 / 2.6);
            CHECK(bar.px == doctest::Approx(bar.mm * scale));
            CHECK(bar.words.find(' ') != std::string::npos);
            // Round: one, two or five and noughts.
            const double length = bar.mm / measure::millimetres_from(1.0, unit);
            const double figure = length / std::pow(10.0, std::floor(std::log10(length) + 1e-9));
            CHECK((std::abs(figure - 1.0) < 1e-6 || std::abs(figure - 2.0) < 1e-6 ||
                   std::abs(figure - 5.0) < 1e-6));
        }
    }
    CHECK(strip::scale_bar(2.0, 210.0, LengthUnit::millimetre).words == "100 mm");
    CHECK(strip::scale_bar(2.0, 210.0, LengthUnit::millimetre).px == doctest::Approx(200.0));
    CHECK(strip::scale_bar(2.0, 260.0, LengthUnit::inch).words == "5 in");
}

TEST_CASE("what is rolled or coiled up takes the room it has: length by thickness, turn by turn") {
    // Sections keep their area: a sheet so long and thick becomes a disc of pi r^2.
    const auto area_of = [](const strip::Shape& shape) {
        double inside = 0.0;
        const int steps = 500;
        for (int i = 0; i < steps * steps; ++i) {
            strip::Spot spot;
            const double x = (i % steps + 0.5) / steps * shape.wide,
                         y = (i / steps + 0.5) / steps * shape.tall;
            if (strip::spot_in(shape, static_cast<float>(x), static_cast<float>(y), spot)) inside += 1.0;
        }
        return inside / (steps * steps) * shape.wide * shape.tall;
    };
    CHECK(area_of(strip::roll_end(560.0, 14.0)) == doctest::Approx(560.0 * 14.0).epsilon(0.02));
    CHECK(area_of(strip::coil(8000.0, 16.0)) == doctest::Approx(8000.0 * 16.0).epsilon(0.02));
    // Turns of 1.5 m round two half circles: nearly 1.5 m each at the inside, where the skein is measured.
    const auto skein = strip::loop(1500.0, 40.0, 1.5);
    const double middle = skein.inner + 0.5 * skein.across;
    const double length = 2.0 * (skein.wide - skein.tall) + 2.0 * std::numbers::pi * middle;
    CHECK(area_of(skein) == doctest::Approx(length * skein.across).epsilon(0.02));
    CHECK(2.0 * (skein.wide - skein.tall) + 2.0 * std::numbers::pi * skein.inner == doctest::Approx(1500.0));
    // The visible half of a roll is half its way round, and as wide as the sheet.
    const auto side = strip::roll(560.0, 203.0, 14.0);
    CHECK(side.along == doctest::Approx(0.5 * std::numbers::pi * side.tall));
    CHECK(side.wide == doctest::Approx(203.0));
}

TEST_CASE("a strip of yarn begins with all of it, and marks the stretch below") {
    const auto made = examples::made(examples::recipe_of(examples::folder() / "dawn-tide.toml"));
    const auto scene = strip::yarn_scene(made.forecast, made.batt, made.last(),
                                         carding::Pull::torn_lengthwise, strip::YarnView::single, {0.5, 1.0});
    const auto split = strip::yarn_split(160);
    CHECK(split.run + split.between + split.stretch == 160);
    CHECK(split.run > 50);
    const auto image = strip::draw_with_run(scene, 400, 160, {1, 1, 1}, {0, 0, 0});
    REQUIRE(image.rgb.size() == 3u * 400u * 160u);
    const auto run = strip::run_of(scene, 400).front();
    for (const std::size_t x : {std::size_t{3}, std::size_t{200}, std::size_t{396}}) {
        const std::uint8_t* at = image.rgb.data() + 3 * (10 * 400 + x);
        CHECK(std::abs(at[0] / 255.0 - run[x].r) < 0.003);
        CHECK(std::abs(at[2] / 255.0 - run[x].b) < 0.003);
    }
    // The mark begins in the middle, where the stretch does.
    const auto dark = [&](int x) {
        return image.rgb[3u * static_cast<std::size_t>((split.run + 2) * 400 + x)] < 50;
    };
    CHECK_FALSE(dark(190));
    CHECK(dark(200));
}
