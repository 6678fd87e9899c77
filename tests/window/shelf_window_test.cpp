// The shelf in the real window: something is put there, found by its colour, dragged to the bench, undone.
#include <doctest/doctest.h>

#include <algorithm>
#include <chrono>

#include "colour/spaces.hpp"
#include "harbour.hpp"
#include "recipe/file.hpp"
#include "strip/picture.hpp"
#include "workplace.hpp"

using namespace battwright;
using script::Input;
using script::Probe;
using script::Script;
using workplace::Place;
namespace fs = std::filesystem;

namespace {

struct ShelfFolder : Place {
    ShelfFolder() : Place("shelf", "guide_seen = true\ncurrency = \"kr\"\n") {}
};

std::vector<std::string> lots_drawn(const Probe& probe) {
    std::vector<std::string> marks;
    for (const auto& [label, box] : probe.boxes) {
        if (label.rfind("lot ", 0) == 0 && label.size() == 4 + stash::mark_length)
            marks.push_back(label.substr(4));
    }
    return marks;
}

stash::Stash reopened(const ShelfFolder& folder) {
    return stash::Stash::open(folder.stash()).value();
}

std::string mark_of(const ShelfFolder& folder, const std::string& name) {
    const auto shelf = reopened(folder).shelf().value();
    for (const auto& lot : shelf->lots) {
        if (lot->lot.name == name) return lot->lot.mark;
    }
    FAIL("no lot " << name);
    return {};
}

// Takes hold of a lot and lets go of it over one of the places that light up.
Script& carry(Script& script, const std::string& from, const std::string& to) {
    return script.step([=](const Probe& probe, Input& input, int phase) {
        const bool carrying = phase > 7;
        const auto found = probe.boxes.find(carrying ? to : from);
        REQUIRE(found != probe.boxes.end());
        input.point(found->second.middle_x(), found->second.middle_y());
        if (phase == 6 || phase == 7) input.point(input.x + 12.0f, input.y + 12.0f);
        input.left_down = phase >= 3 && phase < 11;
        return phase >= 11;
    });
}

recipe::Recipe on_bench(const Probe& probe) {
    const auto recipe = recipe::read_text(probe.state.at("recipe"), "bench", fibre::Catalogue::builtin());
    return recipe ? *recipe : recipe::Recipe{};
}

}  // namespace

TEST_CASE("a lot is put on the shelf, found by its colour, dragged to the drum, undone") {
    const ShelfFolder folder;
    Script script;
    std::string mark;
    script.fill("batt name", "Pier Light")
        .click("left The shelf")
        .expect("lots", "0")
        .click("put on the shelf")
        .fill("new weight", "182")
        .fill("lot name", "Kelp forest")
        .click("add kind")
        .type("corriedale")
        .enter()
        .click("lot colours")
        .fill("hex", "4a5a2c")
        .escape()
        .fill("lot cost", "18")
        .fill("lot got on", "2024-05-17")
        .click("new lot do")
        .expect("lots", "1")
        .expect("messages", "0")
        .then([&](const Probe& probe) {
            const auto drawn = lots_drawn(probe);
            REQUIRE(drawn.size() == 1);
            mark = drawn.front();
        })
        .click("near colour")
        .fill("hex", "b3222b")
        .escape()
        .expect("lots shown", "0")
        .click("near colour")
        .fill("hex", "4c5b2e")
        .escape()
        .expect("lots shown", "1")
        .step([&](const Probe& probe, Input&, int) {
            // From here on the mark is known.
            carry(script, "lot " + mark, "drop on the drum")
                .then([&](const Probe& after) {
                    const auto recipe = on_bench(after);
                    REQUIRE(recipe.components.size() == 1);
                    CHECK(recipe.components[0].lot == mark);
                    CHECK(recipe.components[0].name == "Kelp forest");
                    CHECK(std::get<measure::Mass>(recipe.components[0].amount).grams == 25.0);
                    REQUIRE(recipe.components[0].price);
                    CHECK(recipe.components[0].price->amount == doctest::Approx(9.8901));
                })
                .click("left This batt")
                .then([](const Probe& after) { CHECK(after.boxes.contains("lot of 1")); })
                .fill("weight 1", "200")
                .click("lot of 1")
                .then([](const Probe& after) { CHECK(after.boxes.contains("lot weight")); })
                .click("lot leave")
                .control(GLFW_KEY_Z)
                .control(GLFW_KEY_Z)
                .then([](const Probe& after) { CHECK(on_bench(after).components.empty()); });
            return probe.frame > 0;
        });
    workplace::run(folder, script);
    const auto lots = reopened(folder).shelf().value()->lots;
    REQUIRE(lots.size() == 1);
    CHECK(lots[0]->grams == doctest::Approx(182.0));
    CHECK(lots[0]->lot.cost == stash::Money{18.0, "kr"});
    CHECK(colour::hex(lots[0]->lot.palette.at(0).colour) == "#4a5a2c");
}

