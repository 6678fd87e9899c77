// A photo of a batt marked in the window: what is read, kept beside the forecast and learnt from.
#include "app/record/batt_photo_reader.hpp"

#include <doctest/doctest.h>

#include <memory>
#include <thread>
#include <vector>

#include "app/record/record_book.hpp"
#include "app/record/record_session.hpp"
#include "app/shelf/stash_session.hpp"
#include "colour/spaces.hpp"
#include "folder.hpp"

namespace batt_photo_test {

using namespace battwright;

namespace {

// White paper on the left, grey-blue fibre in two tones on the right.
struct PaperAndFibre {
    int width = 260, height = 160;
    std::vector<std::uint8_t> rgb;
    PaperAndFibre() {
        for (int y = 0; y < height; ++y)
            for (int x = 0; x < width; ++x)
                for (const int v : {0, 10, 30})
                    rgb.push_back(
                        static_cast<std::uint8_t>(x < 60 ? 235 : 90 + v + (x / 20 % 2 == 0 ? 8 : 0)));
    }
    colour::Pixels pixels() const { return {rgb, width, height}; }
};

app::BattPhotoForm filled() {
    app::BattPhotoForm form;
    form.marks.fibre = {60.0, 0.0, 200.0, 160.0};
    form.marks.white = colour::Point{30.0, 80.0};
    form.width = "200 mm";
    return form;
}

constexpr const char* two_greys =
    "format = 1\nname = \"Grey water\"\n[[component]]\nfibre = \"corriedale\"\ncolour = "
    "\"#404850\"\nweight = \"20 g\"\nlot = \"KF7R3X\"\n[[component]]\nfibre = \"corriedale\"\ncolour = "
    "\"#c0c8d0\"\nweight = \"20 g\"\nlot = \"KF7R3X\"\n";

stash::BattPhoto judged(const stash::BattPhoto& seen, const stash::Hands& hands) {
    auto photo = shelving::judged(seen, two_greys, hands, fibre::Catalogue::builtin());
    REQUIRE(photo.has_value());
    return *photo;
}

struct Session {
    testing::Folder folder;
    app::StashSession session{folder.path / "stash.db", &fibre::Catalogue::builtin()};
    Session() {
        stash::Lot lot;
        lot.mark = "KF7R3X";
        lot.name = "Low water";
        lot.content = {{"corriedale", 100.0}};
        CHECK_FALSE(session.perform({app::AddLot{lot, 100.0, ""}, 0}));
        stash::Carding carding;
        carding.name = "Grey water";
        carding.recipe = two_greys;
        carding.lines = {{"KF7R3X", 40.0}};
        CHECK_FALSE(session.perform({app::CardIt{carding}, 0}));
    }
    app::RecordBook book() {
        return session.look_up([](const stash::Stash& stash) { return app::read_record(stash); }).value();
    }
    // What a frame does: reads what has changed.
    const stash::HandsLearnt& hands() {
        CHECK_FALSE(session.refresh());
        return session.hands();
    }
};

}  // namespace

TEST_CASE("a marked photo is read to scale; a width that is none and a bad white are told") {
    const PaperAndFibre photo;
    const auto seen = app::batt_photo_of(photo.pixels(), filled(), 1, "grey.png");
    REQUIRE(seen.has_value());
    CHECK(seen->mm_per_pixel == doctest::Approx(1.0));
    CHECK(seen->seen.unfit == colour::Unfit::none);
    CHECK(seen->seen.variation_de00.has_value());
    for (const char* width : {"", "0", "wide", "-3 mm", "4 g"}) {
        auto form = filled();
        form.width = width;
        CHECK_FALSE(app::batt_photo_of(photo.pixels(), form, 1, "grey.png").has_value());
    }
    auto bare = filled();
    bare.width = "20";
    bare.unit = measure::LengthUnit::centimetre;
    CHECK(app::batt_photo_of(photo.pixels(), bare, 1, "grey.png")->mm_per_pixel == doctest::Approx(1.0));
    auto dark = filled();
    dark.marks.white = colour::Point{-40.0, 80.0};
    CHECK_FALSE(app::batt_photo_of(photo.pixels(), dark, 1, "grey.png").has_value());
    auto none = filled();
    none.marks.white.reset();
    CHECK(app::batt_photo_of(photo.pixels(), none, 1, "grey.png")->seen.unfit == colour::Unfit::no_white);
}

TEST_CASE("photo and forecast under one light: by daylight as far apart as their Lab") {
    stash::BattPhoto photo;
    photo.seen.mean = {50.0, 10.0, -8.0};
    photo.foretold = {54.0, 6.0, -4.0};
    const auto day = app::side_by_side(photo.seen.mean, photo.foretold, colour::Light::d65);
    CHECK(day.apart_de00 ==
          doctest::Approx(colour::ciede2000(photo.seen.mean, photo.foretold)).epsilon(0.01));
    CHECK(colour::hex(day.photo) == colour::hex(colour::srgb_from(photo.seen.mean)));
    const auto lamp = app::side_by_side(photo.seen.mean, photo.foretold, colour::Light::a);
    CHECK(lamp.apart_de00 > 0.0);
    CHECK(lamp.apart_de00 != doctest::Approx(day.apart_de00).epsilon(1e-6));
}

TEST_CASE("a thread of its own measures the photo and holds it against the forecast, to be logged as it is") {
    const PaperAndFibre paper;
    auto read = std::make_shared<app::PhotoRead>();
    read->path = "grey.png";
    read->image = strip::Image{paper.width, paper.height, paper.rgb};
    const auto wanted = [&](const char* recipe) {
        return app::BattPhotoWanted{read, filled(), 1, recipe, {}, &fibre::Catalogue::builtin()};
    };
    const auto direct = app::batt_photo_of(paper.pixels(), filled(), 1, "grey.png");
    REQUIRE(direct.has_value());
    app::BattPhotoReader reader;
    CHECK(reader.take() == nullptr);
    reader.ask(wanted(two_greys));
    while (!reader.has_news()) std::this_thread::yield();
    const auto answer = reader.take();
    REQUIRE(answer != nullptr);
    CHECK(answer->photo == read);
    REQUIRE(answer->seen.has_value());
    const stash::BattPhoto whole = judged(*direct, {});
    CHECK(answer->seen->seen.mean.l == whole.seen.mean.l);
    CHECK(answer->seen->foretold.l == whole.foretold.l);
    CHECK(answer->seen->log_m.has_value());
    CHECK_FALSE(reader.busy());
    CHECK_FALSE(app::seen_on(wanted("format = 9")).seen.has_value());
}

TEST_CASE("where the photo's streaks are told they are in the user's own unit") {
    stash::BattPhoto photo;
    photo.seen.streak_mm = 25.4;  // one inch, exactly
    CHECK(app::places_in_words(photo, measure::LengthUnit::millimetre) == "streaks of 25 mm");
    CHECK(app::places_in_words(photo, measure::LengthUnit::inch) == "streaks of 1 in");
}

TEST_CASE("logged in the record it teaches the next forecast, and left out it does not") {
    Session s;
    const PaperAndFibre paper;
    auto seen = app::batt_photo_of(paper.pixels(), filled(), 1, "grey.png");
    REQUIRE(seen.has_value());
    CHECK_FALSE(s.session.perform({app::LogBattPhoto{judged(*seen, s.hands().hands)}, 0}));
    auto book = s.book();
    REQUIRE(book.photos_of(1).size() == 1);
    CHECK(book.photos_of(2).empty());
    const stash::BattPhoto logged = *book.photos_of(1).front();
    CHECK(logged.foretold.l > 20.0);
    CHECK(logged.log_m.has_value());
    CHECK(s.hands().hands.m.count() + static_cast<int>(book.hands.questions.size()) == 1);
    const auto lesson = app::lesson_of(logged, book.photos);
    CHECK(lesson.m.before.rests_on == 0);
    CHECK(lesson.m.before.middle == doctest::Approx(0.15));
    auto changed = logged;
    changed.confirmed = true;
    CHECK_FALSE(s.session.perform({app::ChangeBattPhoto{changed}, 0}));
    CHECK(s.hands().hands.m.count() == 1);
    changed.counts = false;
    CHECK_FALSE(s.session.perform({app::ChangeBattPhoto{changed}, 0}));
    CHECK(s.hands().hands.m.count() == 0);
    CHECK_FALSE(s.session.perform({app::RemoveBattPhoto{logged.id}, 0}));
    CHECK(s.book().photos.empty());
    CHECK(s.session.perform({app::RemoveBattPhoto{logged.id}, 0}));
}

TEST_CASE("a photo of a batt taken back changes nothing of another's lesson, which is that of the stash") {
    Session s;
    stash::Carding again;
    again.name = "Grey water";
    again.recipe = two_greys;
    again.lines = {{"KF7R3X", 40.0}};
    CHECK_FALSE(s.session.perform({app::CardIt{again}, 0}));
    const PaperAndFibre paper;
    for (const std::int64_t batt : {1, 2}) {
        auto seen = app::batt_photo_of(paper.pixels(), filled(), batt, "grey.png");
        REQUIRE(seen.has_value());
        seen->seen.mean.l += 0.1 * static_cast<double>(batt);  // another picture
        CHECK_FALSE(s.session.perform({app::LogBattPhoto{judged(*seen, s.hands().hands)}, 0}));
        auto logged = *s.book().photos_of(batt).front();
        logged.confirmed = true;
        CHECK_FALSE(s.session.perform({app::ChangeBattPhoto{logged}, 0}));
    }
    const auto lesson = [&](std::int64_t batt) {
        const auto book = s.book();
        return app::lesson_of(*book.photos_of(batt).front(), book.photos);
    };
    CHECK(lesson(1).m.before.rests_on == 1);
    CHECK(lesson(1).m.after.rests_on == 2);
    CHECK_FALSE(s.session.perform({app::TakeBack{2, ""}, 0}));
    CHECK(lesson(1).m.before.rests_on == 0);
    CHECK(lesson(1).m.before.middle == doctest::Approx(0.15));
    CHECK(lesson(1).m.after.rests_on == 1);
    CHECK(lesson(1).m.after.middle == s.hands().hands.m.factor());
    CHECK(lesson(1).mixing.after.middle == s.hands().hands.mixing.factor());
    CHECK(lesson(2).m.before == lesson(2).m.after);
    // The view asks each frame; it is the same until another photo is shown or the file changes.
    app::RecordSession record;
    std::vector<measure::Complaint> complaints;
    const auto look = [&] { record.follow(s.session, fibre::Catalogue::builtin(), {}, complaints); };
    look();
    const stash::BattPhoto first = *record.book().photos_of(1).front();
    CHECK(record.photo_lesson(first).m.after == lesson(1).m.after);
    CHECK(record.photo_lesson(*record.book().photos_of(2).front()).m.after == lesson(2).m.after);
    auto changed = first;
    changed.counts = false;
    CHECK_FALSE(s.session.perform({app::ChangeBattPhoto{changed}, 0}));
    look();
    CHECK(record.photo_lesson(first).m.after.rests_on == 0);
    CHECK(complaints.empty());
}

}  // namespace batt_photo_test
