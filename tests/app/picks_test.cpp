// Several colours off one photo, put right by a white, given to fibres and lots.
#include "app/photo/picks.hpp"

#include <doctest/doctest.h>

#include <array>
#include <vector>

#include "colour/spaces.hpp"

using namespace battwright;

namespace {

// Four squares of 40 pixels: paper, and three fibres, in a light that is `by` of daylight's in each channel
// (of linear light).
struct Board {
    std::vector<std::uint8_t> rgb;
    std::array<colour::Srgb, 4> truth;
    explicit Board(const std::array<double, 3>& by) {
        const std::array<const char*, 4> hexes{"#f3f3f3", "#35586b", "#c39a4a", "#7fa39a"};
        for (std::size_t i = 0; i < 4; ++i) truth[i] = *colour::parse_hex(hexes[i]);
        for (int y = 0; y < 40; ++y)
            for (int x = 0; x < 160; ++x) {
                auto light = colour::linear(truth[static_cast<std::size_t>(x / 40)]);
                light = {light.r * by[0], light.g * by[1], light.b * by[2]};
                const auto seen = colour::encoded(light);
                for (const double v : {seen.r, seen.g, seen.b})
                    rgb.push_back(static_cast<std::uint8_t>(255.0 * v + 0.5));
            }
    }
    colour::Pixels pixels() const { return {rgb, 160, 40}; }
    static colour::Point middle(int square) { return {40.0 * square + 20.0, 20.0}; }
};

app::Sheet two_fibres() {
    app::Sheet sheet;
    for (const char* fibre : {"corriedale", "polwarth"}) {
        recipe::Component component;
        component.content = {{fibre, 100.0}};
        sheet.recipe.components.push_back(component);
    }
    return sheet;
}

stash::Shelf one_lot() {
    stash::Shelf shelf;
    stash::Shelved lot;
    lot.lot.mark = "KF7R3X";
    lot.lot.name = "Low water";
    shelf.lots.push_back(std::make_shared<const stash::Shelved>(lot));
    return shelf;
}

}  // namespace

TEST_CASE(
    "a pick is the mean of the pixels around it; the photo's light is as it is until a white is known") {
    const Board board({1.0, 1.0, 1.0});
    app::Picks picks;
    for (int i = 1; i < 4; ++i) picks.pick(board.pixels(), Board::middle(i), 0);
    REQUIRE(picks.all().size() == 3);
    for (std::size_t i = 0; i < 3; ++i)
        CHECK(colour::hex(picks.all()[i].colour) == colour::hex(board.truth[i + 1]));
    picks.pick(board.pixels(), {-1.0, 20.0}, 0);
    picks.pick(board.pixels(), {160.0, 20.0}, 0);
    CHECK(picks.all().size() == 3);
    picks.drop(1);
    CHECK(colour::hex(picks.all()[1].colour) == "#7fa39a");
    // One wanted: the new one takes the place of the old.
    app::Picks one;
    one.pick(board.pixels(), Board::middle(1), 0, 1);
    one.pick(board.pixels(), Board::middle(2), 0, 1);
    REQUIRE(one.all().size() == 1);
    CHECK(colour::hex(one.all()[0].colour) == "#c39a4a");
}

TEST_CASE("a white puts every pick right, before it and after it; a bad one is told") {
    // Warm and dim: how the same board looks by an old lamp.
    const Board board({0.8, 0.62, 0.4});
    app::Picks picks;
    picks.pick(board.pixels(), Board::middle(1), 0);
    const auto uncorrected = picks.all()[0].colour;
    picks.point_at_white(board.pixels(), Board::middle(0));
    CHECK(picks.trouble().empty());
    picks.pick(board.pixels(), Board::middle(2), 0);
    // Each channel scaled is no adaptation between two lights of the CIE, so some units of difference remain.
    for (std::size_t i = 0; i < 2; ++i)
        CHECK(colour::ciede2000(colour::lab(picks.all()[i].colour), colour::lab(board.truth[i + 1])) < 6.0);
    CHECK(colour::ciede2000(colour::lab(uncorrected), colour::lab(board.truth[1])) > 10.0);
    CHECK(colour::hex(picks.preview(board.pixels(), Board::middle(2))) == colour::hex(picks.all()[1].colour));
    picks.forget_white();
    CHECK(colour::hex(picks.all()[0].colour) == colour::hex(uncorrected));
    picks.point_at_white(board.pixels(), {900.0, 20.0});
    CHECK_FALSE(picks.trouble().empty());
    CHECK_FALSE(picks.white().has_value());
}

TEST_CASE("picks go to fibres in turn, to lots by choice, and several to one in even shares") {
    const Board board({1.0, 1.0, 1.0});
    const auto sheet = two_fibres();
    const auto shelf = one_lot();
    const auto targets = app::pick_targets(sheet, shelf, fibre::Catalogue::builtin());
    REQUIRE(targets.size() == 3);
    CHECK(targets[2].lot == "KF7R3X");
    app::Picks picks;
    for (const std::size_t wanted : {1u, 0u, 1u}) {
        CHECK(app::next_target(picks, targets, 1) == wanted);
        picks.pick(board.pixels(), Board::middle(static_cast<int>(picks.all().size()) + 1), wanted);
    }
    const auto changed = app::with_picks(sheet, picks, targets);
    REQUIRE(changed.recipe.components[1].palette.size() == 2);
    CHECK(changed.recipe.components[1].palette[0].share_pct == doctest::Approx(50.0));
    CHECK(colour::hex(changed.recipe.components[0].palette[0].colour) == "#c39a4a");
    CHECK(app::lots_with_picks(shelf, picks, targets, "/quay.jpg").empty());
    picks.give(0, 2);
    const auto lots = app::lots_with_picks(shelf, picks, targets, "/quay.jpg");
    REQUIRE(lots.size() == 1);
    CHECK(lots[0].photo == "/quay.jpg");
    CHECK(colour::hex(lots[0].palette.at(0).colour) == "#35586b");
    // Begun from the shelf they go to the lots.
    CHECK(app::next_target(app::Picks{}, targets, 2) == 2);
}
