// The stash's file deleted, moved or replaced while the window has it open: told once, nothing lost.
#include <doctest/doctest.h>

#include <filesystem>

#include "app/shelf/stash_session.hpp"
#include "folder.hpp"
#include "harbour.hpp"

using namespace battwright;
namespace fs = std::filesystem;

namespace {

stash::Lot moved_lot(const std::string& name) {
    stash::Lot lot;
    lot.name = name;
    lot.content = {{"corriedale", 100.0}};
    return lot;
}

// A session that has put two lots on the shelf, the second just now.
struct OpenShelf {
    testing::Folder folder{"moved"};
    fs::path path = folder.path / "stash.db", kept = folder.path / "stash.db.kept";
    app::StashSession session{path, &fibre::Catalogue::builtin()};

    OpenShelf() {
        REQUIRE_FALSE(add("Kelp"));
        REQUIRE_FALSE(add("Gull"));
        REQUIRE_FALSE(session.refresh());
    }
    // The complaint, if it was not put there.
    std::optional<measure::Complaint> add(const std::string& name) {
        return session.perform({app::AddLot{moved_lot(name), 50.0, ""}, 0});
    }
};

std::size_t lots_in(const fs::path& path) {
    stash::OpenOptions how;
    how.create = false;
    const auto stash = stash::Stash::open(path, how);
    REQUIRE(stash);
    return stash->shelf().value()->lots.size();
}

}  // namespace

TEST_CASE(
    "deleted under the window: told once, kept beside, still to be seen, and nothing written into nowhere") {
    OpenShelf shelf;
    fs::remove(shelf.path);
    CHECK(shelf.session.has_news());
    const auto told = shelf.session.refresh();
    REQUIRE(told);
    CHECK(measure::to_line(*told).find(shelf.kept.string()) != std::string::npos);
    CHECK_FALSE(shelf.session.refresh());
    CHECK_FALSE(shelf.session.has_news());
    CHECK(lots_in(shelf.kept) == 2);
    CHECK(shelf.session.shelf().lots.size() == 2);
    CHECK(shelf.add("Cormorant"));
    CHECK_FALSE(fs::exists(shelf.path));
    // The copy restored makes a new file, and all goes on.
    CHECK_FALSE(shelf.session.perform({app::RestoreFrom{shelf.kept}, 0}));
    CHECK_FALSE(shelf.session.refresh());
    CHECK(shelf.session.shelf().lots.size() == 2);
    CHECK_FALSE(shelf.add("Cormorant"));
    CHECK(lots_in(shelf.path) == 3);
    CHECK(lots_in(shelf.kept) == 2);
}

TEST_CASE("a restore that fails while the file is gone makes no empty stash") {
    OpenShelf shelf;
    fs::remove(shelf.path);
    REQUIRE(shelf.session.refresh());
    CHECK(shelf.session.perform({app::RestoreFrom{shelf.folder.path / "none.db"}, 0}));
    CHECK(shelf.add("Cormorant"));
    CHECK_FALSE(fs::exists(shelf.path));
    CHECK(shelf.session.shelf().lots.size() == 2);
}

TEST_CASE("moved away and back: the window goes on with the very same file") {
    OpenShelf shelf;
    fs::rename(shelf.path, shelf.folder.path / "elsewhere.db");
    REQUIRE(shelf.session.refresh());
    CHECK(shelf.add("Cormorant"));
    CHECK(lots_in(shelf.folder.path / "elsewhere.db") == 2);
    fs::rename(shelf.folder.path / "elsewhere.db", shelf.path);
    CHECK(shelf.session.has_news());
    CHECK_FALSE(shelf.session.refresh());
    CHECK_FALSE(shelf.add("Cormorant"));
    CHECK(lots_in(shelf.path) == 3);
    // Gone once more: another copy, the first stays.
    fs::remove(shelf.path);
    REQUIRE(shelf.session.refresh());
    CHECK(lots_in(shelf.kept) == 2);
    CHECK(lots_in(shelf.folder.path / "stash.db.kept-2") == 3);
}

