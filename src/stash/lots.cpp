#include "stash/lots.hpp"

#include <algorithm>
#include <cmath>
#include <random>
#include <unordered_map>

#include "measure/units.hpp"
#include "stash/core.hpp"
#include "stash/date.hpp"
#include "stash/millionths.hpp"

namespace battwright::stash {
namespace {

constexpr const char* lot_row_columns =
    "lot.id, lot.mark, lot.name, lot.form, lot.raw, lot.yield_pct, lot.cost, lot.currency, lot.maker, "
    "lot.got_on, lot.place, lot.photo, lot.notes, lot.staple_mm, lot.diameter_um, lot.mean_l, lot.mean_a, "
    "lot.mean_b, on_hand.micrograms";

Shelved shelved_in(const Statement& row) {
    Shelved shelved;
    Lot& lot = shelved.lot;
    lot.id = row.whole("id");
    lot.mark = row.text("mark");
    lot.name = row.text("name");
    lot.form = parse_form(row.text("form")).value_or(Form::other);
    lot.raw = row.whole("raw") != 0;
    lot.yield_pct = row.real("yield_pct");
    if (const auto cost = row.maybe_whole("cost"))
        lot.cost = Money{from_millionths(*cost), row.text("currency")};
    lot.maker = row.text("maker");
    lot.got_on = row.text("got_on");
    lot.place = row.text("place");
    lot.photo = row.text("photo");
    lot.notes = row.text("notes");
    lot.staple_mm = row.maybe_real("staple_mm");
    lot.diameter_um = row.maybe_real("diameter_um");
    if (!row.is_null("mean_l"))
        shelved.colour = colour::Lab{row.real("mean_l"), row.real("mean_a"), row.real("mean_b")};
    shelved.grams = from_millionths(row.whole("micrograms"));
    return shelved;
}

recipe::Content content_in(const Statement& row) {
    return {row.text("fibre"), row.real("share_pct")};
}
recipe::Tint tint_in(const Statement& row) {
    return {{row.real("r"), row.real("g"), row.real("b")}, row.real("share_pct")};
}
constexpr const char* content_columns = "SELECT lot, fibre, share_pct FROM content ";
constexpr const char* tint_columns = "SELECT lot, r, g, b, share_pct FROM tint ";

void insert_content_and_tints(Database& database, const Lot& lot, std::int64_t id) {
    Statement content =
        database.prepare("INSERT INTO content (lot, position, fibre, share_pct) VALUES (?, ?, ?, ?)");
    int position = 0;
    for (const recipe::Content& part : lot.content)
        content.bind(id, position++, part.fibre, part.share_pct).run();
    Statement tint =
        database.prepare("INSERT INTO tint (lot, position, r, g, b, share_pct) VALUES (?, ?, ?, ?, ?, ?)");
    position = 0;
    for (const recipe::Tint& part : lot.palette)
        tint.bind(id, position++, part.colour.r, part.colour.g, part.colour.b, part.share_pct).run();
}

std::optional<std::int64_t> cost_of(const Lot& lot) {
    return lot.cost ? std::optional(millionths(lot.cost->amount)) : std::nullopt;
}
std::string currency_of(const Lot& lot) {
    return lot.cost ? lot.cost->currency : std::string();
}

std::optional<double> part_of(const std::optional<colour::Lab>& colour, double colour::Lab::*part) {
    return colour ? std::optional((*colour).*part) : std::nullopt;
}

}  // namespace

std::string free_mark(const Database& database) {
    std::random_device random;
    std::uniform_int_distribution<std::size_t> pick(0, mark_alphabet.size() - 1);
    Statement taken = database.prepare("SELECT 1 FROM lot WHERE mark = ?");
    while (true) {
        std::string mark(mark_length, ' ');
        for (char& c : mark) c = mark_alphabet[pick(random)];
        if (!parse_mark(mark)) continue;  // all digits
        const bool free = !taken.bind(mark).step();
        taken.reset();
        if (free) return mark;
    }
}

std::int64_t insert_lot(Database& database, const Lot& lot, const fibre::Catalogue& catalogue) {
    const auto colour = mean_colour(lot, catalogue);
    const std::optional<std::int64_t> id = lot.id != 0 ? std::optional(lot.id) : std::nullopt;
    database.run(
        "INSERT INTO lot (id, mark, name, form, raw, yield_pct, cost, currency, maker, got_on, place, photo, "
        "notes, staple_mm, diameter_um, mean_l, mean_a, mean_b) "
        "VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
        id, lot.mark, lot.name, word_for(lot.form), lot.raw, lot.yield_pct, cost_of(lot), currency_of(lot),
        lot.maker, lot.got_on, lot.place, lot.photo, lot.notes, lot.staple_mm, lot.diameter_um,
        part_of(colour, &colour::Lab::l), part_of(colour, &colour::Lab::a), part_of(colour, &colour::Lab::b));
    Statement last = database.prepare("SELECT id FROM lot WHERE mark = ?");
    last.bind(lot.mark).step();
    const std::int64_t made = last.whole(0);
    insert_content_and_tints(database, lot, made);
    return made;
}

void update_lot(Database& database, const Lot& lot, const fibre::Catalogue& catalogue) {
    const auto colour = mean_colour(lot, catalogue);
    // Without a cost the lot keeps the currency its later purchases were counted in.
    database.run(
        "UPDATE lot SET name = ?, form = ?, raw = ?, yield_pct = ?, cost = ?, "
        "currency = coalesce(?, currency), maker = ?, got_on = ?, place = ?, photo = ?, notes = ?, "
        "staple_mm = ?, diameter_um = ?, mean_l = ?, mean_a = ?, mean_b = ? WHERE id = ?",
        lot.name, word_for(lot.form), lot.raw, lot.yield_pct, cost_of(lot),
        lot.cost ? std::optional(lot.cost->currency) : std::nullopt, lot.maker, lot.got_on, lot.place,
        lot.photo, lot.notes, lot.staple_mm, lot.diameter_um, part_of(colour, &colour::Lab::l),
        part_of(colour, &colour::Lab::a), part_of(colour, &colour::Lab::b), lot.id);
    database.run("DELETE FROM content WHERE lot = ?", lot.id);
    database.run("DELETE FROM tint WHERE lot = ?", lot.id);
    insert_content_and_tints(database, lot, lot.id);
}

Shelf read_shelf(const Database& database) {
    std::vector<std::shared_ptr<Shelved>> lots;
    std::unordered_map<std::int64_t, Shelved*> by_id;
    Statement rows = database.prepare(std::string("SELECT ") + lot_row_columns +
                                      " FROM lot JOIN on_hand ON on_hand.lot = lot.id ORDER BY lot.id");
    while (rows.step()) {
        lots.push_back(std::make_shared<Shelved>(shelved_in(rows)));
        by_id[lots.back()->lot.id] = lots.back().get();
    }
    Statement content = database.prepare(std::string(content_columns) + "ORDER BY lot, position");
    while (content.step()) {
        if (const auto found = by_id.find(content.whole("lot")); found != by_id.end())
            found->second->lot.content.push_back(content_in(content));
    }
    Statement tint = database.prepare(std::string(tint_columns) + "ORDER BY lot, position");
    while (tint.step()) {
        if (const auto found = by_id.find(tint.whole("lot")); found != by_id.end())
            found->second->lot.palette.push_back(tint_in(tint));
    }
    for (const auto& lot : lots) complete(*lot);
    return {{lots.begin(), lots.end()}};
}

std::optional<Shelved> find_lot(const Database& database, const char* condition, const auto& value) {
    Statement row = database.prepare(std::string("SELECT ") + lot_row_columns +
                                     " FROM lot JOIN on_hand ON on_hand.lot = lot.id WHERE " + condition);
    if (!row.bind(value).step()) return std::nullopt;
    Shelved shelved = shelved_in(row);
    Statement content = database.prepare(std::string(content_columns) + "WHERE lot = ? ORDER BY position");
    content.bind(shelved.lot.id);
    while (content.step()) shelved.lot.content.push_back(content_in(content));
    Statement tint = database.prepare(std::string(tint_columns) + "WHERE lot = ? ORDER BY position");
    tint.bind(shelved.lot.id);
    while (tint.step()) shelved.lot.palette.push_back(tint_in(tint));
    complete(shelved);
    return shelved;
}

Shelved read_lot(const Database& database, std::string_view mark) {
    const std::string wanted = value_of(parse_mark(mark));
    auto shelved = find_lot(database, "lot.mark = ?", wanted);
    if (!shelved)
        fail("no lot has the mark " + wanted, "look at the tag again, or search the shelf by name", "mark");
    return std::move(*shelved);
}

std::string date_or_today(std::string_view date) {
    if (date.empty()) return today();
    value_of(parse_date(date));
    return std::string(date);
}

std::string grams_text(double grams) {
    return measure::write_number(std::round(grams * 1e3) / 1e3) + " g";
}

std::int64_t checked_amount(double value, const char* field, const char* unit) {
    const std::string amount = measure::write_number(value) + " " + unit;
    if (!(value > 0.0))
        fail("an amount of " + amount + " is none", std::string("give ") + field + " above zero", field);
    if (!(value <= most_amount))
        fail("an amount of " + amount + " is beyond all reason", "look again at the number and its unit",
             field);
    const std::int64_t count = millionths(value);
    if (count == 0) fail("an amount of " + amount + " is too little to keep", "leave it out", field);
    return count;
}

namespace {

// Ids grow with the shelf's order, so a lot's place is found by it.
void put_in_place(Shelf& shelf, std::int64_t id, std::optional<Shelved> now) {
    const auto at = std::lower_bound(
        shelf.lots.begin(), shelf.lots.end(), id,
        [](const std::shared_ptr<const Shelved>& lot, std::int64_t wanted) { return lot->lot.id < wanted; });
    const bool there = at != shelf.lots.end() && (*at)->lot.id == id;
    if (!now) {
        if (there) shelf.lots.erase(at);
        return;
    }
    auto lot = std::make_shared<const Shelved>(std::move(*now));
    if (there) {
        *at = std::move(lot);
    } else {
        shelf.lots.insert(at, std::move(lot));
    }
}

// More than this many lots at once, and reading all of them is quicker.
constexpr std::size_t few_lots = 200;

}  // namespace

const std::shared_ptr<const Shelf>& Stash::Core::present_shelf() {
    const Database::Version now = database.version();
    if (shelf != nullptr && now == shelf_version) return shelf;
    Transaction transaction(database, Transaction::For::reading);
    const auto touched = database.touched_lots();
    // Of our own doing alone: the rest of the picture still holds.
    const bool few = shelf != nullptr && now.others == shelf_version.others &&
                     now.rollbacks == shelf_version.rollbacks && touched.size() <= few_lots;
    Shelf fresh = few ? *shelf : read_shelf(database);
    if (few)
        for (const std::int64_t id : touched) put_in_place(fresh, id, find_lot(database, "lot.id = ?", id));
    // A change between the two looks at the version only means reading once more next time.
    transaction.commit();
    shelf = std::make_shared<const Shelf>(std::move(fresh));
    shelf_version = now;
    database.forget_touched_lots();
    return shelf;
}

Expected<std::shared_ptr<const Shelf>> Stash::shelf() const {
    return guarded([&] { return core_->present_shelf(); });
}

Expected<std::vector<std::shared_ptr<const Shelved>>> Stash::shelf(const Filter& filter, Order order) const {
    return guarded([&] { return filtered(*core_->present_shelf(), filter, order); });
}

Expected<Shelved> Stash::lot(std::string_view mark) const {
    return reading(core_->database, [&] { return read_lot(core_->database, mark); });
}

Expected<Lot> Stash::add(const Lot& lot, double bought_grams, std::string_view note) {
    return writing(core_->database, [&] {
        Database& database = core_->database;
        if (auto fault = fault_in(lot, core_->catalogue)) throw Failed{std::move(*fault)};
        check_text(note, "note", true);
        Lot made = lot;
        made.id = 0;
        made.mark = lot.mark.empty() ? free_mark(database) : value_of(parse_mark(lot.mark));
        Statement taken = database.prepare("SELECT name FROM lot WHERE mark = ?");
        if (taken.bind(made.mark).step())
            fail("the mark " + made.mark + " is on another lot, " + measure::quoted(taken.text(0)),
                 "leave the mark out and a new one is made", "mark");
        Movement bought;
        bought.grams = from_millionths(checked_amount(bought_grams, "weight", "g"));
        bought.date = date_or_today(lot.got_on);
        bought.note = note;
        made.id = insert_lot(database, made, core_->catalogue);
        bought.lot = made.id;
        insert_movement(database, bought);
        return made;
    });
}

Expected<void> Stash::change(const Lot& lot) {
    return writing(core_->database, [&] {
        if (auto fault = fault_in(lot, core_->catalogue)) throw Failed{std::move(*fault)};
        Statement there = core_->database.prepare("SELECT 1 FROM lot WHERE id = ?");
        if (!there.bind(lot.id).step())
            fail("the lot " + measure::quoted(lot.name) + " is not on the shelf", "add it first", "lot");
        update_lot(core_->database, lot, core_->catalogue);
    });
}

}  // namespace battwright::stash