TEST_CASE("a card changes words and weights; what is refused is said on the card") {
    const ShelfFolder folder;
    harbour::fill(folder.stash());
    const std::string mark = mark_of(folder, "Gull's back");
    Script script;
    script.click("left The shelf")
        .fill("search the shelf", "gull")
        .expect("lots shown", "1")
        .click("lot " + mark)
        .fill("lot name", "##%s%n \u05d2\u05dc")
        .fill("lot place", "under the stairs")
        .click("deed weighed")
        .fill("deed weight", "90")
        .fill("deed note", "dry now")
        .click("deed do")
        .click("deed given")
        .fill("deed weight", "91")
        .click("deed do")
        .then([](const Probe& probe) { CHECK(probe.boxes.contains("lot complaint")); })
        .fill("deed weight", "30")
        .click("deed do")
        .then([](const Probe& probe) { CHECK_FALSE(probe.boxes.contains("lot complaint")); })
        .fill("bench weight", "1 oz")
        .click("lot to bench")
        .then([&](const Probe& probe) {
            const auto text = probe.state.at("recipe");
            CHECK(text.find(mark) != std::string::npos);
            CHECK(text.find("##%s%n") != std::string::npos);
            CHECK(text.find("1 oz") != std::string::npos);
        });
    workplace::run(folder, script);
    auto file = reopened(folder);
    const auto after = file.lot(mark).value();
    CHECK(after.lot.name == "##%s%n \u05d2\u05dc");
    CHECK(after.lot.place == "under the stairs");
    CHECK(after.grams == doctest::Approx(60.0));
    const auto movements = file.movements(mark).value();
    REQUIRE(movements.size() == 3);
    CHECK(movements[1].reason == stash::Reason::weighed);
    CHECK(movements[1].note == "dry now");
    CHECK(movements[2].reason == stash::Reason::given);
}

TEST_CASE("a photo dropped on the new lot's card gives it colours, from the area that is marked") {
    const ShelfFolder folder;
    strip::Image image{200, 100, {}};
    for (int y = 0; y < 100; ++y) {
        for (int x = 0; x < 200; ++x) {
            for (const int channel : x < 100 ? std::array{230, 230, 230} : std::array{42, 80, 107})
                image.rgb.push_back(static_cast<unsigned char>(channel));
        }
    }
    const fs::path photo = folder.path / "mussel.png";
    REQUIRE(strip::save_png(image, photo));
    Script script;
    script.click("left The shelf")
        .click("put on the shelf")
        .fill("new weight", "50")
        .fill("lot name", "Mussel blue")
        .click("add kind")
        .type("polwarth")
        .enter()
        .click("lot photo")
        .step([photo](const Probe&, Input& input, int phase) {
            if (phase == 0) input.dropped = {photo.string()};
            return phase >= 3;
        })
        .expect("settled", "yes")  // decoded beside the window's thread
        .step([](const Probe& probe, Input& input, int phase) {
            const auto& box = probe.boxes.at("lot photo area");
            const float wide = box.right - box.left, high = box.bottom - box.top;
            const float at = std::clamp(static_cast<float>(phase - 3) / 8.0f, 0.0f, 1.0f);
            input.point(box.left + wide * (0.6f + 0.3f * at), box.top + high * (0.2f + 0.6f * at));
            input.left_down = phase >= 2 && phase < 12;
            return phase >= 14;
        })
        .expect("settled", "yes")  // read anew, of the area
        .click("keep palette")
        .click("new lot do")
        .expect("lots", "1");
    workplace::run(folder, script);
    const auto lots = reopened(folder).shelf().value()->lots;
    REQUIRE(lots.size() == 1);
    REQUIRE(lots[0]->lot.palette.size() == 1);
    const colour::Srgb blue{42 / 255.0, 80 / 255.0, 107 / 255.0};
    CHECK(colour::ciede2000(colour::lab(lots[0]->lot.palette[0].colour), colour::lab(blue)) < 1.0);
    CHECK(lots[0]->lot.photo == photo.string());
}

