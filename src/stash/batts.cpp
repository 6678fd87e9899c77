// Carding from the shelf and undoing it.
#include <algorithm>
#include <map>

#include "measure/units.hpp"
#include "recipe/thickness.hpp"
#include "stash/core.hpp"
#include "stash/lots.hpp"
#include "stash/makings.hpp"
#include "stash/millionths.hpp"

namespace battwright::stash {
namespace {

constexpr std::size_t most_recipe_bytes = 1'000'000;
// Lines that share a lot out are each rounded, and so is a raw lot's weight for its clean one: together they
// may come to this many micrograms more than there are.
constexpr std::int64_t rounding_micrograms = 5;

// What one line takes off one lot.
struct Taking {
    const Shelved* from = nullptr;
    std::int64_t clean = 0;    // micrograms, as asked
    std::int64_t as_lies = 0;  // micrograms, as they leave the bag
};
struct Takings {
    std::map<std::int64_t, Shelved> lots;  // by id
    std::vector<Taking> lines;
    std::vector<Shortfall> short_lines;
};

Taking taking_of(const Line& line, const Shelved& from) {
    Taking taking{&from, checked_amount(line.grams, "weight", "g"), 0};
    taking.as_lies = taking.clean;
    if (from.lot.raw) taking.as_lies = millionths(line.grams * 100.0 / from.lot.yield_pct);
    return taking;
}

Shortfall shortfall_of(const Shelved& lot, const std::vector<Taking>& lines) {
    std::int64_t wanted = 0;
    for (const Taking& line : lines)
        if (line.from == &lot) wanted += line.clean;
    return {lot.lot.mark, lot.lot.name, from_millionths(wanted), lot.clean_grams()};
}

// Holds what the lines want of each lot against what it has; trims a rounding error off the last line.
void weigh_against(Takings& takings) {
    for (const auto& [id, lot] : takings.lots) {
        std::int64_t left = millionths(lot.grams);
        for (Taking& line : takings.lines) {
            if (line.from != &lot) continue;
            if (line.as_lies > left && line.as_lies - left <= rounding_micrograms && left > 0) {
                line.as_lies = left;
                line.clean = std::min(line.clean, left);
            }
            left -= line.as_lies;
        }
        if (left < 0) takings.short_lines.push_back(shortfall_of(lot, takings.lines));
    }
}

Takings takings_of(const Database& database, const std::vector<Line>& lines) {
    Takings takings;
    for (const Line& line : lines) {
        Shelved lot = read_lot(database, line.mark);
        const auto found = takings.lots.emplace(lot.lot.id, std::move(lot)).first;
        takings.lines.push_back(taking_of(line, found->second));
    }
    weigh_against(takings);
    return takings;
}

measure::Complaint complaint_about(const std::vector<Shortfall>& lines) {
    std::string what =
        lines.size() == 1 ? "one lot falls short: " : std::to_string(lines.size()) + " lots fall short: ";
    for (const Shortfall& line : lines) {
        if (&line != &lines.front()) what += ", ";
        what += line.mark + " " + measure::quoted(line.name) + " has " + grams_text(line.on_hand_grams) +
                " of " + grams_text(line.wanted_grams);
    }
    return {what, "card less, or another lot in its place; nothing was taken", "shelf"};
}

void check_carding(const Carding& carding) {
    check_text(carding.name, "name");
    check_text(carding.recipe, "recipe", true, most_recipe_bytes);
    check_text(carding.notes, "notes", true);
    if (carding.lines.empty())
        fail("nothing is to be taken off the shelf", "point the recipe's components at lots", "lines");
    if (carding.batts < 1 || carding.batts > most_batts)
        fail(std::to_string(carding.batts) + " batts cannot be carded at once", "say how many, 1 to 1000",
             "batts");
    if (!(carding.retained_share > 0.0 && carding.retained_share <= 1.0))
        fail("the share that stays in the batt is none", "give it above 0 and up to 1", "retained");
}

std::optional<colour::Lab> colour_of(const Carding& carding, const Takings& takings) {
    if (carding.colour) return carding.colour;
    std::vector<std::pair<colour::Lab, double>> colours;
    for (const Taking& line : takings.lines)
        if (line.from->colour) colours.emplace_back(*line.from->colour, from_millionths(line.clean));
    return mixed_colour(colours);
}

std::int64_t insert_batt(Database& database, const Carding& carding, const Takings& takings,
                         const std::string& date) {
    const auto colour = colour_of(carding, takings);
    const auto part = [&](double colour::Lab::*which) {
        return colour ? std::optional((*colour).*which) : std::nullopt;
    };
    database.run(
        "INSERT INTO batt (name, made_on, recipe, preparation, batts, retained_share, l, a, b, notes, "
        "taken_back_on) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, '')",
        carding.name, date, carding.recipe, recipe::word_for(carding.preparation), carding.batts,
        carding.retained_share, part(&colour::Lab::l), part(&colour::Lab::a), part(&colour::Lab::b),
        carding.notes);
    return database.last_id();
}

void take(Database& database, const Takings& takings, std::int64_t batt, const std::string& date) {
    Statement line = database.prepare(
        "INSERT INTO batt_line (batt, position, lot, micrograms, movement) VALUES (?, ?, ?, ?, ?)");
    int position = 0;
    for (const Taking& taking : takings.lines) {
        Movement movement;
        movement.lot = taking.from->lot.id;
        movement.reason = Reason::carded;
        movement.grams = -from_millionths(taking.as_lies);
        movement.date = date;
        movement.batt = batt;
        const std::int64_t id = insert_movement(database, movement);
        line.bind(batt, position++, movement.lot, taking.clean, id).run();
    }
}

void put_back(Database& database, std::int64_t batt, const std::string& note, const std::string& date) {
    Statement rows = database.prepare(
        "SELECT batt_line.lot, batt_line.movement, batt_line.micrograms AS clean, movement.micrograms AS "
        "moved, lot.raw "
        "FROM batt_line JOIN movement ON movement.id = batt_line.movement JOIN lot ON lot.id = batt_line.lot "
        "WHERE batt_line.batt = ? ORDER BY position");
    rows.bind(batt);
    while (rows.step()) {
        // A lot that was scoured since then gets clean fibre back.
        const bool raw_now = rows.whole("raw") != 0;
        Movement movement;
        movement.lot = rows.whole("lot");
        movement.reason = Reason::taken_back;
        movement.grams = from_millionths(raw_now ? -rows.whole("moved")
                                                 : std::min(-rows.whole("moved"), rows.whole("clean")));
        movement.date = date;
        movement.note = note;
        movement.batt = batt;
        movement.of_movement = rows.whole("movement");
        insert_movement(database, movement);
    }
}

void check_stands(const Batt& batt) {
    if (batt.taken_back_on.empty()) return;
    fail("the batt " + measure::quoted(batt.carding.name) + " was taken back on " + batt.taken_back_on,
         "card it again if it was made after all", "batt");
}

}  // namespace

tl::expected<Batt, Refusal> Stash::card_it(const Carding& carding) {
    Refusal refusal;
    auto done = writing(core_->database, [&] {
        Database& database = core_->database;
        check_carding(carding);
        const std::string date = date_or_today(carding.date);
        const Takings takings = takings_of(database, carding.lines);
        if (!takings.short_lines.empty()) {
            refusal.short_lines = takings.short_lines;
            throw Failed{complaint_about(takings.short_lines)};
        }
        const std::int64_t id = insert_batt(database, carding, takings, date);
        take(database, takings, id, date);
        return read_batt(database, id);
    });
    if (done) return std::move(*done);
    refusal.complaint = std::move(done.error());
    return tl::make_unexpected(std::move(refusal));
}

Expected<void> Stash::take_back(std::int64_t batt, std::string_view note, std::string_view date) {
    return writing(core_->database, [&] {
        Database& database = core_->database;
        check_text(note, "note", true);
        const std::string day = date_or_today(date);
        const Batt made = read_batt(database, batt);
        check_stands(made);
        Statement spun = database.prepare(
            "SELECT skein.name FROM skein_from JOIN skein ON skein.id = skein_from.skein WHERE batt = ?");
        if (spun.bind(batt).step())
            fail("the skein " + measure::quoted(spun.text(0)) + " was spun from this batt",
                 "remove the skein first, if it never was", "batt");
        put_back(database, batt, std::string(note), day);
        database.run("UPDATE batt SET taken_back_on = ? WHERE id = ?", day, batt);
    });
}

Expected<void> Stash::off_the_drum(std::int64_t batt, double grams, std::string_view note,
                                   std::string_view date) {
    return writing(core_->database, [&] {
        Database& database = core_->database;
        check_text(note, "note", true);
        const Batt made = read_batt(database, batt);
        check_stands(made);
        const std::int64_t weight = checked_amount(grams, "weight", "g");
        // Bounds of belief as in learning, so that what is kept is also learnt from.
        const double share = grams / (made.fed_grams * made.carding.retained_share);
        if (share < least_share || share > most_share)
            fail(
                "the batt weighs " + grams_text(grams) + " where " + grams_text(made.fed_grams) + " were fed",
                "weigh all its batts together, and look again at the unit", "weight");
        database.run("INSERT INTO off_drum (batt, micrograms, made_on, note) VALUES (?, ?, ?, ?)", batt,
                     weight, date_or_today(date), note);
    });
}

}  // namespace battwright::stash
