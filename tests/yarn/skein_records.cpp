#include "skein_records.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <fstream>
#include <sstream>
#include <stdexcept>

#include "place.hpp"

namespace skeins {
namespace {

using namespace battwright;

// Carding and spinning lose about this much of the fibre used (yarn/finish.hpp, middling preparation).
constexpr double yarn_of_fibre = 0.93;
constexpr std::array odd_notes{"beginner",  "packed",  "reeled", "cabled",   "effect", "slip",
                               "felted",    "brushed", "uneven", "textured", "gummed", "plied-with-another",
                               "many-plies"};

std::vector<std::string> split(const std::string& line, char at) {
    std::vector<std::string> parts;
    std::istringstream stream(line);
    for (std::string part; std::getline(stream, part, at);) parts.push_back(part);
    if (!line.empty() && line.back() == at) parts.emplace_back();
    return parts;
}

double number(const std::string& text) {
    return text.empty() ? 0.0 : std::stod(text);
}

// "merino-fine 80 + bombyx-silk 20" as strands of the catalogue.
std::vector<recipe::Strand> strands_in(const std::string& fibre) {
    std::vector<recipe::Strand> strands;
    std::istringstream stream(fibre);
    std::string id, plus;
    for (double share = 0.0; stream >> id >> share; stream >> plus) {
        recipe::Strand strand;
        strand.kind = fibre::Catalogue::builtin().share(id);
        if (strand.kind == nullptr) throw std::runtime_error("skeins.csv names no kind " + id);
        strand.grams = share;
        strand.diameter_um = strand.kind->diameter_um;
        strands.push_back(strand);
    }
    return strands;
}

bool is_odd(const std::string& notes) {
    const auto words = split(notes, ' ');
    return std::any_of(words.begin(), words.end(), [](const std::string& word) {
        return std::find(odd_notes.begin(), odd_notes.end(), word) != odd_notes.end();
    });
}

Record record_in(const std::string& line) {
    const auto cells = split(line, ',');
    if (cells.size() != 12) throw std::runtime_error("skeins.csv: " + line);
    Record record;
    record.id = std::stoi(cells[0]);
    record.source = std::stoi(cells[9]);
    record.grams = number(cells[1]) * (cells[10] == "fibre" ? yarn_of_fibre : 1.0);
    record.metres = number(cells[2]);
    record.wpi = number(cells[3]);
    record.name = cells[4];
    record.makeup = yarn::makeup_of(std::stoi(cells[6]), strands_in(cells[5]));
    record.preparation = cells[7];
    record.washed = cells[8];
    record.odd = is_odd(cells[11]);
    return record;
}

}  // namespace

double Record::log_m_per_kg() const {
    return std::log(1000.0 * metres / grams);
}

std::vector<Record> records() {
    std::ifstream file(battwright::testing::source_dir() + "/tests/yarn/skeins.csv");
    if (!file) throw std::runtime_error("tests/yarn/skeins.csv cannot be read");
    std::vector<Record> all;
    std::string line;
    std::getline(file, line);
    while (std::getline(file, line)) all.push_back(record_in(line));
    return all;
}

}  // namespace skeins