TEST_CASE("a lot that was begun is let go at the second press only, an empty form at the first") {
    const ShelfFolder folder;
    const auto is_open = [](bool open) {
        return [open](const Probe& probe) { CHECK(probe.boxes.contains("new lot do") == open); };
    };
    Script script;
    script.click("left The shelf")
        .click("put on the shelf")
        .then(is_open(true))
        .escape()
        .then(is_open(false))
        .click("put on the shelf")
        .fill("lot name", "Mussel blue")
        .escape()
        .then(is_open(true))
        .fill("new weight", "50")  // goes on: it is asked anew
        .click("new lot leave")
        .then(is_open(true))
        .escape()
        .then(is_open(false))
        .expect("lots", "0");
    workplace::run(folder, script);
}

TEST_CASE("by keys alone: down to the wall, into it, along it, and a lot onto the bench") {
    const ShelfFolder folder;
    harbour::fill(folder.stash());
    Script script;
    // The search field first, then the wall; Space goes into it.
    script.fill("batt name", "Pier Light")
        .click("left The shelf")
        .key(GLFW_KEY_DOWN)
        .key(GLFW_KEY_DOWN)
        .key(GLFW_KEY_SPACE)
        .key(GLFW_KEY_RIGHT)
        .key(GLFW_KEY_DOWN)
        .control(GLFW_KEY_ENTER)
        .then([](const Probe& probe) {
            const auto recipe = on_bench(probe);
            REQUIRE(recipe.components.size() == 1);
            const auto& bags = harbour::bags();
            CHECK(std::ranges::any_of(
                bags, [&](const auto& bag) { return recipe.components[0].name == bag.name; }));
            CHECK_FALSE(recipe.components[0].lot.empty());
        })
        .key(GLFW_KEY_SPACE)
        .then([](const Probe& probe) { CHECK(probe.boxes.contains("lot weight")); })
        .escape()
        .then([](const Probe& probe) { CHECK_FALSE(probe.boxes.contains("lot weight")); });
    workplace::run(folder, script);
}

