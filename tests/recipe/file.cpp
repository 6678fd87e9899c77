// Reading, writing, and reading again.
#include "recipe/file.hpp"
#include "place.hpp"

#include <sys/mount.h>
#include <sys/resource.h>
#include <unistd.h>

#include <cerrno>
#include <csignal>
#include <cstring>
#include <filesystem>
#include <tuple>

#include "colour/spaces.hpp"
#include "measure/save.hpp"
#include "random_recipe.hpp"
#include "recipe/file_name.hpp"
#include "toml/toml.hpp"

namespace fs = std::filesystem;
namespace recipe = battwright::recipe;
namespace measure = battwright::measure;
namespace colour = battwright::colour;
using battwright::fibre::Catalogue;
using battwright::testing::random_recipe;
using battwright::testing::seeded;

namespace {

recipe::Recipe read(std::string_view text) {
    auto result = recipe::read_text(text, "r.toml", Catalogue::builtin());
    REQUIRE_MESSAGE(result.has_value(), (result ? "" : measure::to_line(result.error())) << "\n" << text);
    return *result;
}

std::string without_comments(const std::string& text) {
    std::string result;
    std::size_t at = 0;
    while (at < text.size()) {
        const std::size_t end = text.find('\n', at) + 1;
        if (text[at] != '#') result += text.substr(at, end - at);
        at = end;
    }
    return result;
}

}  // namespace

TEST_CASE("a recipe written comes back the same") {
    auto random = seeded();
    for (int round = 0; round < 1000; ++round) {
        recipe::Recipe original = random_recipe(random);
        const std::string text = recipe::write_text(original);
        const recipe::Recipe again = read(text);
        // A table that says something is written in any case.
        original.carding_written = again.carding_written;
        original.spinning_written = again.spinning_written;
        REQUIRE(original == again);
        REQUIRE(recipe::write_text(again) == text);
        REQUIRE_FALSE(toml::has_comments(text));
    }
}

TEST_CASE("the example recipes read, and a save changes nothing but comments") {
    std::size_t count = 0;
    for (const auto& entry : fs::directory_iterator(fs::path(battwright::testing::source_dir()) / "blends")) {
        CAPTURE(entry.path().filename().string());
        const std::string text = measure::load_bytes(entry.path(), recipe::longest_file_bytes).value();
        const auto result = recipe::read_file(entry.path(), Catalogue::builtin());
        REQUIRE_MESSAGE(result.has_value(), (result ? "" : measure::to_line(result.error())));
        CHECK(recipe::write_text(*result) == without_comments(text));
        CHECK(toml::has_comments(text));
        ++count;
    }
    CHECK(count >= 8);
}

TEST_CASE("everything a recipe may hold") {
    const recipe::Recipe all = read(R"(format = 1
name = "Neap Tide"
notes = """
Two lines,
one batt."""
total = "3 1/2 oz"

[[component]]
name = "long wool"
fibre = "corriedale"
colour = "#2F5D50"
share = "60%"
staple = "4\""
diameter = "28 micron"
notes = "from the quay"

[[component]]
blend = [ { fibre = "polwarth", share = "70 %" }, { fibre = "bombyx-silk", share = "30 %" } ]
colours = [ { colour = "#b08d3c", share = "1/2 %" }, { colour = "#d8c38a", share = "99.5 %" } ]
weight = "15g"
add_on_pass = 2

[[component]]
fibre = "wool-neps"
parts = "1/3"
add_on_pass = "last"

[[component]]
fibre = "tussah-silk"
parts = 1.5
price = "6.5 per 100 g"
add_on_pass = "first"

[carding]
carder = { name = "the old drum", drum_circumference = "22 in", width = "8 in", clothing = 72, load = "1.5-3 oz", licker_in = "6.5:1" }
passes = 4
strips = 6
feed = "gradient-across"
refeed = "tear-and-fold"

[spinning]
preparation = "worsted"
plies = 3
thickness = "Super Fine"
)");
    CHECK(all.notes == "Two lines,\none batt.");
    CHECK(all.total->unit == measure::MassUnit::ounce);
    CHECK(all.components[0].staple->unit == measure::LengthUnit::inch);
    CHECK(all.components[0].diameter_um == 28.0);
    CHECK(all.components[1].palette[0].share_pct == 0.5);
    CHECK(all.components[1].add_on_pass == 2);
    CHECK(std::get<recipe::Parts>(all.components[2].amount).value == 1.0 / 3.0);
    CHECK(all.components[2].add_on_pass == recipe::last_pass);
    CHECK(all.components[3].add_on_pass == 1);
    CHECK(all.components[3].price->of_grams(50.0) == doctest::Approx(3.25));
    REQUIRE(all.carding.own.has_value());
    CHECK(all.carding.own->drum_circumference_mm == doctest::Approx(558.8));
    CHECK(all.carding.own->load_high_grams == doctest::Approx(3.0 * measure::grams_per_ounce));
    CHECK(all.carding.carder.empty());
    CHECK(all.carding.own->licker_in_ratio == 6.5);
    CHECK(all.carding.feed == recipe::Manner::gradient_across);
    CHECK(all.carding.refeed == recipe::Refeed::tear_and_fold);
    CHECK(all.spinning.preparation == recipe::Preparation::worsted);
    CHECK(all.spinning.thickness.class_name == "super fine");
    REQUIRE(all == read(recipe::write_text(all)));
}

