// card, tag and label as their users run them.
#include <doctest/doctest.h>
#include <nlohmann/json.hpp>

#include "place.hpp"
#include "program.hpp"

namespace {

using namespace program;

// A folder with a broken recipe in it.
struct Bench : Scratch {
    Bench() { std::ofstream(folder / "torn.toml") << "format = 1\nname = \"Torn\"\n"; }
    Outcome run(const std::string& words) const {
        const Outcome outcome = program::run(*this, words);
        fs::remove(folder / "stderr.txt");
        return outcome;
    }
    bool starts(const std::string& name, const std::string& magic) const {
        return slurp(folder / name).starts_with(magic);
    }
};

const std::string kelp = "'" + battwright::testing::source_dir() + "/blends/kelp-and-brass.toml'";
const std::string gull = "'" + battwright::testing::source_dir() + "/blends/gull-speckle.toml'";

}  // namespace

TEST_CASE("a card in every format") {
    const Bench bench;
    CHECK(bench.run("card " + kelp + " -o k.pdf").code == 0);
    CHECK(bench.starts("k.pdf", "%PDF-"));
    CHECK(bench.run("card " + kelp + " -o k.png --page a5 --weights oz").code == 0);
    CHECK(bench.starts("k.png", "\x89PNG"));
    CHECK(bench.run("card " + kelp + " -o k.txt --parts weights --date none").code == 0);
    CHECK(bench.starts("k.txt", "Kelp and Brass\n"));
    CHECK(bench.run("card " + kelp + " -o k.md").code == 0);
    CHECK(bench.starts("k.md", "# Kelp and Brass\n"));
}

TEST_CASE("the photo of a card stands for its recipe") {
    const Bench bench;
    REQUIRE(bench.run("card " + kelp + " -o k.png --page a5").code == 0);
    const std::string card = fs::exists(bench.folder / "k-2.png") ? "k-2.png" : "k.png";
    const Outcome from_file = bench.run("forecast " + kelp + " --json");
    const Outcome from_card = bench.run("forecast " + card + " --json");
    CHECK(from_card.code == 0);
    const auto colour = [](const Outcome& outcome) {
        return nlohmann::json::parse(outcome.out).at("colour").at("srgb");
    };
    CHECK(colour(from_card) == colour(from_file));
    REQUIRE(bench.run("strip " + kelp + " -o strip.png").code == 0);
    const Outcome none = bench.run("forecast strip.png");
    CHECK(none.code == 2);
    CHECK(none.err.find("strip.png") != std::string::npos);
    CHECK(std::count(none.err.begin(), none.err.end(), '\n') == 1);
}

TEST_CASE("in a batch the failing card is named and the others are made") {
    const Bench bench;
    fs::create_directory(bench.folder / "out");
    const Outcome outcome =
        bench.run("card " + kelp + " torn.toml missing.toml " + gull + " -o out --as pdf");
    CHECK(outcome.code == 2);
    CHECK(std::count(outcome.err.begin(), outcome.err.end(), '\n') == 2);
    CHECK(outcome.err.find("torn.toml") != std::string::npos);
    CHECK(outcome.err.find("missing.toml") != std::string::npos);
    CHECK(bench.starts("out/kelp-and-brass-card.pdf", "%PDF-"));
    CHECK(bench.starts("out/gull-speckle-card.pdf", "%PDF-"));
    CHECK(std::distance(fs::directory_iterator(bench.folder / "out"), {}) == 2);

    // Two recipes of one file name do not write over each other.
    fs::create_directory(bench.folder / "twice");
    fs::copy_file(battwright::testing::source_dir() + "/blends/dawn-tide.toml",
                  bench.folder / "kelp-and-brass.toml");
    CHECK(bench.run("card " + kelp + " kelp-and-brass.toml -o twice --as txt").code == 0);
    CHECK(bench.starts("twice/kelp-and-brass-card.txt", "Kelp and Brass"));
    CHECK(bench.starts("twice/kelp-and-brass-card-of-2.txt", "Dawn Tide"));

    const Outcome sheet = bench.run("card " + kelp + " torn.toml " + gull + " -o sheet.pdf --sheet A4");
    CHECK(sheet.code == 2);
    CHECK(bench.starts("sheet.pdf", "%PDF-"));
}

TEST_CASE("letters without a font are told of, and the card is made") {
    const Bench bench;
    // A private-use character belongs to no script, so no font has to have it.
    std::ofstream(bench.folder / "odd.toml") << "format = 1\nname = \"Odd \xF3\xB0\x80\x81\"\n"
                                             << "[[component]]\nfibre = \"corriedale\"\nweight = \"20 g\"\n";
    const Outcome outcome = bench.run("card odd.toml -o odd.pdf");
    CHECK(outcome.code == 0);
    CHECK(outcome.err.find("no font") != std::string::npos);
    CHECK(bench.starts("odd.pdf", "%PDF-"));
}

TEST_CASE("a tag and a label say that they are drafts") {
    const Bench bench;
    const Outcome tag =
        bench.run("tag " + kelp + " -o tag.pdf --maker 'Maren' --lot 7 --weight '52 g' --market us");
    CHECK(tag.code == 0);
    CHECK(tag.out.find("check the rules where you sell") != std::string::npos);
    const Outcome label = bench.run("label " + kelp + " --word wool=Wolle");
    CHECK(label.code == 0);
    CHECK(label.out.find("79 % Wolle, 21 % silk") != std::string::npos);
    CHECK(label.out.find("1007/2011, Article 9(1)") != std::string::npos);
    CHECK(label.out.find("16 CFR 300.3") != std::string::npos);
    CHECK(label.out.find("check the rules where you sell") != std::string::npos);
}

TEST_CASE("bad options: one line, exit 2, nothing written") {
    const Bench bench;
    const std::string cases[] = {
        "card " + kelp,
        "card " + kelp + " -o x.gif",
        "card " + kelp + " -o nowhere/",
        "card " + kelp + " -o x.pdf --page A9",
        "card " + kelp + " -o x.pdf --sheet A9",
        "card " + kelp + " -o x.pdf --sheet index",
        "card " + kelp + " -o x.txt --sheet A4",
        "card " + kelp + " -o x.pdf --parts strop",
        "card " + kelp + " -o x.pdf --weights stone",
        "card " + kelp + " -o . --as gif",
        "card " + kelp + " -o . --sheet A4",
        "card " + kelp + " " + gull + " -o x.png",
        "card torn.toml -o x.pdf",
        "tag " + kelp + " -o x.pdf --weight heavy",
        "tag " + kelp + " -o x.pdf --market moon",
        "label " + kelp + " --word wool",
        "label " + kelp + " --market moon",
        "label missing.toml",
    };
    for (const std::string& words : cases) {
        CAPTURE(words);
        const Outcome outcome = bench.run(words);
        CHECK(outcome.code == 2);
        CHECK(std::count(outcome.err.begin(), outcome.err.end(), '\n') == 1);
        CHECK(std::distance(fs::directory_iterator(bench.folder), {}) == 1);
    }
    for (const char* folder : {"nowhere/", "nowhere"})
        CHECK(bench.run("card " + kelp + " -o " + folder).err ==
              "--output: the folder \"" + std::string(folder) +
                  "\" does not exist; make it first, or name a file that ends in .pdf, .png, .txt or .md\n");
}
