// Tables out and in, backups and checks, as their users run them.
#include <doctest/doctest.h>

#include "stash_bench.hpp"

using namespace program;

namespace {

std::size_t lines_in(const std::string& text) {
    return static_cast<std::size_t>(std::count(text.begin(), text.end(), '\n'));
}

}  // namespace

TEST_CASE("every table leaves, and the lots come back the same on another shelf") {
    const Shelf shelf;
    shelf.must("edit KF7R3X --notes '=cmd(), \"tide\"' --maker '@gull'");
    shelf.write_recipe("fog.toml", "30");
    shelf.must("card fog.toml");
    shelf.must("skein --batt 1 --weight '40 g' --length '75 m'");
    CHECK(lines_in(shelf.must("export")) == 4);
    CHECK(lines_in(shelf.must("export --table movements")) == 6);
    CHECK(lines_in(shelf.must("export --table batts")) == 2);
    CHECK(lines_in(shelf.must("export --table skeins")) == 2);
    CHECK(shelf.must("export").find(",=") == std::string::npos);
    CHECK(shelf.json("export --table skeins").at("csv").get<std::string>().starts_with("skein,"));
    shelf.must("export -o lots.csv");
    CHECK(slurp(shelf.folder / "lots.csv") == shelf.must("export"));

    const Outcome looked = run(shelf, "stash import lots.csv --stash other.db");
    CHECK(looked.code == 0);
    CHECK(looked.out.find("nothing is written") != std::string::npos);
    CHECK_FALSE(fs::exists(shelf.folder / "other.db"));
    CHECK(run(shelf, "stash import lots.csv --write --stash other.db").code == 0);
    CHECK(run(shelf, "stash export --stash other.db").out == shelf.must("export"));
    const auto lot = nlohmann::json::parse(run(shelf, "stash show KF7R3X --json --stash other.db").out);
    CHECK(lot.at("notes") == "=cmd(), \"tide\"");
    CHECK(lot.at("maker") == "@gull");

    shelf.must("weigh KF7R3X '0 g'");
    CHECK(lines_in(shelf.must("export")) == 3);
    CHECK(lines_in(shelf.must("export --empty")) == 4);
    for (const char* words :
         {"export --table tides", "export --table lot", "export -o missing/lots.csv", "export extra"})
        shelf.refused(words);
}

TEST_CASE("bad rows are told one by one, and good ones are written when they are asked for") {
    const Shelf shelf;
    shelf.write("mixed.csv",
                "name,fibre,weight_g,mark\r\n"
                "Tar,shetland,20,\r\n"
                "Rope,hempp,20,\r\n"
                "Fog again,shetland,5,CDFGHJ\r\n"
                "Dawn,merino-fine,1.5 oz,\r\n");
    for (const char* words : {"import mixed.csv --json", "import mixed.csv --write --json"}) {
        const Outcome outcome = shelf.run(words);
        CHECK(outcome.code == 2);
        CHECK(lines_in(outcome.err) == 2);
        CHECK(outcome.err.starts_with("mixed.csv:3:6: "));
        CHECK(outcome.err.find("mixed.csv:4:22: ") != std::string::npos);
        const auto json = nlohmann::json::parse(outcome.out);
        REQUIRE(json.at("good").size() == 2);
        CHECK(json.at("good")[1].at("line") == 5);
        CHECK(json.at("complaints").size() == 2);
        CHECK(json.at("written").empty());
    }
    CHECK(shelf.json("list").at("lots").size() == 3);
    const Outcome text = shelf.run("import mixed.csv");
    CHECK(text.out.find("2 rows are good, 2 not") != std::string::npos);
    const Outcome written = shelf.run("import mixed.csv --write --skip-bad");
    CHECK(written.code == 2);  // some of it was bad all the same
    CHECK(written.out.find("2 lots are on the shelf") != std::string::npos);
    CHECK(shelf.json("list").at("lots").size() == 5);

    shelf.write("odd.csv", "name,fibre,weight\n");
    shelf.write("empty.csv", "");
    for (const char* words : {"import odd.csv", "import empty.csv", "import missing.csv", "import ."})
        shelf.refused(words);
}

TEST_CASE("a backup brings everything back") {
    const Shelf shelf;
    shelf.must("backup safe.db");
    const std::string before = shelf.must("export");
    shelf.must("waste CDFGHJ '20 g'");
    const auto restored = shelf.json("restore safe.db");
    CHECK(restored.at("lots") == 3);
    CHECK(restored.at("problems").empty());
    CHECK(shelf.must("export") == before);
    CHECK(fs::exists(shelf.folder / "shelf.db.before"));

    // A file that is past opening.
    shelf.write("shelf.db", "the gulls have been at it, and nothing of the old file is left in here");
    shelf.refused("list");
    shelf.must("restore safe.db");
    CHECK(shelf.must("export") == before);
    shelf.write("words.db", "no backup of anything");
    for (const char* words : {"backup", "backup missing/safe.db", "backup shelf.db", "restore",
                              "restore missing.db", "restore words.db", "restore ."})
        shelf.refused(words);
    CHECK(shelf.must("export") == before);
}

TEST_CASE("a sound file is called so") {
    const Shelf shelf;
    const auto health = shelf.json("check");
    CHECK(health.at("problems").empty());
    CHECK(health.at("lots") == 3);
    CHECK(health.at("movements") == 3);
    CHECK(shelf.must("check").starts_with("all is well"));
    CHECK(run(shelf, "stash check --stash missing.db").code == 2);
    // A page in the middle overwritten: told, never called sound.
    shelf.must("backup copy.db");
    std::string bytes = slurp(shelf.folder / "copy.db");
    REQUIRE(bytes.size() > 5 * 4096);
    for (std::size_t i = 2 * 4096; i < bytes.size(); ++i) bytes[i] = static_cast<char>(i * 37);
    shelf.write("broken.db", bytes);
    const Outcome outcome = run(shelf, "stash check --stash broken.db");
    CHECK(outcome.code != 0);
    CHECK(outcome.out.find("all is well") == std::string::npos);
    CHECK_FALSE((outcome.out + outcome.err).empty());
}
