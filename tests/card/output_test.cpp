// Files read back by programs of other people.
#include "card/output.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <optional>
#include <regex>

#include "card/content.hpp"
#include "card/examples.hpp"
#include "card/layout.hpp"
#include "card/recipe_card.hpp"
#include "card/tag.hpp"
#include "colour/spaces.hpp"
#include "measure/save.hpp"
#include "measure/units.hpp"
#include "strip/picture.hpp"

using namespace battwright;
using examples::holds;

namespace {

const char* const names[] = {"boat-shed-naturals", "dawn-tide",       "gull-speckle",    "harbour-heather",
                             "kelp-and-brass",     "low-tide-scraps", "mismatched-crew", "phosphor-wake"};

card::CardOptions plain_options() {
    card::CardOptions options;
    options.date = "2026-03-21";
    return options;
}

std::string text_of_pdf(const std::string& path) {
    return examples::output_of("pdftotext -raw '" + path + "' -");
}

void check_holds_all(const std::string& text, const forecast::Forecast& f, measure::MassUnit unit) {
    std::vector<double> grams, percents;
    for (const auto& line : f.components) {
        grams.push_back(line.grams);
        percents.push_back(line.mass_pct);
        CHECK_MESSAGE(holds(text, line.label), line.label);
    }
    // The scale's step is 0.1 g or 0.01 oz, the percentage's 0.1.
    grams = measure::round_to_step(grams,
                                   unit == measure::MassUnit::gram ? 0.1 : measure::grams_per_ounce / 100.0);
    percents = measure::round_to_step(percents, 0.1);
    for (const double g : grams) CHECK_MESSAGE(holds(text, measure::print_mass(g, unit)), g);
    for (const double p : percents) {
        char percent[32];
        std::snprintf(percent, sizeof percent, "%.1f %%", p);
        CHECK_MESSAGE(holds(text, percent), percent);
    }
    CHECK(holds(text, f.recipe.name));
    CHECK(holds(text, measure::print_mass(f.total_grams, unit)));
    CHECK(holds(text, "2026-03-21"));
}

std::uint32_t big_endian(const std::string& bytes, std::size_t at) {
    std::uint32_t value = 0;
    for (std::size_t i = 0; i < 4; ++i) value = value << 8 | static_cast<unsigned char>(bytes[at + i]);
    return value;
}

}  // namespace

TEST_CASE("a card says how the batt was fed and parted as its feed plan says it") {
    recipe::Recipe recipe = examples::from_file("dawn-tide").recipe;
    recipe.carding.passes = 2;
    recipe.carding.strips = 4;
    recipe.carding.feed = recipe::Manner::gradient_round;
    recipe.carding.refeed = recipe::Refeed::halves;
    const std::string text = card::text_of(card::recipe_card(examples::forecast_of(recipe), plain_options()));
    CHECK(holds(text, "Fed as a gradient round the drum."));
    CHECK(holds(text, "between them, split the batt lengthwise into two halves"));
    CHECK_FALSE(holds(text, "4 strips"));
}

TEST_CASE("every weight, name and percentage is read back from the PDF, the text and the Markdown") {
    const examples::Scratch scratch;
    for (const char* name : names) {
        CAPTURE(name);
        const auto f = examples::from_file(name);
        card::CardOptions options = plain_options();
        const card::Page page = card::recipe_card(f, options);
        for (const card::Paper paper : {card::Paper::a6, card::Paper::a4, card::Paper::index}) {
            REQUIRE(card::write(page, paper, scratch.path("card.pdf")).has_value());
            check_holds_all(text_of_pdf(scratch.path("card.pdf")), f, options.units.mass);
        }
        check_holds_all(card::text_of(page), f, options.units.mass);
        check_holds_all(card::markdown_of(page), f, options.units.mass);
        options.units.mass = measure::MassUnit::ounce;
        check_holds_all(card::text_of(card::recipe_card(f, options)), f, options.units.mass);
    }
}

