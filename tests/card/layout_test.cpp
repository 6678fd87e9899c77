// Nothing is clipped, whatever the names are.
#include "card/layout.hpp"

#include <algorithm>

#include "card/examples.hpp"
#include "card/output.hpp"
#include "card/qr.hpp"
#include "card/recipe_card.hpp"
#include "card/tag.hpp"

using namespace battwright;

namespace {

const card::Paper papers[] = {card::Paper::a6,     card::Paper::a5,    card::Paper::a4,
                              card::Paper::letter, card::Paper::index, card::Paper::tag};

void check_inside(const card::Laid& laid, double margin) {
    for (const card::Side& side : laid.sides)
        for (const card::Placed& placed : side.placed) {
            CHECK(placed.x >= margin - 0.01);
            CHECK(placed.y >= margin - 0.01);
            // Half a point: a space hangs over where a line was wrapped.
            CHECK(placed.x + placed.width <= laid.width_pt - margin + 0.5);
            CHECK(placed.y + placed.height <= laid.height_pt - margin + 0.5);
        }
}

// Ink in the margin would show on the pixels whatever the boxes say.
bool margin_is_white(const strip::Image& image, int pixels) {
    for (int y = 0; y < image.height; ++y)
        for (int x = 0; x < image.width; ++x) {
            const bool inside =
                x >= pixels && y >= pixels && x < image.width - pixels && y < image.height - pixels;
            const auto at = static_cast<std::size_t>(3 * (y * image.width + x));
            if (!inside && (image.rgb[at] < 250 || image.rgb[at + 1] < 250 || image.rgb[at + 2] < 250))
                return false;
        }
    return true;
}

std::string repeated(const std::string& word, int times) {
    std::string text;
    for (int i = 0; i < times; ++i) text += word;
    return text;
}

std::string without_white(std::string text) {
    std::erase_if(text, [](char c) { return c == ' ' || c == '\n' || c == '\f'; });
    return text;
}

forecast::Forecast named(const std::string& name, const std::string& component) {
    forecast::Forecast f = examples::from_file("kelp-and-brass");
    f.recipe.name = name;
    f.components[0].label = component;
    f.recipe.notes = component;
    return f;
}

}  // namespace

TEST_CASE("names of any length and script stay within the margins") {
    const std::string cases[][2] = {
        {"Tide", "gull"},
        {repeated("the long grey evening after the herring boats came in ", 6),
         "flood tide at the old slipway"},
        {repeated("Kelpwrackandbladderwrack", 20), repeated("Seaweed", 60)},
        {repeated("海藻と真鍮の色の羊毛", 8), repeated("灯台の白", 30)},
        {repeated("صوف بلون البحر ", 12), repeated("ميناء", 40)},
        {repeated("Ünnepi hullámtörő ", 10), repeated("e\xCC\x81\xCC\xA8", 100)},
    };
    card::CardOptions options;  // all but the picture, which takes long to draw
    options.parts.erase(card::Part::strip);
    for (const auto& one : cases)
        for (const card::Paper paper : papers) {
            CAPTURE(one[0]);
            CAPTURE(card::word_for(paper));
            const double margin = card::size_of(paper).margin_mm * card::points_per_millimetre;
            const card::Laid laid = card::lay_out(card::recipe_card(named(one[0], one[1]), options), paper);
            check_inside(laid, margin);
            for (std::size_t side = 0; side < laid.sides.size(); ++side)
                CHECK(margin_is_white(card::raster(laid, side, 72.0), static_cast<int>(margin) - 3));
        }
}

