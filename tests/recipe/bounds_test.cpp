// What a recipe may say in numbers, tried from just inside and just outside: the bounds keep out slips of the
// pen. And tables of the trade against what is published of them.
#include <doctest/doctest.h>

#include <algorithm>
#include <string>
#include <vector>

#include "recipe/carder.hpp"
#include "recipe/composition.hpp"
#include "recipe/file.hpp"
#include "recipe/thickness.hpp"
#include "recipe/tints.hpp"

using namespace battwright;
using battwright::fibre::Catalogue;

namespace {

// Where a recipe with this line in place of its own is at fault; empty when it reads.
std::string fault_with(const std::string& component, const std::string& rest, const std::string& head = "") {
    const std::string text = "format = 1\n" + head + "[[component]]\n" + component + rest;
    const auto read = recipe::read_text(text, "r.toml", Catalogue::builtin());
    return read ? "" : measure::to_line(read.error());
}

struct Bound {
    const char* what;     // with %, where the value stands
    const char* inside;   // just allowed
    const char* outside;  // just not
};

std::string with_value(const std::string& line, const std::string& value) {
    std::string text = line;
    return text.replace(text.find('%'), 1, value);
}

const std::string one_fibre = "fibre = \"corriedale\"\n", twenty_grams = "weight = \"20 g\"\n";

}  // namespace

TEST_CASE("numbers of a component") {
    const std::vector<Bound> bounds{
        {"weight = \"% g\"\n", "4900", "5100"},
        {"weight = \"% g\"\n", "0.011", "0.009"},
        {"parts = %\n", "9900", "10100"},
        {"parts = %\n", "0.0011", "0.0009"},
        {"weight = \"20 g\"\nstaple = \"% mm\"\n", "590", "610"},
        {"weight = \"20 g\"\nstaple = \"% mm\"\n", "1.1", "0.9"},
        {"weight = \"20 g\"\ndiameter = \"% um\"\n", "490", "510"},
        {"weight = \"20 g\"\ndiameter = \"% um\"\n", "2.1", "1.9"},
        {"weight = \"20 g\"\nprice = \"% per 100 g\"\n", "990000", "1010000"},
    };
    for (const Bound& bound : bounds) {
        CAPTURE(bound.what);
        const std::string total = std::string(bound.what).starts_with("parts") ? "total = \"20 g\"\n" : "";
        CHECK(fault_with(one_fibre + with_value(bound.what, bound.inside), "", total) == "");
        CHECK(fault_with(one_fibre + with_value(bound.what, bound.outside), "", total) != "");
    }
}

TEST_CASE("numbers of the carding and the spinning") {
    const std::vector<Bound> bounds{
        {"[carding]\npasses = %\n", "20", "21"},
        {"[carding]\nstrips = %\n", "64", "65"},
        {"[carding]\nfeed = \"alternating\"\nrepeats = %\n", "50", "51"},
        {"[carding]\nfeed = \"stripes\"\noverlap = \"% %\"\n", "100", "101"},
        {"[spinning]\nplies = %\n", "12", "13"},
        {"[spinning]\nthickness = \"% wpi\"\n", "119", "121"},
        {"[spinning]\nthickness = \"% wpi\"\n", "2.1", "1.9"},
        {"[spinning]\nthickness = \"% tex\"\n", "19900", "20100"},
        {"[spinning]\nthickness = \"% tex\"\n", "5.1", "4.9"},
        {"[spinning]\nwheel_ratio = \"%:1\"\n", "59", "61"},
        {"[spinning]\nwheel_ratio = \"%:1\"\n", "0.55", "0.45"},
        {"[spinning]\nplying = \"with-thread\"\nthread = { count = \"% tex\", length = \"400 m\" }\n",
         "19900", "20100"},
        {"[spinning]\nplying = \"with-thread\"\nthread = { count = \"% tex\", length = \"400 m\" }\n", "0.11",
         "0.09"},
        {"[spinning]\nplying = \"with-thread\"\nthread = { count = \"30 tex\", length = \"% m\" }\n",
         "990000", "1010000"},
        {"[spinning]\nplying = \"with-thread\"\nthread = { count = \"30 tex\", length = \"% m\" }\n", "0.11",
         "0.09"},
        {"[carding.carder]\ndrum_circumference = \"% mm\"\nwidth = \"200 mm\"\nclothing = 72\nload = \"30-80 "
         "g\"\n",
         "2900", "3100"},
        {"[carding.carder]\ndrum_circumference = \"% mm\"\nwidth = \"200 mm\"\nclothing = 72\nload = \"30-80 "
         "g\"\n",
         "110", "90"},
        {"[carding.carder]\ndrum_circumference = \"560 mm\"\nwidth = \"% mm\"\nclothing = 72\nload = \"30-80 "
         "g\"\n",
         "1450", "1550"},
        {"[carding.carder]\ndrum_circumference = \"560 mm\"\nwidth = \"% mm\"\nclothing = 72\nload = \"30-80 "
         "g\"\n",
         "21", "19"},
        {"[carding.carder]\ndrum_circumference = \"560 mm\"\nwidth = \"200 mm\"\nclothing = %\nload = "
         "\"30-80 g\"\n",
         "295", "305"},
        {"[carding.carder]\ndrum_circumference = \"560 mm\"\nwidth = \"200 mm\"\nclothing = %\nload = "
         "\"30-80 g\"\n",
         "11", "9"},
        {"[carding.carder]\ndrum_circumference = \"560 mm\"\nwidth = \"200 mm\"\nclothing = 72\nload = "
         "\"30-80 "
         "g\"\nlicker_in = \"%:1\"\n",
         "39", "41"},
    };
    for (const Bound& bound : bounds) {
        CAPTURE(bound.what);
        CAPTURE(bound.inside);
        CHECK(fault_with(one_fibre + twenty_grams, with_value(bound.what, bound.inside)) == "");
        CHECK(fault_with(one_fibre + twenty_grams, with_value(bound.what, bound.outside)) != "");
    }
}

