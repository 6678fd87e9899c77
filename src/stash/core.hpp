// Inside this room: what an open stash holds.
#pragma once

#include <filesystem>
#include <memory>

#include "stash/database.hpp"
#include "stash/private_copy.hpp"
#include "stash/stash.hpp"

namespace battwright::stash {

struct Stash::Core {
    Core(const std::filesystem::path& path, const OpenOptions& how);
    // For reading where nothing can be written beside the file: the file alone, or the copy when there is
    // one.
    Core(const std::filesystem::path& path, const OpenOptions& how, std::unique_ptr<PrivateCopy> copy);

    std::unique_ptr<PrivateCopy> copy;  // outlives the database that lies in it
    Database database;
    OpenOptions how;
    const fibre::Catalogue& catalogue;
    // The last picture of the shelf, and the state of the file it was taken of.
    std::shared_ptr<const Shelf> shelf;
    Database::Version shelf_version;

    const std::shared_ptr<const Shelf>& present_shelf();

  private:
    void get_ready();
};

// One unit of work on the file, with failures turned into complaints.
template <class Work>
auto reading(Database& database, const Work& work) {
    return guarded([&] {
        Transaction transaction(database, Transaction::For::reading);
        auto result = work();
        transaction.commit();
        return result;
    });
}
template <class Work>
auto writing(Database& database, const Work& work) {
    return guarded([&] {
        Transaction transaction(database, Transaction::For::writing);
        if constexpr (std::is_void_v<decltype(work())>) {
            work();
            transaction.commit();
        } else {
            auto result = work();
            transaction.commit();
            return result;
        }
    });
}

}  // namespace battwright::stash
