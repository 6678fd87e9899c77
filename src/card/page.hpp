// A page as a list of blocks. Every output (PDF, PNG, text, Markdown) is made from this one value, so a part
// added to a page is in all of them.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "colour/spectrum.hpp"
#include "strip/picture.hpp"

namespace battwright::card {

struct Heading {
    std::string text;
    bool title = false;  // the page's name, once at the top
};
struct Paragraph {
    std::string text;
    bool small = false;
};
// Drawn when an output shows it, each time anew: text needs none, and of many cards one picture at a time is
// held.
struct Picture {
    int width_px = 0, height_px = 0;  // shown over the full width
    std::function<strip::Image()> draw;
    std::string words;  // for outputs without pictures; may be empty
};
struct Column {
    std::string head;
    bool figures = false;  // set to the right
};
struct Row {
    std::vector<std::string> cells;  // as many as columns
    std::optional<colour::Srgb> swatch{};
    bool sum = false;  // a line above, set bold
};
struct Table {
    std::vector<Column> columns;
    std::vector<Row> rows;
};
struct Rule {};
// A QR code of `payload`; where it cannot be printed large enough to read, the line `instead`.
struct Code {
    std::string payload;
    std::string words;
    std::string instead;
};
// Lines to write on, each after its prompt; a code may stand to their right.
struct Blanks {
    std::vector<std::string> prompts;
    std::optional<Code> beside{};
};
// A ring that shows where to punch for the string: as wide as an office punch's hole (ISO 838: 6 mm).
struct HoleMark {
    double diameter_mm = 6.0;
};

using Block = std::variant<Heading, Paragraph, Picture, Table, Rule, Code, Blanks, HoleMark>;

struct Page {
    std::string name;  // for the file's title
    std::vector<Block> blocks;
};

}  // namespace battwright::card
