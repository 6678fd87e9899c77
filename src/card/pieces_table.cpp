#include <algorithm>

#include "card/pieces.hpp"

namespace battwright::card {
namespace {

constexpr double swatch_share = 0.8;        // of the letter size
constexpr double head_size = 0.86;          // of plain text
constexpr double figures_share_most = 0.6;  // of the width, for all columns but the first
constexpr double figures_share_at_worst = 0.75;

struct Columns {
    std::vector<double> x, width;
};

double swatch_room(const Table& table, const Frame& frame) {
    const bool any = std::any_of(table.rows.begin(), table.rows.end(),
                                 [](const Row& row) { return row.swatch.has_value(); });
    return any ? 1.4 * frame.letter_pt : 0.0;
}

// A column as wide as it likes, and as narrow as it can be without parting a head, a word or a number from
// its unit.
struct WidthRange {
    double wide = 0.0, narrow = 0.0;
};

WidthRange width_range_of(const Table& table, std::size_t column, double letter_pt, Lettering& lettering) {
    WidthRange range;
    range.wide = range.narrow = lettering.natural_width(table.columns[column].head, {head_size * letter_pt});
    for (const Row& row : table.rows) {
        const Style style{letter_pt, row.sum};
        range.wide = std::max(range.wide, lettering.natural_width(row.cells[column], style));
        range.narrow = std::max(range.narrow, lettering.least_width(row.cells[column], style));
    }
    return range;
}

// The first column has what the others leave it: enough, where they can be narrowed; else less and less of it
// down to a quarter of the width, and only then are they squeezed.
Columns columns_of(const Table& table, const Frame& frame) {
    const std::size_t count = table.columns.size();
    const double gap = 0.9 * frame.letter_pt;
    std::vector<WidthRange> ranges(count);
    double wide = 0.0, narrow = 0.0;
    for (std::size_t c = 1; c < count; ++c) {
        ranges[c] = width_range_of(table, c, frame.letter_pt, *frame.lettering);
        wide += ranges[c].wide + gap;
        narrow += ranges[c].narrow + gap;
    }
    const double usual = figures_share_most * frame.width, most = figures_share_at_worst * frame.width;
    const double give = wide > usual && wide > narrow ? std::min(1.0, (wide - usual) / (wide - narrow)) : 0.0;
    const double others = wide - give * (wide - narrow);
    const double squeeze = others > most ? most / others : 1.0;
    Columns columns;
    const double left = swatch_room(table, frame);
    columns.width.push_back(frame.width - left - squeeze * others);
    double x = left;
    for (std::size_t c = 0; c < count; ++c) {
        if (c > 0)
            columns.width.push_back(squeeze * (ranges[c].wide - give * (ranges[c].wide - ranges[c].narrow)));
        columns.x.push_back(x);
        x += columns.width[c] + squeeze * gap;
    }
    return columns;
}

Ink swatch_ink(const colour::Srgb& colour, double side) {
    return [colour, side](cairo_t* cr) {
        cairo_rectangle(cr, 0.0, 0.0, side, side);
        cairo_set_source_rgb(cr, colour.r, colour.g, colour.b);
        cairo_fill_preserve(cr);
        cairo_set_source_rgb(cr, 0.4, 0.4, 0.4);
        cairo_set_line_width(cr, 0.3);
        cairo_stroke(cr);
    };
}

struct RowStyle {
    double size_pt = 0.0;
    bool bold = false;
};

// A row as pieces of one line each, so that even a cell longer than a side of paper is shown whole; any other
// stays on one side.
void add_row(std::vector<Piece>& pieces, const Table& table, const std::vector<std::string>& cells,
             const RowStyle& style, const Columns& columns, const Frame& frame) {
    std::vector<std::vector<Line>> lines;
    std::size_t deepest = 0;
    for (std::size_t c = 0; c < cells.size(); ++c) {
        const Set set = table.columns[c].figures ? Set::right : Set::left;
        lines.push_back(frame.lettering->lines(cells[c], {style.size_pt, style.bold, set}, columns.width[c]));
        deepest = std::max(deepest, lines.back().size());
    }
    for (std::size_t i = 0; i < deepest; ++i) {
        Piece piece;
        piece.gap_before = i == 0 ? 0.25 * frame.letter_pt : 0.0;
        piece.with_next = i + 1 < deepest;
        for (std::size_t c = 0; c < cells.size(); ++c) {
            if (i >= lines[c].size()) continue;
            Line& line = lines[c][i];
            piece.height = std::max(piece.height, line.height);
            piece.placed.push_back({columns.x[c], 0.0, line.width, line.height, std::move(line.ink)});
        }
        pieces.push_back(std::move(piece));
    }
}

void add_head(std::vector<Piece>& pieces, const Table& table, const Columns& columns, const Frame& frame) {
    std::vector<std::string> heads;
    bool any = false;
    for (const Column& column : table.columns) {
        heads.push_back(column.head);
        any = any || !column.head.empty();
    }
    if (!any) return;
    add_row(pieces, table, heads, {head_size * frame.letter_pt}, columns, frame);
    pieces.back().with_next = true;
}

void decorate(Piece& piece, const Row& row, const Frame& frame) {
    const double side = swatch_share * frame.letter_pt;
    if (row.swatch)
        piece.placed.push_back({0.0, 0.18 * frame.letter_pt, side, side, swatch_ink(*row.swatch, side)});
    if (!row.sum) return;
    // The rule has room of its own above the words.
    const double room = 0.35 * frame.letter_pt;
    for (Placed& placed : piece.placed) placed.y += room;
    piece.height += room;
    piece.placed.push_back(
        {0.0, 0.3 * room, frame.width, 0.5, line_ink(0.0, 0.0, frame.width, 0.0, 0.5, 0.3)});
}

}  // namespace

void add_table(std::vector<Piece>& pieces, const Table& table, const Frame& frame) {
    if (table.columns.empty() || table.rows.empty()) return;
    const Columns columns = columns_of(table, frame);
    const std::size_t top = pieces.size();
    add_head(pieces, table, columns, frame);
    for (const Row& row : table.rows) {
        const std::size_t first = pieces.size();
        add_row(pieces, table, row.cells, {frame.letter_pt, row.sum}, columns, frame);
        if (first < pieces.size()) decorate(pieces[first], row, frame);
    }
    if (top < pieces.size()) pieces[top].gap_before = 0.5 * frame.letter_pt;
}

}  // namespace battwright::card
