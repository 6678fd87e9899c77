// scraps and match, as their users run them: from a shelf and from a recipe.
#include <doctest/doctest.h>

#include <array>
#include <cmath>
#include <nlohmann/json.hpp>

#include "png.hpp"
#include "program.hpp"

using namespace program;
using nlohmann::json;

namespace {

const std::string scraps_recipe = "--from '" + blends + "low-tide-scraps.toml'";

// The shelf of a spinner by the harbour: three braids, two remainders, some glitter.
void fill_shelf(const Scratch& scratch) {
    const char* lots[] = {
        "--mark KF7R3X --name 'Kelp top' --fibre corriedale --colour '#2f5d50' --weight '120 g' "
        "--cost '9 EUR' --date 2023-05-01",
        "--mark CWHT44 --name 'Brass silk' --fibre tussah-silk --colour '#c39a4a' --weight '60 g' "
        "--cost '18 EUR' --date 2024-02-01",
        "--mark GGT3DC --name 'Gull grey' --fibre shetland --colour '#8c949b' --weight '200 g' "
        "--cost '6 EUR' --date 2022-09-09",
        "--mark RDR3KK --name 'Buoy red end' --fibre merino-fine --colour '#a8322d' --weight '9 g' "
        "--date 2019-01-01",
        "--mark CND777 --name 'Sand end' --fibre polwarth --colour '#d9c7a0' --weight '12 g' "
        "--date 2021-01-01"};
    for (const std::string lot : lots) {
        const Outcome outcome = run(scratch, "stash add " + lot);
        CAPTURE(outcome.err);
        REQUIRE(outcome.code == 0);
    }
}

json found(const Scratch& scratch, const std::string& words, int code = 0) {
    const Outcome outcome = run(scratch, words + " --json");
    CAPTURE(words);
    CAPTURE(outcome.err);
    REQUIRE(outcome.code == code);
    return json::parse(outcome.out);
}

// By value: a loop over a part of found() would outlive it.
json proposals(const Scratch& scratch, const std::string& words) {
    return found(scratch, words).at("proposals");
}

double grams_of(const json& proposal, const std::string& lot) {
    for (const auto& line : proposal.at("lots"))
        if (line.at("lot") == lot) return line.at("mass_g");
    return 0.0;
}

void check_sums(const json& answer) {
    REQUIRE_FALSE(answer.at("proposals").empty());
    CHECK(answer.at("proposals").size() <= 5);
    for (const auto& proposal : answer.at("proposals")) {
        double total = 0.0;
        for (const auto& line : proposal.at("lots")) {
            total += line.at("mass_g").get<double>();
            CHECK(line.at("mass_g").get<double>() > 0.0);
            CHECK(line.at("left_g").get<double>() >= -1e-9);
        }
        CHECK(total == doctest::Approx(proposal.at("total_g").get<double>()));
    }
}

}  // namespace

TEST_CASE("the remainders of a shelf are used up, and the shelf itself stays as it was") {
    const Scratch scratch;
    fill_shelf(scratch);
    const json answer = found(scratch, "scraps");
    check_sums(answer);
    const json& best = answer.at("proposals").at(0);
    CHECK(grams_of(best, "RDR3KK") == doctest::Approx(9.0));
    CHECK(grams_of(best, "CND777") == doctest::Approx(12.0));
    CHECK(best.at("used_share_pct").get<double>() == doctest::Approx(100.0));
    CHECK(answer.at("lots").size() == 5);
    CHECK(answer.at("currency") == "EUR");
    const json within =
        found(scratch, "scraps --total '60 g' --bound 'silk 10-20 %' --bound 'Gull grey >= 20 %'");
    check_sums(within);
    for (const auto& proposal : within.at("proposals")) {
        CHECK(proposal.at("total_g").get<double>() == doctest::Approx(60.0));
        CHECK(grams_of(proposal, "CWHT44") >= 6.0 - 1e-9);
        CHECK(grams_of(proposal, "CWHT44") <= 12.0 + 1e-9);
        CHECK(grams_of(proposal, "GGT3DC") >= 12.0 - 1e-9);
    }
    const json shelf = found(scratch, "stash list");
    CHECK(shelf.dump().find("120") != std::string::npos);
}

