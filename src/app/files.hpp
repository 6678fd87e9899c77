// Choosing a recipe's file: the folder looked at, what lies in it, the name. No display.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "app/derived.hpp"

namespace battwright::app {

struct FolderEntry {
    std::string name;
    bool is_folder = false;
};

class FileChoice {
  public:
    // Before the panel opens, for saving or opening. `recipe`: the file of the recipe on the bench; `start`:
    // the folder to begin in when nothing better is known; `suggested`: a name to save under.
    void open(bool saving, const std::optional<std::filesystem::path>& recipe,
              const std::filesystem::path& start, std::string suggested);
    // Each frame it is open: the folder is read anew when it has changed.
    void follow();
    void enter(const std::filesystem::path& folder);
    void name_it(std::string name);
    // The file chosen, or nothing when a folder was entered, a name is missing, or a file would be replaced
    // and has to be asked for a second time.
    std::optional<std::filesystem::path> finish();

    bool saving() const { return saving_; }
    const std::filesystem::path& folder() const { return folder_; }
    const std::string& name() const { return name_; }
    const std::string& complaint() const { return complaint_; }
    // Folders first, then recipes, by name; hidden ones left out. An unreadable folder is an empty one.
    const std::vector<FolderEntry>& entries() const { return entries_.value(); }

  private:
    struct Listed {
        std::filesystem::path folder;
        std::filesystem::file_time_type changed;
        bool operator==(const Listed&) const = default;
    };
    bool saving_ = false;
    bool replace_asked_ = false;
    std::filesystem::path folder_;
    std::string name_, complaint_;
    Derived<Listed, std::vector<FolderEntry>> entries_;
};

}  // namespace battwright::app
