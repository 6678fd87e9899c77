#include "card/layout.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "card/pieces.hpp"

namespace battwright::card {
namespace {

constexpr std::array<double, 5> scales{1.0, 0.94, 0.88, 0.82, 0.76};
constexpr double flowing_scale = 0.94;  // when one side is not enough in any case
constexpr double foot_pt = 9.0;         // kept free for "name, 2 of 3" when there are several sides

// Where the content of a side lies.
struct Area {
    double x = 0.0, y = 0.0, width = 0.0, height = 0.0;
};

Area area_of(Paper paper) {
    const PaperSize size = size_of(paper);
    const double margin = size.margin_mm * points_per_millimetre;
    return {margin, margin, size.width_mm * points_per_millimetre - 2.0 * margin,
            size.height_mm * points_per_millimetre - 2.0 * margin};
}

double height_of(std::span<const Piece> pieces) {
    double height = 0.0;
    for (std::size_t i = 0; i < pieces.size(); ++i)
        height += pieces[i].height + (i > 0 ? pieces[i].gap_before : 0.0);
    return height;
}

// Puts pieces down a side and goes on to the next when it is full.
class Flow {
  public:
    Flow(std::vector<Side>& sides, const Area& area) : sides_(sides), area_(area) { sides_.emplace_back(); }

    void put_together(std::span<Piece> group) {
        const double needed = height_of(group) + (y_ > 0.0 ? group.front().gap_before : 0.0);
        if (y_ > 0.0 && y_ + needed > area_.height + 1e-6) next_side();
        if (height_of(group) > area_.height + 1e-6 && group.size() > 1) {
            for (std::size_t i = 0; i < group.size(); ++i) put_together(group.subspan(i, 1));
            return;
        }
        for (Piece& piece : group) put(piece);
    }

  private:
    std::vector<Side>& sides_;
    Area area_;
    double y_ = 0.0;

