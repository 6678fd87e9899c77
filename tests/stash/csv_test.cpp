// Tables out and in: RFC 4180 (Common Format and MIME Type for CSV Files, 2005), and texts that would hurt.
#include "stash/csv.hpp"

#include <doctest/doctest.h>

#include <filesystem>
#include <random>

#include "colour/spaces.hpp"
#include "stash/csv_table.hpp"
#include "stash/mixture_words.hpp"

using namespace battwright;
using namespace battwright::stash;

namespace {

namespace fs = std::filesystem;

const fibre::Catalogue& catalogue() {
    return fibre::Catalogue::builtin();
}

struct CsvFolder {
    fs::path path;
    CsvFolder() {
        std::string pattern = (fs::temp_directory_path() / "battwright-csv-XXXXXX").string();
        path = mkdtemp(pattern.data());
    }
    ~CsvFolder() { fs::remove_all(path); }
    CsvFolder(const CsvFolder&) = delete;
    CsvFolder& operator=(const CsvFolder&) = delete;
};

std::vector<std::vector<std::string>> texts_of(std::string_view csv, char separator = ',') {
    std::vector<std::vector<std::string>> rows;
    for (const CsvRow& row : rows_of(csv, separator)) {
        CHECK_FALSE(row.fault);
        rows.emplace_back();
        for (const Cell& cell : row.cells) rows.back().push_back(cell.text);
    }
    return rows;
}

using Rows = std::vector<std::vector<std::string>>;

const std::string head = "mark,name,fibre,colours,weight_g\n";

LotsRead read(const std::string& text, const Shelf* shelf = nullptr) {
    auto result = read_lots(text, "bags.csv", catalogue(), shelf);
    REQUIRE(result);
    return *result;
}
std::string complaint_line(const LotsRead& read, std::size_t at = 0) {
    REQUIRE(read.complaints.size() > at);
    return measure::to_line(read.complaints[at]);
}

void check_same(const Lot& a, const Lot& b) {
    CHECK(a.mark == b.mark);
    CHECK(a.name == b.name);
    CHECK(write_content(a.content) == write_content(b.content));
    CHECK(write_palette(a.palette) == write_palette(b.palette));
    CHECK(a.form == b.form);
    CHECK(a.raw == b.raw);
    CHECK(a.yield_pct == b.yield_pct);
    CHECK(a.cost == b.cost);
    CHECK(a.maker == b.maker);
    CHECK(a.got_on == b.got_on);
    CHECK(a.place == b.place);
    CHECK(a.photo == b.photo);
    CHECK(a.staple_mm == b.staple_mm);
    CHECK(a.diameter_um == b.diameter_um);
    CHECK(a.notes == b.notes);
}

std::shared_ptr<const Shelved> shelved(const Lot& lot, double grams) {
    auto made = std::make_shared<Shelved>();
    made->lot = lot;
    made->grams = grams;
    return made;
}

// Lots of texts that have broken other people's tables.
class Mischief {
  public:
    explicit Mischief(unsigned seed) : random_(seed) {}

    std::string text(bool many_lines) {
        static const std::vector<std::string> pieces{"=1+1",
                                                     "+",
                                                     "-",
                                                     "@SUM(A1)",
                                                     "'",
                                                     "\"",
                                                     "\"\"",
                                                     ",",
                                                     ";",
                                                     " ",
                                                     "kelp",
                                                     "\u00e6r\u00f8",
                                                     "\u6d77\u85fb",
                                                     "\U0001f9f6",
                                                     "\uff1d1",
                                                     "\uff20",
                                                     "%s%n",
                                                     "##",
                                                     "'); DROP TABLE lot;--",
                                                     "|",
                                                     "\u200d",
                                                     "0x1F",
                                                     "1e5"};
        static const std::vector<std::string> breaks{"\n", "\r\n", "\r", "\t"};
        std::string result;
        for (int i = below(6); i > 0; --i) {
            result += one_of(pieces);
            if (many_lines && below(3) == 0) result += one_of(breaks);
        }
        return result;
    }
    Lot lot() {
        Lot made;
        made.name = "x" + text(false);
        if (below(2) == 0) made.name = text(false) + "gull";
        made.content = shares<recipe::Content>([&](double share) {
            return recipe::Content{catalogue().ids()[static_cast<std::size_t>(below(30))], share};
        });
        if (below(2) == 0)
            made.palette = shares<recipe::Tint>([&](double share) {
                return recipe::Tint{{below(256) / 255.0, below(256) / 255.0, below(256) / 255.0}, share};
            });
        made.form = static_cast<Form>(below(12));
        made.raw = below(3) == 0;
        if (made.raw) made.yield_pct = 1.0 + 99.0 * uniform();
        if (below(2) == 0) made.cost = Money{below(100000) / 100.0, text(false)};
        made.maker = text(false);
        if (below(2) == 0)
            made.got_on = "20" + std::to_string(10 + below(15)) + "-02-2" + std::to_string(below(9));
        made.place = text(false);
        made.photo = text(false);
        if (below(2) == 0) made.staple_mm = 10.0 + 200.0 * uniform();
        if (below(2) == 0) made.diameter_um = 10.0 + 30.0 * uniform();
        made.notes = text(true);
        return made;
    }
    double uniform() { return std::uniform_real_distribution<double>(0.0, 1.0)(random_); }
    int below(int count) { return static_cast<int>(random_() % static_cast<unsigned>(count)); }