TEST_CASE("a line across the page reaches from margin to margin, and full sides are full to the lower one") {
    for (const card::Paper paper : papers) {
        CAPTURE(card::word_for(paper));
        const double margin = card::size_of(paper).margin_mm * 72.0 / 25.4;
        card::Page page;
        page.blocks.emplace_back(card::Rule{});
        const card::Laid line = card::lay_out(page, paper);
        REQUIRE(line.sides.size() == 1);
        REQUIRE(line.sides[0].placed.size() == 1);
        CHECK(line.sides[0].placed[0].x == doctest::Approx(margin));
        CHECK(line.sides[0].placed[0].width == doctest::Approx(line.width_pt - 2.0 * margin));
        for (int i = 0; i < 400; ++i)
            page.blocks.emplace_back(card::Paragraph{"Slack water " + std::to_string(i)});
        const card::Laid full = card::lay_out(page, paper);
        REQUIRE(full.sides.size() > 2);
        double lowest = 0.0, number_top = full.height_pt;
        const auto& placed = full.sides[1].placed;
        for (std::size_t i = 0; i + 1 < placed.size(); ++i)
            lowest = std::max(lowest, placed[i].y + placed[i].height);
        number_top = placed.back().y;
        CHECK(number_top + placed.back().height == doctest::Approx(full.height_pt - margin));
        CHECK(lowest <= number_top);
        // Less than two lines are left free above the side's number.
        CHECK(number_top - lowest < 2.0 * 1.6 * card::size_of(paper).letter_pt);
    }
}

TEST_CASE("a cell longer than a side goes on to the next and is read back whole") {
    const examples::Scratch scratch;
    const std::string endless = repeated("Strandgut", 1500);
    card::CardOptions options;
    options.parts = {card::Part::weights};
    const card::Laid laid =
        card::lay_out(card::recipe_card(named("Drift", endless), options), card::Paper::index);
    CHECK(laid.sides.size() > 1);
    REQUIRE(card::write(laid, scratch.path("card.pdf")).has_value());
    const std::string text = examples::output_of("pdftotext -raw '" + scratch.path("card.pdf") + "' -");
    std::size_t words = 0;
    const std::string run = without_white(text);
    for (std::size_t at = run.find("Strandgut"); at != std::string::npos; at = run.find("Strandgut", at + 1))
        ++words;
    // The weight stands beside the cell's first line, and each side's number after its last: each may part
    // one.
    CHECK(words >= 1500 - 1 - laid.sides.size());
}

TEST_CASE("letters shrink before a second side is used, and what fits is one side") {
    const auto f = examples::from_file("mismatched-crew");
    const card::Laid small = card::lay_out(card::recipe_card(f, {}), card::Paper::a6);
    CHECK(small.sides.size() == 1);
    CHECK(small.scale < 1.0);
    CHECK(card::lay_out(card::recipe_card(f, {}), card::Paper::a4).scale == 1.0);
}

TEST_CASE("the parts asked for are printed and no others") {
    const auto f = examples::from_file("phosphor-wake");
    for (const card::Part part : card::all_parts()) {
        CAPTURE(card::word_for(part));
        card::CardOptions all;
        all.parts = {card::all_parts().begin(), card::all_parts().end()};
        card::CardOptions without = all;
        without.parts.erase(part);
        card::CardOptions nothing;
        nothing.parts = {};
        CHECK(card::recipe_card(f, nothing).blocks.size() == 2);
        // The code moves beside the blank lines where both are printed, so it is no block of its own there.
        // This recipe has no notes, is one batt, and nothing is wrong with it.
        const bool apart = part != card::Part::code && part != card::Part::notes &&
                           part != card::Part::batts && part != card::Part::findings;
        if (apart)
            CHECK(card::text_of(card::recipe_card(f, all)) != card::text_of(card::recipe_card(f, without)));
        const auto again = card::parse_parts(card::word_for(part));
        REQUIRE(again.has_value());
        CHECK(*again == std::set<card::Part>{part});
    }
    const auto typo = card::parse_parts("strip,wieghts");
    REQUIRE_FALSE(typo.has_value());
    CHECK(typo.error().mend.find("weights") != std::string::npos);
}

TEST_CASE("a recipe too long for a readable code is said to be so") {
    auto f = examples::from_file("kelp-and-brass");
    f.recipe.notes = repeated("low water, high water, ", 120);
    card::CardOptions options;
    options.parts = {card::Part::outcome, card::Part::code};
    const card::Page page = card::recipe_card(f, options);
    const card::Laid laid = card::lay_out(page, card::Paper::a6);
    CHECK(laid.code_left_out);
    const examples::Scratch scratch;
    REQUIRE(card::write(laid, scratch.path("card.pdf")).has_value());
    CHECK(examples::holds(examples::output_of("pdftotext '" + scratch.path("card.pdf") + "' -"),
                          "too long for a code"));
    CHECK_FALSE(
        card::lay_out(card::recipe_card(examples::from_file("kelp-and-brass"), options), card::Paper::a6)
            .code_left_out);
}

