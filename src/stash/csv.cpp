// Tables out; csv_read.cpp has the way in.
#include "stash/csv.hpp"

#include <array>
#include <utility>

#include "stash/csv_columns.hpp"
#include "stash/csv_table.hpp"
#include "stash/mixture_words.hpp"

#include "measure/units.hpp"
#include "recipe/thickness.hpp"

namespace battwright::stash {
namespace {

std::optional<double> above_zero(double value) {
    return value > 0.0 ? std::optional(value) : std::nullopt;
}

std::string lines_of(const Carding& carding) {
    std::string text;
    for (const Line& line : carding.lines)
        text += (text.empty() ? "" : "; ") + line.mark + " " + measure::write_number(line.grams);
    return text;
}

std::string batts_of(const Skein& skein) {
    std::string text;
    for (const FromBatt& from : skein.from)
        text += (text.empty() ? "" : "; ") + std::to_string(from.batt) + " " +
                measure::write_number(from.share_pct);
    return text;
}

void write_money(RowWriter& row, const std::optional<Money>& cost) {
    row.maybe(cost ? std::optional(cost->amount) : std::nullopt).text(cost ? cost->currency : "");
}

std::optional<double> number_of(const std::optional<std::int64_t>& id) {
    return id ? std::optional(static_cast<double>(*id)) : std::nullopt;
}

void write_movement(RowWriter& row, const std::string& mark, const Movement& movement) {
    row.number(static_cast<double>(movement.id))
        .text(mark)
        .text(movement.date)
        .text(word_for(movement.reason));
    row.number(movement.grams).maybe(number_of(movement.batt)).maybe(number_of(movement.of_movement));
    write_money(row, movement.cost);
    row.text(movement.note).end();
}

Expected<std::vector<LotMovements>> all_movements(const Stash& stash) {
    const auto shelf = stash.shelf();
    if (!shelf) return tl::make_unexpected(shelf.error());
    std::vector<LotMovements> all;
    for (const auto& lot : (*shelf)->lots) {
        auto movements = stash.movements(lot->lot.mark);
        if (!movements) return tl::make_unexpected(movements.error());
        all.push_back({lot->lot.mark, std::move(*movements)});
    }
    return all;
}

}  // namespace

const std::vector<std::string>& lot_columns() {
    static const std::vector<std::string> names{
        "mark",     "name",  "fibre", "colours", "form",  "weight_g",  "raw",         "yield_pct", "cost",
        "currency", "maker", "date",  "place",   "photo", "staple_mm", "diameter_um", "notes"};
    return names;
}

std::string lots_csv(std::span<const std::shared_ptr<const Shelved>> lots) {
    std::string out;
    header(out, lot_columns());
    for (const auto& shelved : lots) {
        const Lot& lot = shelved->lot;
        RowWriter row(out);
        row.text(lot.mark).text(lot.name).text(write_content(lot.content)).text(write_palette(lot.palette));
        row.text(word_for(lot.form))
            .number(shelved->grams)
            .text(lot.raw ? "yes" : "no")
            .number(lot.yield_pct);
        write_money(row, lot.cost);
        row.text(lot.maker).text(lot.got_on).text(lot.place).text(lot.photo);
        row.maybe(lot.staple_mm).maybe(lot.diameter_um).text(lot.notes).end();
    }
    return out;
}

std::string movements_csv(std::span<const LotMovements> lots) {
    std::string out;
    header(out, {"movement", "mark", "date", "reason", "weight_g", "batt", "puts_right", "cost", "currency",
                 "note"});
    RowWriter row(out);
    for (const LotMovements& lot : lots)
        for (const Movement& movement : lot.movements) write_movement(row, lot.mark, movement);
    return out;
}

std::string batts_csv(std::span<const Batt> batts) {
    std::string out;
    header(out, {"batt", "name", "date", "preparation", "batts", "fed_g", "off_drum_g", "taken_back_on",
                 "lots", "notes"});
    for (const Batt& batt : batts) {
        RowWriter row(out);
        row.number(static_cast<double>(batt.id)).text(batt.carding.name).text(batt.carding.date);
        row.text(recipe::word_for(batt.carding.preparation)).number(batt.carding.batts);
        row.number(batt.fed_grams).maybe(batt.off_drum_grams).text(batt.taken_back_on);
        row.text(lines_of(batt.carding)).text(batt.carding.notes).end();
    }
    return out;
}

std::string skeins_csv(std::span<const Skein> skeins) {
    std::string out;
    header(out, {"skein", "name", "date", "weight_g", "length_m", "wpi", "plies", "preparation", "batts",
                 "foretold_m", "foretold_low_m", "foretold_high_m", "foretold_for_g", "counts", "photo",
                 "note", "became", "colours"});
    for (const Skein& skein : skeins) {
        const Foretold foretold = skein.foretold.value_or(Foretold{});
        RowWriter row(out);
        row.number(static_cast<double>(skein.id)).text(skein.name).text(skein.date);
        row.maybe(above_zero(skein.grams)).maybe(above_zero(skein.metres)).maybe(above_zero(skein.wpi));
        row.maybe(above_zero(skein.plies)).text(recipe::word_for(skein.preparation)).text(batts_of(skein));
        row.maybe(above_zero(foretold.nominal_length_m)).maybe(above_zero(foretold.low_m));
        row.maybe(above_zero(foretold.high_m)).maybe(above_zero(foretold.grams));
        row.text(skein.counts ? "yes" : "no");
        row.text(skein.photo).text(skein.note).text(skein.became).text(write_palette(skein.palette)).end();
    }
    return out;
}

Expected<std::vector<Lot>> take_in(Stash& stash, std::span<const LotRow> rows) {
    std::vector<Lot> lots;
    const auto done = stash.all_or_nothing([&]() -> Expected<void> {
        lots.clear();
        for (const LotRow& row : rows) {
            auto lot = stash.add(row.lot, row.grams);
            if (!lot) return tl::make_unexpected(lot.error());
            lots.push_back(std::move(*lot));
        }
        return {};
    });
    if (!done) return tl::make_unexpected(done.error());
    return lots;
}

std::span<const CsvTable> csv_tables() {
    using Lots = std::span<const std::shared_ptr<const Shelved>>;
    static constexpr std::array<CsvTable, 4> tables{
        {{"lots", [](const Stash&, Lots lots) -> Expected<std::string> { return lots_csv(lots); }},
         {"movements",
          [](const Stash& stash, Lots) {
              return all_movements(stash).map([](const auto& all) { return movements_csv(all); });
          }},
         {"batts", [](const Stash& stash,
                      Lots) { return stash.batts().map([](const auto& all) { return batts_csv(all); }); }},
         {"skeins", [](const Stash& stash, Lots) {
              return stash.skeins().map([](const auto& all) { return skeins_csv(all); });
          }}}};
    return tables;
}

}  // namespace battwright::stash