  private:
    const std::string& one_of(const std::vector<std::string>& texts) {
        return texts[static_cast<std::size_t>(below(static_cast<int>(texts.size())))];
    }
    template <class Part, class Make>
    std::vector<Part> shares(const Make& make) {
        if (below(2) == 0) return {make(100.0)};
        const double first = 1.0 + 98.0 * uniform();
        return {make(first), make(100.0 - first)};
    }
    std::mt19937 random_;
};

}  // namespace

TEST_CASE("rows and cells are RFC 4180's, rule by rule") {
    // Section 2, rules 1 and 2: a line end after the last row is optional.
    CHECK(texts_of("aaa,bbb\r\nzzz,yyy\r\n") == Rows{{"aaa", "bbb"}, {"zzz", "yyy"}});
    CHECK(texts_of("aaa,bbb\r\nzzz,yyy") == Rows{{"aaa", "bbb"}, {"zzz", "yyy"}});
    // Rule 4: spaces are part of a field.
    CHECK(texts_of(" a , b\r\n") == Rows{{" a ", " b"}});
    // Rules 5 to 7: quotes, line breaks and commas in quotes, a quote doubled.
    CHECK(texts_of("\"aaa\",\"b\r\nbb\",\"c,\"\r\nzzz,yyy,xxx") ==
          Rows{{"aaa", "b\r\nbb", "c,"}, {"zzz", "yyy", "xxx"}});
    CHECK(texts_of("\"aaa\",\"b\"\"bb\",\"ccc\"") == Rows{{"aaa", "b\"bb", "ccc"}});
    // Beyond it: LF and CR, a byte order mark, blank lines, other separators, empty cells.
    CHECK(texts_of("\xef\xbb\xbf"
                   "a,b\nc,d\re,f") == Rows{{"a", "b"}, {"c", "d"}, {"e", "f"}});
    CHECK(texts_of("a,\n\n   \n,\"\"\n") == Rows{{"a", ""}, {"", ""}});
    CHECK(texts_of("a;\"b;c\"\n", ';') == Rows{{"a", "b;c"}});
    CHECK(texts_of("").empty());
    CHECK(separator_of("name;fibre\n1,2") == ';');
    CHECK(separator_of("name\tfibre\n1,2") == '\t');
    CHECK(separator_of("name,fibre;x") == ',');
}

TEST_CASE("broken quoting costs one row and is named by line and column") {
    const auto rows = rows_of("\u00e6,\"b\"x\nc,d\ne,f\"g\nh,\"i\nj,k\n", ',');
    REQUIRE(rows.size() == 5);
    REQUIRE(rows[0].fault);
    CHECK(rows[0].fault->line == 1);
    CHECK(rows[0].fault->column == 6);  // characters, not bytes
    CHECK_FALSE(rows[1].fault);
    REQUIRE(rows[2].fault);
    CHECK(rows[2].fault->line == 3);
    CHECK(rows[2].fault->column == 4);
    REQUIRE(rows[3].fault);
    CHECK(rows[3].fault->line == 4);
    CHECK(rows[3].fault->column == 3);
    CHECK_FALSE(rows[4].fault);
    CHECK(rows[4].cells[1].text == "k");
}

TEST_CASE("no text leaves as a formula, and every text comes back") {
    for (const char* text :
         {"=1+1",   "+1",     "-1",     "@x", "\tx", "\rx", "\nx", "'=1", "''=1", "\uff1d1",
          "\uff0b", "\uff0d", "\uff20", "=",  "'",   "''",  "'x",  "x=1", "",     " =1"}) {
        CAPTURE(text);
        const std::string safe = defused(text);
        CHECK(undefused(safe) == text);
        if (!safe.empty())
            for (const char* start :
                 {"=", "+", "-", "@", "\t", "\r", "\n", "\uff1d", "\uff0b", "\uff0d", "\uff20"})
                CHECK_FALSE(safe.starts_with(start));
    }
    Lot lot;
    lot.name = "=HYPERLINK(\"http://kelp.example\";\"gulls\")";
    lot.content = {{"merino-fine", 100.0}};
    lot.notes = "@tide, -3";
    const std::vector<std::shared_ptr<const Shelved>> lots{shelved(lot, 25.0)};
    for (const auto& row : texts_of(lots_csv(lots)))
        for (const std::string& cell : row) CHECK(cell == defused(undefused(cell)));
    // What this program writes as a number is a number, below zero too.
    Movement out;
    out.grams = -12.5;
    CHECK(movements_csv(std::vector<LotMovements>{{"KF7R3X", {out}}}).find(",-12.5,") != std::string::npos);
}