TEST_CASE("ten thousand lots with hostile names: only what is in view is drawn, and it scrolls") {
    const ShelfFolder folder;
    {
        auto file = reopened(folder);
        const auto filled = file.all_or_nothing([&]() -> stash::Expected<void> {
            for (int i = 0; i < 10000; ++i) {
                stash::Lot lot = harbour::lot_of(harbour::bags()[static_cast<std::size_t>(i) % 30]);
                lot.name = i % 3 == 0   ? "##" + std::to_string(i)
                           : i % 3 == 1 ? "%s%n%p " + std::string(2000, 'w')
                                        : "\u05e9\u05dc\u05d5\u05dd \u0645\u0631\u0633\u0649";
                if (auto added = file.add(lot, 20.0 + i % 200); !added)
                    return tl::make_unexpected(added.error());
            }
            return {};
        });
        if (!filled) FAIL(measure::to_line(filled.error()));
    }
    Script script;
    std::vector<std::string> first, later;
    std::chrono::steady_clock::time_point from;
    double seconds_a_frame = 0.0;
    script.click("left The shelf")
        .expect("lots", "10000")
        .expect("lots shown", "10000")
        .then([&](const Probe& probe) { first = lots_drawn(probe); })
        .point("wall")
        .step([&](const Probe&, Input& input, int phase) {
            constexpr int frames = 100;
            if (phase == 0) from = std::chrono::steady_clock::now();
            input.wheel = phase < frames ? -3.0f : 0.0f;
            const std::chrono::duration<double> took = std::chrono::steady_clock::now() - from;
            seconds_a_frame = took.count() / frames;
            return phase >= frames;
        })
        .then([&](const Probe& probe) { later = lots_drawn(probe); });
    workplace::run(folder, script);
    CHECK(first.size() >= 8);
    CHECK(first.size() < 60);
    CHECK(later.size() < 60);
    CHECK(std::ranges::none_of(later, [&](const auto& mark) { return std::ranges::count(first, mark) > 0; }));
    MESSAGE("10,000 lots scroll at ", 1000.0 * seconds_a_frame, " ms a frame");
    // Software OpenGL on two cores shared with others; the wall alone is far below.
    CHECK(seconds_a_frame < 0.2);
}

TEST_CASE("closing the window with a form half filled asks first, and leaves at the second time") {
    const ShelfFolder folder;
    harbour::fill(folder.stash());
    const std::string mark = mark_of(folder, "Low water");
    SUBCASE("a new lot") {
        Script script;
        script.click("left The shelf")
            .click("put on the shelf")
            .fill("lot name", "Mussel blue")
            .click("add kind")
            .type("polwarth")
            .enter();
        script.close();
        script.then([](const Probe& probe) { CHECK(probe.boxes.contains("new lot do")); })
            .fill("new weight", "50");  // goes on: it is asked anew
        script.close();
        script.then([](const Probe& probe) { CHECK(probe.boxes.contains("new lot do")); })
            .click("new lot do")
            .expect("lots", std::to_string(harbour::bags().size() + 1));
        script.close().ends();  // nothing is half typed any more
        CHECK(window::run(workplace::options_in(folder, script)) == 0);
        CHECK_NOTHROW(mark_of(folder, "Mussel blue"));
    }
    SUBCASE("a new lot while a changed recipe is asked about") {
        Script script;
        script.fill("batt name", "Pier Light").expect("unsaved", "yes");
        script.click("left The shelf")
            .click("put on the shelf")
            .fill("lot name", "Mussel blue")
            .click("add kind")
            .type("polwarth")
            .enter();
        script.close();
        script.close();
        // Now the recipe is asked about; to stay is to have the form back.
        script.then([](const Probe& probe) { CHECK(probe.boxes.contains("Stay here")); })
            .click("Stay here")
            .then([](const Probe& probe) { CHECK(probe.boxes.contains("new lot do")); })
            .fill("new weight", "50")
            .click("new lot do")
            .expect("lots", std::to_string(harbour::bags().size() + 1));
        workplace::run(folder, script);
        CHECK_NOTHROW(mark_of(folder, "Mussel blue"));
    }
    SUBCASE("what became of a lot") {
        Script script;
        script.click("left The shelf").click("lot " + mark).fill("deed note", "moth");
        script.escape().then([](const Probe& probe) { CHECK(probe.boxes.contains("deed do")); });
        script.close();
        script.then([](const Probe& probe) { CHECK(probe.boxes.contains("deed do")); })
            .escape()
            .escape()
            .then([](const Probe& probe) { CHECK_FALSE(probe.boxes.contains("deed do")); });
        workplace::run(folder, script);
    }
    SUBCASE("what is being typed on the bench is taken as done, and then asked about as any change") {
        Script script;
        script.click("batt name").type("Pier Light");
        script.close();
        script.then([](const Probe& probe) {
            CHECK(probe.state.at("recipe").find("Pier Light") != std::string::npos);
            CHECK(probe.boxes.contains("Stay here"));
        });
        workplace::run(folder, script);
    }
}
