#include <algorithm>

#include "card/output.hpp"

namespace battwright::card {
namespace {

// Columns of characters, not bytes: a name may hold accents.
std::size_t width_of(const std::string& text) {
    return static_cast<std::size_t>(
        std::count_if(text.begin(), text.end(), [](char c) { return (c & '\xC0') != '\x80'; }));
}

std::string padded(const std::string& text, std::size_t width, bool to_the_right) {
    const std::size_t have = width_of(text);
    const std::string space(have < width ? width - have : 0, ' ');
    return to_the_right ? space + text : text + space;
}

std::string without_trailing_space(std::string line) {
    while (!line.empty() && line.back() == ' ') line.pop_back();
    return line + "\n";
}

std::vector<std::size_t> widths_of(const Table& table) {
    std::vector<std::size_t> widths;
    for (std::size_t c = 0; c < table.columns.size(); ++c) {
        std::size_t width = width_of(table.columns[c].head);
        for (const Row& row : table.rows) width = std::max(width, width_of(row.cells[c]));
        widths.push_back(width);
    }
    return widths;
}

std::string joined(const std::vector<std::string>& cells, const Table& table,
                   const std::vector<std::size_t>& widths) {
    std::string line;
    for (std::size_t c = 0; c < cells.size(); ++c)
        line += (c > 0 ? "  " : "") + padded(cells[c], widths[c], table.columns[c].figures);
    return without_trailing_space(line);
}

std::vector<std::string> heads_of(const Table& table) {
    std::vector<std::string> heads;
    for (const Column& column : table.columns) heads.push_back(column.head);
    return heads;
}

bool has_heads(const Table& table) {
    return std::any_of(table.columns.begin(), table.columns.end(),
                       [](const Column& column) { return !column.head.empty(); });
}

struct AsText {
    std::string operator()(const Heading& heading) const {
        const std::string under(width_of(heading.text), '=');
        return heading.title ? heading.text + "\n" + under + "\n" : "\n" + heading.text + "\n";
    }
    std::string operator()(const Paragraph& paragraph) const { return paragraph.text + "\n"; }
    std::string operator()(const Picture& picture) const {
        return picture.words.empty() ? "" : picture.words + "\n";
    }
    std::string operator()(const Table& table) const {
        const auto widths = widths_of(table);
        std::string text = has_heads(table) ? joined(heads_of(table), table, widths) : "";
        for (const Row& row : table.rows) text += joined(row.cells, table, widths);
        return text;
    }
    std::string operator()(const Rule& /*rule*/) const { return "----\n"; }
    // A code is for cameras: plain text has the recipe file itself beside it.
    std::string operator()(const Code& /*code*/) const { return ""; }
    std::string operator()(const Blanks& blanks) const {
        std::string text;
        for (const std::string& prompt : blanks.prompts) text += prompt + " ____________________\n";
        return text;
    }
    std::string operator()(const HoleMark& /*hole*/) const { return ""; }
};

// What Markdown would take for its own signs is kept as it was typed.
std::string escaped(const std::string& text) {
    std::string result;
    for (const char c : text) {
        if (std::string_view("\\`*_[]<>#|~").find(c) != std::string_view::npos) result += '\\';
        result += c == '\n' ? ' ' : c;
    }
    return result;
}

std::string markdown_row(const std::vector<std::string>& cells, bool bold) {
    std::string line = "|";
    for (const std::string& cell : cells) {
        const std::string_view mark = bold && !cell.empty() ? "**" : "";
        line.append(" ").append(mark).append(escaped(cell)).append(mark).append(" |");
    }
    return line.append("\n");
}

struct AsMarkdown {
    std::string operator()(const Heading& heading) const {
        return std::string(heading.title ? "# " : "## ") + escaped(heading.text) + "\n\n";
    }
    std::string operator()(const Paragraph& paragraph) const { return escaped(paragraph.text) + "\n\n"; }
    std::string operator()(const Picture& picture) const {
        return picture.words.empty() ? "" : std::string("_").append(escaped(picture.words)).append("_\n\n");
    }
    std::string operator()(const Table& table) const {
        std::string text = markdown_row(heads_of(table), false) + "|";
        for (const Column& column : table.columns) text += column.figures ? " ---: |" : " --- |";
        text += "\n";
        for (const Row& row : table.rows) text += markdown_row(row.cells, row.sum);
        return text + "\n";
    }
    std::string operator()(const Rule& /*rule*/) const { return "---\n\n"; }
    std::string operator()(const Code& /*code*/) const { return ""; }
    std::string operator()(const Blanks& blanks) const {
        std::string text;
        for (const std::string& prompt : blanks.prompts) text += "- [ ] " + escaped(prompt) + "\n";
        return text + "\n";
    }
    std::string operator()(const HoleMark& /*hole*/) const { return ""; }
};

}  // namespace

std::string text_of(const Page& page) {
    std::string text;
    for (const Block& block : page.blocks) text += std::visit(AsText{}, block);
    return text;
}

std::string markdown_of(const Page& page) {
    std::string text;
    for (const Block& block : page.blocks) text += std::visit(AsMarkdown{}, block);
    while (text.ends_with("\n\n")) text.pop_back();
    return text;
}

}  // namespace battwright::card
