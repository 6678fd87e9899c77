// Lots from a table somebody has edited: every row is either good or has its complaint.
#include <algorithm>
#include <map>
#include <set>

#include "measure/nearest.hpp"
#include "measure/units.hpp"
#include "recipe/kinds.hpp"
#include "stash/csv.hpp"
#include "stash/csv_columns.hpp"
#include "stash/csv_table.hpp"
#include "stash/date.hpp"
#include "stash/millionths.hpp"
#include "stash/mixture_words.hpp"
#include "text/words.hpp"

namespace battwright::stash {
namespace {

using measure::Complaint;

// What fault_in() calls a field, where our column has another name.
std::string column_for(const std::string& field) {
    if (field == "yield") return "yield_pct";
    if (field == "staple") return "staple_mm";
    if (field == "diameter") return "diameter_um";
    if (field == "weight") return "weight_g";
    return field;
}

// Which cell of a row holds what.
struct Columns {
    std::map<std::string, std::size_t> at;
    std::size_t count = 0;
    bool decimal_comma = false;  // numbers of this table are written 12,5
};

Complaint at_cell(Complaint complaint, const std::string& path, const Cell& cell) {
    complaint.where = path;
    complaint.line = cell.line;
    complaint.column = cell.column;
    return complaint;
}

std::optional<Complaint> add_column(Columns& columns, const Cell& cell) {
    const std::string name = text::lower(text::trimmed(undefused(cell.text)));
    const auto& known = lot_columns();
    if (std::find(known.begin(), known.end(), name) == known.end()) {
        std::string mend = measure::did_you_mean(name, known);
        if (mend.empty()) mend = "take the column out, or give it one of our names";
        return Complaint{"there is no column " + measure::quoted(name), mend};
    }
    if (!columns.at.emplace(name, columns.count++).second)
        return Complaint{"the column " + name + " is there twice", "take one of the two out"};
    return {};
}

Expected<Columns> columns_of(const CsvRow& header, const std::string& path) {
    Columns columns;
    if (header.fault) {
        Complaint fault = *header.fault;
        fault.where = path;
        return tl::make_unexpected(fault);
    }
    for (const Cell& cell : header.cells)
        if (auto fault = add_column(columns, cell)) return tl::make_unexpected(at_cell(*fault, path, cell));
    for (const char* name : {"name", "fibre", "weight_g"})
        if (!columns.at.contains(name))
            return tl::make_unexpected(at_cell(
                {std::string("the header has no column ") + name, "name, fibre and weight_g must be there"},
                path, header.cells.front()));
    return columns;
}

// One row's cells by name; the first thing wrong is kept, with its place.
class RowReader {
  public:
    RowReader(const CsvRow& row, const Columns& columns, const std::string& path)
        : row_(row), columns_(columns), path_(path) {}

    std::string text(const std::string& name) const {
        const Cell* cell = find(name);
        return cell == nullptr ? std::string() : undefused(cell->text);
    }
    // Nothing for an empty cell.
    template <class Parse>
    auto parsed(const std::string& name, const Parse& parse)
        -> std::optional<std::decay_t<decltype(*parse(std::string()))>> {
        const std::string cell(text::trimmed(text(name)));
        if (cell.empty()) return std::nullopt;
        auto value = parse(cell);
        if (value) return std::move(*value);
        complain(value.error(), name);
        return std::nullopt;
    }
    void complain(const Complaint& complaint, const std::string& name) {
        if (complaint_) return;
        const Cell* cell = find(name);
        complaint_ = at_cell(complaint, path_, cell == nullptr ? row_.cells.front() : *cell);
    }
    const std::optional<Complaint>& complaint() const { return complaint_; }
    bool decimal_comma() const { return columns_.decimal_comma; }

