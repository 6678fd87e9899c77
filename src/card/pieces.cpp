#include "card/pieces.hpp"

namespace battwright::card {
namespace {

constexpr double title_size = 1.7, heading_size = 1.08, small_size = 0.86;  // of plain text

struct Cut {
    std::vector<Piece>& pieces;
    const Frame& frame;

    void operator()(const Heading& heading) const {
        const double size = frame.letter_pt * (heading.title ? title_size : heading_size);
        add_text(pieces, heading.text, {size, true}, (heading.title ? 0.5 : 0.7) * frame.letter_pt, frame);
        if (!pieces.empty()) pieces.back().with_next = true;
    }
    void operator()(const Paragraph& paragraph) const {
        const double size = frame.letter_pt * (paragraph.small ? small_size : 1.0);
        add_text(pieces, paragraph.text, {size}, 0.25 * frame.letter_pt, frame);
    }
    void operator()(const Picture& picture) const { add_picture(pieces, picture, frame); }
    void operator()(const Table& table) const { add_table(pieces, table, frame); }
    void operator()(const Rule& /*rule*/) const { add_rule(pieces, frame); }
    void operator()(const Code& code) const { add_code(pieces, code, frame); }
    void operator()(const Blanks& blanks) const { add_blanks(pieces, blanks, frame); }
    void operator()(const HoleMark& hole) const { add_hole(pieces, hole, frame); }
};

}  // namespace

void add_text(std::vector<Piece>& pieces, const std::string& text, const Style& style, double gap,
              const Frame& frame) {
    if (text.empty()) return;
    std::vector<Line> lines = frame.lettering->lines(text, style, frame.width);
    for (std::size_t i = 0; i < lines.size(); ++i) {
        Line& line = lines[i];
        Piece piece;
        piece.height = line.height;
        piece.gap_before = i == 0 ? gap : 0.0;
        // Two lines at least on each side that a paragraph is parted between.
        piece.with_next = i + 1 < lines.size() && (i == 0 || i + 2 == lines.size());
        piece.placed.push_back({0.0, 0.0, line.width, line.height, std::move(line.ink)});
        pieces.push_back(std::move(piece));
    }
}

std::vector<Piece> pieces_of(const Page& page, const Frame& frame) {
    std::vector<Piece> pieces;
    for (const Block& block : page.blocks) std::visit(Cut{pieces, frame}, block);
    return pieces;
}

}  // namespace battwright::card
