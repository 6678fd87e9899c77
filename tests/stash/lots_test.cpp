// Lots: what is written comes back, what is wrong is told, and no text can do more than be text.
#include <cmath>
#include <cstdlib>
#include <set>

#include "colour/spaces.hpp"
#include "shelves.hpp"
#include "stash/date.hpp"

using namespace shelves;
using doctest::Approx;

namespace {

bool same(const stash::Lot& a, const stash::Lot& b) {
    const auto same_content = [](const recipe::Content& x, const recipe::Content& y) {
        return x.fibre == y.fibre && x.share_pct == y.share_pct;
    };
    const auto same_tint = [](const recipe::Tint& x, const recipe::Tint& y) {
        return x.colour == y.colour && x.share_pct == y.share_pct;
    };
    return a.id == b.id && a.mark == b.mark && a.name == b.name && a.form == b.form && a.raw == b.raw &&
           a.yield_pct == b.yield_pct && a.cost == b.cost && a.maker == b.maker && a.got_on == b.got_on &&
           a.place == b.place && a.photo == b.photo && a.notes == b.notes && a.staple_mm == b.staple_mm &&
           a.diameter_um == b.diameter_um &&
           std::equal(a.content.begin(), a.content.end(), b.content.begin(), b.content.end(), same_content) &&
           std::equal(a.palette.begin(), a.palette.end(), b.palette.begin(), b.palette.end(), same_tint);
}

stash::Lot full_lot() {
    stash::Lot lot = wool();
    lot.content = {{"merino-fine", 70.0}, {"tussah-silk", 30.0}};
    lot.palette = {{{0.1, 0.2, 0.3}, 60.0}, {{0.8, 0.7, 0.6}, 40.0}};
    lot.form = stash::Form::fleece;
    lot.raw = true;
    lot.yield_pct = 62.5;
    lot.cost = stash::Money{31.75, "EUR"};
    lot.maker = "Saltmarsh Farm";
    lot.place = "blue chest";
    lot.photo = "/home/ina/photos/fog.jpg";
    lot.notes = "smells of kelp\nsecond shearing";
    lot.staple_mm = 82.5;
    lot.diameter_um = 18.25;
    return lot;
}

}  // namespace

TEST_CASE("a lot comes back as it was put on the shelf, also after closing") {
    const Folder folder;
    stash::Lot made;
    {
        stash::Stash stash = opened(folder / "stash.db");
        made = got(stash.add(full_lot(), 1234.5, "from the market"));
        CHECK(made.id > 0);
        CHECK(got(stash::parse_mark(made.mark)) == made.mark);
    }
    const stash::Stash stash = opened(folder / "stash.db");
    const auto shelved = got(stash.lot(made.mark));
    CHECK(same(shelved.lot, made));
    CHECK(shelved.grams == 1234.5);
    CHECK(shelved.clean_grams() == Approx(1234.5 * 0.625));
    const auto shelf = got(stash.shelf());
    REQUIRE(shelf->lots.size() == 1);
    CHECK(same(shelf->lots[0]->lot, made));
    const auto movements = got(stash.movements(made.mark));
    REQUIRE(movements.size() == 1);
    CHECK(movements[0].reason == stash::Reason::bought);
    CHECK(movements[0].date == "2024-05-17");
    CHECK(movements[0].note == "from the market");
}

TEST_CASE("an ounce comes back as the ounce that was written, and thirds add up") {
    const Folder folder;
    stash::Stash stash = opened(folder / "stash.db");
    for (const double ounces : {0.1, 1.0, 3.5, 7.25, 160.0}) {
        const auto lot = got(stash.add(wool(), ounces * measure::grams_per_ounce));
        CHECK(measure::print_mass(got(stash.lot(lot.mark)).grams, measure::MassUnit::ounce) ==
              measure::print_mass(ounces * measure::grams_per_ounce, measure::MassUnit::ounce));
        CHECK(std::abs(got(stash.lot(lot.mark)).grams / measure::grams_per_ounce - ounces) < 1e-7);
    }
    const auto lot = got(stash.add(wool(), 100.0));
    const double third = 100.0 / 3.0;
    got(stash.card_it(carding({{lot.mark, third}, {lot.mark, third}, {lot.mark, third}})));
    CHECK(got(stash.lot(lot.mark)).grams < 1e-5);
    // Six sixths, each rounded up: two micrograms more than there are.
    const auto other = got(stash.add(wool(), 100.0));
    got(stash.card_it(carding(std::vector<stash::Line>(6, {other.mark, 100.0 / 6.0}))));
    CHECK(got(stash.lot(other.mark)).grams == 0.0);
    check_sound(stash);
}