TEST_CASE("random lots with nasty texts come back exactly, whatever ends the lines") {
    for (unsigned seed = 0; seed < 60; ++seed) {
        CAPTURE(seed);
        Mischief mischief(seed);
        std::vector<std::shared_ptr<const Shelved>> lots;
        for (int i = 0; i < 10; ++i) {
            Lot lot = mischief.lot();
            REQUIRE_FALSE(fault_in(lot, catalogue()));
            lots.push_back(shelved(lot, std::round(1e9 * mischief.uniform() + 1.0) / 1e6));
        }
        const std::string csv = lots_csv(lots);
        for (const std::string& text : {csv, "\xef\xbb\xbf" + csv}) {
            const LotsRead back = read(text);
            REQUIRE(back.complaints.empty());
            REQUIRE(back.good.size() == lots.size());
            for (std::size_t i = 0; i < lots.size(); ++i) {
                check_same(back.good[i].lot, lots[i]->lot);
                CHECK(back.good[i].grams == lots[i]->grams);
            }
        }
    }
}

TEST_CASE("random bytes are read without harm") {
    std::mt19937 random(5);
    for (int round = 0; round < 300; ++round) {
        std::string text = round % 2 == 0 ? head : "";
        const int length = static_cast<int>(random() % 400);
        for (int i = 0; i < length; ++i) {
            constexpr std::string_view usual = "\",;\n\r'=ab 1";
            text += random() % 3 == 0 ? static_cast<char>(random() % 256) : usual[random() % usual.size()];
        }
        const auto result = read_lots(text, "bags.csv", catalogue());
        if (!result) CHECK_FALSE(result.error().what.empty());
    }
}

TEST_CASE("units, shares and other ways to write a row") {
    const LotsRead lots = read(
        "Name;FIBRE;colours;weight_g;raw;yield_pct;date;cost;currency;staple_mm\r\n"
        "Fog;merino-fine 70 %; #fff;3,5 oz;;;;;;\r\n"
        "Tar;shetland;;1,5 kg;;;;;;\r\n"
        "\"Gull; grey\";\"merino-fine; shetland\";\"#2f5d50 60; #b08d3c 40\";120;YES;65 "
        "%;2024-02-29;12,50;kr;3 3/4 in\r\n");
    // "70 %" of one kind does not come to 100.
    REQUIRE(lots.complaints.size() == 1);
    CHECK(complaint_line(lots).starts_with("bags.csv:2:5: "));
    REQUIRE(lots.good.size() == 2);
    CHECK(lots.good[0].grams == 1500.0);
    const Lot& lot = lots.good[1].lot;
    CHECK(lot.name == "Gull; grey");
    CHECK(lot.content[1].share_pct == 50.0);
    CHECK(colour::hex(lot.palette[1].colour) == "#b08d3c");
    CHECK(lot.raw);
    CHECK(lot.yield_pct == 65.0);
    CHECK(lot.cost == Money{12.5, "kr"});
    CHECK(*lot.staple_mm == doctest::Approx(95.25));  // 25.4 mm to the inch
    CHECK(lots.good[1].line == 4);
}

TEST_CASE("each bad row is told by line and column and the rest is offered") {
    const std::string rows[] = {",Fog,merino-fine,#12345,20",
                                ",Fog,merino-fime,,20",
                                ",,merino-fine,,20",
                                ",Fog,,,20",
                                ",Fog,merino-fine,,",
                                ",Fog,merino-fine,,0",
                                ",Fog,merino-fine,,-4",
                                ",Fog,merino-fine,,20 mm",
                                ",Fog,merino-fine,,20,5",
                                ",Fog,merino-fine",
                                "AAAAAA,Fog,merino-fine,,20",
                                ",\"Fo\ng\",merino-fine,,20",
                                ",Fog,merino-fine 60; shetland,,20",
                                ",Fog,merino-fine;;shetland,,20",
                                ",F\xffg,merino-fine,,20",
                                ",Fog,merino-fine,,1e300",
                                ",Fog,merino-fine,,nan"};
    const int columns[] = {18, 6, 2, 6, 19, 19, 19, 19, 1, 1, 1, 2, 6, 6, 2, 19, 19};
    for (std::size_t i = 0; i < std::size(rows); ++i) {
        CAPTURE(rows[i]);
        const LotsRead lots =
            read(head + ",Tide,shetland,,5\n" + rows[i] + "\n,Kelp,merino-fine,#2f5d50,30\n");
        REQUIRE(lots.good.size() == 2);
        CHECK(lots.good[1].lot.name == "Kelp");
        REQUIRE(lots.complaints.size() == 1);
        const std::string line = complaint_line(lots);
        CAPTURE(line);
        CHECK(line.starts_with("bags.csv:3:" + std::to_string(columns[i]) + ": "));
        CHECK(line.find("; ") != std::string::npos);
        CHECK(line.find('\n') == std::string::npos);
    }
}

