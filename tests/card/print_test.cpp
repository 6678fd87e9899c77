// Printed things measured on the print: codes, holes, letters, scales.
#include <algorithm>
#include <cmath>
#include <cstdint>
#include <regex>

#include "card/examples.hpp"
#include "card/layout.hpp"
#include "card/output.hpp"
#include "card/recipe_card.hpp"
#include "card/table_sheet.hpp"
#include "card/tag.hpp"
#include "colour/spaces.hpp"
#include "forecast/batt.hpp"

using namespace battwright;

namespace {

constexpr double dots_per_mm = 300.0 / 25.4;

// The pixels a test picks: first and last column and row.
struct Extent {
    int left = 1 << 30, right = -1, top = 1 << 30, bottom = -1;
    int wide() const { return right - left + 1; }
    int tall() const { return bottom - top + 1; }
};
template <class Pick>
Extent extent_of(const strip::Image& image, const Pick& pick) {
    Extent found;
    for (int y = 0; y < image.height; ++y)
        for (int x = 0; x < image.width; ++x) {
            const std::uint8_t* at = &image.rgb[3 * static_cast<std::size_t>(y * image.width + x)];
            if (!pick(at)) continue;
            found = {std::min(found.left, x), std::max(found.right, x), std::min(found.top, y),
                     std::max(found.bottom, y)};
        }
    return found;
}
Extent dark_extent(const strip::Image& image) {
    return extent_of(image, [](const std::uint8_t* at) { return at[0] < 128; });
}

struct PrintedCode {
    double module_dots = 0.0, box_dots = 0.0;
    Extent dark;
};
// A code of so many bytes, which ISO/IEC 18004 gives so many modules.
PrintedCode printed(card::Paper paper, std::size_t bytes, int modules) {
    card::Page page;
    page.blocks.emplace_back(card::Code{std::string(bytes, 'k'), "", "instead"});
    const card::Laid laid = card::lay_out(page, paper);
    REQUIRE_FALSE(laid.code_left_out);
    REQUIRE(laid.sides.size() == 1);
    PrintedCode code;
    code.dark = dark_extent(card::raster(laid, 0, 300.0));
    CHECK(code.dark.wide() == code.dark.tall());
    code.module_dots = static_cast<double>(code.dark.wide()) / modules;
    code.box_dots = laid.sides[0].placed[0].width / 72.0 * 300.0;
    return code;
}

examples::Scratch& scratch() {
    static examples::Scratch folder;
    return folder;
}

// Sizes of letters in a PDF, in points, as poppler finds them.
std::vector<double> letter_sizes(const card::Page& page, card::Paper paper) {
    const std::string path = scratch().path("letters.pdf");
    REQUIRE(card::write(page, paper, path).has_value());
    // Three times as large as it is, which is as far as poppler goes: it tells whole points.
    const std::string xml = examples::output_of("pdftohtml -xml -i -stdout -zoom 3 '" + path + "'");
    std::vector<double> sizes;
    const std::regex size("<fontspec [^>]*size=\"([0-9]+)\"");
    for (std::sregex_iterator at(xml.begin(), xml.end(), size), end; at != end; ++at)
        sizes.push_back(std::stod((*at)[1]) / 3.0);
    REQUIRE_FALSE(sizes.empty());
    std::sort(sizes.begin(), sizes.end());
    return sizes;
}

card::TableSheet sheet_of_face(int width, int height) {
    static const auto forecast = examples::from_file("harbour-heather");
    static const auto batt = forecast::batt_of(forecast, {0, true, 0});
    return card::table_sheet(forecast, batt, {}, {width, height});
}

}  // namespace

