// Every broken recipe under tests/recipe/broken says on its first line what must be said of it.
#include <doctest/doctest.h>

#include <algorithm>
#include <filesystem>
#include <limits>

#include "measure/save.hpp"
#include "place.hpp"
#include "recipe/file.hpp"
#include "toml/toml.hpp"

namespace fs = std::filesystem;
namespace recipe = battwright::recipe;
namespace measure = battwright::measure;
using battwright::fibre::Catalogue;

namespace {

std::string complaint(std::string_view text) {
    const auto result = recipe::read_text(text, "r.toml", Catalogue::builtin());
    REQUIRE_FALSE(result.has_value());
    return measure::to_line(result.error());
}

bool holds(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

const std::string good =
    "format = 1\nname = \"Slack Water\"\n\n[[component]]\nfibre = \"corriedale\"\nweight = \"20 g\"\n";

}  // namespace

TEST_CASE("each broken recipe gets its line") {
    const fs::path folder = fs::path(battwright::testing::source_dir()) / "tests" / "recipe" / "broken";
    std::vector<fs::path> paths;
    for (const auto& entry : fs::directory_iterator(folder)) paths.push_back(entry.path());
    std::sort(paths.begin(), paths.end());
    CHECK(paths.size() >= 60);
    for (const fs::path& path : paths) {
        CAPTURE(path.filename().string());
        const std::string text = measure::load_bytes(path, recipe::longest_file_bytes).value();
        const std::string mark = "# expect: ";
        REQUIRE(text.starts_with(mark));
        const std::string expected = text.substr(mark.size(), text.find('\n') - mark.size());
        REQUIRE(expected.find(".toml:") != std::string::npos);
        const auto result = recipe::read_file(path, Catalogue::builtin());
        CHECK_FALSE(result.has_value());
        if (result.has_value()) continue;
        const std::string line = measure::to_line(result.error());
        CHECK_MESSAGE(holds(line, expected), "said: " << line << "\nexpected: " << expected);
        CHECK_FALSE(holds(line, "\n"));
        CHECK_FALSE(result.error().what.empty());
        CHECK_FALSE(result.error().mend.empty());
    }
}

TEST_CASE("broken bytes") {
    CHECK(holds(complaint("format = 1\nname = \"Sl\xe5"
                          "ck\"\n"),
                "r.toml:2:11: the text is not UTF-8 here; save the file as UTF-8"));
    // Columns count characters: one of two bytes stands before.
    CHECK(holds(complaint("name = \"\u00e5\xff\"\n"), "r.toml:1:10: the text is not UTF-8"));
    CHECK(holds(complaint(std::string("\xff\xfe"
                                      "f\0o\0",
                                      6)),
                "r.toml:1:1: the text is not UTF-8"));
    CHECK(holds(complaint(good + std::string("notes = \"a\0b\"\n", 14)), "r.toml:7:"));
    CHECK(holds(complaint("format = 1\x01\n"), "r.toml:1:"));
    CHECK(holds(complaint(std::string(recipe::longest_file_bytes + 1, ' ')), "is longer than 1048576 bytes"));
    CHECK(holds(complaint(std::string(recipe::longest_file_bytes, '[')), "r.toml:1:"));
    CHECK(holds(complaint("x = " + std::string(100000, '[')), "r.toml:1:"));
    std::string dots = "a";
    while (dots.size() < recipe::longest_file_bytes - 10) dots += ".a";
    CHECK(holds(complaint(dots + " = 1\n"), "too many dots"));
    CHECK(holds(complaint("[" + dots + "]\n"), "too many dots"));
    CHECK(holds(complaint(good + "\"" + std::string(100000, 'k') + "\" = 1\n"), "r.toml:7:1: unknown key"));
    CHECK(complaint(good + "\"" + std::string(100000, 'k') + "\" = 1\n").size() < 400);
}

TEST_CASE("a newcomer's word for a fibre is never answered with a breed spelt like it") {
    // The fibre it is taken for, or what it is told.
    const auto said = [](const std::string& fibre) {
        const auto read =
            recipe::read_text("format = 1\n[[component]]\nfibre = \"" + fibre + "\"\nweight = \"20 g\"\n",
                              "word.toml", Catalogue::builtin());
        return read ? read->components[0].content[0].fibre : measure::to_line(read.error());
    };
    CHECK(said("tencel") == "lyocell");
    CHECK(holds(said("Lyocel"), "did you mean lyocell?"));
    for (const char* word : {"sparkle", "glitter", "metallic", "tinsel", "bling"})
        CHECK_MESSAGE(holds(said(word), "sparkle-film"), said(word));
    for (const char* word :
         {"sparkle", "glitter", "tencel", "lyocel", "bling", "shiny", "metallic", "flash"}) {
        CHECK_FALSE(holds(said(word), "angora"));
        CHECK_FALSE(holds(said(word), "texel"));
    }
}

TEST_CASE("dots within texts and comments are no keys") {
    const std::string dots = "a.b.c.d.e.f.g.h.i.j.k.l";
    const auto reads = [&](const std::string& extra) {
        return recipe::read_text("notes = " + extra + "\n" + good, "r.toml", Catalogue::builtin())
            .has_value();
    };
    CHECK(reads("\"" + dots + "\""));
    CHECK(reads("'" + dots + "'"));
    CHECK(reads("\"\"\"" + dots + "\n" + dots + "\"\"\""));
    CHECK(reads("'''" + dots + "\n" + dots + "'''"));
    CHECK(reads("\"ends \\\" \\\\\" # " + dots));
    CHECK(reads("\"\"\"two quotes \"\"" + dots + "\"\"\"\"\""));
}

TEST_CASE("what other systems add does no harm") {
    CHECK(recipe::read_text("\xef\xbb\xbf" + good, "r.toml", Catalogue::builtin()).has_value());
    std::string windows;
    for (const char c : good + "") windows += c == '\n' ? std::string("\r\n") : std::string(1, c);
    CHECK(recipe::read_text(windows, "r.toml", Catalogue::builtin()).has_value());
    const auto noted =
        recipe::read_text("notes = \"\"\"a\r\nb\"\"\"\r\n" + windows, "r.toml", Catalogue::builtin());
    REQUIRE(noted.has_value());
    CHECK(noted->notes == "a\nb");
}

TEST_CASE("comments are seen, and only comments") {
    CHECK(toml::has_comments("# tide\n"));
    CHECK(toml::has_comments(good + "# last"));
    CHECK(toml::has_comments("name = \"a\\\"b\" # here\n"));
    CHECK_FALSE(toml::has_comments(good));
    CHECK_FALSE(toml::has_comments("colour = \"#2f5d50\"\n"));
    CHECK_FALSE(toml::has_comments("colour = '#2f5d50'\n"));
    CHECK_FALSE(toml::has_comments("notes = \"\"\"\n# in a note\n\"\"\"\n"));
    CHECK_FALSE(toml::has_comments("notes = '''\n# in a note ''\n'''\n"));
}

TEST_CASE("a recipe built in memory is told by field") {
    auto made = recipe::read_text(good, "r.toml", Catalogue::builtin()).value();
    const auto line = [&] {
        const auto result = recipe::check(made, Catalogue::builtin());
        REQUIRE_FALSE(result.has_value());
        return measure::to_line(result.error());
    };
    CHECK(recipe::check(made, Catalogue::builtin()).has_value());
    made.carding.passes = 0;
    CHECK(holds(line(), "carding passes: the number of passes is zero"));
    made.carding.passes = 3;
    made.components[0].palette = {{{1.2, 0.0, 0.0}, 100.0}};
    CHECK(holds(line(), "component 1 colour: the colour cannot be shown"));
    made.components[0].palette = {{{std::numeric_limits<double>::quiet_NaN(), 0.0, 0.0}, 100.0}};
    CHECK(holds(line(), "component 1 colour: the colour cannot be shown"));
    made.components[0].palette.clear();
    made.components[0].content.clear();
    CHECK(holds(line(), "component 1: the component has no fibre"));
    made.components[0].content = {{"corriedale", 100.0}};
    made.components[0].staple = measure::Length{-1.0, measure::LengthUnit::millimetre};
    CHECK(holds(line(), "component 1 staple: the staple is negative: -1 mm"));
    made.components[0].staple.reset();
    made.components[0].name = "gr\xff";
    CHECK(holds(line(), "component 1 name: the name is not UTF-8"));
    made.components[0].name = "gr\xc2\x85y";
    CHECK(holds(line(), "component 1 name: the name has a control character"));
}
