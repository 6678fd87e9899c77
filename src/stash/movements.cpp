#include <cstdlib>

#include "measure/units.hpp"
#include "stash/core.hpp"
#include "stash/lots.hpp"
#include "stash/millionths.hpp"

namespace battwright::stash {
namespace {

// Of one lot, unlike the sum's own CHECK with a complaint that says how much there is.
void check_enough(const Shelved& shelved, double leaving_grams) {
    if (millionths(shelved.grams) >= millionths(leaving_grams)) return;
    fail(shelved.lot.mark + " " + measure::quoted(shelved.lot.name) + " has " + grams_text(shelved.grams) +
             ", less than " + grams_text(leaving_grams),
         "take less, or weigh the bag again", "weight");
}

// A lot counts in one currency: the first to be named.
void check_currency(Database& database, const Shelved& shelved, const std::string& currency) {
    check_text(currency, "currency");
    Statement row = database.prepare("SELECT currency FROM lot WHERE id = ?");
    row.bind(shelved.lot.id).step();
    const std::string of_lot = row.text(0);
    if (of_lot == currency) return;
    if (!of_lot.empty())
        fail("the lot is counted in " + measure::quoted(of_lot) + ", not in " + measure::quoted(currency),
             "give the cost in the lot's own currency, or add a lot of its own", "cost");
    database.run("UPDATE lot SET currency = ? WHERE id = ?", currency, shelved.lot.id);
}

void check_cost(Database& database, const Shelved& shelved, const Move& move) {
    if (!move.cost) return;
    if (move.reason != Reason::bought) fail("only what is bought has a cost", "leave the cost out", "cost");
    if (!(move.cost->amount >= 0.0 && move.cost->amount <= most_amount))
        fail("the cost is not a sum of money", "write what was paid, or leave it out", "cost");
    check_currency(database, shelved, move.cost->currency);
}

bool leaves(Reason reason) {
    return reason == Reason::wasted || reason == Reason::given;
}

// The bag's new weight as the scale shows it; zero passes.
double checked_weight(double grams) {
    if (grams == 0.0) return 0.0;
    return from_millionths(checked_amount(grams, "weight", "g"));
}

Movement kept(Database& database, Movement movement, const Shelved& shelved) {
    movement.lot = shelved.lot.id;
    check_text(movement.note, "note", true);
    if (movement.grams < 0.0) check_enough(shelved, -movement.grams);
    if (millionths(shelved.grams + movement.grams) > millionths(most_amount))
        fail("the lot would weigh beyond all reason", "look again at the number and its unit", "weight");
    movement.id = insert_movement(database, movement);
    return movement;
}

struct CorrectedMovement {
    Movement movement;
    std::string mark;
    std::int64_t now_micrograms = 0;  // with the corrections made so far
};

CorrectedMovement movement_to_restate(const Database& database, std::int64_t id) {
    Statement row = database.prepare(std::string("SELECT ") + movement_columns +
                                     ", lot.mark, movement.micrograms + coalesce((SELECT sum(c.micrograms) "
                                     "FROM movement c WHERE c.of_movement = movement.id), 0) AS now "
                                     "FROM movement JOIN lot ON lot.id = movement.lot WHERE movement.id = ?");
    if (!row.bind(id).step())
        fail("there is no movement " + std::to_string(id), "look at the lot's movements again", "movement");
    return {movement_in(row), row.text("mark"), row.whole("now")};
}

void check_can_be_corrected(const Movement& movement) {
    if (movement.reason == Reason::carded || movement.reason == Reason::taken_back)
        fail("what went into a batt is not corrected alone", "take the batt back and card it again",
             "movement");
    if (movement.reason == Reason::corrected)
        fail("this is a correction itself", "correct the movement it names once more", "movement");
    if (movement.reason == Reason::scoured)
        fail("what the bath took is not corrected", "weigh the lot again", "movement");
}

}  // namespace

std::int64_t insert_movement(Database& database, const Movement& movement) {
    const auto cost = movement.cost ? std::optional(millionths(movement.cost->amount)) : std::nullopt;
    database.run(
        "INSERT INTO movement (lot, reason, micrograms, made_on, note, cost, batt, of_movement) "
        "VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
        movement.lot, word_for(movement.reason), millionths(movement.grams), movement.date, movement.note,
        cost, movement.batt, movement.of_movement);
    return database.last_id();
}

Movement movement_in(const Statement& row) {
    Movement movement;
    movement.id = row.whole("id");
    movement.lot = row.whole("lot");
    movement.reason = value_of(parse_reason(row.text("reason")));
    movement.grams = from_millionths(row.whole("micrograms"));
    movement.date = row.text("made_on");
    movement.note = row.text("note");
    if (const auto cost = row.maybe_whole("cost"))
        movement.cost = Money{from_millionths(*cost), row.text("currency")};
    movement.batt = row.maybe_whole("batt");
    movement.of_movement = row.maybe_whole("of_movement");
    return movement;
}

Expected<std::vector<Movement>> Stash::movements(std::string_view mark) const {
    return reading(core_->database, [&] {
        const Shelved shelved = read_lot(core_->database, mark);
        Statement rows = core_->database.prepare(
            std::string("SELECT ") + movement_columns +
            " FROM movement JOIN lot ON lot.id = movement.lot WHERE movement.lot = ? ORDER BY movement.id");
        rows.bind(shelved.lot.id);
        std::vector<Movement> found;
        while (rows.step()) found.push_back(movement_in(rows));
        return found;
    });
}

Expected<Movement> Stash::move(const Move& move) {
    return writing(core_->database, [&] {
        if (move.reason != Reason::bought && !leaves(move.reason))
            fail("a lot is not moved by being " + std::string(word_for(move.reason)),
                 "say bought, wasted or given", "reason");
        const Shelved shelved = read_lot(core_->database, move.mark);
        const double grams = from_millionths(checked_amount(move.grams, "weight", "g"));
        check_cost(core_->database, shelved, move);
        Movement movement;
        movement.reason = move.reason;
        movement.grams = leaves(move.reason) ? -grams : grams;
        movement.date = date_or_today(move.date);
        movement.note = move.note;
        movement.cost = move.cost;
        return kept(core_->database, movement, shelved);
    });
}

Expected<Movement> Stash::weigh_again(std::string_view mark, double grams, std::string_view note,
                                      std::string_view date) {
    return writing(core_->database, [&] {
        const Shelved shelved = read_lot(core_->database, mark);
        Movement movement;
        movement.reason = Reason::weighed;
        movement.grams = from_millionths(millionths(checked_weight(grams)) - millionths(shelved.grams));
        movement.date = date_or_today(date);
        movement.note = note;
        movement.lot = shelved.lot.id;
        return movement.grams == 0.0 ? movement : kept(core_->database, movement, shelved);
    });
}

Expected<Movement> Stash::scour(std::string_view mark, double grams, std::string_view note,
                                std::string_view date) {
    return writing(core_->database, [&] {
        const Shelved shelved = read_lot(core_->database, mark);
        if (!shelved.lot.raw)
            fail(shelved.lot.mark + " is not raw", "weigh it again if its weight has changed", "mark");
        const double after = from_millionths(checked_amount(grams, "weight", "g"));
        if (millionths(after) >= millionths(shelved.grams))
            fail("the lot weighs " + grams_text(shelved.grams) + " raw, and would gain in the bath",
                 "write its weight when it is dry again", "weight");
        Movement movement;
        movement.reason = Reason::scoured;
        movement.grams = from_millionths(millionths(after) - millionths(shelved.grams));
        movement.date = date_or_today(date);
        movement.note = note;
        core_->database.run("UPDATE lot SET raw = 0, yield_pct = 100.0 WHERE id = ?", shelved.lot.id);
        return kept(core_->database, movement, shelved);
    });
}

Expected<Movement> Stash::correct(std::int64_t movement, double grams, std::string_view note,
                                  std::string_view date) {
    return writing(core_->database, [&] {
        const CorrectedMovement old = movement_to_restate(core_->database, movement);
        check_can_be_corrected(old.movement);
        // To nought is fine: it never happened.
        if (!(std::abs(grams) <= most_amount) || grams * old.movement.grams < 0.0)
            fail("the movement was " + grams_text(old.movement.grams) + " and cannot become " +
                     measure::write_number(grams) + " g",
                 "keep its sign: plus what came, minus what left", "weight");
        Movement correction;
        correction.reason = Reason::corrected;
        correction.grams = from_millionths(millionths(grams) - old.now_micrograms);
        correction.date = date_or_today(date);
        correction.note = note;
        correction.of_movement = movement;
        correction.lot = old.movement.lot;
        if (correction.grams == 0.0) return correction;
        return kept(core_->database, correction, read_lot(core_->database, old.mark));
    });
}

}  // namespace battwright::stash