TEST_CASE("a code has its quiet zone and modules of whole dots, small paper the least that are read safely") {
    // ISO/IEC 18004: 213 bytes are version 10 at level M, 57 modules; the quiet zone is 4 modules wide.
    const PrintedCode small = printed(card::Paper::a6, 213, 57), large = printed(card::Paper::a4, 213, 57);
    for (const PrintedCode& code : {small, large}) {
        CHECK(code.module_dots == std::round(code.module_dots));
        CHECK(code.box_dots == doctest::Approx(65.0 * code.module_dots));
    }
    // The makers of the code recommend four dots a module or more (Denso Wave, "Point for setting the module
    // size"): a card is small, so it takes just these.
    CHECK(small.module_dots == 4.0);
    // Where there is room, about the size GS1 aims at: 0.495 mm (General Specifications, from memory).
    CHECK(large.module_dots / dots_per_mm == doctest::Approx(0.495).epsilon(0.08).scale(0.0));
}

TEST_CASE("a code leaves the card room for words, and is left out rather than made too fine to read") {
    // Level L of version 20 holds 858 bytes in 97 modules (ISO/IEC 18004); at four dots a module 105 with the
    // quiet zone are 35.6 mm, well within an A6 of 105 mm. Version 40 at four dots is 62.7 mm: it would
    // take more than half of the width.
    const PrintedCode twenty = printed(card::Paper::a6, 858, 97);
    CHECK(twenty.box_dots / dots_per_mm < 105.0 / 2.0);
    for (const card::Paper paper : {card::Paper::a6, card::Paper::index, card::Paper::tag}) {
        card::Page page;
        page.blocks.emplace_back(card::Code{std::string(2900, 'k'), "", "instead"});
        CHECK(card::lay_out(page, paper).code_left_out);
    }
}

TEST_CASE("the largest code takes about half of a card's width, and is read from arm's length on any paper") {
    const auto fits = [](card::Paper paper, std::size_t bytes) {
        card::Page page;
        page.blocks.emplace_back(card::Code{std::string(bytes, 'k'), "", "instead"});
        return !card::lay_out(page, paper).code_left_out;
    };
    // ISO/IEC 18004, level L: version 24 holds 1,171 bytes in 113 modules, at four dots 41 mm; 30 holds 1,732
    // in 137, 49.1 mm; 34 holds 2,191 in 153, 54.5 mm: more than half of 105 mm.
    CHECK(fits(card::Paper::a6, 1171));
    CHECK_FALSE(fits(card::Paper::a6, 2191));
    // A code is read from ten times its size (common practice, no source): version 39, at four dots 61.3 mm
    // with its quiet zone, from further than an arm of 60 cm; version 38, 59.9 mm, is within.
    CHECK(fits(card::Paper::a4, 2699));
    CHECK_FALSE(fits(card::Paper::a4, 2809));
}

TEST_CASE("letters shrink by small steps, to about three quarters, and never grow") {
    for (const card::Paper paper : {card::Paper::a6, card::Paper::a4}) {
        card::Page page;
        double before = 1.0;
        std::size_t lines = 0;
        for (; lines < 200; ++lines) {
            page.blocks.emplace_back(card::Paragraph{"Slack water"});
            const card::Laid laid = card::lay_out(page, paper);
            if (laid.sides.size() > 1) {
                CHECK(laid.scale <= 1.0);
                CHECK(laid.scale > 0.9);  // with a second side there is room
                break;
            }
            CHECK(laid.scale <= before);
            // A tenth is seen as another size of letters (common practice, no source).
            CHECK(laid.scale > 0.9 * before);
            before = laid.scale;
        }
        CHECK(lines < 200);
        CHECK(before == doctest::Approx(0.75).epsilon(0.04).scale(0.0));
    }
}

