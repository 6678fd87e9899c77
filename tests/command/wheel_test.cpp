// The yarn and project commands, as their users run them.
#include <doctest/doctest.h>

#include <nlohmann/json.hpp>

#include "program.hpp"

using namespace program;

TEST_CASE("a skein of known weight and length gets its grist by definition") {
    const Scratch scratch;
    const Outcome outcome =
        run(scratch, "yarn --weight '100 g' --turns 200 --circumference '1.5 m' --wpi 11 --plies 2 --json");
    REQUIRE(outcome.code == 0);
    const auto json = nlohmann::json::parse(outcome.out);
    CHECK(json.at("length_m").get<double>() == doctest::Approx(300.0));
    CHECK(json.at("tex").get<double>() == doctest::Approx(100.0 / 0.3));  // ISO 1144: grams per 1,000 m
    CHECK(json.at("class") == "light");  // 11 wraps: the Craft Yarn Council's table
    CHECK(json.contains("check"));
}

TEST_CASE("a weighed sample alone tells the grist; three figures that disagree are told") {
    const Scratch scratch;
    const auto sample =
        nlohmann::json::parse(run(scratch, "yarn --sample-length '10 m' --sample-weight '4.2 g' --json").out);
    CHECK(sample.at("tex").get<double>() == doctest::Approx(420.0));
    const auto odd = nlohmann::json::parse(
        run(scratch, "yarn --weight '100 g' --turns 100 --circumference '1 m' --wpi 20 --json").out);
    CHECK(odd.at("check").at("disagrees") == true);
    CHECK_FALSE(odd.at("check").at("text").get<std::string>().empty());
}

TEST_CASE("a skein in hand: its weight and wraps give a length with its range") {
    const Scratch scratch;
    const auto told = [&](const std::string& more) {
        const Outcome outcome = run(scratch, "yarn --weight '92 g' --wpi 14 --json " + more);
        REQUIRE(outcome.code == 0);
        return nlohmann::json::parse(outcome.out);
    };
    const auto length = [](const nlohmann::json& json) { return json.at("length_m").get<double>(); };
    const auto plain = told("");
    CHECK(plain.at("length_low_m").get<double>() < length(plain));
    CHECK(plain.at("length_high_m").get<double>() > length(plain));
    CHECK(plain.at("class_words") == "super fine, 1 (fingering, sock or 4-ply)");
    // Published figures, a spinner's page: 94 g of southdown three-ply of 14 wraps were 321.9 m; another's
    // 113.4 g of half merino, half lyocell two-ply of 14 wraps 228.6 m.
    CHECK(plain.at("length_low_m").get<double>() < 92.0 / 94.0 * 321.9);
    CHECK(plain.at("length_high_m").get<double>() > 92.0 / 94.0 * 321.9);
    CHECK(plain.at("length_low_m").get<double>() < 92.0 / 113.4 * 228.6);
    CHECK(plain.at("length_high_m").get<double>() > 92.0 / 113.4 * 228.6);
    // What the records support moves it; preparation they do not.
    CHECK(length(told("--plies 3")) < length(plain));
    CHECK(length(told("--fibre merino-fine")) > length(told("--fibre lincoln")));
    CHECK(length(told("--fibre 'Merino, fine'")) == length(told("--fibre merino-fine")));
    CHECK(length(told("--preparation worsted")) == length(plain));
    CHECK(length(told("--recipe '" + blends + "harbour-heather.toml'")) > 0.0);
    const Outcome words = run(scratch, "yarn --weight '92 g' --wpi 14");
    CHECK(words.out.find("four skeins in five between") != std::string::npos);
    // The yarn off the wheel comes out shorter when it is washed.
    const std::string wound = "yarn --weight '92 g' --turns 150 --circumference '1.5 m' --json";
    CHECK(length(nlohmann::json::parse(run(scratch, wound + " --before-wash").out)) <
          length(nlohmann::json::parse(run(scratch, wound).out)));
}

TEST_CASE("the project table says enough or short, and how much more to card") {
    const Scratch scratch;
    const Outcome all = run(scratch, "project '" + blends + "harbour-heather.toml'");
    REQUIRE(all.code == 0);
    for (const char* thing :
         {"hat", "cowl", "mitts", "socks", "scarf", "shawl", "child's jumper", "adult's jumper", "blanket"})
        CHECK_MESSAGE(all.out.find(thing) != std::string::npos, thing);
    CHECK(all.out.find("short") != std::string::npos);
    CHECK(all.out.find("common practice") != std::string::npos);
    const Outcome one =
        run(scratch, "project '" + blends + "harbour-heather.toml' --thing hat --yarn-lengths yd");
    CHECK(one.out.find("scarf") == std::string::npos);
    CHECK(one.out.find(" yd") != std::string::npos);
    const Outcome ounces =
        run(scratch, "project '" + blends + "harbour-heather.toml' --thing hat --lengths yd --weights oz");
    CHECK(ounces.out.find(" yd") != std::string::npos);
    CHECK(ounces.out.find(" oz") != std::string::npos);
    CHECK(ounces.out.find(" g ") == std::string::npos);
}

TEST_CASE("bad measurements are one line each, exit code 2") {
    const Scratch scratch;
    const std::string recipe = "'" + blends + "harbour-heather.toml'";
    const std::string cases[] = {"yarn",
                                 "yarn --weight '0 g' --wpi 9",
                                 "yarn --weight 100 --wpi 9",
                                 "yarn --wpi 400",
                                 "yarn --wpi 9 --plies 0",
                                 "yarn --weight '100 g' --turns 90",
                                 "yarn --wpi 9 --fibre merinoo",
                                 "yarn --wpi 9 --preparation silky",
                                 "yarn --wpi 9 --recipe missing.toml",
                                 "yarn --wpi 9 --fibre corriedale --recipe " + recipe,
                                 "forecast " + recipe + " --finished-yarn 92",
                                 "yarn --sample-length '10 g' --sample-weight '4 g'",
                                 "project",
                                 "project missing.toml",
                                 "project " + recipe + " --thing hta",
                                 "project " + recipe + " --weights stone",
                                 "project " + recipe + " --yarn-lengths ell"};
    for (const std::string& words : cases) {
        CAPTURE(words);
        const Outcome outcome = run(scratch, words);
        CHECK(outcome.code == 2);
        CHECK(outcome.out.empty());
        check_one_line(outcome.err);
    }
}