TEST_CASE("the weigh-out per batt, the feed plan and the yarn with its range are on the card") {
    const examples::Scratch scratch;
    const auto f = examples::from_file("kelp-and-brass");
    REQUIRE(f.weigh_out.batts == 2);
    card::CardOptions options = plain_options();
    options.parts = {card::Part::batts, card::Part::plan, card::Part::yarn};
    REQUIRE(
        card::write(card::recipe_card(f, options), card::Paper::a4, scratch.path("card.pdf")).has_value());
    std::string text = text_of_pdf(scratch.path("card.pdf"));
    std::replace(text.begin(), text.end(), '\n', ' ');
    for (const double grams : f.weigh_out.grams)
        CHECK_MESSAGE(holds(text, measure::print_mass(grams, measure::MassUnit::gram)), grams);
    for (const auto& step : f.plan.steps) CHECK_MESSAGE(holds(text, step.text), step.text);
    for (const double metres : {f.yarn.length_m, f.yarn.length_low_m, f.yarn.length_high_m})
        CHECK(holds(text, measure::print_yarn_length(metres, measure::YarnLengthUnit::metre)));
    CHECK(f.yarn.length_low_m < f.yarn.length_high_m);
}

TEST_CASE("a picture is drawn once for an output that shows it, and not at all for one that does not") {
    int drawn = 0;
    const auto draw = [&] {
        ++drawn;
        return strip::Image{4, 1, {255, 0, 0, 0, 255, 0, 0, 0, 255, 90, 90, 90}};
    };
    const card::Page page{"Drift", {card::Heading{"Drift", true}, card::Picture{4, 1, draw, "in words"}}};
    CHECK(holds(card::text_of(page), "in words"));
    CHECK(holds(card::markdown_of(page), "in words"));
    const card::Laid laid = card::lay_out(page, card::Paper::a6);
    CHECK(drawn == 0);
    CHECK_FALSE(card::raster(laid, 0).rgb.empty());
    CHECK(drawn == 1);
    CHECK(card::pdf_of({&laid, 1}, "Drift").starts_with("%PDF-"));
    CHECK(drawn == 2);
}