TEST_CASE("the largest code: 2,953 bytes, ISO/IEC 18004 version 40, 177 modules") {
    const auto full = card::qr_of(std::string(2953, 'k'), 0);
    REQUIRE(full.has_value());
    CHECK(full->modules == 177);
    CHECK_FALSE(card::qr_of(std::string(2954, 'k'), 0).has_value());
    CHECK_FALSE(card::qr_of("", 177).has_value());
}

TEST_CASE("a sheet holds four A6 cards on A4, two index cards on letter, with marks to cut along") {
    std::vector<card::Laid> cards;
    for (const char* name :
         {"dawn-tide", "gull-speckle", "harbour-heather", "kelp-and-brass", "phosphor-wake"})
        cards.push_back(card::lay_out(card::recipe_card(examples::from_file(name), {}), card::Paper::a6));
    const auto sheet = card::sheet_of(cards, card::Paper::a4);
    REQUIRE(sheet.has_value());
    CHECK(sheet->sides.size() == 2);
    const examples::Scratch scratch;
    REQUIRE(card::write(*sheet, scratch.path("sheet.pdf")).has_value());
    const std::string text = examples::output_of("pdftotext '" + scratch.path("sheet.pdf") + "' -");
    for (const char* name :
         {"Dawn Tide", "Gull Speckle", "Harbour Heather", "Kelp and Brass", "Phosphor Wake"})
        CHECK_MESSAGE(examples::holds(text, name), name);
    // A mark crosses where the four cards meet: dark there, white beside it.
    const strip::Image image = card::raster(*sheet, 0, 300.0);
    const auto grey = [&](double x_mm, double y_mm) {
        const int x = static_cast<int>(x_mm / 25.4 * 300.0), y = static_cast<int>(y_mm / 25.4 * 300.0);
        int least = 255;
        for (int dy = -4; dy <= 4; ++dy)
            for (int dx = -4; dx <= 4; ++dx)
                least = std::min<int>(
                    least, image.rgb[static_cast<std::size_t>(3 * ((y + dy) * image.width + x + dx))]);
        return least;
    };
    CHECK(grey(105.0, 148.5) < 160);
    CHECK(grey(101.0, 144.5) > 250);
    CHECK_FALSE(card::sheet_of(cards, card::Paper::index).has_value());
}

TEST_CASE("cards lie in the middle of their sheet: as much is cut off on either side") {
    std::vector<card::Laid> cards;
    for (const char* name : {"dawn-tide", "gull-speckle"})
        cards.push_back(card::lay_out(card::recipe_card(examples::from_file(name), {}), card::Paper::index));
    const auto sheet = card::sheet_of(cards, card::Paper::letter);
    REQUIRE(sheet.has_value());
    const strip::Image image = card::raster(*sheet, 0, 100.0);
    int left = image.width, right = 0, top = image.height, bottom = 0;
    for (int y = 0; y < image.height; ++y)
        for (int x = 0; x < image.width; ++x) {
            if (image.rgb[static_cast<std::size_t>(3 * (y * image.width + x))] > 200) continue;
            left = std::min(left, x);
            right = std::max(right, x);
            top = std::min(top, y);
            bottom = std::max(bottom, y);
        }
    REQUIRE(left < right);
    CHECK(left > 25);  // a quarter of an inch, and the marks' arms
    CHECK(std::abs(left - (image.width - 1 - right)) <= 2);
    CHECK(top > 25);
    CHECK(std::abs(top - (image.height - 1 - bottom)) <= 2);
}

TEST_CASE("letters no font has are counted") {
    card::Page page;
    page.blocks.emplace_back(card::Paragraph{"plain"});
    CHECK(card::lay_out(page, card::Paper::a6).missing_glyphs == 0);
    // A private-use character belongs to no script, so no font has to have it.
    page.blocks.emplace_back(card::Paragraph{"\xF3\xB0\x80\x81"});
    CHECK(card::lay_out(page, card::Paper::a6).missing_glyphs == 1);
}