TEST_CASE("a header we do not understand is one complaint") {
    for (const std::string& text :
         {std::string(""), std::string("\n\n"), std::string("name,fibre\n"),
          std::string("name,fibre,weight\n"), std::string("name,fibre,weight_g,colour_of_tide\n"),
          std::string("name,name,fibre,weight_g\n"), std::string("\"name,fibre\n"),
          std::string("\xff\xfen\0a\0", 6)}) {
        const auto result = read_lots(text, "bags.csv", catalogue());
        REQUIRE_FALSE(result);
        CHECK(result.error().where == "bags.csv");
        CHECK_FALSE(result.error().mend.empty());
    }
    const auto near = read_lots("name,fibre,weigth_g\n", "bags.csv", catalogue());
    CHECK(near.error().mend.find("weight_g") != std::string::npos);
    CHECK(near.error().column == 12);
}

TEST_CASE("a mark is used once: on the shelf or in the table") {
    Lot there;
    there.mark = "KF7R3X";
    const Shelf shelf{{shelved(there, 5.0)}};
    const LotsRead lots =
        read(head + "kf7-r3x,Fog,shetland,,5\nCCCCCC,Kelp,shetland,,5\nCCC CCC,Tide,shetland,,5\n", &shelf);
    REQUIRE(lots.good.size() == 1);
    REQUIRE(lots.complaints.size() == 2);
    CHECK(lots.complaints[0].line == 2);
    CHECK(lots.complaints[1].line == 4);
}

TEST_CASE("good rows go on the shelf together or not at all, and out again the same") {
    const CsvFolder folder;
    auto stash = Stash::open(folder.path / "stash.db");
    REQUIRE(stash);
    Mischief mischief(99);
    std::vector<LotRow> rows;
    for (int i = 0; i < 25; ++i) rows.push_back({i + 2, mischief.lot(), 0.5 + i});
    auto lots = take_in(*stash, rows);
    REQUIRE(lots);
    const auto shelf = *stash->shelf();
    REQUIRE(shelf->lots.size() == 25);
    const LotsRead back = read(lots_csv(shelf->lots));
    REQUIRE(back.complaints.empty());
    for (std::size_t i = 0; i < back.good.size(); ++i) {
        Lot wanted = rows[i].lot;
        wanted.mark = (*lots)[i].mark;
        check_same(back.good[i].lot, wanted);
        CHECK(back.good[i].grams == rows[i].grams);
    }
    std::vector<LotRow> more{{2, mischief.lot(), 4.0}, {3, mischief.lot(), 4.0}};
    more[1].lot.mark = (*lots)[0].mark;
    CHECK_FALSE(take_in(*stash, more));
    CHECK((*stash->shelf())->lots.size() == 25);
}

TEST_CASE("batts and skeins leave as tables of the same shape in every row") {
    Batt batt;
    batt.id = 4;
    batt.carding.name = "-Kelp, \"Brass\"";
    batt.carding.lines = {{"KF7R3X", 25.0}, {"CCCCCC", 12.25}};
    batt.fed_grams = 37.25;
    const Rows batts = texts_of(batts_csv(std::vector<Batt>{batt, Batt{}}));
    REQUIRE(batts.size() == 3);
    for (const auto& row : batts) CHECK(row.size() == batts[0].size());
    CHECK(undefused(batts[1][1]) == batt.carding.name);
    CHECK(batts[1][8] == "KF7R3X 25; CCCCCC 12.25");
    Skein skein;
    skein.from = {{4, 60.0}, {7, 40.0}};
    skein.metres = 180.5;
    const Rows skeins = texts_of(skeins_csv(std::vector<Skein>{skein}));
    REQUIRE(skeins.size() == 2);
    CHECK(skeins[0].size() == skeins[1].size());
    CHECK(skeins[1][4] == "180.5");
    CHECK(skeins[1][5].empty());  // never wrapped
    CHECK(skeins[1][8] == "4 60; 7 40");
}
