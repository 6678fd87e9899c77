// Saving a file too large to be held whole: it is written as its bytes come.
#pragma once

#include <filesystem>
#include <string_view>
#include <utility>

#include "measure/beside.hpp"
#include "measure/complaint.hpp"

namespace battwright::measure {

// As save_bytes() in all else: nothing is at `path` before finish(), and nothing ever when this goes before.
class SaveInPieces {
  public:
    static Expected<SaveInPieces> begin(std::filesystem::path path);
    Expected<void> add(std::string_view bytes);
    Expected<void> finish();
    // The file as it lies beside `path`, flushed by whoever puts it there.
    Beside take() && { return std::move(beside_); }

  private:
    SaveInPieces(std::filesystem::path path, Beside beside)
        : path_(std::move(path)), beside_(std::move(beside)) {}
    std::filesystem::path path_;
    Beside beside_;
};

}  // namespace battwright::measure