TEST_CASE("replaced by another stash: that is shown and written to, the old one's lots are kept beside") {
    OpenShelf shelf;
    const fs::path other = shelf.folder.path / "other.db";
    REQUIRE(stash::Stash::open(other).value().add(moved_lot("Tern"), 20.0));
    REQUIRE_FALSE(fs::exists(other.string() + "-wal"));
    fs::rename(other, shelf.path);
    CHECK(shelf.session.has_news());
    REQUIRE(shelf.session.refresh());
    CHECK(shelf.session.has_news());
    CHECK_FALSE(shelf.session.refresh());
    REQUIRE(shelf.session.shelf().lots.size() == 1);
    CHECK(shelf.session.shelf().lots.front()->lot.name == "Tern");
    CHECK(lots_in(shelf.kept) == 2);
    CHECK_FALSE(shelf.add("Cormorant"));
    CHECK(lots_in(shelf.path) == 2);
}

TEST_CASE("an action in the very frame of the replacement is refused, not done to the wrong file") {
    OpenShelf shelf;
    const fs::path other = shelf.folder.path / "other.db";
    REQUIRE(stash::Stash::open(other).value().add(moved_lot("Tern"), 20.0));
    fs::rename(other, shelf.path);
    CHECK(shelf.add("Cormorant"));
    REQUIRE(shelf.session.refresh());
    CHECK_FALSE(shelf.session.refresh());
    CHECK(shelf.session.shelf().lots.size() == 1);
    CHECK(lots_in(shelf.kept) == 2);
}

TEST_CASE(
    "the folder gone with the file: it is said that no copy could be made, and the shelf stays to be seen") {
    OpenShelf shelf;
    fs::remove_all(shelf.folder.path);
    const auto told = shelf.session.refresh();
    REQUIRE(told);
    CHECK(measure::to_line(*told).find("could not be copied") != std::string::npos);
    CHECK(shelf.session.shelf().lots.size() == 2);
    // What the complaint advises works.
    const testing::Folder refuge("refuge");
    CHECK_FALSE(shelf.session.perform({app::BackupTo{refuge.path / "all.db"}, 0}));
    CHECK(lots_in(refuge.path / "all.db") == 2);
}

TEST_CASE("replaced again and again by what was there: one copy stands for all, and many are told of") {
    OpenShelf shelf;
    const fs::path other = shelf.folder.path / "other.db";
    // As a sync tool does that lays the same two files down in turn.
    for (int turn = 0; turn < 3; ++turn) {
        REQUIRE(shelf.session.perform({app::BackupTo{other}, 0}) == std::nullopt);
        fs::rename(other, shelf.path);
        REQUIRE(shelf.session.refresh());
        REQUIRE_FALSE(shelf.session.refresh());
    }
    CHECK(shelf.session.shelf().lots.size() == 2);
    CHECK(lots_in(shelf.kept) == 2);
    CHECK_FALSE(fs::exists(shelf.kept.string() + "-3"));

    std::string told;
    for (int turn = 0; turn < 5; ++turn) {
        REQUIRE_FALSE(shelf.add("Cormorant"));
        fs::remove(shelf.path);
        const auto moved = shelf.session.refresh();
        REQUIRE(moved);
        told = measure::to_line(*moved);
        const auto at = told.find(shelf.kept.string());
        REQUIRE(at != std::string::npos);
        // The copy that is named holds all of it, and brings it back.
        const std::string named = told.substr(at, told.find_first_of(";,", at) - at);
        REQUIRE_FALSE(shelf.session.perform({app::RestoreFrom{named}, 0}));
        REQUIRE_FALSE(shelf.session.refresh());
        CHECK(shelf.session.shelf().lots.size() == static_cast<std::size_t>(3 + turn));
    }
    CHECK(told.find("such copies lie beside it") != std::string::npos);
}