TEST_CASE("how much a recipe may hold") {
    const auto notes = [](std::size_t letters) {
        return fault_with(one_fibre + twenty_grams, "", "notes = \"" + std::string(letters, 'a') + "\"\n");
    };
    CHECK(notes(19900) == "");
    CHECK(notes(20100) != "");
    const auto name = [](std::size_t letters) {
        return fault_with(one_fibre + twenty_grams, "", "name = \"" + std::string(letters, 'a') + "\"\n");
    };
    CHECK(name(199) == "");
    CHECK(name(201) != "");
    const auto components = [](int count) {
        std::string rest;
        for (int i = 1; i < count; ++i)
            rest += "[[component]]\nname = \"" + std::to_string(i) + "\"\n" + one_fibre + twenty_grams;
        return fault_with(one_fibre + twenty_grams, rest);
    };
    CHECK(components(60) == "");
    CHECK(components(61) != "");
    const auto tints = [](int count) {
        std::string colours = "colours = [";
        for (int i = 0; i < count; ++i)
            colours += "{ colour = \"#0000" + std::to_string(10 + i) + "\", share = \"" +
                       measure::write_number(100.0 / count) + " %\" },";
        return fault_with(one_fibre + twenty_grams + colours + "]\n", "");
    };
    CHECK(tints(16) == "");
    CHECK(tints(17) != "");
    const auto kinds = [](int count) {
        std::string blend = "blend = [";
        const auto ids = Catalogue::builtin().ids();
        for (int i = 0; i < count; ++i)
            blend += "{ fibre = \"" + ids[static_cast<std::size_t>(i)] + "\", share = \"" +
                     measure::write_number(100.0 / count) + " %\" },";
        return fault_with(twenty_grams + blend + "]\n", "");
    };
    CHECK(kinds(12) == "");
    CHECK(kinds(13) != "");
    // Shares close within half a thousandth of the whole.
    const auto closes = [](const char* second) {
        return fault_with(
            twenty_grams +
                "blend = [{ fibre = \"romney\", share = \"50 %\" }, { fibre = \"corriedale\", share = \"" +
                second + " %\" }]\n",
            "");
    };
    CHECK(closes("50.04") == "");
    CHECK(closes("50.055") != "");
}

