#include "app/record/record_files.hpp"

#include <system_error>

#include "measure/save.hpp"

namespace battwright::app {
namespace {

namespace fs = std::filesystem;
using measure::Expected;

constexpr std::size_t most_bytes = std::size_t{64} << 20;

template <class T, class Write>
Expected<std::string> written(const Expected<T>& given, const Write& write) {
    if (!given) return tl::make_unexpected(given.error());
    return write(*given);
}

Expected<std::vector<stash::LotMovements>> all_movements(const stash::Stash& stash,
                                                         const stash::Shelf& shelf) {
    std::vector<stash::LotMovements> all;
    for (const auto& lot : shelf.lots) {
        auto movements = stash.movements(lot->lot.mark);
        if (!movements) return tl::make_unexpected(movements.error());
        all.push_back({lot->lot.mark, std::move(*movements)});
    }
    return all;
}

Expected<std::string> table(const stash::Stash& stash, const stash::Shelf& shelf, std::size_t which) {
    switch (which) {
        case 0:
            return stash::lots_csv(shelf.lots);
        case 1:
            return written(all_movements(stash, shelf),
                           [](const auto& all) { return stash::movements_csv(all); });
        case 2:
            return written(stash.batts(), [](const auto& all) { return stash::batts_csv(all); });
        default:
            return written(stash.skeins(), [](const auto& all) { return stash::skeins_csv(all); });
    }
}

}  // namespace

const std::vector<std::string>& table_names() {
    static const std::vector<std::string> names{"lots.csv", "movements.csv", "batts.csv", "skeins.csv"};
    return names;
}

std::vector<std::string> tables_there(const fs::path& folder) {
    std::vector<std::string> there;
    std::error_code error;
    for (const auto& name : table_names())
        if (fs::exists(folder / name, error)) there.push_back(name);
    return there;
}

Expected<std::vector<fs::path>> write_tables(const stash::Stash& stash, const fs::path& folder) {
    const auto shelf = stash.shelf();
    if (!shelf) return tl::make_unexpected(shelf.error());
    std::vector<fs::path> files;
    for (std::size_t i = 0; i < table_names().size(); ++i) {
        const auto text = table(stash, **shelf, i);
        if (!text) return tl::make_unexpected(text.error());
        files.push_back(folder / table_names()[i]);
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
