// The sample and series commands, and laid recipes in what a program reads.
#include <doctest/doctest.h>

#include <nlohmann/json.hpp>

#include "program.hpp"

using namespace program;

namespace {

const std::string ebb =
    "format = 1\nname = \"Ebb\"\ntotal = \"50 g\"\n"
    "[[component]]\nname = \"night\"\nfibre = \"corriedale\"\ncolour = \"#22324f\"\nshare = \"80 %\"\n"
    "[[component]]\nname = \"foam\"\nfibre = \"corriedale\"\ncolour = \"#efe9dc\"\nshare = \"20 %\"\n";

void write(const Scratch& scratch, const char* name, const std::string& text) {
    std::ofstream(scratch.folder / name) << text;
}

}  // namespace

TEST_CASE("a series is one table to weigh by, and its sums") {
    const Scratch scratch;
    write(scratch, "s.toml",
          ebb + "[series]\nrolags = 3\neach = \"10 g\"\nto = [ { what = \"foam\", share = \"100 %\" } ]\n");
    const Outcome text = run(scratch, "series s.toml");
    REQUIRE(text.code == 0);
    CHECK(text.out.find("3 rolags in steps") != std::string::npos);
    CHECK(text.out.find("8 g") != std::string::npos);
    const auto json = nlohmann::json::parse(run(scratch, "series s.toml --json").out);
    CHECK(json.at("total_g").get<double>() == doctest::Approx(30.0));
    CHECK(json.at("series")[1].at("mass_g")[0].get<double>() == doctest::Approx(4.0));  // half of 8 g
    const Outcome ounces = run(scratch, "series s.toml --weights oz");
    CHECK(ounces.out.find(" oz") != std::string::npos);
    write(scratch, "none.toml", ebb);
    const Outcome none = run(scratch, "series none.toml");
    CHECK(none.code == 2);
    CHECK(none.err.find("none.toml: the recipe has no series; add one") != std::string::npos);
    CHECK(run(scratch, "series s.toml --scale-step 0g").code == 2);
    CHECK(run(scratch, "series s.toml --lengths in").code == 2);  // it has no lengths
}

TEST_CASE("a sample is a card and a recipe that the other commands read") {
    const Scratch scratch;
    write(scratch, "s.toml", ebb);
    const Outcome card = run(scratch, "sample s.toml -o sample.batt.toml");
    REQUIRE_MESSAGE(card.code == 0, card.err);
    CHECK(card.out.find("Sample of Ebb") == 0);
    CHECK(card.out.find("What came of it") != std::string::npos);
    const Outcome inches = run(scratch, "sample s.toml --weights oz --lengths in");
    CHECK(inches.out.find(" oz of night") != std::string::npos);
    CHECK(inches.out.find(" mm") == std::string::npos);
    const auto json = nlohmann::json::parse(run(scratch, "sample s.toml --json").out);
    const auto own = nlohmann::json::parse(run(scratch, "forecast sample.batt.toml --json").out);
    CHECK(own.at("total_g").get<double>() == doctest::Approx(json.at("mass_g").get<double>()));
    CHECK(run(scratch, "sample s.toml -o s.toml").code == 2);  // never over what it was made from
}

TEST_CASE("a manner written out as layings makes the same batt") {
    const Scratch scratch;
    write(scratch, "s.toml", ebb + "[carding]\npasses = 2\nfeed = \"sandwich\"\n");
    const Outcome list = run(scratch, "forecast s.toml --layings");
    REQUIRE_MESSAGE(list.code == 0, list.err);
    CHECK(list.out.find("[[carding.lay]]") != std::string::npos);
    write(scratch, "list.toml", list.out);
    const auto passes = [&](const char* line) {
        const Outcome outcome = run(scratch, line);
        REQUIRE_MESSAGE(outcome.code == 0, outcome.err);
        return nlohmann::json::parse(outcome.out).at("carding").at("passes");
    };
    const auto meant = passes("forecast s.toml --json"), laid = passes("forecast list.toml --json");
    REQUIRE(meant.size() == 2);
    REQUIRE(laid.size() == 2);
    for (std::size_t i = 0; i < 2; ++i)
        CHECK(laid[i].at("strip_variation_de00").get<double>() ==
              doctest::Approx(meant[i].at("strip_variation_de00").get<double>()));
    CHECK(run(scratch, "forecast list.toml --layings").out == list.out);  // as it is
    CHECK(run(scratch, "forecast s.toml --layings --json").code == 2);
}

TEST_CASE("a laid recipe says in JSON what lies where, by which way") {
    const Scratch scratch;
    write(scratch, "s.toml",
          ebb +
              "[carding]\npasses = 2\nrefeed = [\"own-places\"]\n[[carding.blend]]\nname = \"dusk\"\n"
              "lay = [ { what = \"night\", share = \"half\" }, { what = \"foam\", share = \"half\" } ]\n"
              "[[carding.lay]]\nwhat = \"dusk\"\n[[carding.lay]]\nwhat = \"night\"\n"
              "[[carding.lay]]\nwhat = \"foam\"\nround = \"first half\"\nacross = \"left half\"\npass = 2\n");
    const Outcome outcome = run(scratch, "forecast s.toml --json");
    REQUIRE_MESSAGE(outcome.code == 0, outcome.err);
    const auto carding = nlohmann::json::parse(outcome.out).at("carding");
    CHECK(carding.at("feed") == "by hand");
    CHECK(carding.at("refeeds") == nlohmann::json::array({"own-places"}));
    CHECK(carding.at("alike").is_null());
    bool blended = false, laid = false;
    for (const auto& step : carding.at("plan")) {
        blended = blended || (step.at("kind") == "small blend" && step.at("small_blend") == "dusk");
        if (step.at("way") != "onto the drum") continue;
        laid = true;
        CHECK(step.at("pass") == 2);
        CHECK(step.at("round_to_pct").get<double>() == doctest::Approx(50.0));
        CHECK(step.at("to_mm").get<double>() == doctest::Approx(100.0));
        CHECK(step.at("text").get<std::string>().find("straight onto the drum") != std::string::npos);
    }
    CHECK(blended);
    CHECK(laid);
}
