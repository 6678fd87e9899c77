// The session between window and stash: lazily opened, kept up to date, its complaints and answers.
#include "app/shelf/stash_session.hpp"

#include <doctest/doctest.h>
#include <unistd.h>

#include <algorithm>
#include <filesystem>
#include <fstream>

#include "colour/spaces.hpp"
#include "harbour.hpp"

using namespace battwright;
namespace fs = std::filesystem;

namespace {

struct SessionFolder {
    fs::path path = fs::temp_directory_path() / ("battwright-session-" + std::to_string(::getpid()));
    SessionFolder() {
        fs::remove_all(path);
        fs::create_directories(path);
    }
    ~SessionFolder() { fs::remove_all(path); }
    fs::path file() const { return path / "stash.db"; }
};

stash::Lot plain_lot(const std::string& name, const char* hex = "#4f6b78") {
    stash::Lot lot;
    lot.name = name;
    lot.content = {{"corriedale", 100.0}};
    lot.palette = {{colour::parse_hex(hex).value(), 100.0}};
    lot.form = stash::Form::top;
    return lot;
}

app::StashSession session_at(const fs::path& path) {
    return {path, &fibre::Catalogue::builtin()};
}

app::StashRequest request(app::StashAction action, std::uint64_t from = 7) {
    return {std::move(action), from};
}

}  // namespace

TEST_CASE("looking at the shelf makes no file; the first deed does") {
    const SessionFolder folder;
    auto session = session_at(folder.file());
    CHECK_FALSE(session.refresh());
    CHECK_FALSE(fs::exists(folder.file()));
    CHECK(session.shelf().lots.empty());
    CHECK(session.carry_out({request(app::AddLot{plain_lot("Low water"), 214.0, ""})}).empty());
    CHECK(fs::exists(folder.file()));
    REQUIRE(session.shelf().lots.size() == 1);
    CHECK(session.whole().size() == 1);
    const auto* answer = session.answer_to(7);
    REQUIRE(answer != nullptr);
    CHECK_FALSE(answer->complaint);
    REQUIRE(session.find(answer->mark) != nullptr);
    CHECK(session.find(answer->mark)->grams == doctest::Approx(214.0));
    CHECK(session.answer_to(8) == nullptr);
    session.carry_out({});
    CHECK(session.answer_to(7) == nullptr);
}

TEST_CASE("a session without a path has nothing and refuses every action in one line") {
    app::StashSession session;
    CHECK_FALSE(session.refresh());
    CHECK_FALSE(session.has_news());
    const auto complaints = session.carry_out({request(app::AddLot{plain_lot("x"), 1.0, ""}, 0)});
    REQUIRE(complaints.size() == 1);
    CHECK(measure::to_line(complaints.front()).find('\n') == std::string::npos);
}

TEST_CASE("a file that is no stash is complained of once, stays as it was, and nothing else is broken") {
    const SessionFolder folder;
    std::ofstream(folder.file()) << "these are not the fibres of anybody, and long enough to be no database";
    const auto size = fs::file_size(folder.file());
    auto session = session_at(folder.file());
    CHECK(session.refresh());
    CHECK_FALSE(session.refresh());
    CHECK_FALSE(session.has_news());
    CHECK(session.shelf().lots.empty());
    session.carry_out({request(app::AddLot{plain_lot("x"), 1.0, ""})});
    REQUIRE(session.answer_to(7) != nullptr);
    CHECK(session.answer_to(7)->complaint);
    CHECK(fs::file_size(folder.file()) == size);
}

TEST_CASE("what another program does to the file is seen, and only then is anything read anew") {
    const SessionFolder folder;
    auto session = session_at(folder.file());
    auto other = stash::Stash::open(folder.file()).value();
    REQUIRE(other.add(plain_lot("Kelp forest"), 182.0));
    CHECK(session.has_news());
    CHECK_FALSE(session.refresh());
    REQUIRE(session.shelf().lots.size() == 1);
    CHECK_FALSE(session.has_news());
    const auto version = session.version();
    CHECK_FALSE(session.refresh());
    CHECK(session.version() == version);
    const std::string mark = session.shelf().lots.front()->lot.mark;
    session.watch(mark);
    CHECK(session.movements().size() == 1);
    REQUIRE(other.move({mark, stash::Reason::given, 12.0, "", "to the ferry man", {}}));
    CHECK(session.has_news());
    CHECK_FALSE(session.refresh());
    CHECK(session.version() == version + 1);
    CHECK(session.find(mark)->grams == doctest::Approx(170.0));
    CHECK(session.movements().size() == 2);
}

TEST_CASE("scraps are apart, and the threshold decides which they are") {
    const SessionFolder folder;
    harbour::fill(folder.file());
    auto session = session_at(folder.file());
    REQUIRE_FALSE(session.refresh());
    const auto under = [](double grams) {
        return static_cast<std::size_t>(std::ranges::count_if(
            harbour::bags(), [grams](const harbour::Bag& bag) { return bag.grams < grams; }));
    };
    CHECK(session.scraps().size() == under(stash::scrap_grams));
    CHECK(session.whole().size() + session.scraps().size() == harbour::bags().size());
    auto choice = session.choice();
    choice.filter.scrap_grams = 10.0;
    session.choose(choice);
    CHECK(session.scraps().size() == under(10.0));
}

