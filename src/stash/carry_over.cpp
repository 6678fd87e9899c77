// The steps to a newer layout. Version 1 knew one kind and one colour a lot, no marks, weights in grams as
// floating point, and skeins of one batt; sums were made anew at each look.
#include "colour/spaces.hpp"
#include "recipe/thickness.hpp"
#include "stash/date.hpp"
#include "stash/lots.hpp"
#include "stash/millionths.hpp"
#include "stash/schema.hpp"

namespace battwright::stash {
namespace {

void rename_old(Database& database) {
    // The tables' names are ours; their indexes would keep theirs, so they go.
    database.script(R"sql(
DROP INDEX IF EXISTS movement_of_lot;
ALTER TABLE lot RENAME TO lot_1;
ALTER TABLE movement RENAME TO movement_1;
ALTER TABLE batt RENAME TO batt_1;
ALTER TABLE skein RENAME TO skein_1;
)sql");
}

void drop_old(Database& database) {
    database.script("DROP TABLE skein_1; DROP TABLE movement_1; DROP TABLE batt_1; DROP TABLE lot_1");
}

Lot old_lot(const Statement& row) {
    Lot lot;
    lot.id = row.whole("id");
    lot.name = row.text("name");
    lot.content.push_back({row.text("fibre")});
    if (const auto colour = colour::parse_hex(row.text("colour"))) lot.palette.push_back({*colour});
    lot.form = parse_form(row.text("form")).value_or(Form::other);
    if (const auto cost = row.maybe_real("cost")) lot.cost = Money{*cost, row.text("currency")};
    lot.maker = row.text("maker");
    lot.got_on = row.text("got_on");
    lot.place = row.text("place");
    lot.notes = row.text("notes");
    return lot;
}

void insert_in_version_2(Database& database, const Lot& lot, const fibre::Catalogue& catalogue) {
    const auto colour = mean_colour(lot, catalogue);
    const auto part = [&](double colour::Lab::*of) {
        return colour ? std::optional((*colour).*of) : std::nullopt;
    };
    const auto cost = lot.cost ? std::optional(millionths(lot.cost->amount)) : std::nullopt;
    database.run(
        "INSERT INTO lot (id, mark, name, form, raw, yield_pct, cost, currency, maker, got_on, place, photo, "
        "notes, mean_l, mean_a, mean_b) VALUES (?, ?, ?, ?, 0, 100.0, ?, ?, ?, ?, ?, '', ?, ?, ?, ?)",
        lot.id, lot.mark, lot.name, word_for(lot.form), cost, lot.cost ? lot.cost->currency : std::string(),
        lot.maker, lot.got_on, lot.place, lot.notes, part(&colour::Lab::l), part(&colour::Lab::a),
        part(&colour::Lab::b));
    database.run("INSERT INTO content (lot, position, fibre, share_pct) VALUES (?, 0, ?, 100.0)", lot.id,
                 lot.content.front().fibre);
    for (const recipe::Tint& tint : lot.palette)
        database.run("INSERT INTO tint (lot, position, r, g, b, share_pct) VALUES (?, 0, ?, ?, ?, 100.0)",
                     lot.id, tint.colour.r, tint.colour.g, tint.colour.b);
}

void copy_lots(Database& database, const fibre::Catalogue& catalogue) {
    Statement rows = database.prepare(
        "SELECT id, name, fibre, colour, form, cost, currency, maker, got_on, place, notes FROM lot_1");
    while (rows.step()) {
        Lot lot = old_lot(rows);
        lot.mark = free_mark(database);
        insert_in_version_2(database, lot, catalogue);
    }
}

void copy_batts(Database& database) {
    database.run(
        "INSERT INTO batt (id, name, made_on, recipe, preparation, batts, retained_share, notes, "
        "taken_back_on) SELECT id, name, made_on, recipe, 'woollen', 1, 1.0, '', '' FROM batt_1");
}

// Keeps a lot's sum from going below nought on the way: rounding may take a microgram too much, and version 1
// did not look.
void fill_up(Database& database, std::int64_t lot, std::int64_t micrograms, const std::string& date) {
    Statement sum = database.prepare("SELECT micrograms FROM on_hand WHERE lot = ?");
    const std::int64_t on_hand = sum.bind(lot).step() ? sum.whole(0) : 0;
    if (on_hand + micrograms >= 0) return;
    database.run(
        "INSERT INTO movement (lot, reason, micrograms, made_on, note) VALUES (?, 'weighed', ?, ?, ?)", lot,
        -(on_hand + micrograms), date, "carried over from version 1, whose sum fell below nought");
}

void copy_movements(Database& database) {
    Statement rows =
        database.prepare("SELECT lot, reason, grams, made_on, note, batt FROM movement_1 ORDER BY id");
    Statement line = database.prepare(
        "INSERT INTO batt_line (batt, position, lot, micrograms, movement) VALUES "
        "(?1, (SELECT count(*) FROM batt_line WHERE batt = ?1), ?2, ?3, ?4)");
    while (rows.step()) {
        const std::int64_t micrograms = millionths(rows.real("grams"));
        if (micrograms == 0) continue;
        const std::int64_t lot = rows.whole("lot");
        // A correction of version 1 named no movement: it was a weighing.
        const std::string reason = rows.text("reason") == "corrected" ? "weighed" : rows.text("reason");
        fill_up(database, lot, micrograms, rows.text("made_on"));
        database.run(
            "INSERT INTO movement (lot, reason, micrograms, made_on, note, batt) VALUES (?, ?, ?, ?, ?, ?)",
            lot, reason, micrograms, rows.text("made_on"), rows.text("note"), rows.maybe_whole("batt"));
        if (reason != "carded") continue;
        line.bind(rows.maybe_whole("batt"), lot, -micrograms, database.last_id()).run();
    }
}

void copy_skeins(Database& database) {
    database.run(
        "INSERT INTO skein (id, name, made_on, micrograms, micrometres, wpi, plies, preparation, nominal_m, "
        "low_m, high_m, foretold_g, foretold_text, counts, photo, note, became) "
        "SELECT id, name, made_on, CAST(round(grams * 1e6) AS INTEGER), CAST(round(metres * 1e6) AS "
        "INTEGER), "
        "wpi, plies, preparation, nominal_m, iif(nominal_m IS NULL, NULL, 0.0), "
        "iif(nominal_m IS NULL, NULL, 0.0), iif(nominal_m IS NULL, NULL, 0.0), "
        "iif(nominal_m IS NULL, NULL, ''), 1, '', note, became FROM skein_1");
    database.run(
        "INSERT INTO skein_from (skein, position, batt, share_pct) "
        "SELECT id, 0, batt, 100.0 FROM skein_1 WHERE batt IS NOT NULL");
}

}  // namespace

void carry_over_version_1(Database& database, const fibre::Catalogue& catalogue) {
    rename_old(database);
    database.script(schema_of_version_2());
    copy_lots(database, catalogue);
    copy_batts(database);
    copy_movements(database);
    copy_skeins(database);
    drop_old(database);
}

// Version 2 kept no plans: nothing is known of them.
void carry_over_version_2(Database& database, const fibre::Catalogue& /*catalogue*/) {
    database.script(plan_schema());
}

// Version 3 kept no photos of batts.
void carry_over_version_3(Database& database, const fibre::Catalogue& /*catalogue*/) {
    database.script(photo_schema());
}

// Version 4 kept no colours of skeins.
void carry_over_version_4(Database& database, const fibre::Catalogue& /*catalogue*/) {
    database.script(skein_colour_schema());
}

}  // namespace battwright::stash
