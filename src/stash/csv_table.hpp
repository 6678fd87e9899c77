// Inside this room: rows of text as RFC 4180 writes them (comma-separated values).
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "measure/complaint.hpp"

namespace battwright::stash {

struct Cell {
    std::string text;
    int line = 0, column = 0;  // of its first character in the file, from 1; columns are characters
};
struct CsvRow {
    std::vector<Cell> cells;
    int line = 0;
    std::optional<measure::Complaint> fault;  // of the quoting; `where` is left empty
};

// What a first line "sep=;" says, else what stands between the first two names of the header: a comma, else a
// semicolon or a tab, which spreadsheets write where a comma is the decimal sign.
char separator_of(std::string_view text);
// All rows but blank lines. Rows end with CRLF, LF or CR. A row whose quoting is broken carries its fault,
// and reading goes on with the next line. A mark of byte order (U+FEFF) at the front is passed over.
std::vector<CsvRow> rows_of(std::string_view text, char separator);

// A text cell that a spreadsheet would take for a formula gets an apostrophe in front, and one more when it
// has some already, so that undefused() gives the very text back. Formulas start with = + - @, one of these
// in full width, a tab or a line end (OWASP, "CSV Injection", from memory). So does what follows a semicolon,
// a tab or a line end within the text: where another separator is usual it becomes a cell of its own.
std::string defused(std::string_view text);
std::string undefused(std::string_view text);

// One row, cell by cell. Numbers are the program's own, so a minus in front of one stays.
class RowWriter {
  public:
    explicit RowWriter(std::string& out) : out_(out) {}
    RowWriter& text(std::string_view value);  // defused, quoted where needed
    RowWriter& number(double value);          // the shortest decimal that reads back to the same
    RowWriter& maybe(std::optional<double> value);
    void end();  // CRLF

  private:
    void part();
    std::string& out_;
    bool first_ = true;
};
void header(std::string& out, const std::vector<std::string>& names);

}  // namespace battwright::stash