TEST_CASE("marks are unique, have no look-alikes, and are read as people type them") {
    const Folder folder;
    stash::Stash stash = opened(folder / "stash.db");
    std::set<std::string> marks;
    got(stash.all_or_nothing([&]() -> measure::Expected<void> {
        for (int i = 0; i < 300; ++i) marks.insert(got(stash.add(wool(), 10.0)).mark);
        return {};
    }));
    CHECK(marks.size() == 300);
    for (const std::string& mark : marks) {
        CHECK(mark.size() == stash::mark_length);
        CHECK(mark.find_first_of("0O1IL2Z5S8BQAEU") == std::string::npos);
    }
    const std::string mark = *marks.begin();
    std::string typed = mark.substr(0, 3) + "-" + mark.substr(3) + " ";
    for (char& c : typed) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    CHECK(got(stash.lot(typed)).lot.mark == mark);
    CHECK(holds(line_of(stash.lot("KF7R3")), "mark"));
    CHECK(holds(line_of(stash.lot("'; DROP TABLE lot; --")), "mark"));
    for (const char* wrong : {"", "KF7R3O", "346797", "KF7R3XX"}) CHECK_FALSE(stash::parse_mark(wrong));

    stash::Lot own = wool("tag from before");
    own.mark = "kf7-r3x";
    CHECK(got(stash.add(own, 5.0)).mark == "KF7R3X");
    CHECK(holds(line_of(stash.add(own, 5.0)), "tag from before"));
}

TEST_CASE("changing a lot changes its words and never its weight or mark") {
    const Folder folder;
    stash::Stash stash = opened(folder / "stash.db");
    stash::Lot lot = got(stash.add(wool(), 80.0));
    const std::string mark = lot.mark;
    lot.name = "Harbour mist";
    lot.palette = {{{1.0, 0.0, 0.0}, 100.0}};
    lot.mark = "CCCCCC";
    got(stash.change(lot));
    const auto shelved = got(stash.lot(mark));
    CHECK(shelved.lot.name == "Harbour mist");
    CHECK(shelved.grams == 80.0);
    // IEC 61966-2-1's red in Lab under D65: 53.24, 80.09, 67.20 (from memory).
    CHECK(shelved.colour->l == Approx(53.24).epsilon(0.001));
    CHECK(shelved.colour->a == Approx(80.09).epsilon(0.001));
    CHECK(shelved.colour->b == Approx(67.20).epsilon(0.001));
    CHECK_FALSE(stash.lot("CCCCCC"));
    lot.id = 999;
    CHECK(holds(line_of(stash.change(lot)), "not on the shelf"));
}