TEST_CASE("a fibre is read in any word for it and written back with its id, where a laying names it too") {
    const std::string text =
        "format = 1\ntotal = \"30 g\"\n[[component]]\nfibre = \"BFL\"\ncolour = \"red\"\nshare = \"60 %\"\n"
        "[[component]]\nblend = [ { fibre = \"Tussah Silk\", share = \"50 %\" }, { fibre = \"Kid Mohair\", "
        "share = \"50 %\" } ]\nname = \"foam\"\ncolour = \"white\"\nshare = \"40 %\"\n"
        "[[carding.lay]]\nwhat = \"bluefaced leicester\"\n[[carding.lay]]\nwhat = \"foam\"\n"
        "[spinning]\nplying = \"with-thread\"\nthread = { count = \"2/28 Nm\", length = \"400 m\", fibre = "
        "\"Linen\" }\n";
    const auto read = recipe::read_text(text, "words.toml", Catalogue::builtin());
    if (!read) FAIL(measure::to_line(read.error()));
    CHECK(read->components[0].content[0].fibre == "bluefaced-leicester");
    CHECK(read->components[1].content[0].fibre == "tussah-silk");
    CHECK(read->components[1].content[1].fibre == "mohair-kid");
    CHECK(read->carding.layings[0].what == "bluefaced-leicester");
    CHECK(read->carding.layings[1].what == "foam");
    CHECK(read->spinning.thread->content[0].fibre == "flax");
    const std::string written = recipe::write_text(*read);
    CHECK(written.find("fibre = \"bluefaced-leicester\"") != std::string::npos);
    CHECK(written.find("BFL") == std::string::npos);
    const auto told = recipe::at_field({"no lot", "look again"}, text, "words.toml", "component 2 lot");
    CHECK(told.line == 7);
    const auto share = recipe::at_field({"no share", "look again"}, text, "words.toml", "component 1 share");
    CHECK(measure::to_line(share).find("words.toml:6:9: no share; look again") == 0);
}

TEST_CASE("a recipe needs no name, and is an untitled batt while it has none") {
    const recipe::Recipe unnamed =
        read("format = 1\n[[component]]\nfibre = \"corriedale\"\nweight = \"20 g\"\n");
    CHECK(unnamed.name.empty());
    CHECK(recipe::title_of(unnamed) == "Untitled batt");
    REQUIRE(unnamed == read(recipe::write_text(unnamed)));
}

TEST_CASE("colours by name, and the plain word for fading") {
    const recipe::Recipe named = read(R"(format = 1
[[component]]
fibre = "corriedale"
colour = "dark blue"
weight = "20 g"
[[component]]
fibre = "romney"
colours = [ { colour = "Teal", share = "50 %" }, { colour = "charcoal", share = "50 %" } ]
weight = "20 g"
[carding]
feed = "gradient"
)");
    // CSS Color Module Level 4, 6.1.
    CHECK(colour::hex(named.components[0].palette[0].colour) == "#00008b");
    CHECK(colour::hex(named.components[1].palette[0].colour) == "#008080");
    CHECK(named.carding.feed == recipe::Manner::gradient_across);
    REQUIRE(named == read(recipe::write_text(named)));
}

