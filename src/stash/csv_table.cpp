#include "stash/csv_table.hpp"

#include <algorithm>
#include <array>

#include "measure/units.hpp"

namespace battwright::stash {
namespace {

constexpr std::string_view byte_order_mark = "\xef\xbb\xbf";

// Walks the text and knows where it is.
class CsvCursor {
  public:
    explicit CsvCursor(std::string_view text) : text_(text) {}

    bool at_end() const { return at_ >= text_.size(); }
    char here() const { return at_end() ? '\0' : text_[at_]; }
    bool at_line_end() const { return !at_end() && (here() == '\n' || here() == '\r'); }
    int line() const { return line_; }
    int column() const { return column_; }

    // One byte, or one line end; what it was is added to `to`.
    void take(std::string* to = nullptr) {
        const std::size_t length = text_.substr(at_, 2) == "\r\n" ? 2 : 1;
        if (to != nullptr) to->append(text_.substr(at_, length));
        if (at_line_end()) {
            ++line_;
            column_ = 1;
        } else if (at_ + 1 < text_.size() && (static_cast<unsigned char>(text_[at_ + 1]) & 0xc0u) != 0x80u) {
            ++column_;  // the next byte begins a character
        }
        at_ += length;
    }

  private:
    std::string_view text_;
    std::size_t at_ = 0;
    int line_ = 1, column_ = 1;
};

measure::Complaint at(int line, int column, std::string what, std::string mend) {
    return {std::move(what), std::move(mend), {}, line, column};
}

// The walker stands on the opening quote.
std::optional<measure::Complaint> take_quoted(CsvCursor& walker, char separator, Cell& cell) {
    walker.take();
    while (!walker.at_end()) {
        if (walker.here() != '"') {
            walker.take(&cell.text);
            continue;
        }
        walker.take();
        if (walker.here() == '"') {
            walker.take(&cell.text);
            continue;
        }
        if (walker.at_end() || walker.at_line_end() || walker.here() == separator) return {};
        return at(walker.line(), walker.column(), "there is text after the closing quote",
                  "write a quote inside a cell twice");
    }
    return at(cell.line, cell.column, "the quote that opens here is never closed",
              "close it, or write a quote inside a cell twice");
}

std::optional<measure::Complaint> take_plain(CsvCursor& walker, char separator, Cell& cell) {
    while (!walker.at_end() && !walker.at_line_end() && walker.here() != separator) {
        if (walker.here() == '"')
            return at(walker.line(), walker.column(),
                      "there is a quote inside a cell that has none around it",
                      "put the cell in quotes and write the one inside twice");
        walker.take(&cell.text);
    }
    return {};
}

CsvRow take_row(CsvCursor& walker, char separator) {
    CsvRow row;
    row.line = walker.line();
    while (true) {
        Cell cell{{}, walker.line(), walker.column()};
        row.fault =
            walker.here() == '"' ? take_quoted(walker, separator, cell) : take_plain(walker, separator, cell);
        row.cells.push_back(std::move(cell));
        if (row.fault || walker.here() != separator || walker.at_end()) return row;
        walker.take();
    }
}

void skip_line(CsvCursor& walker) {
    while (!walker.at_end() && !walker.at_line_end()) walker.take();
}

bool is_blank(const CsvRow& row) {
    return !row.fault && row.cells.size() == 1 &&
           row.cells[0].text.find_first_not_of(" \t") == std::string::npos;
}

std::string_view without_mark(std::string_view text) {
    if (text.starts_with(byte_order_mark)) text.remove_prefix(byte_order_mark.size());
    return text;
}

// "sep=;" in the first line, as spreadsheets write and read it.
bool has_separator_line(std::string_view text) {
    return text.starts_with("sep=") && text.find_first_of("\r\n") == 5;
}

// After quotes, blanks and apostrophes, which a spreadsheet may take off.
std::string_view past_wrapping(std::string_view text) {
    text.remove_prefix(std::min(text.find_first_not_of("'\" "), text.size()));
    return text;
}

bool starts_a_formula(std::string_view text) {
    constexpr std::array<std::string_view, 8> starts{"=",      "+",      "-",      "@",
                                                     "\uff1d", "\uff0b", "\uff0d", "\uff20"};
    const std::string_view rest = past_wrapping(text);
    return std::any_of(starts.begin(), starts.end(),
                       [&](std::string_view start) { return rest.starts_with(start); });
}

// Where a spreadsheet of another land may begin a new cell, whatever is quoted: it looks for its own
// separator, and a quote that does not open the cell is a quote to it.
constexpr std::string_view new_cells = ";\t\r\n";

// Rewrites each stretch that could become a cell of its own and could start a formula.
template <class Rewrite>
std::string by_stretches(std::string_view text, const Rewrite& rewrite) {
    std::string result;
    for (std::size_t at = 0; at <= text.size();) {
        const std::size_t end = std::min(text.find_first_of(new_cells, at), text.size());
        const std::string_view stretch = text.substr(at, end - at);
        // A cell that starts with a tab or a line end is a danger of its own.
        const bool breaks =
            at == 0 && end < text.size() && text[end] != ';' && past_wrapping(stretch).empty();
        result += breaks || starts_a_formula(stretch) ? rewrite(stretch) : std::string(stretch);
        if (end < text.size()) result += text[end];
        at = end + 1;
    }
    return result;
}

// Quoted, a semicolon parts no cells where the comma does.
bool wants_quotes(std::string_view text) {
    if (text.empty()) return false;
    return text.find_first_of(",;\"\t\r\n") != std::string_view::npos || text.front() == ' ' ||
           text.back() == ' ' || text.front() == '\'';
}

}  // namespace

char separator_of(std::string_view text) {
    text = without_mark(text);
    if (has_separator_line(text)) return text[4];
    const std::string_view header = text.substr(0, text.find_first_of("\r\n"));
    for (const char separator : {',', ';', '\t'})
        if (header.find(separator) != std::string_view::npos) return separator;
    return ',';
}

std::vector<CsvRow> rows_of(std::string_view text, char separator) {
    std::vector<CsvRow> rows;
    CsvCursor walker(without_mark(text));
    if (has_separator_line(without_mark(text))) skip_line(walker);
    while (!walker.at_end()) {
        const CsvCursor start = walker;
        CsvRow row = take_row(walker, separator);
        if (row.fault) {
            walker = start;
            skip_line(walker);
        }
        if (!is_blank(row)) rows.push_back(std::move(row));
        if (!walker.at_end()) walker.take();
    }
    return rows;
}

std::string defused(std::string_view text) {
    return by_stretches(text, [](std::string_view stretch) { return '\'' + std::string(stretch); });
}

std::string undefused(std::string_view text) {
    return by_stretches(text, [](std::string_view stretch) {
        return std::string(stretch.substr(stretch.starts_with('\'') ? 1 : 0));
    });
}

void RowWriter::part() {
    if (!first_) out_ += ',';
    first_ = false;
}

RowWriter& RowWriter::text(std::string_view value) {
    part();
    const std::string safe = defused(value);
    if (!wants_quotes(safe)) {
        out_ += safe;
        return *this;
    }
    out_ += '"';
    for (const char c : safe) {
        if (c == '"') out_ += '"';
        out_ += c;
    }
    out_ += '"';
    return *this;
}

RowWriter& RowWriter::number(double value) {
    part();
    out_ += measure::write_number(value);
    return *this;
}

RowWriter& RowWriter::maybe(std::optional<double> value) {
    return value ? number(*value) : text({});
}

void RowWriter::end() {
    out_ += "\r\n";
    first_ = true;
}

void header(std::string& out, const std::vector<std::string>& names) {
    RowWriter row(out);
    for (const std::string& name : names) row.text(name);
    row.end();
}

}  // namespace battwright::stash
