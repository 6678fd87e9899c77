// The shelf as a value: filters, orders, and when it is read anew.
#include <algorithm>

#include "colour/spaces.hpp"
#include "shelves.hpp"

using namespace shelves;
using stash::Order;

namespace {

std::vector<std::string> names(const std::vector<std::shared_ptr<const stash::Shelved>>& lots) {
    std::vector<std::string> result;
    for (const auto& lot : lots) result.push_back(lot->lot.name);
    return result;
}
using Names = std::vector<std::string>;

stash::Lot lot_of(const char* name, const char* kind, const char* hex, stash::Form form, const char* got_on) {
    stash::Lot lot = wool(name);
    lot.content = {{kind, 100.0}};
    lot.palette.clear();
    if (*hex != '\0') lot.palette = {{*colour::parse_hex(hex), 100.0}};
    lot.form = form;
    lot.got_on = got_on;
    return lot;
}

// Five lots and an empty one.
void fill(stash::Stash& stash) {
    using stash::Form;
    got(stash.add(lot_of("kelp", "merino-fine", "#2f5d50", Form::top, "2022-03-01"), 100.0));
    got(stash.add(lot_of("brass", "tussah-silk", "#b08d3c", Form::sliver, "2023-03-01"), 12.0));
    got(stash.add(lot_of("Rope", "merino-fine", "#c8b48a", Form::top, ""), 55.0));
    got(stash.add(lot_of("tar", "merino-fine", "#101010", Form::locks, "2024-03-01"), 14.999));
    got(stash.add(lot_of("buoy", "tussah-silk", "#e04020", Form::top, "2021-03-01"), 200.0));
    const auto gone = got(stash.add(lot_of("gone", "merino-fine", "#2f5d50", Form::top, "2020-03-01"), 5.0));
    got(stash.weigh_again(gone.mark, 0.0));
}

Names filtered_names(const stash::Stash& stash, const stash::Filter& filter, Order order = Order::as_added) {
    return names(got(stash.shelf(filter, order)));
}

}  // namespace

TEST_CASE("each condition keeps what it says") {
    const Folder folder;
    stash::Stash stash = opened(folder / "stash.db");
    fill(stash);
    const auto with = [&](auto&& set) {
        stash::Filter filter;
        set(filter);
        return filtered_names(stash, filter);
    };
    CHECK(with([](stash::Filter&) {}) == Names{"kelp", "brass", "Rope", "tar", "buoy"});
    CHECK(with([](stash::Filter& f) { f.empties = true; }).size() == 6);
    CHECK(with([](stash::Filter& f) { f.kind = "tussah-silk"; }) == Names{"brass", "buoy"});
    CHECK(with([](stash::Filter& f) { f.form = stash::Form::locks; }) == Names{"tar"});
    CHECK(with([](stash::Filter& f) { f.at_least_grams = 55.0; }) == Names{"kelp", "Rope", "buoy"});
    CHECK(with([](stash::Filter& f) { f.at_most_grams = 55.0; }) == Names{"brass", "Rope", "tar"});
    CHECK(with([](stash::Filter& f) { f.scraps_only = true; }) == Names{"brass", "tar"});
    CHECK(with([](stash::Filter& f) {
              f.scraps_only = true;
              f.scrap_grams = 13.0;
          }) == Names{"brass"});
    CHECK(with([](stash::Filter& f) { f.text = "  ROPE top"; }) == Names{"Rope"});
    CHECK(with([](stash::Filter& f) { f.text = "rope silk"; }).empty());
    CHECK(with([](stash::Filter& f) { f.got_from = "2023-03-01"; }) == Names{"brass", "tar"});
    CHECK(with([](stash::Filter& f) { f.got_to = "2022-03-01"; }) == Names{"kelp", "buoy"});
    CHECK(with([](stash::Filter& f) {
              f.near = stash::NearColour{colour::lab(*colour::parse_hex("#305c50")), 3.0, false};
          }) == Names{"kelp"});
}

TEST_CASE("orders, with what is unknown last") {
    const Folder folder;
    stash::Stash stash = opened(folder / "stash.db");
    fill(stash);
    CHECK(filtered_names(stash, {}, Order::name) == Names{"brass", "buoy", "kelp", "Rope", "tar"});
    CHECK(filtered_names(stash, {}, Order::lightest) == Names{"brass", "tar", "Rope", "kelp", "buoy"});
    CHECK(filtered_names(stash, {}, Order::heaviest) == Names{"buoy", "kelp", "Rope", "tar", "brass"});
    CHECK(filtered_names(stash, {}, Order::oldest) == Names{"buoy", "kelp", "brass", "tar", "Rope"});
    CHECK(filtered_names(stash, {}, Order::newest) == Names{"tar", "brass", "kelp", "buoy", "Rope"});
    stash::Filter filter;
    filter.near = stash::NearColour{colour::lab(*colour::parse_hex("#c0a060")), 200.0, false};
    const auto lots = got(stash.shelf(filter, Order::nearest));
    REQUIRE(lots.size() == 5);
    for (std::size_t i = 1; i < lots.size(); ++i)
        CHECK(*stash::distance(*lots[i - 1], *filter.near) <= *stash::distance(*lots[i], *filter.near));
}

