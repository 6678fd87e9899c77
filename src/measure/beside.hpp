// A file under construction, in the folder of the file it will become.
#pragma once

#include <filesystem>
#include <memory>

#include "measure/complaint.hpp"

namespace battwright::measure {

// A new, empty file of a name nobody uses beside `target`, gone again with this value unless it took the
// target's place. It is locked while it is made (flock), so that what a killed program left behind is told
// from what another is writing: making one sweeps the folder of the former.
class Beside {
  public:
    // The complaint names `target`.
    static Expected<Beside> make(const std::filesystem::path& target);
    ~Beside();
    Beside(Beside&&) noexcept;
    Beside& operator=(Beside&&) noexcept;

    const std::filesystem::path& path() const;
    int descriptor() const;  // open for writing
    // Flushes it to disk and puts it in the place of `target`, whatever was there.
    Expected<void> replace(const std::filesystem::path& target);
    // The same where nothing is: false, and nothing done, when there is something by now.
    Expected<bool> place(const std::filesystem::path& target);

  private:
    struct Made;
    explicit Beside(std::unique_ptr<Made> made);
    std::unique_ptr<Made> made_;
};

// What SQLite lays beside a file of its own; they go with it.
inline constexpr const char* helper_endings[] = {"-wal", "-shm", "-journal"};

}  // namespace battwright::measure
