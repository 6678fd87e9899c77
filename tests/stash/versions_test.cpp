// The ladder of versions. A new version without a fixture of the one before fails here.
#include "versions.hpp"

#include "stash/schema.hpp"

using namespace shelves;

namespace {

// Every table, index and trigger, with its words.
std::string layout_of(const fs::path& path) {
    return Raw(path).value(
        "SELECT group_concat(type || ' ' || name || ': ' || coalesce(sql, ''), char(10)) "
        "FROM (SELECT * FROM sqlite_schema ORDER BY type, name)");
}

}  // namespace

TEST_CASE("a stash of any version opens, is sound, and has the layout of a new one") {
    const Folder folder;
    got(opened(folder / "new.db").add(wool(), 5.0));
    const std::string wanted = layout_of(folder / "new.db");
    REQUIRE(wanted.size() > 1000);
    for (std::int64_t version = 1; version <= stash::present_version; ++version) {
        CAPTURE(version);
        const std::string name = "old-" + std::to_string(version) + ".db";
        const fs::path path = folder / name.c_str();
        write_version(version, path);
        {
            const stash::Stash stash = opened(path);
            check_sound(stash);
            CHECK_FALSE(got(stash.shelf())->lots.empty());
        }
        CHECK(layout_of(path) == wanted);
        CHECK(Raw(path).value("PRAGMA user_version") == std::to_string(stash::present_version));
        CHECK(Raw(path).value("PRAGMA application_id") == std::to_string(stash::application_id));
    }
}

TEST_CASE("a stash of version 2 says what its own program said of it") {
    const Folder folder;
    write_version(2, folder / "stash.db");
    const stash::Stash stash = opened(folder / "stash.db");
    const auto shelf = got(stash.shelf());
    REQUIRE(shelf->lots.size() == 3);
    CHECK(got(stash.lot("FGHR3C")).grams == 158.0);
    CHECK(got(stash.lot("DRWK4T")).grams == 38.0);
    CHECK(got(stash.lot("DRWK4T")).lot.content.size() == 2);
    CHECK(got(stash.lot("DRWK4T")).lot.palette.size() == 2);
    const auto fleece = got(stash.lot("GXFY4C"));
    CHECK(fleece.lot.raw);
    CHECK(fleece.clean_grams() == doctest::Approx(0.65 * 300.0));
    const auto batts = got(stash.batts());
    REQUIRE(batts.size() == 1);
    CHECK(batts[0].fed_grams == 60.0);
    CHECK(batts[0].off_drum_grams == 57.0);
    const auto skeins = got(stash.skeins());
    REQUIRE(skeins.size() == 1);
    CHECK(skeins[0].metres == 180.0);
}

TEST_CASE("a stash of version 5 says what its own program said of a skein's colours") {
    const Folder folder;
    write_version(5, folder / "stash.db");
    const stash::Stash stash = opened(folder / "stash.db");
    const auto skein = got(stash.skein(2));
    REQUIRE(skein.palette.size() == 2);
    CHECK(skein.palette[0].colour.g == 0.5);
    CHECK(skein.palette[1].share_pct == 37.5);
}

TEST_CASE("a stash of version 4 says what its own program said of its photos") {
    const Folder folder;
    write_version(4, folder / "stash.db");
    const stash::Stash stash = opened(folder / "stash.db");
    const auto photos = got(stash.photos());
    REQUIRE(photos.size() == 2);
    CHECK(photos[0].batt == 1);
    CHECK(photos[0].taken == colour::Taken::edge);
    CHECK(photos[0].seen.variation_de00 == 2.125);
    CHECK(photos[0].log_mixing->sd == 0.3125);
    CHECK(photos[1].seen.unfit == colour::Unfit::lamp_light);
    CHECK_FALSE(photos[1].log_m.has_value());
    CHECK(got(stash.hands()).hands.mixing.count() == 1);
}
