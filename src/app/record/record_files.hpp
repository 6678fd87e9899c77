// The stash as files for others: tables out and in. No display.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "stash/csv.hpp"

namespace battwright::app {

// Which of lots.csv, movements.csv, batts.csv and skeins.csv stand in the folder already.
std::vector<std::string> tables_there(const std::filesystem::path& folder);
// Writes all four, each at once or not at all; a complaint names the file that could not be written.
measure::Expected<std::vector<std::filesystem::path>> write_tables(const stash::Stash& stash,
                                                                   const std::filesystem::path& folder);
// A table of lots, at most 64 MiB; nothing goes on the shelf yet.
measure::Expected<stash::LotsRead> read_table(const std::filesystem::path& path,
                                              const fibre::Catalogue& catalogue, const stash::Shelf& shelf);

}  // namespace battwright::app