TEST_CASE("every bound that can be asked for is kept") {
    const Scratch scratch;
    fill_shelf(scratch);
    const std::string match = "match '#6f7a6a' --total '80 g' ";
    for (const auto& proposal : proposals(scratch, match + "--most-lots 2"))
        CHECK(proposal.at("lots").size() <= 2);
    for (const auto& proposal : proposals(scratch, match + "--step '1 g'"))
        for (const auto& line : proposal.at("lots")) {
            const double grams = line.at("mass_g");
            CHECK(grams == doctest::Approx(std::round(grams)));
        }
    for (const auto& proposal : proposals(scratch, match + "--least-used '10 g'"))
        for (const auto& line : proposal.at("lots")) CHECK(line.at("mass_g").get<double>() >= 10.0 - 1e-9);
    // Unless another least is said, less than a gram of a lot is not worth weighing out.
    const std::string hint = "scraps --total '30 g' --bound 'Buoy red end <= 2 %'";
    for (const auto& proposal : proposals(scratch, hint)) CHECK(grams_of(proposal, "RDR3KK") == 0.0);
    CHECK(grams_of(proposals(scratch, hint + " --least-used 0g").at(0), "RDR3KK") == doctest::Approx(0.6));
    for (const auto& proposal : proposals(scratch, match + "--keep-back '50 %'"))
        CHECK(grams_of(proposal, "KF7R3X") <= 60.0 + 1e-9);
    for (const auto& proposal : proposals(scratch, match + "--keep-back '100 g'")) {
        CHECK(grams_of(proposal, "KF7R3X") <= 20.0 + 1e-9);
        CHECK(grams_of(proposal, "CWHT44") == 0.0);
    }
    for (const auto& proposal : proposals(scratch, match + "--most-cost 4")) {
        CHECK(proposal.at("cost").get<double>() <= 4.0 + 1e-9);
        CHECK(grams_of(proposal, "RDR3KK") == 0.0);  // of no price
    }
    // The silk is the longest of them and the fine wool the shortest.
    for (const auto& proposal : proposals(scratch, match + "--staple-spread 1.1"))
        CHECK((grams_of(proposal, "CWHT44") == 0.0 || grams_of(proposal, "RDR3KK") == 0.0));
    for (const auto& proposal : proposals(scratch, match + "--least-staple '86 mm'"))
        CHECK(grams_of(proposal, "RDR3KK") == 0.0);
    for (const auto& proposal : proposals(scratch, match + "--kind wool"))
        CHECK(grams_of(proposal, "CWHT44") == 0.0);
    for (const auto& proposal : proposals(scratch, match + "--lot kf7r3x --lot 'Gull grey'"))
        CHECK(proposal.at("lots").size() <= 2);
    const json ends = found(scratch, "match '#c08060' --scraps");
    CHECK(ends.at("lots").size() == 2);
    const json range = found(scratch, "match '#6f7a6a' --total '50-60 g'");
    for (const auto& proposal : range.at("proposals")) {
        CHECK(proposal.at("total_g").get<double>() >= 50.0 - 1e-9);
        CHECK(proposal.at("total_g").get<double>() <= 60.0 + 1e-9);
    }
    const json used = found(scratch, match + "--use-up 'Buoy red end' --smallest");
    CHECK(grams_of(used.at("proposals").at(0), "RDR3KK") > 0.0);
}

TEST_CASE("equal batts keep to the carder's load") {
    const Scratch scratch;
    fill_shelf(scratch);
    const json answer = found(scratch, "match '#6f7a6a' --total '150 g' --carder table-small");
    for (const auto& proposal : answer.at("proposals")) {
        const double batts = proposal.at("batts");
        CHECK(batts >= 2.0);
        for (const auto& line : proposal.at("lots"))
            CHECK(line.at("batt_mass_g").get<double>() * batts ==
                  doctest::Approx(line.at("mass_g").get<double>()));
    }
    const json three = found(scratch, "match '#6f7a6a' --total '90 g' --batts 3 --step '1 g'");
    CHECK(three.at("proposals").at(0).at("batts") == 3);
    const json own = found(scratch, "match '#6f7a6a' --total '150 g' --batts auto");
    CHECK(own.at("proposals").at(0).at("batts").get<int>() >= 1);
}

