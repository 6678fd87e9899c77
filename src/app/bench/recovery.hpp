// A copy of unsaved work, so that a crash or a power cut loses two seconds at most.
#pragma once

#include <chrono>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "measure/complaint.hpp"
#include "measure/seen.hpp"

namespace battwright::app {

// What an earlier run left behind.
struct LeftBehind {
    std::filesystem::path file;
    std::string text;                               // the recipe as TOML
    std::optional<std::filesystem::path> original;  // the file it was opened from
    measure::Seen seen;                             // what was in that; size and hash only
    std::filesystem::file_time_type when{};
};

// One run's recovery file. A lock that the system drops with the process tells a living run from a dead one.
class Recovery {
  public:
    using Clock = std::chrono::steady_clock;
    // Unsaved work is written this long after it changed.
    static constexpr std::chrono::milliseconds delay{1000};

    // An empty folder keeps no copies.
    explicit Recovery(const std::filesystem::path& folder);
    ~Recovery();
    Recovery(const Recovery&) = delete;
    Recovery& operator=(const Recovery&) = delete;

    // Says that there is work which the file on disk does not hold.
    void touched(Clock::time_point now);
    // Seconds until write() is due, or nothing when all is safe.
    std::optional<double> seconds_until_due(Clock::time_point now) const;
    // Writes the copy. The complaint of the first failure is returned once, later ones are kept quiet.
    measure::Expected<void> write(const std::string& recipe_text,
                                  const std::optional<std::filesystem::path>& original,
                                  const measure::Seen& seen = {});
    // The work is saved, or the person let it go: no copy is needed.
    void clear();

    // Copies that no living run owns, newest first. Locks that dead runs left are swept away.
    static std::vector<LeftBehind> left_behind(const std::filesystem::path& folder);
    static void discard(const LeftBehind& left);
    // What the batt in it is called; nothing when it has no name or cannot be read.
    static std::optional<std::string> name_of(const LeftBehind& left);

  private:
    std::filesystem::path file_;
    int lock_ = -1;
    bool told_ = false;
    std::optional<Clock::time_point> first_change_;
};

}  // namespace battwright::app
