// Deeds of the record, as values: what was carded and spun, and the file as a whole.
#pragma once

#include <cstdint>
#include <filesystem>
#include <string>
#include <variant>
#include <vector>

#include "stash/csv.hpp"
#include "stash/making.hpp"

namespace battwright::app {

struct CardIt {
    stash::Carding carding;
};
struct TakeBack {
    std::int64_t batt = 0;
    std::string note;
};
struct OffTheDrum {
    std::int64_t batt = 0;
    double grams = 0.0;  // all batts of the carding together
};
struct LogSkein {
    stash::Skein skein;
};
struct ChangeSkein {
    stash::Skein skein;  // by its id
};
struct RemoveSkein {
    std::int64_t skein = 0;
};
struct Allocate {
    stash::Allocation allocation;
};
struct Release {
    std::int64_t allocation = 0;
};
struct TakeInRows {
    std::vector<stash::LotRow> rows;  // all of them or none
};
struct BackupTo {
    std::filesystem::path path;
};
struct RestoreFrom {
    std::filesystem::path path;
};
using RecordDeed = std::variant<CardIt, TakeBack, OffTheDrum, LogSkein, ChangeSkein, RemoveSkein, Allocate,
                                Release, TakeInRows, BackupTo, RestoreFrom>;

}  // namespace battwright::app
