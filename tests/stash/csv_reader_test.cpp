// Our tables before a second reader: the csv module of Python's standard library, with the comma, and with
// the separators of other lands, where a text must not become a formula.
#include <doctest/doctest.h>

#include <array>
#include <cstdio>
#include <fstream>
#include <random>

#include "folder.hpp"
#include "stash/csv.hpp"
#include "stash/csv_table.hpp"

using namespace battwright;
using namespace battwright::stash;

namespace {

constexpr const char* script = R"py(
import csv, re, sys
def rows(path, **how):
    with open(path, encoding='utf-8', newline='') as file:
        return list(csv.reader(file, **how))
kind, path = sys.argv[1:]
if kind == 'cells':
    for row in rows(path, strict=True):
        print(','.join(cell.encode().hex() for cell in row))
else:
    bad = 0
    for delimiter in ';\t':
        for quoting in (csv.QUOTE_MINIMAL, csv.QUOTE_NONE):
            for row in rows(path, delimiter=delimiter, quoting=quoting):
                for cell in row:
                    if re.match('[" ]*[=+@\uff1d\uff0b\uff0d\uff20-]', cell) and not re.match('-?[0-9.]+(,|$)', cell):
                        bad += 1
                        print(repr(cell), file=sys.stderr)
    print(bad)
)py";

std::string answer_of(const std::filesystem::path& folder, const std::string& words) {
    std::ofstream(folder / "read.py") << script;
    FILE* pipe = ::popen(("python3 '" + (folder / "read.py").string() + "' " + words + " '" +
                          (folder / "table.csv").string() + "' 2>&1")
                             .c_str(),
                         "r");
    REQUIRE(pipe != nullptr);
    std::string text;
    std::array<char, 4096> buffer{};
    while (const std::size_t got = std::fread(buffer.data(), 1, buffer.size(), pipe))
        text.append(buffer.data(), got);
    CHECK(::pclose(pipe) == 0);
    return text;
}

bool has_python() {
    if (std::system("python3 -c 'import csv' >/dev/null 2>&1") == 0) return true;
    MESSAGE("SKIPPED: no python3 here to read the tables a second time");
    return false;
}

std::string hex(std::string_view text) {
    constexpr char digits[] = "0123456789abcdef";
    std::string result;
    for (const char c : text) {
        const auto byte = static_cast<unsigned char>(c);
        result += digits[byte >> 4];
        result += digits[byte & 15];
    }
    return result;
}

std::string nasty(std::mt19937& random) {
    constexpr std::array<std::string_view, 20> pieces{
        "=1+1", "+",  "-",    "@x", "'",    "\"",      "\"\"",    ",",        ";",    " ",
        "kelp", "\t", "\r\n", "\n", "a;=1", "\u00e6r", "\uff1d1", "\"=1\";-", "; =x", ";\"+2"};
    std::string text;
    for (unsigned long i = random() % 8; i > 0; --i) text += pieces[random() % pieces.size()];
    return text;
}

}  // namespace

TEST_CASE("another reader finds the same cells, and no formula by any separator") {
    if (!has_python()) return;
    const testing::Folder folder("csv");
    std::mt19937 random(31);
    std::string table, expected;
    for (int row = 0; row < 400; ++row) {
        RowWriter writer(table);
        for (int cell = 0; cell < 4; ++cell) {
            const std::string text = cell == 0 && row == 0 ? "a;=1+1;b" : nasty(random);
            writer.text(text);
            CHECK(undefused(defused(text)) == text);
            expected += (cell == 0 ? "" : ",") + hex(defused(text));
        }
        writer.number(-12.5).end();
        expected += "," + hex("-12.5") + "\n";
    }
    std::ofstream(folder.path / "table.csv", std::ios::binary) << table;
    CHECK(answer_of(folder.path, "cells") == expected);
    CHECK(answer_of(folder.path, "formulas") == "0\n");
}

TEST_CASE("a table from a land of decimal commas is read as it is meant") {
    const auto read = [](const std::string& text) {
        return read_lots(text, "bags.csv", fibre::Catalogue::builtin());
    };
    const auto table = read(
        "sep=;\r\nname;fibre;weight_g;date;cost;currency\r\n"
        "Nebel;merino-fine;12,5;24.12.2025;1.234,50;EUR\r\n"
        "Tang;shetland;1.000;1.2.2025;;\r\n"
        "Moos;shetland;3,5 oz;2025-02-01;;\r\n");
    REQUIRE(table.has_value());
    REQUIRE(table->complaints.empty());
    REQUIRE(table->good.size() == 3);
    CHECK(table->good[0].line == 3);
    CHECK(table->good[0].grams == 12.5);
    CHECK(table->good[0].lot.got_on == "2025-12-24");
    CHECK(table->good[0].lot.cost->amount == 1234.5);
    CHECK(table->good[1].grams == 1000.0);
    CHECK(table->good[1].lot.got_on == "2025-02-01");
    // 1 oz = 28.349523125 g (international yard and pound agreement, 1959).
    CHECK(table->good[2].grams == doctest::Approx(99.2233309375));
    // Both signs in one table: which it is must not be guessed.
    const auto mixed = read("name;fibre;weight_g\nNebel;merino-fine;12,5\nTang;shetland;1.5\n");
    REQUIRE(mixed->complaints.size() == 1);
    CHECK(mixed->complaints[0].line == 3);
    CHECK(mixed->complaints[0].what.find("other numbers of this table have a comma") != std::string::npos);
    // Points alone are decimal points, whatever parts the cells; a comma between commas is no number.
    CHECK(read("name;fibre;weight_g\nTang;shetland;1.250\n")->good.at(0).grams == 1.25);
    CHECK(read("name,fibre,weight_g\nTang,shetland,\"1,5\"\n")->complaints.size() == 1);
    for (const char* date : {"32.1.2025", "1.13.2025", "1.1.25", "24/12/2025", "..2025", "1.2.3.2025"})
        CHECK(read("name,fibre,weight_g,date\nTang,shetland,5," + std::string(date) + "\n")
                  ->complaints.size() == 1);
}
