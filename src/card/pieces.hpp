// Inside this room: blocks cut into pieces that are never cut further.
#pragma once

#include <vector>

#include "card/layout.hpp"
#include "card/lettering.hpp"

namespace battwright::card {

struct Piece {
    double height = 0.0;
    double gap_before = 0.0;  // not used at the top of a side
    bool with_next = false;   // stays on the side of the piece that follows
    std::vector<Placed> placed;
};

// What the pieces are cut for.
struct Frame {
    double width = 0.0;         // of the content, points
    double letter_pt = 0.0;     // of plain text
    double most_code_pt = 0.0;  // side of the largest QR code that is welcome, with its quiet zone
    Lettering* lettering = nullptr;
    bool* code_left_out = nullptr;
};

std::vector<Piece> pieces_of(const Page& page, const Frame& frame);

// One file each: the lettered blocks, tables, and what is drawn.
void add_text(std::vector<Piece>& pieces, const std::string& text, const Style& style, double gap,
              const Frame& frame);
void add_table(std::vector<Piece>& pieces, const Table& table, const Frame& frame);
void add_picture(std::vector<Piece>& pieces, const Picture& picture, const Frame& frame);
void add_rule(std::vector<Piece>& pieces, const Frame& frame);
void add_hole(std::vector<Piece>& pieces, const HoleMark& hole, const Frame& frame);
void add_code(std::vector<Piece>& pieces, const Code& code, const Frame& frame);
void add_blanks(std::vector<Piece>& pieces, const Blanks& blanks, const Frame& frame);

Ink line_ink(double x, double y, double to_x, double to_y, double thick, double grey);

}  // namespace battwright::card