TEST_CASE("names have the width of a table that figures can spare, a quarter at worst") {
    const double points = 72.0 / 25.4;
    const auto first_column = [&](const std::string& figure) {
        card::Table table{{{""}, {"", true}, {"", true}, {"", true}}, {}};
        std::string name;
        for (int i = 0; i < 60; ++i) name += "an ebb ";
        table.rows.push_back({{name, figure, figure, figure}});
        card::Page page;
        page.blocks.emplace_back(table);
        const card::Laid laid = card::lay_out(page, card::Paper::a4);
        double widest = 0.0;
        for (const card::Placed& placed : laid.sides[0].placed)
            if (placed.x < 16.0 * points) widest = std::max(widest, placed.width);
        return widest / (180.0 * points);
    };
    // Figures that can be set on several lines leave the name its two fifths; those that cannot, a quarter.
    std::string several, one;
    for (int i = 0; i < 30; ++i) several += "at sea ";
    for (int i = 0; i < 60; ++i) one += "sea";
    CHECK(first_column(several) == doctest::Approx(0.4).epsilon(0.12).scale(0.0));
    CHECK(first_column(one) == doctest::Approx(0.25).epsilon(0.2).scale(0.0));
    CHECK(first_column("7 g") > 0.8);
}

TEST_CASE("the ring is as wide as the hole an office punch makes, in the middle of the tag") {
    card::Page page;
    page.blocks.emplace_back(card::HoleMark{});
    const strip::Image image = card::raster(card::lay_out(page, card::Paper::tag), 0, 300.0);
    const Extent ring = extent_of(image, [](const std::uint8_t* at) { return at[0] < 200; });
    // ISO 838: holes of 6 mm, give or take 0.5.
    CHECK(std::abs(ring.wide() / dots_per_mm - 6.0) < 0.5);
    CHECK(std::abs(ring.tall() / dots_per_mm - 6.0) < 0.5);
    CHECK(std::abs((ring.left + ring.right + 1) / 2.0 - image.width / 2.0) <= 1.0);
    // All of it lies inside the margin of 5 mm.
    CHECK(ring.top >= std::floor(5.0 * dots_per_mm));
}

TEST_CASE("letters are of the sizes that are read at arm's length") {
    // Common practice, no source: letters and reports 10 to 12 points, books 9 to 10.5, cards and labels 7 to
    // 9, tags 7 to 8.5.
    struct Usual {
        card::Paper paper;
        double least_pt, most_pt;
    };
    const Usual usual[] = {{card::Paper::a4, 10.0, 12.0},  {card::Paper::letter, 10.0, 12.0},
                           {card::Paper::a5, 9.0, 10.5},   {card::Paper::a6, 7.0, 9.0},
                           {card::Paper::index, 7.0, 9.0}, {card::Paper::tag, 7.0, 8.5}};
    card::Page page;
    page.blocks.emplace_back(card::Paragraph{"Slack water at noon"});
    for (const Usual& one : usual) {
        CAPTURE(card::word_for(one.paper));
        const auto sizes = letter_sizes(page, one.paper);
        CHECK(sizes.front() >= one.least_pt - 0.2);
        CHECK(sizes.back() <= one.most_pt + 0.2);
    }
}

TEST_CASE("the number of a side is in the smallest print that is read") {
    // Common practice, no source: notes at the foot of a page are of 6 to 7.5 points.
    card::Page page;
    for (int i = 0; i < 120; ++i) page.blocks.emplace_back(card::Paragraph{"Slack water at noon"});
    const auto sizes = letter_sizes(page, card::Paper::a4);
    CHECK(sizes.front() > 6.0 - 0.2);
    CHECK(sizes.front() < 7.5);
}

TEST_CASE("a paragraph parted between two sides leaves two lines on each") {
    // CSS 2.2, 13.3.2: orphans and widows are two lines.
    const std::string six = "ebb\nebb\nebb\nebb\nebb\nebb";
    std::size_t parted = 0;
    for (int before = 0; before < 12; ++before) {
        CAPTURE(before);
        card::Page page;
        for (int i = 0; i < before; ++i) page.blocks.emplace_back(card::Paragraph{"gull"});
        for (int i = 0; i < 60; ++i) page.blocks.emplace_back(card::Paragraph{six});
        const card::Laid laid = card::lay_out(page, card::Paper::a6);
        REQUIRE(laid.sides.size() > 2);
        std::size_t lines = 0;
        for (std::size_t side = 0; side + 1 < laid.sides.size(); ++side) {
            lines += laid.sides[side].placed.size() - 1;  // all but the side's number
            const std::size_t left = (lines - static_cast<std::size_t>(before)) % 6;
            CHECK(left != 1);
            CHECK(left != 5);
            parted += left != 0 ? 1u : 0u;
        }
    }
    CHECK(parted > 12);
}