  private:
    const Cell* find(const std::string& name) const {
        const auto found = columns_.at.find(name);
        return found == columns_.at.end() ? nullptr : &row_.cells[found->second];
    }
    const CsvRow& row_;
    const Columns& columns_;
    const std::string& path_;
    std::optional<Complaint> complaint_;
};

bool is_decimal_digit(char c) {
    return c >= '0' && c <= '9';
}

// "1.234,5" of a table whose decimal sign is the comma, as "1234.5". Points part thousands there.
Expected<std::string> with_decimal_point(const std::string& text) {
    const std::size_t end = std::min(text.find_first_not_of("0123456789.,"), text.size());
    const std::size_t comma = std::min(text.find(','), end);
    std::string result;
    for (std::size_t i = 0; i < comma; ++i) {
        if (text[i] == '.' && (comma - i) % 4 != 0)
            return tl::make_unexpected(Complaint{
                measure::quoted(text) + " has a point where other numbers of this table have a comma",
                "write the same sign in all of them"});
        if (text[i] != '.') result += text[i];
    }
    if (comma < end) result += '.' + text.substr(comma + 1, end - comma - 1);
    return result + text.substr(end);
}

// A bare number is in the column's own unit; anything else goes to `with_unit`.
template <class WithUnit>
auto amount(bool decimal_comma, const char* noun, const char* example, const WithUnit& with_unit) {
    return [=](const std::string& written) -> Expected<double> {
        const auto point = decimal_comma ? with_decimal_point(written) : Expected<std::string>(written);
        if (!point) return tl::make_unexpected(point.error());
        const std::string& text = *point;
        auto quantity = measure::parse_quantity(text, noun, example);
        if (!quantity) return tl::make_unexpected(quantity.error());
        if (quantity->unit.empty()) return quantity->value;
        return with_unit(text);
    };
}

Expected<double> grams_in(const std::string& text) {
    auto mass = measure::parse_mass(text);
    if (!mass) return tl::make_unexpected(mass.error());
    return mass->grams;
}
Expected<double> millimetres_in(const std::string& text) {
    auto length = measure::parse_length(text);
    if (!length) return tl::make_unexpected(length.error());
    return length->millimetres;
}
Expected<double> no_unit(const std::string& text) {
    return tl::make_unexpected(Complaint{"the cost " + measure::quoted(text) + " is not a number alone",
                                         "write the currency in its own column"});
}
Expected<bool> yes_or_no(const std::string& text) {
    const std::string word = text::lower(text);
    if (word == "yes" || word == "no") return word == "yes";
    return tl::make_unexpected(
        Complaint{measure::quoted(text) + " is neither yes nor no", "write yes for a lot not yet scoured"});
}
// "24.12.2025" as "2025-12-24": where points stand in a date the day comes first (common practice, no
// source).
std::string iso_of(const std::string& text) {
    const std::size_t first = text.find('.'), second = text.find('.', first + 1);
    if (second == std::string::npos || text.size() - second != 5) return text;
    const auto two = [](const std::string& digits) { return digits.size() == 1 ? "0" + digits : digits; };
    return text.substr(second + 1) + "-" + two(text.substr(first + 1, second - first - 1)) + "-" +
           two(text.substr(0, first));
}
Expected<std::string> date_in(const std::string& written) {
    std::string text = iso_of(written);
    auto date = parse_date(text);
    if (!date) return parse_date(written).map([&](auto&&) { return text; });
    return text;
}

void read_cost(RowReader& row, Lot& lot) {
    const auto cost = row.parsed("cost", amount(row.decimal_comma(), "cost", "12.50", no_unit));
    const std::string currency = row.text("currency");
    if (cost)
        lot.cost = Money{*cost, currency};
    else if (!text::trimmed(currency).empty())
        row.complain({"there is a currency but no cost", "write what the whole lot cost, or take it out"},
                     "currency");
}

double read_weight(RowReader& row) {
    if (text::trimmed(row.text("weight_g")).empty())
        row.complain({"the lot has no weight", "write it in grams, or with its unit"}, "weight_g");
    const double grams =
        row.parsed("weight_g", amount(row.decimal_comma(), "weight", "25 g", grams_in)).value_or(1.0);
    if (!(grams > 0.0) || millionths(std::min(grams, most_amount)) == 0)
        row.complain({"the lot weighs nothing", "write a weight above zero, or take the row out"},
                     "weight_g");
    else if (grams > most_amount)
        row.complain({"the lot weighs beyond all reason", "look again at the number and its unit"},
                     "weight_g");
    return grams;
}

LotRow read_row(RowReader& row, int line, const fibre::Catalogue& catalogue) {
    LotRow result;
    result.line = line;
    Lot& lot = result.lot;
    lot.mark = row.parsed("mark", [](const std::string& text) { return parse_mark(text); }).value_or("");
    lot.name = row.text("name");
    lot.content = row.parsed("fibre", parse_content).value_or(std::vector<recipe::Content>{});
    recipe::settle_kinds(lot.content, catalogue);
    lot.palette = row.parsed("colours", parse_palette).value_or(std::vector<recipe::Tint>{});
    lot.form =
        row.parsed("form", [](const std::string& text) { return parse_form(text); }).value_or(Form::other);
    result.grams = read_weight(row);
    lot.raw = row.parsed("raw", yes_or_no).value_or(false);
    const auto percent = [](const std::string& text) { return measure::parse_percent(text); };
    lot.yield_pct = row.parsed("yield_pct", amount(row.decimal_comma(), "yield", "65 %", percent))
                        .value_or(lot.raw ? usual_yield(lot.content, catalogue).middle_pct() : 100.0);
    read_cost(row, lot);
    lot.maker = row.text("maker");
    lot.got_on = row.parsed("date", date_in).value_or("");
    lot.place = row.text("place");
    lot.photo = row.text("photo");
    lot.staple_mm = row.parsed("staple_mm", amount(row.decimal_comma(), "staple", "95 mm", millimetres_in));
    const auto micrometres = [](const std::string& text) {
        return measure::parse_diameter_micrometres(text);
    };
    lot.diameter_um =
        row.parsed("diameter_um", amount(row.decimal_comma(), "diameter", "21 um", micrometres));
    lot.notes = row.text("notes");
    return result;
}

struct Marks {
    const Shelf* shelf = nullptr;
    std::set<std::string> here;

