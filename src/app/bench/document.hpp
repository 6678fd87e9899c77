// The recipe on the bench: what it is now, where it lives, and whether that file holds it.
#pragma once

#include <filesystem>
#include <optional>
#include <string>

#include "app/bench/history.hpp"
#include "app/bench/sheet.hpp"
#include "fibre/catalogue.hpp"
#include "measure/complaint.hpp"

namespace battwright::app {

class Document {
  public:
    // An empty bench, or a recipe that has no file yet.
    Document();
    explicit Document(recipe::Recipe recipe);

    // Reads a recipe file; on failure nothing changes hands and the complaint says why.
    static measure::Expected<Document> open(const std::filesystem::path& path,
                                            const fibre::Catalogue& catalogue);
    // What a crash left behind: unsaved, undo starts here, `path` is where it had come from.
    static Document recovered(recipe::Recipe recipe, std::optional<std::filesystem::path> path);

    const Sheet& sheet() const { return sheet_; }
    const std::optional<std::filesystem::path>& path() const { return path_; }
    const History& history() const { return history_; }
    bool unsaved() const { return !same(sheet_.recipe, saved_); }
    // The file holds comments and a save would lose them. False once saved.
    bool would_lose_comments() const { return comments_; }
    // Counts up with every change of the sheet.
    unsigned long version() const { return version_; }

    void change(const Sheet& sheet, std::string what, std::uint64_t gesture = 0);
    bool undo();
    bool redo();
    // Writes the file and remembers the path. The recipe must check; the complaint is the reader's.
    measure::Expected<void> save(const std::filesystem::path& path, const fibre::Catalogue& catalogue);

  private:
    Sheet sheet_;
    recipe::Recipe saved_;
    std::optional<std::filesystem::path> path_;
    bool comments_ = false;
    unsigned long version_ = 1;
    History history_;
};

}  // namespace battwright::app