    void next_side() {
        sides_.emplace_back();
        y_ = 0.0;
    }
    void put(Piece& piece) {
        if (y_ > 0.0) y_ += piece.gap_before;
        for (Placed& placed : piece.placed) {
            placed.x += area_.x;
            placed.y += area_.y + y_;
            sides_.back().placed.push_back(std::move(placed));
        }
        y_ += piece.height;
    }
};

std::vector<Side> flowed(std::vector<Piece> pieces, const Area& area) {
    std::vector<Side> sides;
    Flow flow(sides, area);
    for (std::size_t first = 0; first < pieces.size();) {
        std::size_t last = first;
        while (last + 1 < pieces.size() && pieces[last].with_next) ++last;
        flow.put_together(std::span(pieces).subspan(first, last - first + 1));
        first = last + 1;
    }
    return sides;
}

void add_foot(Laid& laid, const Area& area) {
    Lettering lettering;
    const std::string of = " of " + std::to_string(laid.sides.size());
    for (std::size_t i = 0; i < laid.sides.size(); ++i) {
        const std::string number = std::to_string(i + 1) + of;
        auto lines = lettering.lines(number, {6.5, false, Set::right}, area.width);
        laid.sides[i].placed.push_back({area.x, area.y + area.height - lines.front().height,
                                        lines.front().width, lines.front().height,
                                        std::move(lines.front().ink)});
    }
}

// One try at a scale; the flags are of this try alone.
Laid laid_at(const Page& page, Paper paper, double scale, double foot) {
    const PaperSize size = size_of(paper);
    Area area = area_of(paper);
    area.height -= foot;
    Lettering lettering;
    Laid laid;
    laid.name = page.name;
    laid.width_pt = size.width_mm * points_per_millimetre;
    laid.height_pt = size.height_mm * points_per_millimetre;
    laid.scale = scale;
    Frame frame;
    frame.width = area.width;
    frame.letter_pt = scale * size.letter_pt;
    frame.most_code_pt =
        std::min({0.55 * std::min(area.width, area.height), area.height, 60.0 * points_per_millimetre});
    frame.lettering = &lettering;
    frame.code_left_out = &laid.code_left_out;
    laid.sides = flowed(pieces_of(page, frame), area);
    laid.missing_glyphs = lettering.missing_glyphs();
    return laid;
}

// How many fit and where they start: the block of cards is centred.
struct Grid {
    std::size_t columns = 0, rows = 0;
    double x = 0.0, y = 0.0, cell_width = 0.0, cell_height = 0.0;
};

Grid grid_of(const Laid& card, double width, double height) {
    constexpr double slack = 1e-6;  // of a cell: three of a third of the paper are three, however they round
    Grid grid;
    grid.cell_width = card.width_pt;
    grid.cell_height = card.height_pt;
    grid.columns = static_cast<std::size_t>(width / card.width_pt + slack);
    grid.rows = static_cast<std::size_t>(height / card.height_pt + slack);
    grid.x = (width - static_cast<double>(grid.columns) * card.width_pt) / 2.0;
    grid.y = (height - static_cast<double>(grid.rows) * card.height_pt) / 2.0;
    return grid;
}

// A small cross at every corner of every card, inside the cards' margins.
void add_cut_marks(Side& side, const Grid& grid) {
    constexpr double arm = 8.0;
    for (std::size_t row = 0; row <= grid.rows; ++row)
        for (std::size_t column = 0; column <= grid.columns; ++column) {
            const double x = grid.x + static_cast<double>(column) * grid.cell_width;
            const double y = grid.y + static_cast<double>(row) * grid.cell_height;
            side.placed.push_back({x - arm, y - arm, 2.0 * arm, 2.0 * arm, [](cairo_t* cr) {
                                       line_ink(0.0, arm, 2.0 * arm, arm, 0.4, 0.2)(cr);
                                       line_ink(arm, 0.0, arm, 2.0 * arm, 0.4, 0.2)(cr);
                                   }});
        }
}

}  // namespace

Laid lay_out(const Page& page, Paper paper) {
    for (const double scale : scales) {
        Laid laid = laid_at(page, paper, scale, 0.0);
        if (laid.sides.size() == 1) return laid;
    }
    Laid laid = laid_at(page, paper, flowing_scale, foot_pt);
    add_foot(laid, area_of(paper));
    return laid;
}

measure::Expected<Laid> sheet_of(std::span<const Laid> cards, Paper paper) {
    const PaperSize size = size_of(paper);
    Laid sheet;
    sheet.width_pt = size.width_mm * points_per_millimetre;
    sheet.height_pt = size.height_mm * points_per_millimetre;
    if (cards.empty()) return sheet;
    const Grid grid = grid_of(cards.front(), sheet.width_pt, sheet.height_pt);
    if (grid.columns * grid.rows == 0)
        return tl::make_unexpected(
            measure::Complaint{"a card is larger than a sheet of " + std::string(word_for(paper)),
                               "print the cards on a smaller page, as in --page A6", "--sheet"});
    std::size_t at = 0;
    for (const Laid& card : cards) {
        sheet.missing_glyphs += card.missing_glyphs;
        sheet.name += (sheet.name.empty() ? "" : ", ") + card.name;
        for (const Side& side : card.sides) {
            const std::size_t cell = at++ % (grid.columns * grid.rows);
            if (cell == 0) add_cut_marks(sheet.sides.emplace_back(), grid);
            const double x = grid.x + static_cast<double>(cell % grid.columns) * grid.cell_width;
            const std::size_t row = cell / grid.columns;
            const double y = grid.y + static_cast<double>(row) * grid.cell_height;
            for (const Placed& placed : side.placed)
                sheet.sides.back().placed.push_back(
                    {x + placed.x, y + placed.y, placed.width, placed.height, placed.ink});
        }
    }
    return sheet;
}

}  // namespace battwright::card