TEST_CASE("where a colour is from is read and written, and a word that is none is named") {
    const std::string head = "format = 1\n[[component]]\nfibre = \"corriedale\"\ncolour = \"teal\"\n";
    for (const char* word : {"eye", "photo", "tag", "measured"}) {
        const recipe::Recipe made = read(head + "colour_from = \"" + word + "\"\nweight = \"20 g\"\n");
        REQUIRE(made.components[0].colour_from.has_value());
        CHECK(measure::row_of(recipe::colour_origins, *made.components[0].colour_from).word == word);
        CHECK(recipe::write_text(made).find("colour_from = \"" + std::string(word) + "\"") !=
              std::string::npos);
        REQUIRE(made == read(recipe::write_text(made)));
    }
    CHECK_FALSE(read(head + "weight = \"20 g\"\n").components[0].colour_from.has_value());
    const auto wrong = recipe::read_text(head + "colour_from = \"foto\"\nweight = \"20 g\"\n", "r.toml",
                                         Catalogue::builtin());
    REQUIRE_FALSE(wrong.has_value());
    CHECK(measure::to_line(wrong.error()).find("photo") != std::string::npos);
}

TEST_CASE("a colour that a hand has put in a palette twice is one line of the file, which reads") {
    auto recipe = read(
        "format = 1\nname = \"Twice\"\n[[component]]\nfibre = \"corriedale\"\nweight = \"30 g\"\n"
        "colours = [ { colour = \"#204060\", share = \"40 %\" }, { colour = \"#c0a030\", share = \"60 %\" } "
        "]\n");
    recipe.components[0].palette[1].colour = recipe.components[0].palette[0].colour;
    const auto again = read(recipe::write_text(recipe));
    REQUIRE(again.components[0].palette.size() == 1);
    CHECK(again.components[0].palette[0].share_pct == doctest::Approx(100.0));
}

TEST_CASE("tables left out stay out until they say something") {
    const std::string text =
        "format = 1\nname = \"Slack Water\"\n\n[[component]]\nfibre = \"corriedale\"\nweight = \"20 g\"\n";
    recipe::Recipe plain = read(text);
    CHECK(recipe::write_text(plain) == text);
    CHECK_FALSE(plain.carding_written);
    plain.carding.passes = 2;
    CHECK(recipe::write_text(plain).find(
              "[carding]\ncarder = \"table-standard\"\npasses = 2\nstrips = 4\n") != std::string::npos);
    CHECK(recipe::write_text(plain).find("[spinning]") == std::string::npos);
    CHECK(read(text + "\n[carding]\n").carding_written);
}

TEST_CASE("carders and thicknesses") {
    CHECK(recipe::carder_presets().size() == 6);  // four drums, a board and hand cards
    for (const recipe::Carder& carder : recipe::carder_presets()) {
        CHECK(recipe::find_carder(carder.id) == &carder);
        CHECK(carder.load_low_grams < carder.load_high_grams);
    }
    CHECK(recipe::find_carder("rowing-boat") == nullptr);
    // Loads and clothing: common practice, no source.
    CHECK(recipe::find_carder("table-small")->load_high_grams == 43.0);
    CHECK(recipe::find_carder("table-standard")->load_low_grams == 28.0);
    CHECK(recipe::find_carder("fine-cloth")->teeth_per_square_inch == 128.0);
    CHECK(recipe::parse_thickness("12.5 WPI")->value == 12.5);
    CHECK(recipe::parse_thickness("200 tex")->in == recipe::ThicknessIn::tex);
    CHECK(recipe::thickness_classes().size() == 8);
    for (const std::string& name : recipe::thickness_classes()) {
        CHECK(recipe::write_thickness(recipe::parse_thickness(name).value()) == name);
    }
    // Trade words and lands' plies, kept as they are usually written; "worsted" is no preparation here.
    for (const recipe::ThicknessName& name : recipe::thickness_names())
        CHECK(recipe::parse_thickness(name.word)->class_name == name.word);
    CHECK(recipe::write_thickness(recipe::parse_thickness("dk").value()) == "DK");
    CHECK(recipe::write_thickness(recipe::parse_thickness("Light Fingering").value()) == "light fingering");
    CHECK(recipe::write_thickness(recipe::parse_thickness("8 ply").value()) == "8-ply");
    CHECK(recipe::write_thickness(recipe::parse_thickness("class 4").value()) == "medium");
    CHECK_FALSE(recipe::parse_thickness("7-ply").has_value());
    CHECK_FALSE(recipe::parse_thickness("thick").has_value());
}

