#include <cmath>
#include <unordered_map>

#include "measure/units.hpp"
#include "recipe/thickness.hpp"
#include "stash/core.hpp"
#include "stash/lots.hpp"
#include "stash/makings.hpp"
#include "stash/millionths.hpp"

namespace battwright::stash {
namespace {

constexpr std::size_t most_forecast_bytes = 1'000'000;
constexpr double from_shares_within_pct = 0.05;
constexpr int most_strands = 1000;
constexpr double most_wraps = 1000.0;

constexpr const char* skein_query =
    "SELECT id, name, made_on, micrograms, micrometres, wpi, plies, preparation, nominal_m, low_m, high_m, "
    "foretold_g, foretold_text, counts, photo, note, became, wanted_wpi, strands, changed_plan, confirmed, "
    "law "
    "FROM skein LEFT JOIN skein_plan ON skein_plan.skein = skein.id ";

Skein skein_in(const Statement& row) {
    Skein skein;
    skein.id = row.whole("id");
    skein.name = row.text("name");
    skein.date = row.text("made_on");
    skein.grams = from_millionths(row.whole("micrograms"));
    skein.metres = from_millionths(row.whole("micrometres"));
    skein.wpi = row.real("wpi");
    skein.plies = static_cast<int>(row.whole("plies"));
    skein.preparation = preparation_of(row.text("preparation"));
    if (!row.is_null("nominal_m"))
        skein.foretold = Foretold{row.real("nominal_m"), row.real("low_m"), row.real("high_m"),
                                  row.real("foretold_g"), row.text("foretold_text")};
    skein.counts = row.whole("counts") != 0;
    skein.photo = row.text("photo");
    skein.note = row.text("note");
    skein.became = row.text("became");
    if (row.is_null("wanted_wpi")) {  // logged before plans were kept
        if (skein.foretold) skein.foretold->law = 1;
        return skein;
    }
    if (skein.foretold) {
        skein.foretold->wanted_wpi = row.real("wanted_wpi");
        skein.foretold->strands = static_cast<int>(row.whole("strands"));
        skein.foretold->law = static_cast<int>(row.whole("law"));
    }
    skein.changed_plan = row.whole("changed_plan") != 0;
    skein.confirmed = row.whole("confirmed") != 0;
    return skein;
}

bool in_bounds(double value, double most) {
    return value >= 0.0 && value <= most;
}

void check_measures(const Skein& skein) {
    const auto complain = [](const char* noun) {
        fail(std::string("the ") + noun + " of the skein is none",
             "write it above zero, or leave it out until it is known", noun);
    };
    if (!in_bounds(skein.grams, most_amount)) complain("weight");
    if (!in_bounds(skein.metres, most_amount)) complain("length");
    if (!in_bounds(skein.wpi, most_wraps)) complain("wpi");
    if (skein.plies < 0 || skein.plies > most_strands) complain("plies");
    if (!skein.foretold) return;
    const Foretold& foretold = *skein.foretold;
    if (!in_bounds(foretold.wanted_wpi, most_wraps)) complain("wanted wpi");
    if (foretold.strands < 0 || foretold.strands > most_strands) complain("planned strands");
    for (const double figure : {foretold.nominal_length_m, foretold.low_m, foretold.high_m, foretold.grams})
        if (!in_bounds(figure, most_amount)) complain("forecast");
    check_text(foretold.text, "forecast", true, most_forecast_bytes);
}

void check_from(const Database& database, const Skein& skein) {
    double sum = 0.0;
    for (const FromBatt& part : skein.from) {
        const Batt batt = read_batt(database, part.batt);
        if (!batt.taken_back_on.empty())
            fail("the batt " + measure::quoted(batt.carding.name) + " was taken back",
                 "name the batt the skein was spun from", "batt");
        if (!(part.share_pct > 0.0 && part.share_pct <= 100.0))
            fail("a batt's share of the skein is none", "write it above 0 and up to 100 %", "batt");
        sum += part.share_pct;
    }
    if (!skein.from.empty() && !(std::abs(sum - 100.0) <= from_shares_within_pct))
        fail("the batts' shares of the skein come to " + measure::print_percent(sum),
             "make them come to 100 %", "batt");
}

std::string metres_text(double metres) {
    return measure::print_yarn_length(metres, measure::YarnLengthUnit::metre);
}

// No fibre is finer than a tenth of a tex, and yarn has many; no rope is heavier. Common practice, no source:
// what lies beyond is a slip of the pen, and would be passed over in learning without a word.
constexpr double finest_tex = 1.0, heaviest_tex = 100'000.0;

void check_fineness(const Skein& skein) {
    if (!(skein.grams > 0.0) || !(skein.metres > 0.0)) return;
    const double tex = 1000.0 * skein.grams / skein.metres;
    if (tex >= finest_tex && tex <= heaviest_tex) return;
    fail(grams_text(skein.grams) + " is not the weight of " + metres_text(skein.metres) + " of yarn",
         "look again at both numbers and their units", "length");
}

// A forecast's own figures, none without one.
std::optional<double> foretold(const Skein& skein, double Foretold::*figure) {
    return skein.foretold ? std::optional((*skein.foretold).*figure) : std::nullopt;
}

void insert_row(Database& database, const Skein& skein) {
    const std::optional<std::int64_t> id = skein.id != 0 ? std::optional(skein.id) : std::nullopt;
    const auto text = skein.foretold ? std::optional(skein.foretold->text) : std::nullopt;
    database.run(
        "INSERT INTO skein (id, name, made_on, micrograms, micrometres, wpi, plies, preparation, nominal_m, "
        "low_m, high_m, foretold_g, foretold_text, counts, photo, note, became) "
        "VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?) "
        "ON CONFLICT (id) DO UPDATE SET name = excluded.name, made_on = excluded.made_on, "
        "micrograms = excluded.micrograms, micrometres = excluded.micrometres, wpi = excluded.wpi, "
        "plies = excluded.plies, preparation = excluded.preparation, nominal_m = excluded.nominal_m, "
        "low_m = excluded.low_m, high_m = excluded.high_m, foretold_g = excluded.foretold_g, "
        "foretold_text = excluded.foretold_text, counts = excluded.counts, photo = excluded.photo, "
        "note = excluded.note, became = excluded.became",
        id, skein.name, skein.date, millionths(skein.grams), millionths(skein.metres), skein.wpi, skein.plies,
        recipe::word_for(skein.preparation), foretold(skein, &Foretold::nominal_length_m),
        foretold(skein, &Foretold::low_m), foretold(skein, &Foretold::high_m),
        foretold(skein, &Foretold::grams), text, skein.counts, skein.photo, skein.note, skein.became);
}

void insert_plan(Database& database, const Skein& skein) {
    const Foretold plan = skein.foretold.value_or(Foretold{});
    database.run(
        "INSERT INTO skein_plan (skein, wanted_wpi, strands, changed_plan, confirmed, law) "
        "VALUES (?, ?, ?, ?, ?, ?) "
        "ON CONFLICT (skein) DO UPDATE SET wanted_wpi = excluded.wanted_wpi, strands = excluded.strands, "
        "changed_plan = excluded.changed_plan, confirmed = excluded.confirmed, law = excluded.law",
        skein.id, plan.wanted_wpi, plan.strands, skein.changed_plan, skein.confirmed, plan.law);
}

void insert_from(Database& database, const Skein& skein) {
    Statement part =
        database.prepare("INSERT INTO skein_from (skein, position, batt, share_pct) VALUES (?, ?, ?, ?)");
    int position = 0;
    for (const FromBatt& from : skein.from) part.bind(skein.id, position++, from.batt, from.share_pct).run();
}

void insert_palette(Database& database, const Skein& skein) {
    Statement tint = database.prepare(
        "INSERT INTO skein_tint (skein, position, r, g, b, share_pct) VALUES (?, ?, ?, ?, ?, ?)");
    int position = 0;
    for (const recipe::Tint& part : skein.palette)
        tint.bind(skein.id, position++, part.colour.r, part.colour.g, part.colour.b, part.share_pct).run();
}

recipe::Tint tint_of(const Statement& row) {
    return {{row.real("r"), row.real("g"), row.real("b")}, row.real("share_pct")};
}

std::int64_t allocated_micrometres(const Database& database, std::int64_t skein) {
    Statement row = database.prepare("SELECT coalesce(sum(micrometres), 0) FROM allocation WHERE skein = ?");
    row.bind(skein).step();
    return row.whole(0);
}

}  // namespace

void check_skein(const Database& database, const Skein& skein) {
    check_text(skein.name, "name");
    check_text(skein.photo, "photo");
    check_text(skein.note, "note", true);
    check_text(skein.became, "became", true);
    check_palette(skein.palette);
    check_measures(skein);
    check_from(database, skein);
}

std::vector<Skein> read_skeins(const Database& database, std::optional<std::int64_t> only) {
    std::vector<Skein> skeins;
    std::unordered_map<std::int64_t, std::size_t> at;
    Statement rows = rows_asked(database, skein_query, "id", only, "made_on, id");
    while (rows.step()) {
        skeins.push_back(skein_in(rows));
        at[skeins.back().id] = skeins.size() - 1;
    }
    Statement parts = rows_asked(database, "SELECT skein, batt, share_pct FROM skein_from ", "skein", only,
                                 "skein, position");
    while (parts.step()) {
        if (const auto found = at.find(parts.whole("skein")); found != at.end())
            skeins[found->second].from.push_back({parts.whole("batt"), parts.real("share_pct")});
    }
    Statement tints = rows_asked(database, "SELECT skein, r, g, b, share_pct FROM skein_tint ", "skein", only,
                                 "skein, position");
    while (tints.step()) {
        if (const auto found = at.find(tints.whole("skein")); found != at.end())
            skeins[found->second].palette.push_back(tint_of(tints));
    }
    return skeins;
}

Skein read_skein(const Database& database, std::int64_t id) {
    auto found = read_skeins(database, id);
    if (found.empty())
        fail("there is no skein " + std::to_string(id), "look at the list of skeins again", "skein");
    return std::move(found.front());
}

Expected<Skein> Stash::skein(std::int64_t id) const {
    return reading(core_->database, [&] { return read_skein(core_->database, id); });
}

Expected<std::vector<Skein>> Stash::skeins() const {
    return reading(core_->database, [&] { return read_skeins(core_->database); });
}

Expected<Skein> Stash::log(const Skein& skein) {
    return writing(core_->database, [&] {
        check_skein(core_->database, skein);
        check_fineness(skein);
        Skein made = skein;
        made.id = 0;
        made.date = date_or_today(skein.date);
        insert_row(core_->database, made);
        made.id = core_->database.last_id();
        insert_plan(core_->database, made);
        insert_from(core_->database, made);
        insert_palette(core_->database, made);
        return read_skein(core_->database, made.id);
    });
}

Expected<void> Stash::change(const Skein& skein) {
    return writing(core_->database, [&] {
        Database& database = core_->database;
        read_skein(database, skein.id);
        check_skein(database, skein);
        check_fineness(skein);
        const double promised = from_millionths(allocated_micrometres(database, skein.id));
        if (millionths(skein.metres) < millionths(promised))
            fail("projects were promised " + metres_text(promised) + " of this skein",
                 "release some of it first", "length");
        Skein changed = skein;
        changed.date = date_or_today(skein.date);
        insert_row(database, changed);
        insert_plan(database, changed);
        database.run("DELETE FROM skein_from WHERE skein = ?", changed.id);
        insert_from(database, changed);
        database.run("DELETE FROM skein_tint WHERE skein = ?", changed.id);
        insert_palette(database, changed);
    });
}

Expected<void> Stash::remove_skein(std::int64_t id) {
    return writing(core_->database, [&] {
        read_skein(core_->database, id);
        core_->database.run("DELETE FROM allocation WHERE skein = ?", id);
        core_->database.run("DELETE FROM skein_from WHERE skein = ?", id);
        core_->database.run("DELETE FROM skein_plan WHERE skein = ?", id);
        core_->database.run("DELETE FROM skein_tint WHERE skein = ?", id);
        core_->database.run("DELETE FROM skein WHERE id = ?", id);
    });
}

Expected<double> Stash::metres_left(std::int64_t skein) const {
    return reading(core_->database, [&] {
        const std::int64_t whole = millionths(read_skein(core_->database, skein).metres);
        return from_millionths(whole - allocated_micrometres(core_->database, skein));
    });
}

Expected<Allocation> Stash::allocate(const Allocation& allocation) {
    return writing(core_->database, [&] {
        Database& database = core_->database;
        check_text(allocation.project, "project");
        if (allocation.project.find_first_not_of(' ') == std::string::npos)
            fail("the project has no name", "say what the yarn is for", "project");
        const std::int64_t wanted = checked_amount(allocation.metres, "length", "m");
        const Skein skein = read_skein(database, allocation.skein);
        const std::int64_t left = millionths(skein.metres) - allocated_micrometres(database, skein.id);
        if (wanted > left)
            fail("the skein " + measure::quoted(skein.name) + " has " + metres_text(from_millionths(left)) +
                     " left, less than " + metres_text(allocation.metres),
                 "promise less, or release some of it first", "length");
        database.run("INSERT INTO allocation (skein, project, micrometres) VALUES (?, ?, ?)", skein.id,
                     allocation.project, wanted);
        return Allocation{database.last_id(), skein.id, allocation.project, from_millionths(wanted)};
    });
}

Expected<void> Stash::release(std::int64_t allocation) {
    return writing(core_->database, [&] {
        Statement there = core_->database.prepare("SELECT 1 FROM allocation WHERE id = ?");
        if (!there.bind(allocation).step())
            fail("there is no allocation " + std::to_string(allocation), "look at the projects again",
                 "project");
        core_->database.run("DELETE FROM allocation WHERE id = ?", allocation);
    });
}

Expected<std::vector<Allocation>> Stash::allocations() const {
    return reading(core_->database, [&] {
        Statement rows = core_->database.prepare(
            "SELECT id, skein, project, micrometres FROM allocation ORDER BY project, id");
        std::vector<Allocation> found;
        while (rows.step())
            found.push_back({rows.whole("id"), rows.whole("skein"), rows.text("project"),
                             from_millionths(rows.whole("micrometres"))});
        return found;
    });
}

}  // namespace battwright::stash