TEST_CASE("many cards in one PDF: a page each, a picture in each, under 100 kB a card") {
    const examples::Scratch scratch;
    std::string bytes;
    const card::Pdf::Sink sink = [&bytes](std::string_view more) {
        bytes += more;
        return true;
    };
    card::Pdf pdf("Drifts", sink);
    for (const char* name : names)
        pdf.add(
            card::lay_out(card::recipe_card(examples::from_file(name), plain_options()), card::Paper::a4));
    CHECK(pdf.finish());
    CHECK(bytes.size() < 100'000 * std::size(names));
    const std::string path = scratch.path("cards.pdf");
    REQUIRE(measure::save_bytes(path, bytes).has_value());
    CHECK(holds(examples::output_of("pdfinfo '" + path + "'"),
                "Pages:           " + std::to_string(std::size(names))));
    const std::string pictures = examples::output_of("pdfimages -list '" + path + "'");
    std::size_t found = 0;
    for (std::size_t at = pictures.find(" jpeg "); at != std::string::npos;
         at = pictures.find(" jpeg ", at + 1))
        ++found;
    CHECK(found == std::size(names));
    CHECK_FALSE(card::Pdf("nothing", sink).finish());
    card::Pdf full("full", [](std::string_view) { return false; });
    full.add(
        card::lay_out(card::recipe_card(examples::from_file(names[0]), plain_options()), card::Paper::a6));
    CHECK_FALSE(full.finish());
}

TEST_CASE("the code in the picture is a recipe with the same forecast") {
    const examples::Scratch scratch;
    for (const char* name : names) {
        CAPTURE(name);
        const auto f = examples::from_file(name);
        const auto files =
            card::write(card::recipe_card(f, plain_options()), card::Paper::a6, scratch.path("card.png"));
        REQUIRE(files.has_value());
        // The code is the last thing on the card, on its last side.
        const std::string read = examples::output_of("zbarimg --raw -q '" + files->back().string() + "'");
        const auto again = examples::forecast_of(examples::recipe_of(read));
        CHECK(again.total_grams == doctest::Approx(f.total_grams).epsilon(1e-12));
        CHECK(colour::hex(again.colour.srgb) == colour::hex(f.colour.srgb));
        REQUIRE(again.components.size() == f.components.size());
        for (std::size_t i = 0; i < f.components.size(); ++i) {
            CHECK(again.components[i].label == f.components[i].label);
            CHECK(again.components[i].grams == doctest::Approx(f.components[i].grams).epsilon(1e-12));
        }
        CHECK(again.length.number_mean_mm == doctest::Approx(f.length.number_mean_mm));
        CHECK(again.findings.size() == f.findings.size());
    }
}

TEST_CASE("a code with letters outside ASCII comes back as UTF-8") {
    const examples::Scratch scratch;
    auto f = examples::from_file("harbour-heather");
    f.recipe.name = "Möwe und Tang, 海藻";
    const std::string path = scratch.path("card.png");
    REQUIRE(card::write(card::recipe_card(f, plain_options()), card::Paper::a5, path).has_value());
    const std::string read = examples::output_of("zbarimg --raw -q '" + path + "'");
    CHECK(examples::recipe_of(read).name == f.recipe.name);
}

TEST_CASE("a PNG has the paper's size at 300 dots an inch and says so") {
    const card::Page page = card::recipe_card(examples::from_file("harbour-heather"), plain_options());
    struct Size {
        card::Paper paper;
        double width_mm, height_mm;
    };
    // ISO 216; ANSI/ASME Y14.1; 6 x 4 in.
    const Size sizes[] = {{card::Paper::a6, 105, 148},
                          {card::Paper::a5, 148, 210},
                          {card::Paper::a4, 210, 297},
                          {card::Paper::letter, 215.9, 279.4},
                          {card::Paper::index, 152.4, 101.6}};
    for (const Size& size : sizes) {
        CAPTURE(card::word_for(size.paper));
        const std::string png = card::png_of(card::raster(card::lay_out(page, size.paper), 0));
        REQUIRE(png.size() > 60);
        // PNG specification (ISO/IEC 15948): IHDR's width and height at bytes 16 and 20; pHYs stands
        // before the picture.
        CHECK(std::abs(big_endian(png, 16) - size.width_mm / 25.4 * 300.0) <= 0.5);
        CHECK(std::abs(big_endian(png, 20) - size.height_mm / 25.4 * 300.0) <= 0.5);
        const std::size_t at = png.find("pHYs");
        REQUIRE(at != std::string::npos);
        CHECK(at < png.find("IDAT"));
        CHECK(big_endian(png, at - 4) == 9);
        // 300 dots in 0.0254 m: 11,811 a metre, unit 1.
        CHECK(big_endian(png, at + 4) == 11811);
        CHECK(big_endian(png, at + 8) == 11811);
        CHECK(png[at + 12] == 1);
    }
}

TEST_CASE("another program reads the PNG's check sums and resolution") {
    const examples::Scratch scratch;
    const card::Page page = card::tag(examples::from_file("phosphor-wake"), {});
    REQUIRE(card::write(page, card::Paper::tag, scratch.path("tag.png")).has_value());
    // ImageMagick (libpng) refuses chunks with a wrong check sum.
    CHECK(examples::output_of("identify -units PixelsPerInch -format '%wx%h %[fx:round(resolution.x)]' '" +
                              scratch.path("tag.png") + "'") == "709x1181 300");
}

TEST_CASE("the tag holds what was typed, the content and the care") {
    const examples::Scratch scratch;
    card::TagOptions options;
    options.maker = "Maren Kelling, Slipway 3";
    options.lot = "0042";
    options.length = "312 m";
    options.grams = 96.0;
    options.skein = true;
    const card::Page page = card::tag(examples::from_file("phosphor-wake"), options);
    REQUIRE(card::write(page, card::Paper::tag, scratch.path("tag.pdf")).has_value());
    const std::string text = text_of_pdf(scratch.path("tag.pdf"));
    for (const char* words : {"Maren Kelling, Slipway 3", "0042", "312 m", "96 g",
                              "63 % wool, 22 % viscose, 15 % cotton", "wraps per inch", "2-ply", "lukewarm"})
        CHECK_MESSAGE(holds(text, words), words);
}

TEST_CASE(
    "a skein's tag weighs what it foretells: the fibre that is left and the thread, as its content has it") {
    const auto f = examples::from_file("phosphor-wake");
    card::TagOptions options;
    options.skein = true;
    const double thread = f.yarn.thread_needed_m * f.recipe.spinning.thread->tex * 1e-3;  // tex: ISO 1144
    CHECK(card::skein_grams(f) == doctest::Approx(f.yarn.yarn_grams + thread));
    double shares = 0.0;
    for (const auto& share : card::shares_of(f, card::Market::eu_uk, card::Product::yarn))
        shares += share.percent;
    CHECK(card::skein_grams(f) == doctest::Approx(shares));
    const std::string text = card::text_of(card::tag(f, options));
    CHECK(holds(text, measure::print_mass(f.yarn.yarn_grams + thread, measure::MassUnit::gram)));
    options.skein = false;
    CHECK(holds(card::text_of(card::tag(f, options)),
                measure::print_mass(f.total_grams, measure::MassUnit::gram)));
}

TEST_CASE("on the smallest page a number and its unit stay on one line") {
    const examples::Scratch scratch;
    for (const char* name : names) {
        const auto f = examples::from_file(name);
        for (const auto unit : {measure::MassUnit::ounce, measure::MassUnit::pound}) {
            card::CardOptions options = plain_options();
            options.units.mass = unit;
            options.parts = {card::Part::weights, card::Part::staple};
            REQUIRE(card::write(card::recipe_card(f, options), card::Paper::tag, scratch.path("card.pdf"))
                        .has_value());
            const std::string text = text_of_pdf(scratch.path("card.pdf"));
            CAPTURE(text);
            CHECK(holds(text, "on pass"));
            CHECK(holds(text, "100.0 %"));
            const std::regex parted("[0-9]\\s*\n\\s*(oz|lb|%|mm)");
            CHECK_FALSE(std::regex_search(text, parted));
        }
    }
}

TEST_CASE("a batt laid by hand has its steps on the card where they fit, else the card says where they are") {
    const auto f = examples::from_file("boat-rail-edge");
    const card::CardOptions usual;
    const auto text = [&](std::optional<card::Paper> paper) {
        card::CardOptions options;
        options.parts = card::usual_parts(f, usual, paper);
        return card::text_of(card::recipe_card(f, options));
    };
    CHECK(holds(text(std::nullopt), "Feed plan"));
    CHECK(holds(text(card::Paper::a4), "Feed plan"));
    CHECK_FALSE(holds(text(card::Paper::a4), "left out here"));
    const auto small = card::usual_parts(f, usual, card::Paper::a6);
    card::CardOptions with = usual;
    with.parts.insert(card::Part::plan);
    const bool fits = card::lay_out(card::recipe_card(f, with), card::Paper::a6).sides.size() <=
                      card::lay_out(card::recipe_card(f, usual), card::Paper::a6).sides.size();
    CHECK(small.contains(card::Part::plan) == fits);
    CHECK(holds(card::text_of(card::recipe_card(f, usual)), "The steps are the card's part \"plan\""));
    const auto plain = examples::from_file("harbour-heather");
    CHECK(card::usual_parts(plain, usual, std::nullopt) == usual.parts);
    CHECK_FALSE(holds(card::text_of(card::recipe_card(plain, usual)), "left out here"));
}

TEST_CASE("the strip on the card has the blend's colour") {
    const auto f = examples::from_file("kelp-and-brass");
    card::CardOptions options = plain_options();
    options.parts = {card::Part::strip};
    const card::Page page = card::recipe_card(f, options);
    const strip::Image side = card::raster(card::lay_out(page, card::Paper::a6), 0);
    // A band well inside the picture: under the title, above where the picture ends.
    strip::Image band;
    band.width = side.width / 2;
    band.height = 40;
    for (int y = 240; y < 240 + band.height; ++y)
        for (int x = side.width / 4; x < side.width / 4 + band.width; ++x)
            for (int c = 0; c < 3; ++c)
                band.rgb.push_back(side.rgb[static_cast<std::size_t>(3 * (y * side.width + x) + c)]);
    const auto mean = strip::mean_colour(band);
    const auto wanted = colour::linear(f.colour.srgb);
    CHECK(std::abs(mean.r - wanted.r) < 0.03);
    CHECK(std::abs(mean.g - wanted.g) < 0.03);
    CHECK(std::abs(mean.b - wanted.b) < 0.03);
}

TEST_CASE("nothing half-written: a bad place or ending leaves no file") {
    const examples::Scratch scratch;
    const card::Page page = card::tag(examples::from_file("dawn-tide"), {});
    for (const char* bad : {"tag.gif", "tag", "no/such/tag.pdf", "no/such/tag.png", "no/such/tag.txt"}) {
        CHECK_FALSE(card::write(page, card::Paper::tag, scratch.path(bad)).has_value());
        CHECK(std::filesystem::is_empty(scratch.folder));
    }
}
