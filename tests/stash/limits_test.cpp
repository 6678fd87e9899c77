// Limits of the record from both sides: what is asked about, what a stranger's file may do, what is told.
#include <algorithm>
#include <chrono>
#include <cmath>

#include "shelves.hpp"
#include "stash/csv.hpp"
#include "stash/database.hpp"
#include "stash/date.hpp"
#include "stash/hands.hpp"

using namespace shelves;
using doctest::Approx;

namespace {

stash::BattPhoto fit_photo() {
    stash::BattPhoto photo;
    photo.id = 1;
    photo.name = "Three pinches";
    photo.recipe = "format = 1\n";
    photo.date = "2024-06-01";
    photo.mm_per_pixel = 0.2;
    photo.seen.mean = {50.0, 4.0, -7.0};
    photo.seen.patches = 14;
    photo.foretold = {51.0, 4.5, -6.0};
    photo.misfit = 0.8;
    photo.model = stash::photo_model;
    photo.log_m = stash::LogFigure{std::log(0.15), 0.4};
    return photo;
}

bool is_asked(const stash::BattPhoto& photo) {
    return !stash::hands_from(std::vector{photo}).questions.empty();
}

// What SQLite answers to a statement that is run to its end.
int answer(const stash::Database& database, const std::string& sql) {
    return sqlite3_exec(database.handle(), sql.c_str(), nullptr, nullptr, nullptr);
}

}  // namespace

TEST_CASE("a photo is asked about when chance makes it no oftener than once in some thousands") {
    // Chi-square of three residuals (tables of chi-square): over 16.27 once in a thousand, over 21.11 once in
    // ten thousand; the misfit is the root of their mean.
    stash::BattPhoto photo = fit_photo();
    photo.misfit = std::sqrt(16.27 / 3.0);
    CHECK_FALSE(is_asked(photo));
    photo.misfit = std::sqrt(21.11 / 3.0);
    CHECK(is_asked(photo));
    // The first photo stands alone against what is usual, 0.3 in ln m (a factor of 1.35): with its own 0.4
    // that makes 0.5. Three sigmas, as the shops' control charts have it (Shewhart 1931).
    photo = fit_photo();
    photo.log_m->at += 2.8 * 0.5;
    CHECK_FALSE(is_asked(photo));
    photo.log_m->at = std::log(0.15) + 3.2 * 0.5;
    CHECK(is_asked(photo));
}