TEST_CASE("nearness to a colour: only what is near, nearest first, by the distance the engine gives") {
    const SessionFolder folder;
    harbour::fill(folder.file());
    auto session = session_at(folder.file());
    REQUIRE_FALSE(session.refresh());
    app::ShelfChoice choice;
    choice.filter.near = stash::NearColour{colour::lab(colour::parse_hex("#b3222b").value()), 15.0, false};
    choice.order = stash::Order::nearest;
    choice.filter.scrap_grams = 0.0;
    session.choose(choice);
    REQUIRE(session.whole().size() >= 2);
    CHECK(session.whole().front()->lot.name == "Ferry paint");  // it has this very colour
    CHECK(session.whole()[1]->lot.name == "Signal red");
    double before = 0.0;
    for (const auto& lot : session.whole()) {
        const auto away = stash::distance(*lot, *choice.filter.near);
        REQUIRE(away);
        CHECK(*away >= before);
        CHECK(*away <= 15.0);
        before = *away;
    }
    // The choice outlives a change of the file.
    REQUIRE_FALSE(session.carry_out({}).size());
    session.carry_out({request(app::AddLot{plain_lot("Flare", "#b4242c"), 50.0, ""})});
    CHECK(session.whole()[1]->lot.name == "Flare");
}

TEST_CASE("weighing, wasting, buying, correcting, renaming: each is done or answered with a complaint") {
    const SessionFolder folder;
    auto session = session_at(folder.file());
    session.carry_out({request(app::AddLot{plain_lot("Pier light"), 100.0, ""})});
    const std::string mark = session.answer_to(7)->mark;
    session.watch(mark);
    const auto grams = [&] { return session.find(mark)->grams; };
    const auto refused = [&](app::StashAction action) {
        session.carry_out({request(std::move(action))});
        return session.answer_to(7)->complaint.has_value();
    };
    CHECK_FALSE(refused(app::WeighAgain{mark, 96.5, "dry day"}));
    CHECK(grams() == doctest::Approx(96.5));
    CHECK_FALSE(refused(app::MoveFibre{{mark, stash::Reason::wasted, 6.5, "", "moth", {}}}));
    CHECK(grams() == doctest::Approx(90.0));
    CHECK(refused(app::MoveFibre{{mark, stash::Reason::given, 91.0, "", "", {}}}));
    CHECK(grams() == doctest::Approx(90.0));
    CHECK_FALSE(
        refused(app::MoveFibre{{mark, stash::Reason::bought, 50.0, "", "", stash::Money{4.0, "kr"}}}));
    CHECK(grams() == doctest::Approx(140.0));
    const auto wasted = std::ranges::find_if(
        session.movements(), [](const auto& movement) { return movement.reason == stash::Reason::wasted; });
    REQUIRE(wasted != session.movements().end());
    CHECK_FALSE(refused(app::CorrectMovement{wasted->id, -1.5, "it was less"}));
    CHECK(grams() == doctest::Approx(145.0));
    stash::Lot renamed = session.find(mark)->lot;
    renamed.name = "##%s%n";
    CHECK_FALSE(refused(app::ChangeLot{renamed}));
    CHECK(session.find(mark)->lot.name == "##%s%n");
    renamed.name.clear();
    CHECK(refused(app::ChangeLot{renamed}));
    CHECK(session.find(mark)->lot.name == "##%s%n");
}

TEST_CASE("logged skeins change the calibration, and its version says so; lots do not") {
    const SessionFolder folder;
    auto session = session_at(folder.file());
    session.carry_out({request(app::AddLot{plain_lot("Buoy"), 40.0, ""})});
    const yarn::Calibration before = session.calibration();
    auto other = stash::Stash::open(folder.file()).value();
    stash::Skein skein;
    skein.name = "First";
    skein.metres = 240.0;
    skein.foretold = stash::Foretold{200.0, 170.0, 235.0, 0.0, ""};
    REQUIRE(other.log(skein));
    CHECK_FALSE(session.refresh());
    CHECK_FALSE(before == session.calibration());
    CHECK(session.calibration().of(recipe::Preparation::woollen).count == 1);
    yarn::Calibration by_hand;
    REQUIRE_FALSE(by_hand.update(recipe::Preparation::woollen, 240.0, 200.0));
    for (const auto& row : recipe::preparations) {
        CHECK(by_hand.of(row.value) == session.calibration().of(row.value));
        CHECK(by_hand.aim(row.value) == session.calibration().aim(row.value));
        CHECK(by_hand.loft(row.value) == session.calibration().loft(row.value));
        CHECK(by_hand.carded_share(row.value) == session.calibration().carded_share(row.value));
    }
}