TEST_CASE("numbers of what is laid by hand, and of a series") {
    const std::vector<Bound> bounds{
        {"[carding]\nlay = [ { what = \"corriedale\", how = \"in dabs of % mm\" } ]\n", "390", "410"},
        {"[carding]\nlay = [ { what = \"corriedale\", how = \"in dabs of % mm\" } ]\n", "3.2", "2.8"},
        {"[carding]\nlay = [ { what = \"corriedale\", times = % } ]\n", "50", "51"},
        {"[carding]\nlay = [ { what = \"corriedale\", share = \"% %\" }, { what = \"corriedale\" } ]\n",
         "0.011", "0.009"},
        {"[series]\nbatts = %\neach = \"5 g\"\nto = [ { what = \"corriedale\", share = \"100 %\" } ]\n", "60",
         "61"},
        {"[series]\nbatts = 6\neach = \"5 g\"\nto = [ { what = \"corriedale\", share = \"% %\" } ]\n", "100",
         "101"},
    };
    for (const Bound& bound : bounds) {
        CAPTURE(bound.what);
        CAPTURE(bound.inside);
        CHECK(fault_with(one_fibre + twenty_grams, with_value(bound.what, bound.inside)) == "");
        CHECK(fault_with(one_fibre + twenty_grams, with_value(bound.what, bound.outside)) != "");
    }
    // Nobody lays four hundred times by hand; and a batt is not made of thirty-one small ones.
    const auto layings = [](int count) {
        std::string lay = "[carding]\nlay = [";
        for (int i = 1; i < count; ++i) lay += " { what = \"corriedale\", share = \"0.1 %\" },";
        return fault_with(one_fibre + twenty_grams, lay + " { what = \"corriedale\" } ]\n");
    };
    CHECK(layings(400) == "");
    CHECK(layings(401) != "");
    const auto blends = [](int count) {
        std::string text = "[carding]\nlay = [";
        for (int i = 1; i <= count; ++i) text += " { what = \"b" + std::to_string(i) + "\" },";
        text += " { what = \"corriedale\" } ]\n";
        for (int i = 1; i <= count; ++i)
            text += "[[carding.blend]]\nname = \"b" + std::to_string(i) +
                    "\"\nlay = [ { what = \"corriedale\", weight = \"0.5 g\" } ]\n";
        return fault_with(one_fibre + twenty_grams, text);
    };
    CHECK(blends(30) == "");
    CHECK(blends(31) != "");
    const auto blend = [](const std::string& key, const char* number) {
        return fault_with(
            one_fibre + twenty_grams,
            "[carding]\nlay = [ { what = \"b\" }, { what = \"corriedale\" } ]\n[[carding.blend]]\nname "
            "= \"b\"\n" +
                key + " = " + number + "\nlay = [ { what = \"corriedale\", weight = \"5 g\" } ]\n");
    };
    CHECK(blend("passes", "20") == "");
    CHECK(blend("passes", "21") != "");
    CHECK(blend("strips", "64") == "");
    CHECK(blend("strips", "65") != "");
}

TEST_CASE("sums close within what a kitchen scale rounds away") {
    // Three components weighed to 0.1 g of a total of 100 g: 99.97 g is 100 g, 99.94 g is a mistake.
    const auto weights = [](const char* second) {
        return fault_with(
            "fibre = \"romney\"\nweight = \"50 g\"\n",
            std::string("[[component]]\nfibre = \"corriedale\"\nweight = \"") + second + " g\"\n",
            "total = \"100 g\"\n");
    };
    CHECK(weights("49.955") == "");
    CHECK(weights("49.943") != "");
    // Ten grams close within the hundredth that 0.01 g shows.
    const auto few = [](const char* second) {
        return fault_with(
            "fibre = \"romney\"\nweight = \"5 g\"\n",
            std::string("[[component]]\nfibre = \"corriedale\"\nweight = \"") + second + " g\"\n",
            "total = \"10 g\"\n");
    };
    CHECK(few("4.991") == "");
    CHECK(few("4.9885") != "");
    // Percentages that nearly close make the total, not a gram less.
    const auto made = recipe::read_text(
        "format = 1\ntotal = \"100 g\"\n[[component]]\nfibre = \"romney\"\nshare = \"33.3 "
        "%\"\n[[component]]\nfibre "
        "= \"corriedale\"\nshare = \"66.66 %\"\n",
        "r.toml", Catalogue::builtin());
    REQUIRE(made);
    const auto masses = recipe::masses_of(*made);
    REQUIRE(masses);
    CHECK(masses->total_grams == doctest::Approx(100.0).epsilon(1e-9));
}

