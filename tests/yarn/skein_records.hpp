// Published figures of finished handspun, read from tests/yarn/skeins.csv: 117 skeins of 77 sources
// (spinners' pages, a certificate portfolio, a magazine's measurements). The columns are facts as published;
// `notes` are marks of ours, and `source` a number in place of a page.
#pragma once

#include <string>
#include <vector>

#include "yarn/law.hpp"

namespace skeins {

struct Record {
    int id = 0, source = 0;
    double grams = 0.0, metres = 0.0;  // grams of yarn: of fibre used, what spinning leaves
    double wpi = 0.0;                  // 0: not counted
    std::string name;                  // of the thickness, "" when not said
    battwright::yarn::Makeup makeup;
    std::string preparation, washed;
    bool odd = false;  // effect yarns, packed wraps, beginners and the like: left out of every fit
    double log_m_per_kg() const;
};

// All of the file; throws std::runtime_error when it cannot be read.
std::vector<Record> records();

}  // namespace skeins
