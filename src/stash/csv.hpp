// The stash as tables for a spreadsheet: CSV after RFC 4180, in UTF-8, with a header row of our own names.
#pragma once

#include <memory>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "stash/stash.hpp"

namespace battwright::stash {

// Columns: mark, name, fibre, colours, form, weight_g (as it lies), raw (yes or no), yield_pct, cost,
// currency, maker, date (got on), place, photo, staple_mm, diameter_um, notes. `fibre` and `colours` are as
// in mixture_words.hpp. No cell of any of these tables is a formula to a spreadsheet, whatever was entered.
std::string lots_csv(std::span<const std::shared_ptr<const Shelved>> lots);

struct LotMovements {
    std::string mark;
    std::vector<Movement> movements;
};
// Columns: movement, mark, date, reason, weight_g (minus: it left), batt, puts_right, cost, currency, note.
std::string movements_csv(std::span<const LotMovements> lots);
// Columns: batt, name, date, preparation, batts, fed_g, off_drum_g, taken_back_on, lots ("KF7R3X 25; ..." in
// g), notes.
std::string batts_csv(std::span<const Batt> batts);
// Columns: skein, name, date, weight_g, length_m, wpi, plies, preparation, batts ("4 60; 7 40": batt and
// percent), foretold_m, foretold_low_m, foretold_high_m (for foretold_for_g of yarn), counts, photo, note,
// became. What was not measured is left empty.
std::string skeins_csv(std::span<const Skein> skeins);

// All four by name: "lots" (of these lots), "movements", "batts", "skeins" (all there are).
struct CsvTable {
    std::string_view name;
    Expected<std::string> (*text)(const Stash& stash, std::span<const std::shared_ptr<const Shelved>> lots);
};
std::span<const CsvTable> csv_tables();

struct LotRow {
    int line = 0;
    Lot lot;
    double grams = 0.0;
};
// The rows that can go on the shelf and what keeps the others off it, each with file, line and column.
struct LotsRead {
    std::vector<LotRow> good;
    std::vector<measure::Complaint> complaints;
};
// Reads a table like that of lots_csv(); columns may stand in any order, and of them only name, fibre and
// weight_g must be there. Amounts may carry a unit ("3.5 oz"), and where the comma does not part the cells
// numbers may be written 1.234,5; dates 24.12.2025 too; a first line "sep=;" says what parts the cells. With
// or without a byte order mark; CRLF, LF or CR; comma, semicolon or tab between. Nothing is written anywhere.
// A mark that is on `shelf` already, or twice in the table, keeps the (second) row out. A complaint instead
// of rows: no header, a column of a name we do not have or twice, one that is missing, text in UTF-16.
Expected<LotsRead> read_lots(std::string_view text, const std::string& path,
                             const fibre::Catalogue& catalogue, const Shelf* shelf = nullptr);
// All these rows on the shelf in one transaction, or none of them.
Expected<std::vector<Lot>> take_in(Stash& stash, std::span<const LotRow> rows);

}  // namespace battwright::stash