TEST_CASE("names of thickness: the standard's numbers, and the wraps its tables give") {
    // Craft Yarn Council's system; wraps as commonly tabulated: lace 18 and more, super fine 14 to 17, fine
    // 12 to 13, light 11, medium 9, bulky 7, super bulky 5 to 6, jumbo 4 and fewer.
    struct Row {
        const char* name;
        int number;
        double least, most;
    };
    for (const Row& row : std::vector<Row>{{"cobweb", 0, 25, 32},    {"lace", 0, 18, 22},
                                           {"2-ply", 0, 18, 22},     {"light fingering", 1, 16, 18},
                                           {"3-ply", 1, 16, 18},     {"super fine", 1, 14, 17},
                                           {"fingering", 1, 14, 17}, {"sock", 1, 14, 17},
                                           {"4-ply", 1, 14, 17},     {"fine", 2, 12, 13},
                                           {"sport", 2, 12, 13},     {"5-ply", 2, 12, 13},
                                           {"light", 3, 10.5, 11.5}, {"DK", 3, 10.5, 11.5},
                                           {"8-ply", 3, 10.5, 11.5}, {"medium", 4, 8.5, 9.5},
                                           {"worsted", 4, 8.5, 9.5}, {"10-ply", 4, 8.5, 9.5},
                                           {"aran", 4, 8, 9},        {"bulky", 5, 6.5, 7.5},
                                           {"chunky", 5, 6.5, 7.5},  {"12-ply", 5, 6.5, 7.5},
                                           {"super bulky", 6, 5, 6}, {"jumbo", 7, 3, 4}}) {
        CAPTURE(row.name);
        const auto* found = recipe::thickness_named(row.name);
        REQUIRE(found != nullptr);
        CHECK(found->number == row.number);
        CHECK(found->usual_wpi >= row.least);
        CHECK(found->usual_wpi <= row.most);
    }
}

TEST_CASE("carders: what is published of small and standard drums") {
    // Reports of makers and a guild's page: a small drum 21 to 28 g with comfort and 43 g packed, 10 mm teeth
    // 28 to 57 g, a full hand-turned drum of 200 mm 78 g; clothing of 72 to the inch all-round, 120 to 128
    // very fine.
    const auto& small = *recipe::find_carder("table-small");
    CHECK(small.load_low_grams >= 21.0);
    CHECK(small.load_low_grams <= 24.0);
    CHECK(small.load_high_grams <= 45.0);
    CHECK(small.load_high_grams >= 40.0);
    const auto& standard = *recipe::find_carder("table-standard");
    CHECK(standard.load_low_grams == 28.0);
    CHECK(standard.load_high_grams >= 78.0);
    CHECK(standard.load_high_grams <= 82.0);
    // Fine cloth has the shorter teeth: about three quarters of it. A wide drum carries as much on its area
    // and a little more, since it has the longer ones.
    const auto& fine_cloth = *recipe::find_carder("fine-cloth");
    CHECK(fine_cloth.load_high_grams / standard.load_high_grams > 0.65);
    CHECK(fine_cloth.load_high_grams / standard.load_high_grams < 0.85);
    CHECK(fine_cloth.load_low_grams == standard.load_low_grams);
    const auto& wide = *recipe::find_carder("table-wide");
    const double area = 1e-6 * wide.drum_circumference_mm * wide.width_mm;
    CHECK(wide.load_high_grams / area > 750.0);
    CHECK(wide.load_high_grams / area < 900.0);
    CHECK(wide.load_low_grams / area > 400.0);
    CHECK(wide.load_low_grams / area < 500.0);
    // A small drum is six inches through or less (common practice, no source).
    CHECK(small.drum_circumference_mm <= 6.0 * 25.4 * 3.14159265);
    CHECK(standard.width_mm == doctest::Approx(203.0).epsilon(0.05));  // eight inches
    CHECK(small.width_mm == doctest::Approx(102.0).epsilon(0.05));     // four
    CHECK(recipe::find_carder("table-wide")->width_mm == doctest::Approx(305.0).epsilon(0.05));  // twelve
    // A board's cloth is about a foot square; a card 8 to 9 inches wide and 4 to 5 deep (from memory). A
    // board takes 7 to 14 g for a set of light rolags (a spinner's page), and more packed.
    const auto& board = *recipe::find_carder("blending-board");
    CHECK(board.width_mm == doctest::Approx(305.0).epsilon(0.05));
    CHECK(board.drum_circumference_mm == doctest::Approx(305.0).epsilon(0.05));
    CHECK(board.load_low_grams >= 7.0);
    CHECK(board.load_low_grams == doctest::Approx(0.5 * (7.0 + 14.0)).epsilon(0.1).scale(0.0));
    CHECK(board.load_high_grams >= 3.0 * 7.0);
    CHECK(board.load_high_grams <= 3.0 * 14.0);
    const auto& cards = *recipe::find_carder("hand-cards");
    CHECK(cards.width_mm >= 203.0);
    CHECK(cards.width_mm <= 229.0);
    CHECK(cards.drum_circumference_mm >= 102.0);
    CHECK(cards.drum_circumference_mm <= 127.0);
    for (const auto& carder : recipe::carder_presets()) {
        CAPTURE(carder.id);
        // All-round cloth, for wools of every class, on a board and on hand cards too (common practice, no
        // source).
        if (recipe::is_flat(carder)) CHECK(carder.teeth_per_square_inch == 72.0);
        if (recipe::is_flat(carder)) continue;
        const bool fine = carder.id == "fine-cloth";
        CHECK(carder.teeth_per_square_inch >= (fine ? 120.0 : 72.0));
        CHECK(carder.teeth_per_square_inch <= (fine ? 128.0 : 72.0));
        // A drum of 5 1/2 to 7 1/2 inches through.
        CHECK(carder.drum_circumference_mm >= 438.0);
        CHECK(carder.drum_circumference_mm <= 600.0);
        // The big drum turns 4 to 6.5 times for one of the small one: in the middle, and faster for fine
        // fibre.
        CHECK(carder.licker_in_ratio >= (fine ? 5.5 : 4.5));
        CHECK(carder.licker_in_ratio <= (fine ? 6.5 : 5.5));
        CHECK(carder.load_high_grams >= 1.5 * carder.load_low_grams);
    }
}