TEST_CASE("a proposal is written as a recipe whose forecast has its colour, lots and weight") {
    const Scratch scratch;
    fill_shelf(scratch);
    const json answer = found(
        scratch,
        "match '#6f7a6a' --total '80 g' --carder table-wide -o found.toml --take 1 --name 'Slack tide'");
    const json& best = answer.at("proposals").at(0);
    const json told = json::parse(run(scratch, "forecast found.toml --json").out);
    CHECK(told.at("name") == "Slack tide");
    CHECK(told.at("total_g").get<double>() == doctest::Approx(80.0));
    for (int axis = 0; axis < 3; ++axis)
        CHECK(told.at("colour").at("lab").at(axis).get<double>() ==
              doctest::Approx(best.at("colour").at("lab").at(axis).get<double>()).epsilon(0.001));
    const std::string text = slurp(scratch.folder / "found.toml");
    for (const auto& line : best.at("lots"))
        CHECK(text.find(line.at("lot").get<std::string>()) != std::string::npos);
    CHECK(text.find("table-wide") != std::string::npos);
    // What it asks for can be carded from the shelf.
    CHECK(run(scratch, "stash card found.toml").code == 0);
    // Nothing is written when the proposal is not there.
    const Outcome none = run(scratch, "match '#6f7a6a' -o none.toml --take 9");
    CHECK(none.code == 2);
    check_one_line(none.err);
    CHECK_FALSE(fs::exists(scratch.folder / "none.toml"));
}

TEST_CASE("a recipe's own components make its own colour again") {
    const Scratch scratch;
    const std::string recipe = "'" + blends + "low-tide-scraps.toml'";
    const json answer = found(scratch, "match " + recipe + " " + scraps_recipe + " --total '20 g'");
    check_sums(answer);
    CHECK(answer.at("name") == "Match for Low Tide Scraps");
    // The blend itself is one of the ways, so what is found is at least as near but for the scale's step.
    CHECK(answer.at("proposals").at(0).at("delta_e00").get<double>() < 0.3);
    CHECK(answer.at("proposals").at(0).at("delta_e00_second_light").get<double>() < 1.0);
    CHECK(answer.at("reach").at("delta_e00").get<double>() < 0.05);
    const json lab = found(scratch, "match 50,10,-20 " + scraps_recipe + " --light2 F2");
    CHECK(lab.at("second_light") == "F2");
    CHECK(lab.at("target").at("lab").at(2).get<double>() == -20.0);
    CHECK(lab.at("reach").at("delta_e00").get<double>() > 5.0);  // nothing among them is that violet
    const json used = found(scratch, "scraps " + scraps_recipe);
    CHECK(used.at("proposals").at(0).at("total_g").get<double>() == doctest::Approx(52.0));
}

TEST_CASE("a gradient is a batt a step out of one shelf") {
    const Scratch scratch;
    fill_shelf(scratch);
    const json answer =
        found(scratch, "match '#2f5d50' --to '#c39a4a' --steps 4 --total '30 g' -o third.toml --take 3");
    const json& batts = answer.at("proposals");
    REQUIRE(batts.size() == 4);
    double kelp = 0.0;
    for (const auto& batt : batts) {
        CHECK(batt.at("total_g").get<double>() == doctest::Approx(30.0));
        kelp += grams_of(batt, "KF7R3X");
    }
    CHECK(batts.at(0).at("target").at("srgb") == "#2f5d50");
    CHECK(grams_of(batts.at(0), "KF7R3X") > grams_of(batts.at(3), "KF7R3X"));
    for (const auto& left : answer.at("left"))
        if (left.at("lot") == "KF7R3X") {
            CHECK(left.at("left_g").get<double>() == doctest::Approx(120.0 - kelp));
        }
    const json third = json::parse(run(scratch, "forecast third.toml --json").out);
    CHECK(third.at("total_g").get<double>() == doctest::Approx(30.0));
    const Outcome text = run(scratch, "match '#2f5d50' --to '#c39a4a' --steps 4 --total '30 g'");
    CHECK(text.out.find("left of these lots") != std::string::npos);
}

TEST_CASE("a colour is taken off a photo") {
    const Scratch scratch;
    fill_shelf(scratch);
    // Left half sea, right half white paper under a yellow lamp.
    std::string pixels;
    for (int at = 0; at < 800; ++at)
        for (const int channel : at % 40 < 20 ? std::array{80, 120, 90} : std::array{230, 220, 180})
            pixels += static_cast<char>(channel);
    std::ofstream(scratch.folder / "sea.png", std::ios::binary) << png_of(40, 20, pixels);
    const json plain = found(scratch, "match --photo sea.png --area 0,0,20,20");
    CHECK(plain.at("target").at("srgb") == "#50785a");
    const json balanced = found(scratch, "match --photo sea.png --area 0,0,20,20 --white 22,2,10,10");
    CHECK(balanced.at("target").at("lab").at(2).get<double>() <
          plain.at("target").at("lab").at(2).get<double>());
    for (const std::string words : {"--photo none.png", "--photo sea.png --area 90,90,5,5",
                                    "--photo sea.png --area red", "--photo sea.png '#2f5d50'"}) {
        CAPTURE(words);
        const Outcome outcome = run(scratch, "match " + words);
        CHECK(outcome.code == 2);
        check_one_line(outcome.err);
    }
}