TEST_CASE("what each batt takes is set on one line of even the smallest card") {
    auto recipe = examples::from_file("harbour-heather").recipe;
    recipe.total = measure::Mass{700.0};
    const auto f = examples::forecast_of(recipe);
    REQUIRE(f.weigh_out.batts > 7);
    card::CardOptions options;
    options.parts = {card::Part::batts};
    const std::string path = scratch().path("batts.pdf");
    REQUIRE(card::write(card::recipe_card(f, options), card::Paper::a6, path).has_value());
    const std::string text = examples::output_of("pdftotext -layout '" + path + "' -");
    const std::regex grams("[0-9]+\\.[0-9] g");
    std::size_t whole = 0;
    const std::size_t rows = f.weigh_out.components;
    std::sregex_iterator at(text.begin(), text.end(), grams), end;
    for (; at != end; ++at) ++whole;
    CAPTURE(text);
    // Parted at a line's end a weight would stand without its "g".
    CHECK(whole % rows == 0);
    CHECK(whole / rows >= 4);
}

TEST_CASE("a sheet of yarn leaves as much paper on the right as on the left, and its scale bar is straight") {
    const auto f = examples::from_file("harbour-heather");
    const auto batt = forecast::batt_of(f, {0, true, 0});
    strip::TableSettings ask;
    ask.view = strip::TableView::single;
    const card::TableSheet sheet = card::table_sheet(f, batt, ask, {1800, 1400});
    REQUIRE(sheet.image.rgb.size() == 3u * 1800u * 1400u);
    const auto darkness = [&](int x, int y) {
        return 255 - sheet.image.rgb[3 * static_cast<std::size_t>(y * sheet.image.width + x)];
    };
    // Rows nearly all of which are printed: the run of all the yarn, then the table.
    int printed = 0;
    for (int y = 0; y < 1400; ++y) {
        int left = 1800, right = -1, count = 0;
        for (int x = 0; x < 1800; ++x) {
            if (darkness(x, y) < 12) continue;
            left = std::min(left, x);
            right = x;
            ++count;
        }
        if (count < 1500) continue;
        ++printed;
        CHECK(std::abs(left - (1799 - right)) <= 2);
    }
    CHECK(printed > 900);
    // The bar joins its end marks in their middles: centres of what is dark in a column.
    const auto centre = [&](int x) {
        double sum = 0.0, dark = 0.0;
        for (int y = 1348; y < 1400; ++y) {
            sum += darkness(x, y) * (y + 0.5);
            dark += darkness(x, y);
        }
        REQUIRE(dark > 0.0);
        return sum / dark;
    };
    int mark = 0;
    const auto is_dark = [&](int x) {
        for (int y = 1348; y < 1400; ++y)
            if (darkness(x, y) > 200) return true;
        return false;
    };
    while (mark < 1799 && !is_dark(mark)) ++mark;
    CHECK(std::abs(centre(mark + 1) - centre(mark + 30)) < 0.6);
}

TEST_CASE("a scale bar takes a quarter of the figure at most, however near one looks") {
    const auto f = examples::from_file("harbour-heather");
    const auto batt = forecast::batt_of(f, {0, true, 0});
    double longest = 0.0;
    for (double zoom = 1.0; zoom < 2.6; zoom *= 1.07) {
        strip::TableSettings ask;
        ask.zoom = zoom;
        const card::TableSheet sheet = card::table_sheet(f, batt, ask, {320, 240});
        longest = std::max(longest, sheet.bar.px / 320.0);
    }
    CHECK(longest <= 0.25);
    CHECK(longest > 0.2);
}