TEST_CASE("a braid can be asked for by its mean or by the nearest of its colours") {
    const Folder folder;
    stash::Stash stash = opened(folder / "stash.db");
    stash::Lot braid = wool("tide line");
    braid.form = stash::Form::braid;
    braid.palette = {{*colour::parse_hex("#d01010"), 50.0}, {*colour::parse_hex("#1010d0"), 50.0}};
    got(stash.add(braid, 100.0));
    stash::Filter filter;
    filter.near = stash::NearColour{colour::lab(*colour::parse_hex("#d01010")), 2.0, false};
    CHECK(got(stash.shelf(filter)).empty());
    filter.near->any_tint = true;
    CHECK(got(stash.shelf(filter)).size() == 1);
}

TEST_CASE("a colour is near within ten of CIEDE2000 unless said otherwise, as the help tells") {
    // Of greys it is the difference of L* over S_L: from 50 to 60 10 / 1.056, to 62 12 / 1.069.
    const Folder folder;
    stash::Stash stash = opened(folder / "stash.db");
    for (const auto& [name, lightness] : {std::pair("grey of 60", 60.0), {"grey of 62", 62.0}}) {
        stash::Lot grey = wool(name);
        grey.palette = {{colour::srgb_from(colour::Lab{lightness, 0.0, 0.0}), 100.0}};
        got(stash.add(grey, 50.0));
    }
    stash::Filter filter;
    filter.near.emplace().colour = {50.0, 0.0, 0.0};
    const auto near = got(stash.shelf(filter));
    REQUIRE(near.size() == 1);
    CHECK(near.front()->lot.name == "grey of 60");
}

TEST_CASE("the shelf is read anew when it has changed, here or elsewhere, and only then") {
    const Folder folder;
    stash::Stash here = opened(folder / "stash.db");
    stash::Stash elsewhere = opened(folder / "stash.db");
    const std::string mark = got(here.add(wool(), 100.0)).mark;
    const auto first = got(here.shelf());
    CHECK(got(here.shelf()) == first);
    got(elsewhere.weigh_again(mark, 90.0));
    const auto second = got(here.shelf());
    CHECK(second != first);
    CHECK(first->find(mark)->grams == 100.0);  // the old picture stays what it was
    CHECK(second->find(mark)->grams == 90.0);
    CHECK(got(here.shelf()) == second);
    got(here.move({mark, stash::Reason::given, 10.0, "", "", {}}));
    CHECK(got(here.shelf())->find(mark)->grams == 80.0);
    CHECK(got(elsewhere.shelf())->find(mark)->grams == 80.0);
    CHECK(second->find("CCCCCC") == nullptr);
}

TEST_CASE("a shelf brought up to date lot by lot is the one read whole") {
    const Folder folder;
    stash::Stash stash = opened(folder / "stash.db");
    std::vector<std::string> marks;
    const auto check_same = [&] {
        const auto kept = got(stash.shelf());
        const auto whole = got(opened(folder / "stash.db").shelf());
        REQUIRE(kept->lots.size() == whole->lots.size());
        for (std::size_t i = 0; i < kept->lots.size(); ++i) {
            CHECK(kept->lots[i]->lot.mark == whole->lots[i]->lot.mark);
            CHECK(kept->lots[i]->lot.name == whole->lots[i]->lot.name);
            CHECK(kept->lots[i]->lot.palette.size() == whole->lots[i]->lot.palette.size());
            CHECK(kept->lots[i]->lot.content.size() == whole->lots[i]->lot.content.size());
            CHECK(kept->lots[i]->grams == whole->lots[i]->grams);
            CHECK(kept->lots[i]->searched == whole->lots[i]->searched);
            CHECK(kept->lots[i]->tints.size() == whole->lots[i]->tints.size());
        }
    };
    check_same();
    for (int i = 0; i < 5; ++i) marks.push_back(got(stash.add(wool(), 50.0)).mark);
    check_same();
    const auto before = got(stash.shelf());
    stash::Lot changed = before->lots[2]->lot;
    changed.name = "Harbour mist";
    changed.palette.clear();
    changed.content = {{"merino-fine", 50.0}, {"tussah-silk", 50.0}};
    got(stash.change(changed));
    const auto batt = got(stash.card_it(carding({{marks[0], 5.0}, {marks[4], 6.0}})));
    check_same();
    // Lots nobody touched are shared with the picture before.
    CHECK(got(stash.shelf())->lots[1] == before->lots[1]);
    CHECK(got(stash.shelf())->lots[2] != before->lots[2]);
    got(stash.take_back(batt.id));
    CHECK_FALSE(stash.card_it(carding({{marks[0], 500.0}})).has_value());
    check_same();
    CHECK_FALSE(stash.all_or_nothing([&]() -> measure::Expected<void> {
        got(stash.add(wool("never"), 5.0));
        got(stash.weigh_again(marks[3], 1.0));
        got(stash.shelf());
        return tl::make_unexpected(measure::Complaint{"no", "no"});
    }));
    check_same();
    got(stash.all_or_nothing([&]() -> measure::Expected<void> {
        for (int i = 0; i < 300; ++i) got(stash.add(wool(), 5.0));
        return {};
    }));
    check_same();
}
