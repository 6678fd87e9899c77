#include "app/record/record_files.hpp"

#include <system_error>

#include "measure/save.hpp"

namespace battwright::app {
namespace {

namespace fs = std::filesystem;
using measure::Expected;

constexpr std::size_t most_bytes = std::size_t{64} << 20;

fs::path path_of(const stash::CsvTable& table, const fs::path& folder) {
    return folder / std::string(table.name).append(".csv");
}

}  // namespace

std::vector<std::string> tables_there(const fs::path& folder) {
    std::vector<std::string> there;
    std::error_code error;
    for (const auto& table : stash::csv_tables())
        if (const fs::path path = path_of(table, folder); fs::exists(path, error))
            there.push_back(path.filename().string());
    return there;
}

Expected<std::vector<fs::path>> write_tables(const stash::Stash& stash, const fs::path& folder) {
    const auto shelf = stash.shelf();
    if (!shelf) return tl::make_unexpected(shelf.error());
    std::vector<fs::path> files;
    for (const auto& table : stash::csv_tables()) {
        const auto text = table.text(stash, (*shelf)->lots);
        if (!text) return tl::make_unexpected(text.error());
        files.push_back(path_of(table, folder));
        if (auto saved = measure::save_bytes(files.back(), *text); !saved)
            return tl::make_unexpected(saved.error());
    }
    return files;
}

Expected<stash::LotsRead> read_table(const fs::path& path, const fibre::Catalogue& catalogue,
                                     const stash::Shelf& shelf) {
    const auto text = measure::load_bytes(path, most_bytes);
    if (!text) return tl::make_unexpected(text.error());
    return stash::read_lots(*text, path.string(), catalogue, &shelf);
}

}  // namespace battwright::app
