// What lies on the table while its panel is open: the thread's picture is the direct call's, and files.
#include "app/table/table_session.hpp"

#include <doctest/doctest.h>

#include <chrono>
#include <thread>

#include "../strip/examples.hpp"
#include "folder.hpp"

using namespace battwright;
using namespace std::chrono_literals;
namespace fs = std::filesystem;

namespace {

app::TableSubject heather() {
    auto made = examples::made(examples::recipe_of(examples::folder() / "harbour-heather.toml"), true);
    app::TableSubject subject;
    subject.forecast = std::make_shared<const forecast::Forecast>(std::move(made.forecast));
    subject.batt = std::make_shared<const forecast::Batt>(std::move(made.batt));
    subject.look.view = app::StripView::face;
    subject.winder = "2 yd";
    subject.stem = "harbour-heather";
    return subject;
}

app::TableChoice sized(app::TableChoice choice, int width, int height) {
    choice.canvas.width = width;
    choice.canvas.height = height;
    return choice;
}

void settle(app::TableSession& session, const app::TableSubject& subject) {
    session.follow(subject);
    for (int i = 0; i < 6000 && !session.settled(); ++i) {
        std::this_thread::sleep_for(5ms);
        session.follow(subject);
    }
    REQUIRE(session.settled());
}

}  // namespace

TEST_CASE("the table's picture is the direct call's, view by view, in the winder's turns") {
    const testing::Folder folder{"table"};
    const auto subject = heather();
    app::TableSession session;
    session.open(folder.path, {});
    // More than are there at once: the coarse picture comes first, the full one in the end.
    session.change(sized(session.choice(), 480, 300));
    for (const auto view : {app::StripView::face, app::StripView::skein}) {
        auto looked_at = subject;
        looked_at.look.view = view;
        settle(session, looked_at);
        const auto& latest = session.shown().latest;
        REQUIRE(latest);
        CHECK_FALSE(latest->coarse);
        strip::TableSettings ask;
        ask.view = view;
        ask.passes = {subject.forecast->recipe.carding.passes};
        ask.turn_m = 2.0 * measure::metres_per_yard;
        const auto direct =
            strip::table_picture(*subject.forecast, *subject.batt, ask, {480, 300, {1, 1, 1}, {}, 22.0, 1});
        CHECK(latest->picture.image.rgb == direct.image.rgb);
        CHECK(latest->picture.caption == direct.caption);
        CHECK(session.frame() == direct.frame);
    }
}

TEST_CASE("without a batt nothing is asked for; another place is another picture") {
    const testing::Folder folder{"table"};
    auto subject = heather();
    app::TableSession session;
    session.open(folder.path, {});
    session.change(sized(session.choice(), 200, 120));
    settle(session, {});
    CHECK_FALSE(session.shown().latest);
    settle(session, subject);
    const auto whole = session.shown().latest;
    auto nearer = session.choice();
    nearer.zoom = 4.0;
    session.change(nearer);
    settle(session, subject);
    CHECK(session.shown().latest != whole);
    CHECK(session.frame().pixels_per_mm == doctest::Approx(4.0 * whole->picture.frame.pixels_per_mm));
}

TEST_CASE("a picture is kept as a file; what is there is replaced at the second press only") {
    const testing::Folder folder{"table"};
    const auto subject = heather();
    app::TableSession session;
    session.open(folder.path, {});
    auto choice = sized(session.choice(), 200, 120);
    choice.width = 640;
    choice.height = 400;
    session.change(choice);
    CHECK(app::file_name(session.choice(), subject) == "harbour-heather-face.png");
    session.save(subject);
    settle(session, subject);
    const fs::path file = folder.path / "harbour-heather-face.png";
    REQUIRE(fs::exists(file));
    CHECK_FALSE(session.save_failed());
    CHECK(session.saved_words().find("640 x 400 px") != std::string::npos);
    const auto before = fs::last_write_time(file);
    std::this_thread::sleep_for(20ms);
    session.save(subject);
    settle(session, subject);
    CHECK(session.save_failed());
    CHECK(fs::last_write_time(file) == before);
    session.save(subject);
    settle(session, subject);
    CHECK_FALSE(session.save_failed());
    CHECK(fs::last_write_time(file) != before);
    // No folder, no PNG: told, and nothing is written.
    choice = session.choice();
    choice.folder = folder.path / "nowhere";
    session.change(choice);
    session.save(subject);
    CHECK(session.save_failed());
    choice.folder = folder.path;
    choice.name = "a.jpg";
    session.change(choice);
    session.save(subject);
    CHECK(session.saved_words().find("is no PNG file name") != std::string::npos);
    CHECK_FALSE(fs::exists(folder.path / "a.jpg"));
}

TEST_CASE("the size of a picture is read as people write it") {
    CHECK(app::parse_picture_size("3000 x 2000").value() == std::pair{3000, 2000});
    CHECK(app::parse_picture_size("800x600").value() == std::pair{800, 600});
    for (const char* amiss : {"", "large", "3000", "0 x 10", "-3 x 10", "99999 x 10", "12000 x 12000"}) {
        CAPTURE(amiss);
        CHECK_FALSE(app::parse_picture_size(amiss).has_value());
    }
}

TEST_CASE("how high the strip is stays from one evening to the next") {
    const testing::Folder folder{"table"};
    app::Settings settings;
    settings.strip_share = 0.42;
    REQUIRE(app::save_settings(settings, folder.path));
    CHECK(app::load_settings(folder.path).strip_share == doctest::Approx(0.42));
    CHECK(app::load_settings(folder.path / "none").strip_share == 0.0);
}
