// Every published figure gathered in published.csv, against the catalogue: inside the range of the same
// basis, or the row says why not.
#include <doctest/doctest.h>

#include <algorithm>
#include <cstdio>
#include <cstdlib>

#include <fstream>
#include <map>
#include <sstream>
#include <string>
#include <vector>

#include "fibre/catalogue.hpp"
#include "place.hpp"
#include "text/numbers.hpp"

using namespace battwright;

namespace {

std::vector<std::string> cells_of(const std::string& line) {
    std::vector<std::string> cells(1);
    bool quoted = false;
    for (const char c : line) {
        if (c == '"')
            quoted = !quoted;
        else if (c == ',' && !quoted)
            cells.emplace_back();
        else
            cells.back() += c;
    }
    return cells;
}

double value_of(const fibre::Kind& kind, const std::string& figure) {
    if (figure == "staple") return kind.staple_mm;
    if (figure == "diameter") return kind.diameter_um;
    if (figure == "crimp") return kind.crimp_per_cm;
    if (figure == "diameter_cv") return 100.0 * kind.diameter_cv;
    REQUIRE(figure == "staple_cv");
    return 100.0 * kind.staple_cv;
}

// Sold as top or cut, so that a length on the animal says nothing of it; the merinos' staple is the fleece's.
bool is_combed(const fibre::Kind& kind) {
    static const std::vector<std::string> carded_or_combed{"cashgora",          "swaledale", "hebridean",
                                                           "castlemilk-moorit", "southdown", "manx-loaghtan"};
    const bool listed =
        std::find(carded_or_combed.begin(), carded_or_combed.end(), kind.id) != carded_or_combed.end();
    using fibre::Family;
    return listed || kind.allowance_pct == 18.25 || kind.family == Family::silk ||
           kind.family == Family::bast || kind.family == Family::regenerated ||
           kind.family == Family::synthetic;
}

bool same_basis(const fibre::Kind& kind, const std::string& figure, const std::string& basis) {
    if (figure != "staple" || basis.empty() || basis == "unstated") return true;
    if (basis == "top" || basis == "cut") return is_combed(kind);
    return kind.staple_as == fibre::StapleAs::fleece_to_top || !is_combed(kind);
}

}  // namespace

TEST_CASE("every figure lies inside its published ranges of the same basis, or the row says why not") {
    std::ifstream file(testing::source_dir() + "/tests/fibre/published.csv");
    REQUIRE(file);
    std::string line;
    std::getline(file, line);
    REQUIRE(line == "kind,figure,low,high,unit,basis,source,why_not");
    int held = 0, excused = 0, yields = 0;
    while (std::getline(file, line)) {
        CAPTURE(line);
        const auto cells = cells_of(line);
        REQUIRE(cells.size() == 8);
        const fibre::Kind* kind = fibre::Catalogue::builtin().find(cells[0]);
        REQUIRE(kind != nullptr);
        CHECK_FALSE(cells[6].empty());
        if (cells[1] == "yield") {  // a range and no figure: the catalogue's own has to be this one
            REQUIRE(kind->published.contains("yield"));
            CHECK(kind->published.at("yield").low == std::stod(cells[2]));
            CHECK(kind->published.at("yield").high == std::stod(cells[3]));
            ++yields;
            continue;
        }
        const double value = value_of(*kind, cells[1]);
        const double low = cells[2].empty() ? 0.0 : std::stod(cells[2]);
        const double high = cells[3].empty() ? 1e9 : std::stod(cells[3]);
        if (!same_basis(*kind, cells[1], cells[5])) {
            CHECK(cells[7].empty());
            continue;
        }
        const bool inside = value >= low - 1e-6 && value <= high + 1e-6;
        CAPTURE(value);
        CHECK(inside == cells[7].empty());  // an excuse that is no longer needed is a fault too
        (inside ? held : excused) += 1;
    }
    CHECK(held >= 200);
    CHECK(yields == 12);
    CHECK(excused * 3 < held);
}

TEST_CASE("what the catalogue calls published holds its figure, and a guess is in doubt") {
    int guesses = 0, published = 0;
    for (const fibre::Kind& kind : fibre::Catalogue::builtin().kinds()) {
        for (const char* figure : {"staple", "diameter", "staple_cv", "diameter_cv", "crimp"}) {
            CAPTURE(kind.id);
            CAPTURE(figure);
            const auto range = kind.published.find(figure);
            const bool percent = std::string(figure).ends_with("_cv");
            if (range != kind.published.end()) {
                const double scale = percent ? 100.0 : 1.0;
                CHECK(value_of(kind, figure) >= range->second.low * scale - 1e-6);
                CHECK(value_of(kind, figure) <= range->second.high * scale + 1e-6);
                ++published;
            }
            if (fibre::is_guess(kind, figure)) {
                ++guesses;
                if (std::string(figure) == "staple") CHECK(fibre::doubt(kind, figure) == 0.25);
                if (std::string(figure) == "diameter") CHECK(fibre::doubt(kind, figure) == 0.125);
                CHECK(fibre::doubt(kind, figure) > 0.1);
            }
        }
    }
    CHECK(published >= 150);
    MESSAGE("figures published: " << published << ", guesses: " << guesses);
}

// BATTWRIGHT_SHOW_KINDS=1 build/test_fibre -tc='*table of kinds*' prints it: kind, figure, value, what is
// published of it, source.
TEST_CASE("the table of kinds has a value, a range or a guess, and a source for every figure") {
    const bool shown = std::getenv("BATTWRIGHT_SHOW_KINDS") != nullptr;
    for (const fibre::Kind& kind : fibre::Catalogue::builtin().kinds()) {
        for (const std::string figure : {"staple", "diameter", "staple_cv", "diameter_cv", "crimp"}) {
            const double scale = figure.ends_with("_cv") ? 100.0 : 1.0;
            const std::string unit = figure.ends_with("_cv") ? " %"
                                     : figure == "staple"    ? " mm"
                                     : figure == "crimp"     ? " per cm"
                                                             : " um";
            const auto range = kind.published.find(figure);
            const auto source = kind.sources.find(figure);
            std::string line =
                kind.id + " | " + figure + " | " + text::rounded(value_of(kind, figure), 2) + unit + " | ";
            if (range != kind.published.end())
                line += text::rounded(range->second.low * scale, 2) + " to " +
                        text::rounded(range->second.high * scale, 2) + unit;
            else if (fibre::is_guess(kind, figure))
                line +=
                    "a guess, give or take " + text::rounded(100.0 * fibre::doubt(kind, figure), 1) + " %";
            line += " | " + (source == kind.sources.end() ? std::string("no source") : source->second);
            CAPTURE(line);
            // Not a bare number: it is published, it says where it is from, or it is in doubt.
            CHECK((range != kind.published.end() || source != kind.sources.end() ||
                   fibre::doubt(kind, figure) > 0.0));
            if (shown) std::printf("%s\n", line.c_str());
        }
    }
}