TEST_CASE("a sheet from the table prints what lies there as large as it is") {
    const auto f = examples::from_file("harbour-heather");
    const auto batt = forecast::batt_of(f, {0, true, 0});
    const auto& field = batt.passes.back().field;
    for (const int width : {700, 820, 940, 1060, 1180, 1300, 1500, 1700}) {
        CAPTURE(width);
        const card::TableSheet sheet = sheet_of_face(width, 3 * width / 4);
        REQUIRE(sheet.image.width == width);
        REQUIRE(sheet.image.height == 3 * width / 4);
        // The batt is as wide as it can be and leaves a margin on both sides.
        const double wide = field.circumference_mm * sheet.pixels_per_mm;
        CHECK(wide < 0.97 * width);
        CHECK(wide > 0.8 * width);
        // A scale bar is a quarter of a figure's width at most (common practice, no source), and round
        // lengths are at most 2.5 times apart.
        CHECK(sheet.bar.px <= 0.25 * width);
        CHECK(sheet.bar.px >= 0.25 / 2.5 * 0.9 * width);
        CHECK(sheet.bar.px == doctest::Approx(sheet.bar.mm * sheet.pixels_per_mm));
        // It is drawn as long as it says: the longest dark line in the foot.
        int longest = 0;
        for (int y = 19 * sheet.image.height / 20; y < sheet.image.height; ++y) {
            int run = 0;
            for (int x = 0; x < width; ++x) {
                const auto at = 3 * static_cast<std::size_t>(y * width + x);
                run = sheet.image.rgb[at] < 90 ? run + 1 : 0;
                longest = std::max(longest, run);
            }
        }
        CHECK(std::abs(longest - sheet.bar.px) <= 2.0);
    }
    // The PNG says its scale (ISO/IEC 15948, pHYs: dots a metre).
    const card::TableSheet sheet = sheet_of_face(900, 700);
    const std::string path = scratch().path("table.png");
    REQUIRE(card::save_table(sheet, path).has_value());
    CHECK(std::stod(examples::output_of("identify -units PixelsPerCentimeter -format '%x' '" + path + "'")) ==
          doctest::Approx(10.0 * sheet.pixels_per_mm).epsilon(0.002).scale(0.0));
}

TEST_CASE("the sheet's table is a neutral light grey on which white fibre is seen") {
    const card::TableSheet sheet = sheet_of_face(900, 700);
    // In the middle of the left edge there is paper, then table, then batt.
    colour::Srgb table;
    for (int x = 0; x < 450; ++x) {
        const std::uint8_t* at = &sheet.image.rgb[3 * static_cast<std::size_t>(350 * 900 + x)];
        if (at[0] == 255 && at[1] == 255 && at[2] == 255) continue;
        table = {at[0] / 255.0, at[1] / 255.0, at[2] / 255.0};
        break;
    }
    const colour::Lab lab = colour::lab(table);
    CHECK(std::hypot(lab.a, lab.b) < 3.0);
    // Bleached silk and cotton are about L* 92 (memory): 2.3 of CIE76 is a just noticeable difference (Mahy,
    // Van Eycken and Oosterlinck 1994, from memory).
    CHECK(lab.l < 92.0 - 2.3);
    CHECK(lab.l > 70.0);
    // Words are black enough on white: WCAG 2.2's contrast of 7 to 1.
    const Extent words =
        extent_of(sheet.image, [](const std::uint8_t* at) { return at[0] < 40 && at[2] < 60; });
    CHECK(words.right > words.left);
}

TEST_CASE("what the card says of short fibre is under an inch, the length no drum holds by itself") {
    // Common practice, no source: fibre under about 1 in (25 mm) stays in by the fibre round it alone.
    const auto f = examples::from_file("low-tide-scraps");
    card::CardOptions options;
    options.parts = {card::Part::staple};
    const std::string text = card::text_of(card::recipe_card(f, options));
    char share[64];
    std::snprintf(share, sizeof share, "%.1f %% by weight under 25 mm", f.length.short_share_pct);
    CHECK(examples::holds(text, share));
}