TEST_CASE("places in words are the fractions they name") {
    struct Place {
        const char* word;
        double from, to;  // of the whole
    };
    const auto lies = [](const measure::Expected<recipe::Stretch>& read, const Place& place) {
        REQUIRE(read.has_value());
        const auto [from, to] = read->shares_of(1.0);
        CHECK(from == doctest::Approx(place.from));
        CHECK(to == doctest::Approx(place.to));
    };
    for (const Place& place : {Place{"full width", 0, 1}, Place{"left half", 0, 1.0 / 2},
                               Place{"right half", 1.0 / 2, 1}, Place{"left third", 0, 1.0 / 3},
                               Place{"middle third", 1.0 / 3, 2.0 / 3}, Place{"right third", 2.0 / 3, 1},
                               Place{"left quarter", 0, 1.0 / 4}, Place{"middle half", 1.0 / 4, 3.0 / 4},
                               Place{"right quarter", 3.0 / 4, 1}, Place{"middle", 1.0 / 3, 2.0 / 3}}) {
        CAPTURE(place.word);
        lies(recipe::parse_across(place.word), place);
    }
    for (const Place& place : {Place{"all", 0, 1}, Place{"first half", 0, 1.0 / 2},
                               Place{"second half", 1.0 / 2, 1}, Place{"first third", 0, 1.0 / 3},
                               Place{"second third", 1.0 / 3, 2.0 / 3}, Place{"last third", 2.0 / 3, 1},
                               Place{"first quarter", 0, 1.0 / 4}, Place{"second quarter", 1.0 / 4, 2.0 / 4},
                               Place{"third quarter", 2.0 / 4, 3.0 / 4}, Place{"last quarter", 3.0 / 4, 1}}) {
        CAPTURE(place.word);
        lies(recipe::parse_round(place.word), place);
    }
}

TEST_CASE(
    "what a recipe leaves out: three passes, four strips, two plies, stripes over half of their neighbours") {
    // Common practice, no source: two or three passes to blend; a two-ply; a stripe over half of its
    // neighbour holds.
    const auto plain = recipe::read_text("format = 1\n[[component]]\nfibre = \"romney\"\nweight = \"20 g\"\n",
                                         "r.toml", Catalogue::builtin());
    REQUIRE(plain);
    CHECK(plain->carding.passes == 3);
    CHECK(plain->carding.strips == 4);
    CHECK(plain->carding.overlap_pct == 50.0);
    CHECK(plain->carding.repeats == 8);
    CHECK(plain->spinning.plies == 2);
    CHECK(plain->spinning.thickness.value == 12.0);
    CHECK(plain->components[0].content[0].share_pct == 100.0);
    CHECK(recipe::Content{}.share_pct == 100.0);  // one kind is all of it
}