TEST_CASE("a recipe saved over another on a full disk leaves the other") {
    const recipe::Recipe small = read(
        "format = 1\nname = \"Slack Water\"\n\n[[component]]\nfibre = \"corriedale\"\nweight = \"20 g\"\n");
    recipe::Recipe large = small;
    large.notes = std::string(19000, 'n');
    for (int i = 0; i < 40; ++i) {
        recipe::Component more = small.components.front();
        more.name = "end " + std::to_string(i);
        more.notes = std::string(19000, 'n');
        large.components.push_back(more);
    }
    std::string name = (fs::temp_directory_path() / "battwright-recipe-XXXXXX").string();
    REQUIRE(::mkdtemp(name.data()) != nullptr);
    const fs::path path = fs::path(name) / "slack-water.toml";
    const bool mounted = ::mount("none", name.c_str(), "tmpfs", 0, "size=64k") == 0;
    const std::string why_not = mounted ? "" : std::strerror(errno);
    REQUIRE(recipe::write_file(small, path).has_value());
    measure::Expected<void> result;
    if (mounted) {
        MESSAGE("full disk: a tmpfs of 64 KiB");
        result = recipe::write_file(large, path);
    } else {
        MESSAGE("full disk: no tmpfs (" << why_not << "), so RLIMIT_FSIZE with SIGXFSZ ignored");
        auto* const before = std::signal(SIGXFSZ, SIG_IGN);
        rlimit usual{};
        REQUIRE(::getrlimit(RLIMIT_FSIZE, &usual) == 0);
        rlimit limit = usual;
        limit.rlim_cur = 65536;
        REQUIRE(::setrlimit(RLIMIT_FSIZE, &limit) == 0);
        result = recipe::write_file(large, path);
        ::setrlimit(RLIMIT_FSIZE, &usual);
        std::signal(SIGXFSZ, before);
    }
    CHECK_FALSE(result.has_value());
    if (!result) CHECK(measure::to_line(result.error()).find(path.string() + ": cannot be saved: ") == 0);
    CHECK(recipe::read_file(path, Catalogue::builtin()).has_value());
    CHECK(std::distance(fs::directory_iterator(name), fs::directory_iterator()) == 1);
    if (mounted) ::umount2(name.c_str(), MNT_DETACH);
    fs::remove_all(name);
}

TEST_CASE("files that are not there or not readable are told by path") {
    const auto line = [](const fs::path& path) {
        const auto result = recipe::read_file(path, Catalogue::builtin());
        REQUIRE_FALSE(result.has_value());
        return measure::to_line(result.error());
    };
    CHECK(line("/no/such/tide.toml") ==
          "/no/such/tide.toml: cannot be read: No such file or directory; check the folder and the spelling");
    CHECK(line("/").find("it is a folder") != std::string::npos);
    CHECK(line("/dev/zero").find("is a pipe or a device") != std::string::npos);
}

TEST_CASE("what a component leaves to its lot is the lot's, and what it says itself stands") {
    const std::string text =
        "format = 1\n[[component]]\nlot = \"KF7R3X\"\nweight = \"20 g\"\n"
        "[[component]]\nlot = \"KF7R3X\"\nfibre = \"corriedale\"\ncolour = \"#102030\"\nstaple = \"70 mm\"\n"
        "weight = \"10 g\"\n[[component]]\nlot = \"KF7R3X\"\nfibre = \"romney\"\nweight = \"5 g\"\n";
    recipe::Component lot;
    lot.name = "Gull fleece";
    lot.content = {{"corriedale", 100.0}};
    lot.palette = {{*colour::parse_hex("#d9d4c7"), 100.0}};
    lot.diameter_um = 29.0;
    lot.staple = measure::Length{95.0, measure::LengthUnit::millimetre};
    const auto lots = [&](std::string_view mark) {
        return mark == "KF7R3X" ? std::optional(lot) : std::nullopt;
    };
    const auto read = recipe::read_text(text, "lot.toml", Catalogue::builtin(), lots);
    if (!read) FAIL(measure::to_line(read.error()));
    const auto& [all, own, other] = std::tie(read->components[0], read->components[1], read->components[2]);
    CHECK(all.content == lot.content);
    CHECK(all.name == "Gull fleece");
    CHECK(all.palette == lot.palette);
    CHECK(all.staple == lot.staple);
    CHECK(colour::hex(own.palette.at(0).colour) == "#102030");
    CHECK(own.staple->millimetres == 70.0);
    CHECK(own.diameter_um == 29.0);
    CHECK(own.name.empty());
    // Of another kind than the bag: nothing of it fits.
    CHECK(other.palette.empty());
    CHECK_FALSE(other.diameter_um);
    const auto alone = recipe::read_text(text, "lot.toml", Catalogue::builtin());
    REQUIRE_FALSE(alone);
    CHECK(
        measure::to_line(alone.error()).find("lot.toml:3:7: nothing says what fibre the lot \"KF7R3X\" is") ==
        0);
}