TEST_CASE("a lot with a fault is told by its field and nothing is kept") {
    const Folder folder;
    stash::Stash stash = opened(folder / "stash.db");
    const auto complaint = [&](const char* where, auto&& spoil) {
        stash::Lot lot = full_lot();
        spoil(lot);
        const auto result = stash.add(lot, 100.0);
        CAPTURE(where);
        CHECK_FALSE(line_of(result).empty());
        CHECK(result.error().where == where);
    };
    complaint("name", [](stash::Lot& lot) { lot.name = "  "; });
    complaint("name", [](stash::Lot& lot) { lot.name = "two\nlines"; });
    complaint("name", [](stash::Lot& lot) { lot.name = std::string("nul\0byte", 8); });
    complaint("maker", [](stash::Lot& lot) { lot.maker = "\xff\xfe"; });
    complaint("notes", [](stash::Lot& lot) { lot.notes = std::string(30'000, 'x'); });
    complaint("notes", [](stash::Lot& lot) { lot.notes = "bell\a"; });
    complaint("fibre", [](stash::Lot& lot) { lot.content.clear(); });
    complaint("fibre", [](stash::Lot& lot) { lot.content[0].fibre = "merino-fien"; });
    complaint("fibre", [](stash::Lot& lot) { lot.content[0].share_pct = 10.0; });
    complaint("fibre", [](stash::Lot& lot) { lot.content[0].share_pct = std::nan(""); });
    complaint("colours", [](stash::Lot& lot) { lot.palette[0].share_pct = -60.0; });
    complaint("colours", [](stash::Lot& lot) { lot.palette[0].colour.r = std::nan(""); });
    complaint("yield", [](stash::Lot& lot) { lot.yield_pct = 0.0; });
    complaint("yield", [](stash::Lot& lot) { lot.raw = false; });
    complaint("staple", [](stash::Lot& lot) { lot.staple_mm = -1.0; });
    complaint("diameter", [](stash::Lot& lot) { lot.diameter_um = 0.0; });
    complaint("cost", [](stash::Lot& lot) { lot.cost->amount = -3.0; });
    complaint("date", [](stash::Lot& lot) { lot.got_on = "2023-02-29"; });
    complaint("mark", [](stash::Lot& lot) { lot.mark = "nope"; });
    for (const double weight : {0.0, -4.0, std::nan(""), HUGE_VAL, 1e-9, 1e12})
        CHECK(stash.add(full_lot(), weight).error().where == "weight");
    CHECK(got(stash.shelf())->lots.empty());
    CHECK(got(stash.integrity()).movements == 0);
}

TEST_CASE("text that looks like SQL, markup or a formula is only text, in every field") {
    const Folder folder;
    stash::Stash stash = opened(folder / "stash.db");
    for (const std::string nasty :
         {"'; DROP TABLE lot; --", "\" OR 1=1 --", "Robert'); DELETE FROM movement;", "=cmd|' /C calc'!A0",
          "%s%n%x##id", "?1 :name @x $y", "\\'\\\"", "ünï©ødé 🐑 羊毛", "/* */ ; ;",
          "'' || (SELECT 1) || ''"}) {
        CAPTURE(nasty);
        stash::Lot lot = full_lot();
        lot.name = lot.maker = lot.place = lot.photo = lot.notes = lot.cost->currency = nasty;
        const auto made = got(stash.add(lot, 500.0, nasty));
        CHECK(same(got(stash.lot(made.mark)).lot, made));
        CHECK(got(stash.movements(made.mark))[0].note == nasty);
        stash::Filter filter;
        filter.text = nasty;
        CHECK(got(stash.shelf(filter)).size() == 1);
        filter.kind = nasty;
        CHECK(got(stash.shelf(filter)).empty());
        got(stash.move({made.mark, stash::Reason::given, 1.0, "2024-07-01", nasty, {}}));
        got(stash.weigh_again(made.mark, 480.0, nasty, "2024-07-02"));

        stash::Carding card = carding({{made.mark, 10.0}});
        card.name = card.recipe = card.notes = nasty;
        const auto batt = got(stash.card_it(card));
        CHECK(batt.carding.name == nasty);
        CHECK(batt.carding.recipe == nasty);
        got(stash.off_the_drum(batt.id, 9.5, nasty));
        stash::Skein skein;
        skein.name = skein.photo = skein.note = skein.became = nasty;
        skein.from = {{batt.id, 100.0}};
        skein.metres = 50.0;
        skein.foretold = stash::Foretold{60.0, 50.0, 70.0, 9.0, nasty};
        const auto logged = got(stash.log(skein));
        const auto read = got(stash.skein(logged.id));
        CHECK(read.name + read.photo + read.note + read.became + read.foretold->text ==
              nasty + nasty + nasty + nasty + nasty);
        CHECK(got(stash.allocate({0, logged.id, nasty, 5.0})).project == nasty);
        got(stash.set_currency(nasty));
        CHECK(got(stash.currency()) == nasty);
    }
    CHECK(got(stash.integrity()).lots == 10);
    check_sound(stash);
}

TEST_CASE("the mean colour is of light, not of code values, and falls back on the kind's own") {
    stash::Lot lot = wool();
    lot.palette = {{{0.0, 0.0, 0.0}, 50.0}, {{1.0, 1.0, 1.0}, 50.0}};
    // Half the light is L* = 76.07 (CIE 15: 116 * cbrt(0.5) - 16).
    const auto mean = stash::mean_colour(lot, fibre::Catalogue::builtin());
    CHECK(mean->l == Approx(116.0 * std::cbrt(0.5) - 16.0));
    CHECK(std::abs(mean->a) + std::abs(mean->b) < 0.02);
    lot.palette.clear();
    const auto* kind = fibre::Catalogue::builtin().find("merino-fine");
    const auto natural = colour::lab(*colour::parse_hex(kind->natural_colours.front()));
    CHECK(colour::ciede2000(*stash::mean_colour(lot, fibre::Catalogue::builtin()), natural) < 0.01);
    lot.content = {{"nobody-knows", 100.0}};
    CHECK_FALSE(stash::mean_colour(lot, fibre::Catalogue::builtin()));
}

TEST_CASE("words of forms and reasons read back, dates are real days") {
    for (const std::string& word : stash::form_words())
        CHECK(stash::word_for(got(stash::parse_form(word))) == word);
    CHECK(holds(line_of(stash::parse_form("fleec")), "fleece"));
    CHECK(got(stash::parse_reason("Taken back")) == stash::Reason::taken_back);
    for (const char* wrong : {"", "2024-1-01", "2024-13-01", "2024-00-10", "2023-02-29", "2024-02-30",
                              "24-02-01", "2024-02-01 ", "2024/02/01", "+024-02-01"})
        CHECK_FALSE(stash::parse_date(wrong));
    CHECK(stash::print_date(got(stash::parse_date("2024-02-29"))) == "2024-02-29");
    CHECK(stash::parse_date(stash::today()).has_value());
}

TEST_CASE("the default place follows the XDG folders") {
    const char* old = std::getenv("XDG_DATA_HOME");
    const std::string before = old != nullptr ? old : "";
    ::setenv("XDG_DATA_HOME", "/srv/wool", 1);
    CHECK(stash::default_path() == "/srv/wool/battwright/stash.db");
    ::setenv("XDG_DATA_HOME", "relative", 1);
    CHECK(holds(stash::default_path().string(), "/.local/share/battwright/stash.db"));
    old != nullptr ? ::setenv("XDG_DATA_HOME", before.c_str(), 1) : ::unsetenv("XDG_DATA_HOME");
}