TEST_CASE("what cannot be says which bounds are in the way and the least that would do") {
    const Scratch scratch;
    fill_shelf(scratch);
    const std::string words = "match '#6f7a6a' --total '100 g' --bound 'silk >= 80 %'";
    const Outcome text = run(scratch, words);
    CHECK(text.code == 1);
    CHECK(text.err.empty());
    CHECK(text.out.find("80 % silk") != std::string::npos);
    const json answer = found(scratch, words, 1);
    CHECK(answer.at("proposals").empty());
    const json& conflict = answer.at("conflict");
    CHECK(conflict.at("smallest") == true);
    REQUIRE_FALSE(conflict.at("least_change").empty());
    // There are 60 g of silk: either no more than 60 % of 100 g, or no more than 75 g in all.
    const double to = conflict.at("least_change").at(0).at("to");
    CHECK((to == doctest::Approx(60.0) || to == doctest::Approx(75.0)));
    const Outcome unwritten = run(scratch, words + " -o cannot.toml");
    CHECK(unwritten.code == 1);
    CHECK_FALSE(fs::exists(scratch.folder / "cannot.toml"));
}

TEST_CASE("text for a person names lots, differences, findings and what is left") {
    const Scratch scratch;
    fill_shelf(scratch);
    const Outcome outcome = run(scratch, "match '#6f7a6a' --total '80 g' --weights oz");
    REQUIRE(outcome.code == 0);
    for (const char* words : {"Match for #6f7a6a", "target Lab", "dE", "under A", " oz", " left", "finding"})
        CHECK_MESSAGE(outcome.out.find(words) != std::string::npos, words);
    CHECK(run(scratch, "match '#6f7a6a' --total '80 g' --weights oz").out == outcome.out);
}

TEST_CASE("bad wishes are one line each, exit code 2") {
    const Scratch scratch;
    fill_shelf(scratch);
    const std::string cases[] = {"match",
                                 "match '#12'",
                                 "match 50,10",
                                 "match missing.toml",
                                 "match '#6f7a6a' --bound 'wol >= 3 %'",
                                 "match '#6f7a6a' --bound wool",
                                 "match '#6f7a6a' --total 100",
                                 "match '#6f7a6a' --total '90-80 g'",
                                 "match '#6f7a6a' --batts many",
                                 "match '#6f7a6a' --batts 0",
                                 "match '#6f7a6a' --batts 25",
                                 "match '#6f7a6a' --carder table-smal",
                                 "match '#6f7a6a' --most-cost cheap",
                                 "match '#6f7a6a' --most-cost '4 EUR'",
                                 "match '#6f7a6a' --staple-spread 0.5",
                                 "match '#6f7a6a' --least-staple 80",
                                 "match '#6f7a6a' --most-lots -1",
                                 "match '#6f7a6a' --most-lots some",
                                 "match '#6f7a6a' --least-used 3",
                                 "match '#6f7a6a' --keep-back 3",
                                 "match '#6f7a6a' --keep-back '130 %'",
                                 "match '#6f7a6a' --step 0",
                                 "match '#6f7a6a' --light2 moon",
                                 "match '#6f7a6a' --use-up NOLOT3",
                                 "match '#6f7a6a' --lot NOLOT3",
                                 "match '#6f7a6a' --kind wol",
                                 "match '#6f7a6a' --kind cotton",
                                 "match '#6f7a6a' --stash nowhere.db",
                                 "match '#6f7a6a' --from missing.toml",
                                 "match '#6f7a6a' --stash stash.db " + scraps_recipe,
                                 "match '#6f7a6a' -o found.txt",
                                 "match '#6f7a6a' -o found.toml --take 0",
                                 "match '#6f7a6a' --weights stone",
                                 "match '#6f7a6a' --to '#zz'",
                                 "match '#6f7a6a' --to '#2f5d50' --steps 1",
                                 "scraps --oldest --smallest",
                                 "scraps --kind shetland",
                                 "scraps --from missing.toml"};
    for (const std::string& words : cases) {
        CAPTURE(words);
        const Outcome outcome = run(scratch, words);
        CHECK(outcome.code == 2);
        CHECK(outcome.out.empty());
        check_one_line(outcome.err);
    }
    const Scratch bare;
    const Outcome empty = run(bare, "scraps");
    CHECK(empty.code == 2);
    check_one_line(empty.err);
}