    std::optional<Complaint> taken(const std::string& mark) {
        if (mark.empty()) return {};
        if (shelf != nullptr && shelf->find(mark) != nullptr)
            return Complaint{"the mark " + mark + " is on the shelf already",
                             "clear the cell for a new lot, or take the row out"};
        if (!here.insert(mark).second)
            return Complaint{"the mark " + mark + " is in this table twice", "clear one of the two"};
        return {};
    }
};

std::optional<Complaint> fault_in_shape(const CsvRow& row, std::size_t columns) {
    if (row.fault) return row.fault;
    if (row.cells.size() == columns) return {};
    return Complaint{
        "the row has " + std::to_string(row.cells.size()) + " cells, the header " + std::to_string(columns),
        "give every column a cell, an empty one where there is nothing to say",
        {},
        row.line,
        1};
}

void take_row(const CsvRow& csv, const Columns& columns, const std::string& path,
              const fibre::Catalogue& catalogue, Marks& marks, LotsRead& read) {
    if (auto fault = fault_in_shape(csv, columns.count)) {
        fault->where = path;
        read.complaints.push_back(*fault);
        return;
    }
    RowReader row(csv, columns, path);
    LotRow lot = read_row(row, csv.line, catalogue);
    if (!row.complaint())
        if (const auto fault = fault_in(lot.lot, catalogue)) row.complain(*fault, column_for(fault->where));
    if (!row.complaint())
        if (const auto fault = marks.taken(lot.lot.mark)) row.complain(*fault, "mark");
    if (row.complaint())
        read.complaints.push_back(*row.complaint());
    else
        read.good.push_back(std::move(lot));
}

// Where the comma does not part the cells it may be the decimal sign; one number tells for the whole table.
bool has_decimal_commas(const std::vector<CsvRow>& rows, const Columns& columns) {
    for (const char* name : {"weight_g", "yield_pct", "cost", "staple_mm", "diameter_um"}) {
        const auto column = columns.at.find(name);
        if (column == columns.at.end()) continue;
        for (std::size_t i = 1; i < rows.size(); ++i) {
            if (column->second >= rows[i].cells.size()) continue;
            const std::string& text = rows[i].cells[column->second].text;
            const std::size_t comma = text.find(',');
            if (comma != std::string::npos && comma > 0 && comma + 1 < text.size() &&
                is_decimal_digit(text[comma - 1]) && is_decimal_digit(text[comma + 1]))
                return true;
        }
    }
    return false;
}

}  // namespace

Expected<LotsRead> read_lots(std::string_view text, const std::string& path,
                             const fibre::Catalogue& catalogue, const Shelf* shelf) {
    if (text.starts_with("\xff\xfe") || text.starts_with("\xfe\xff"))
        return tl::make_unexpected(Complaint{"the table is in UTF-16", "save it as CSV in UTF-8", path});
    const char separator = separator_of(text);
    const std::vector<CsvRow> rows = rows_of(text, separator);
    if (rows.empty())
        return tl::make_unexpected(
            Complaint{"the table is empty", "write a header row with name, fibre and weight_g", path});
    auto columns = columns_of(rows.front(), path);
    if (!columns) return tl::make_unexpected(columns.error());
    columns->decimal_comma = separator != ',' && has_decimal_commas(rows, *columns);
    LotsRead read;
    Marks marks{shelf, {}};
    for (std::size_t i = 1; i < rows.size(); ++i) take_row(rows[i], *columns, path, catalogue, marks, read);
    return read;
}

}  // namespace battwright::stash