TEST_CASE("a photo's figures that no camera and no batt give are turned away") {
    const Folder folder;
    stash::Stash stash = opened(folder / "stash.db");
    const auto takes = [&](auto&& spoil) {
        stash::BattPhoto photo = fit_photo();
        photo.id = 0;
        spoil(photo);
        return stash.log(photo).has_value();
    };
    CHECK(takes([](auto&) {}));
    // A pixel of nearly a hand's breadth, and of more.
    CHECK(takes([](auto& photo) { photo.mm_per_pixel = 95.0; }));
    CHECK_FALSE(takes([](auto& photo) { photo.mm_per_pixel = 110.0; }));
    // Lab of real surfaces stays under 100 or so, of anything a screen shows under 200 (IEC 61966-2-1).
    CHECK(takes([](auto& photo) { photo.seen.mean.b = -200.0; }));
    CHECK_FALSE(takes([](auto& photo) { photo.seen.mean.b = -1100.0; }));
    CHECK_FALSE(takes([](auto& photo) { photo.misfit = 1100.0; }));
    // e^50 has 22 digits.
    CHECK(takes([](auto& photo) { photo.log_m->at = -45.0; }));
    CHECK_FALSE(takes([](auto& photo) { photo.log_m->at = -55.0; }));
    // A recipe of a million letters is the longest.
    CHECK(takes([](auto& photo) { photo.recipe.assign(990'000, '#'); }));
    CHECK_FALSE(takes([](auto& photo) { photo.recipe.assign(1'100'000, '#'); }));
    // A batt of one colour throughout has no variation to take the logarithm of: a thousandth of what is just
    // seen stands for none.
    stash::BattPhoto plain = fit_photo();
    plain.id = 0;
    plain.seen.variation_de00 = 0.0;
    plain.log_mixing = colour::CurvedSighting{0.0, 0.3, 0.2, 0.75, 0.125, -0.25};
    const auto read = got(stash.photo(got(stash.log(plain)).id));
    CHECK(std::exp(read.log_mixing->seen) == Approx(1e-3).epsilon(0.1).scale(0.0));
}

TEST_CASE("what was this: one deviation is a month, an eighth of an ounce, five units of colour") {
    const Folder folder;
    stash::Stash stash = opened(folder / "stash.db");
    stash::Skein skein;
    skein.name = "ebb";
    skein.date = "2024-06-10";
    skein.grams = 50.0;
    skein.metres = 100.0;
    skein.palette = {{*colour::parse_hex("#777777"), 100.0}};
    got(stash.log(skein));
    const auto deviations = [&](const stash::Clue& clue) {
        const auto suspects = got(stash.look_up(clue, 10));
        REQUIRE(suspects.size() == 1);
        return suspects[0].deviations;
    };
    // Common practice, no source; each clue from both sides.
    stash::Clue clue;
    clue.date = "2024-08-09";  // sixty days
    CHECK(deviations(clue) == Approx(2.0).epsilon(0.1).scale(0.0));
    clue = {};
    clue.grams = 58.7;  // a sixth more, 0.16 in the logarithm
    CHECK(deviations(clue) == Approx(2.0).epsilon(0.1).scale(0.0));
    clue = {};
    clue.metres = 85.2;  // a seventh less
    CHECK(deviations(clue) == Approx(2.0).epsilon(0.1).scale(0.0));
    // Greys ten units of CIEDE2000 apart: near L* 50 a unit of it is one of L* (Sharma, Wu, Dalal 2005).
    clue = {};
    clue.colour = colour::Lab{50.0 + 10.0, 0.0, 0.0};  // #777777 is L* 50.03
    CHECK(deviations(clue) == Approx(2.0).epsilon(0.1).scale(0.0));
    // A length before the wash, of a wool that it takes 22 to 28 % of (published figures of polwarth): four
    // parts in five of such skeins, so 2 x 1.2816 standard deviations of the normal between the ends.
    clue = {};
    clue.metres = 1.2 * 100.0 / 0.75;
    clue.shrink_pct = yarn::Spread{22.0, 28.0};
    CHECK(deviations(clue) == Approx(std::log(1.2) / std::hypot(0.08, 0.5 * std::log(0.78 / 0.72) / 1.2816))
                                  .epsilon(0.01)
                                  .scale(0.0));
    // Two clues that are both right are no further off than one; a length nobody wrote down is two off.
    clue = {};
    clue.date = "2024-06-10";
    clue.grams = 50.0;
    CHECK(deviations(clue) == Approx(0.0));
    skein.metres = 0.0;
    skein.name = "flood";
    got(stash.log(skein));
    clue = {};
    clue.metres = 100.0;
    const auto suspects = got(stash.look_up(clue, 10));
    CHECK(suspects[0].deviations == Approx(0.0));
    CHECK(suspects[1].deviations == Approx(2.0).epsilon(0.1).scale(0.0));
}

TEST_CASE("a stranger's file may not nest triggers, nor hold what no text of ours is as long as") {
    // SQLite's pages "Run-Time Limits" and "Limits In SQLite": a value longer than SQLITE_LIMIT_LENGTH is
    // SQLITE_TOOBIG, triggers deeper than SQLITE_LIMIT_TRIGGER_DEPTH are an error.
    const stash::Database database("", stash::Access::create, 0);
    // The longest of ours, a recipe or a forecast, has a million bytes; a line of the file has two of them
    // and shorter ones.
    CHECK(answer(database, "SELECT length(randomblob(1000000) || randomblob(1000000))") == SQLITE_OK);
    CHECK(answer(database, "SELECT hex(zeroblob(8000000))") == SQLITE_OK);  // 16 MB
    CHECK(answer(database, "SELECT hex(zeroblob(9000000))") == SQLITE_TOOBIG);
    std::string sql;
    for (int i = 0; i < 6; ++i) sql += "CREATE TABLE t" + std::to_string(i) + " (n);";
    for (int i = 0; i < 5; ++i)
        sql += "CREATE TRIGGER f" + std::to_string(i) + " AFTER INSERT ON t" + std::to_string(i) +
               " BEGIN INSERT INTO t" + std::to_string(i + 1) + " VALUES (1); END;";
    REQUIRE(answer(database, sql) == SQLITE_OK);
    CHECK(answer(database, "INSERT INTO t2 VALUES (1)") == SQLITE_OK);  // three deep
    CHECK(answer(database, "INSERT INTO t1 VALUES (1)") == SQLITE_OK);  // four
    CHECK(answer(database, "INSERT INTO t0 VALUES (1)") != SQLITE_OK);  // five
}

TEST_CASE("a table that was made anew without what keeps it right is told") {
    // Each of what SQLite's pragmas table_list and table_xinfo say of a table, changed by itself.
    const Folder folder;
    const fs::path path = folder / "stash.db";
    got(opened(path).add(wool(), 5.0));
    const std::string sql = Raw(path).value("SELECT sql FROM sqlite_schema WHERE name = 'setting'");
    REQUIRE(holds(sql, "TEXT PRIMARY KEY"));
    for (const auto& [from, to] :
         {std::pair<std::string, std::string>{" STRICT,", ""},
          {"STRICT, WITHOUT ROWID", "STRICT"},
          {"value TEXT NOT NULL", "value TEXT"},
          {"value TEXT NOT NULL", "value INTEGER NOT NULL"},
          {"key TEXT PRIMARY KEY, value TEXT NOT NULL", "key TEXT NOT NULL, value TEXT NOT NULL PRIMARY KEY"},
          {"value TEXT NOT NULL", "value TEXT NOT NULL AS ('') STORED"}}) {
        CAPTURE(to);
        const fs::path other = folder / "other.db";
        fs::remove(other);
        got(opened(path).backup(other));
        std::string changed = sql;
        const std::size_t at = changed.find(from);
        REQUIRE(at != std::string::npos);
        changed.replace(at, from.size(), to);
        Raw raw(other);
        const int made = raw.run("DROP TABLE setting; " + changed);
        REQUIRE_MESSAGE(made == SQLITE_OK, raw.message());
        CHECK(holds(line_of(stash::Stash::open(other)), "setting"));
    }
}

TEST_CASE("of many faults a score is told, and the rest is counted on") {
    const Folder folder;
    const fs::path path = folder / "stash.db";
    {
        stash::Stash stash = opened(path);
        for (int i = 0; i < 30; ++i) got(stash.add(wool(), 5.0));
    }
    REQUIRE(Raw(path).run("UPDATE on_hand SET micrograms = micrograms + 1") == SQLITE_OK);
    const auto health = got(opened(path).integrity());
    CHECK(health.problems.size() >= 18);  // a screen of them
    CHECK(health.problems.size() <= 22);
}

TEST_CASE("shares written to a hundredth make a whole, whatever the parts") {
    // Ten parts rounded to 0.01 % each may stray by 0.05 in all; more is a slip.
    const Folder folder;
    stash::Stash stash = opened(folder / "stash.db");
    const auto takes = [&](double sum) {
        stash::Lot lot = wool();
        lot.content = {{"merino-fine", 60.0}, {"tussah-silk", sum - 60.0}};
        return stash.add(lot, 10.0).has_value();
    };
    CHECK(takes(99.955));
    CHECK_FALSE(takes(99.943));
    CHECK(takes(100.045));
    CHECK_FALSE(takes(100.057));
    const std::string mark = got(stash.add(wool("tar"), 100.0)).mark;
    const auto first = got(stash.card_it(carding({{mark, 20.0}})));
    const auto second = got(stash.card_it(carding({{mark, 20.0}})));
    const auto spun = [&](double sum) {
        stash::Skein skein;
        skein.name = "ebb";
        skein.date = "2024-06-10";
        skein.metres = 60.0;
        skein.from = {{first.id, 50.0}, {second.id, sum - 50.0}};
        return stash.log(skein).has_value();
    };
    stash::Skein more;
    more.name = "flood";
    more.metres = 60.0;
    more.from = {{first.id, 110.0}};
    CHECK(holds(line_of(stash.log(more)), "a batt's share of the skein is none"));
    CHECK(spun(99.955));
    CHECK_FALSE(spun(99.943));
}

TEST_CASE("days: four figures for the year, and today is the calendar's") {
    CHECK(stash::parse_date("1066-10-14").has_value());  // ISO 8601: a year of four digits
    CHECK_FALSE(stash::parse_date("0999-10-14").has_value());
    CHECK(stash::parse_date("2010-01-19").has_value());
    CHECK(got(stash::parse_date("2024-03-01")) - got(stash::parse_date("2024-02-28")) ==
          std::chrono::days(2));
    const auto now = std::chrono::floor<std::chrono::days>(std::chrono::system_clock::now());
    CHECK(std::chrono::abs(got(stash::parse_date(stash::today())) - now) <= std::chrono::days(1));
}

TEST_CASE("a raw fleece is taken to leave what is published of its kind, and else some two thirds") {
    const auto& catalogue = fibre::Catalogue::builtin();
    const auto usual = [&](const std::vector<recipe::Content>& content) {
        return stash::usual_yield(content, catalogue);
    };
    // Oklahoma State University, Breeds of Livestock, as quoted: corriedale 50 to 60 %, lincoln 65 to 80 %.
    CHECK(usual({{"corriedale", 100.0}}).low_pct == 50.0);
    CHECK(usual({{"corriedale", 100.0}}).high_pct == 60.0);
    CHECK(usual({{"corriedale", 100.0}}).published);
    CHECK(usual({{"corriedale", 100.0}}).middle_pct() == Approx(55.0));
    // A cross of three parts to one: shares of the ends.
    const auto cross = usual({{"corriedale", 75.0}, {"lincoln", 25.0}});
    CHECK(cross.low_pct == Approx(0.75 * 50.0 + 0.25 * 65.0));
    CHECK(cross.high_pct == Approx(0.75 * 60.0 + 0.25 * 80.0));
    CHECK_FALSE(usual({{"corriedale", 75.0}, {"shetland", 25.0}}).published);
    // Of what nothing is published: published losses in the bath of single fleeces, spinners' pages:
    // rambouillet 38 %, ryeland 25 %, jacob 23 %, teeswater x shetland 19 %, a wool 25 %.
    const auto any = usual({{"shetland", 100.0}});
    for (const double lost : {38.0, 25.0, 23.0, 19.0, 25.0}) {
        CHECK(100.0 - lost >= any.low_pct);
        CHECK(100.0 - lost <= any.high_pct + 1.0);
    }
    // Common practice, no source: a good third is lost.
    CHECK(any.middle_pct() == Approx(66.0).epsilon(0.04).scale(0.0));
    CHECK(any.low_pct == Approx(50.0).epsilon(0.04).scale(0.0));  // the greasiest leave half
    // Merino of spinners' pages lost 40 and 42 %; the whole Australian clip leaves 61 to 67 %.
    CHECK(usual({{"merino-fine", 100.0}}).middle_pct() == Approx(64.0));
    CHECK(holds(stash::yield_words(usual({{"corriedale", 100.0}})), "50 to 60 % is published"));
    CHECK(holds(stash::yield_words(usual({{"qiviut", 100.0}})), "93.3 % is published"));
    CHECK(holds(stash::yield_words(any), "50 to 80 % is usual"));
    // A table that says raw and no yield.
    const auto table =
        got(stash::read_lots("name,fibre,weight_g,raw\nGull,corriedale,500,yes\n", "bags.csv", catalogue));
    REQUIRE(table.good.size() == 1);
    CHECK(table.good[0].lot.yield_pct == Approx(55.0));
}

TEST_CASE("what a record holds at the most, and says of it to the milligram") {
    const Folder folder;
    const fs::path path = folder / "stash.db";
    stash::Stash stash = opened(path);
    const std::string mark = got(stash.add(wool("kelp"), 100.0)).mark;
    // A text of twenty thousand letters is a short story, a recipe of a million a library.
    const auto with_notes = [&](std::size_t letters) {
        stash::Lot lot = wool();
        lot.notes = std::string(letters, 'x');
        return stash.add(lot, 5.0).has_value();
    };
    CHECK(with_notes(19'500));
    CHECK_FALSE(with_notes(21'000));
    const auto with_recipe = [&](std::size_t letters) {
        stash::Carding card = carding({{mark, 1.0}});
        card.recipe = std::string(letters, '#');
        return stash.card_it(card).has_value();
    };
    CHECK(with_recipe(990'000));
    CHECK_FALSE(with_recipe(1'100'000));
    const auto with_forecast = [&](std::size_t letters) {
        stash::Skein skein;
        skein.name = "ebb";
        skein.metres = 60.0;
        skein.foretold = stash::Foretold{60.0, 50.0, 70.0, 9.0, std::string(letters, ' ')};
        return stash.log(skein).has_value();
    };
    CHECK(with_forecast(990'000));
    CHECK_FALSE(with_forecast(1'100'000));
    // A thousand batts of one carding; a hundred tonnes in a bag.
    const auto batts = [&](int count) {
        stash::Carding card = carding({{mark, 1.0}});
        card.batts = count;
        return stash.card_it(card).has_value();
    };
    CHECK(batts(950));
    CHECK_FALSE(batts(1'100));
    CHECK(stash.add(wool(), 0.95e8).has_value());
    CHECK_FALSE(stash.add(wool(), 1.1e8).has_value());
    // No fleece leaves more than it weighs, and a share of more than all is told as that.
    stash::Lot fleece = wool();
    fleece.raw = true;
    fleece.yield_pct = 110.0;
    CHECK(holds(line_of(stash.add(fleece, 5.0)), "1 to 100 % of the raw weight"));
    stash::Lot more = wool();
    more.content = {{"merino-fine", 110.0}};
    CHECK(holds(line_of(stash.add(more, 5.0)), "a share of 110 %"));
    // Weights are told to the milligram.
    const std::string small = got(stash.add(wool("tar"), 10.123)).mark;
    const auto short_of = stash.card_it(carding({{small, 10.4567}}));
    REQUIRE_FALSE(short_of.has_value());
    CHECK(holds(measure::to_line(short_of.error().complaint), "10.123 g of 10.457 g"));
    // The file counts micrograms: ten lines, each off by half of one, may come to five more than there are.
    const auto over_by = [&](double micrograms) {
        const std::string bag = got(stash.add(wool("rope"), 20.0)).mark;
        return stash.card_it(carding({{bag, 20.0 + micrograms * 1e-6}})).has_value();
    };
    CHECK(over_by(4.0));
    CHECK_FALSE(over_by(6.0));
}

TEST_CASE("a file with a text or a sum beyond what anybody enters is told") {
    const auto told = [](const std::string& sql, const char* what) {
        const Folder folder;
        const fs::path path = folder / "stash.db";
        {
            stash::Stash stash = opened(path);
            stash::Skein skein;
            skein.name = "ebb";
            skein.date = "2024-06-10";
            skein.metres = 60.0;
            got(stash.log(skein));
        }
        REQUIRE(Raw(path).run(sql) == SQLITE_OK);
        const auto health = got(opened(path).integrity());
        return std::any_of(health.problems.begin(), health.problems.end(),
                           [&](const std::string& problem) { return holds(problem, what); });
    };
    // A thousand bags as heavy as one may be: 1e11 g.
    CHECK(told("UPDATE skein SET micrograms = 110000000000000000", "beyond all reason"));
    CHECK_FALSE(told("UPDATE skein SET micrograms = 95000000000000000", "beyond all reason"));
    CHECK(told("UPDATE skein SET foretold_text = printf('%.*c', 1100000, 'x')", "long"));
    CHECK_FALSE(told("UPDATE skein SET foretold_text = printf('%.*c', 990000, 'x')", "long"));
}

TEST_CASE("how far off a photo is, in words") {
    stash::AskedPhoto asked;
    asked.sds = 3.1416;
    CHECK(holds(stash::question_words(asked), "(3.1 standard deviations off)"));
}
