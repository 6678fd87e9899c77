// What is asked of the shelf, in words and figures.
#include "app/shelf/shelf_choice.hpp"

#include <doctest/doctest.h>

#include "colour/spaces.hpp"
#include "harbour.hpp"

using namespace battwright;
using app::Age;
using measure::MassUnit;

namespace {

std::chrono::sys_days day(int year, unsigned month, unsigned of_month) {
    return std::chrono::year(year) / std::chrono::month(month) / std::chrono::day(of_month);
}

}  // namespace

TEST_CASE("ages are calendar years back from the day, without a gap or an overlap between them") {
    const auto today = day(2026, 11, 25);
    const auto young = app::with_age({}, Age::under_one, today);
    CHECK(young.got_from == "2025-11-25");
    CHECK(young.got_to.empty());
    const auto middle = app::with_age({}, Age::one_to_three, today);
    CHECK(middle.got_from == "2023-11-25");
    CHECK(middle.got_to == "2025-11-24");
    const auto old = app::with_age({}, Age::over_three, today);
    CHECK(old.got_to == "2023-11-24");
    for (const Age age : {Age::any, Age::under_one, Age::one_to_three, Age::over_three})
        CHECK(app::age_of(app::with_age({}, age, today), today) == age);
    stash::Filter own;
    own.got_from = "2022-01-01";
    CHECK_FALSE(app::age_of(own, today));
    // A year before a leap day is the last of February.
    CHECK(app::with_age({}, Age::under_one, day(2024, 2, 29)).got_from == "2023-02-28");
}

TEST_CASE("conditions are told in a line, and let go together while the words stay") {
    const auto& catalogue = fibre::Catalogue::builtin();
    app::ShelfChoice choice;
    choice.filter.text = "loft";
    CHECK(app::conditions(choice, catalogue, MassUnit::gram).empty());
    choice.filter.kind = "corriedale";
    choice.filter.form = stash::Form::roving;
    choice.filter.at_least_grams = 20.0;
    choice = app::near_to(choice, colour::parse_hex("#2f5d50").value());
    CHECK(choice.order == stash::Order::nearest);
    const auto line = app::conditions(choice, catalogue, MassUnit::gram);
    for (const char* part : {"Corriedale", "roving", "from 20 g", "within 10 of #2f5d50"})
        CHECK(line.find(part) != std::string::npos);
    choice.filter.scrap_grams = 22.0;
    const auto plain = app::without_conditions(choice);
    CHECK(app::conditions(plain, catalogue, MassUnit::gram).empty());
    CHECK(plain.filter.text == "loft");
    CHECK(plain.filter.scrap_grams == 22.0);
    CHECK(plain.order == stash::Order::as_added);
}

TEST_CASE("weights without a unit are in the user's own, money without a currency in hers") {
    CHECK(app::parse_weight("25", MassUnit::gram)->grams == 25.0);
    CHECK(app::parse_weight("1", MassUnit::ounce)->grams == doctest::Approx(28.349523125));
    CHECK(app::parse_weight("3 1/2 oz", MassUnit::gram)->grams == doctest::Approx(99.2233309));
    CHECK_FALSE(app::parse_weight("a handful", MassUnit::gram));
    CHECK_FALSE(app::parse_weight("", MassUnit::gram));
    CHECK(app::parse_money("24.50", "kr").value() == stash::Money{24.5, "kr"});
    CHECK(app::parse_money("24.50 EUR", "kr").value() == stash::Money{24.5, "EUR"});
    CHECK_FALSE(app::parse_money("much", "kr"));
    CHECK(app::print_money({24.5, "kr"}) == "24.50 kr");
    CHECK(app::print_money({24.0, ""}) == "24");
}

TEST_CASE("texts are cut between letters, and a lot is told in a few lines however long its words are") {
    CHECK(app::shortened("kelp", 10) == "kelp");
    CHECK(app::shortened("k\u00e9lp", 2) == "k\u2026");
    stash::Shelved shelved{harbour::lot_of(harbour::bags().front()), 214.0, std::nullopt};
    shelved.lot.mark = "KFR3XD";
    shelved.lot.name.assign(19000, 'x');
    shelved.lot.maker.assign(19000, 'y');
    const auto words = app::lot_in_words(shelved, fibre::Catalogue::builtin(), MassUnit::gram);
    CHECK(words.size() < 3000);
    CHECK(words.find("214 g") != std::string::npos);
    CHECK(words.find("KFR3XD") != std::string::npos);
}