TEST_CASE("batts are recombined after the first pass, so there must be a second") {
    const auto recombined = [](const char* passes) {
        return fault_with(one_fibre + twenty_grams,
                          std::string("[carding]\nrecombine = true\npasses = ") + passes + "\n");
    };
    CHECK(recombined("2") == "");
    CHECK(recombined("1") != "");
}

TEST_CASE("percentages close where they can carry the difference") {
    // 95.956 g and 4 % of 100 g lack 0.044 g: more than a hundredth of the 4 g. With 4.8 % it is less.
    const auto total_of = [](const char* weight, const char* share) {
        const auto read = recipe::read_text(
            std::string("format = 1\ntotal = \"100 g\"\n[[component]]\nfibre = "
                        "\"romney\"\nweight = \"") +
                weight + " g\"\n[[component]]\nfibre = \"corriedale\"\nshare = \"" + share + " %\"\n",
            "r.toml", Catalogue::builtin());
        REQUIRE(read);
        return recipe::masses_of(*read)->total_grams;
    };
    CHECK(total_of("95.956", "4") == doctest::Approx(99.956).epsilon(1e-9));
    CHECK(total_of("95.156", "4.8") == doctest::Approx(100.0).epsilon(1e-9));
}

TEST_CASE("complaints name what a person can look at: three kinds, eight lines") {
    const std::string silk = fault_with("fibre = \"silk\"\n" + twenty_grams, "");
    CHECK(silk.find("bombyx-silk, ") != std::string::npos);
    CHECK(std::count(silk.begin(), silk.end(), ',') == 1);  // two with a comma between, "or" a third
    std::string rest;
    for (int i = 1; i < 10; ++i)
        rest += "[[component]]\nname = \"" + std::to_string(i) + "\"\n" + one_fibre + twenty_grams;
    const std::string over = fault_with(one_fibre + twenty_grams, rest, "total = \"100 g\"\n");
    const std::size_t from = over.find("(lines "), to = over.find(" more)");
    REQUIRE(to != std::string::npos);
    CHECK(std::count(over.begin() + static_cast<std::ptrdiff_t>(from),
                     over.begin() + static_cast<std::ptrdiff_t>(to), ',') == 7);
    CHECK(over.find("and 3 more)") != std::string::npos);  // the total and ten weights
    // A slip of the pen beyond a million has words of its own.
    CHECK(fault_with(one_fibre + twenty_grams, "[carding]\npasses = 1100000\n").find("far out of range") !=
          std::string::npos);
    CHECK(fault_with(one_fibre + twenty_grams, "[carding]\npasses = 900000\n").find("far out of range") ==
          std::string::npos);
}

TEST_CASE("\"all\" is the whole, \"half\" a half, and colours without shares share alike") {
    const auto share_of = [](const char* word) {
        const auto read = recipe::read_text("format = 1\n[[component]]\n" + one_fibre + twenty_grams +
                                                "[carding]\nlay = [ { what = \"corriedale\", share = \"" +
                                                word + "\" } ]\n",
                                            "r.toml", Catalogue::builtin());
        const auto* share =
            read ? std::get_if<recipe::Percent>(&read->carding.layings.at(0).amount) : nullptr;
        return share != nullptr ? share->value : -1.0;
    };
    CHECK(share_of("all") == 100.0);
    const auto tints = recipe::closed({{{0.1, 0.2, 0.3}, 0.0}, {{0.4, 0.5, 0.6}, 0.0}});
    CHECK(tints[0].share_pct == 50.0);
    CHECK(tints[1].share_pct == 50.0);
    // Without a file there are no lines: the fields are named, and not more than eight.
    recipe::Recipe many;
    many.total = measure::Mass{100.0, measure::MassUnit::gram};
    for (int i = 0; i < 10; ++i) {
        recipe::Component component;
        component.name = std::to_string(i);
        component.content = {{"corriedale", 100.0}};
        component.amount = measure::Mass{20.0, measure::MassUnit::gram};
        many.components.push_back(component);
    }
    const auto checked = recipe::check(many, Catalogue::builtin());
    REQUIRE_FALSE(checked.has_value());
    CHECK(checked.error().where.find("and 3 more") != std::string::npos);
}
