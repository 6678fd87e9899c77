// The recipe on the bench: what it is now, where it lives, and whether that file holds it.
#pragma once

#include <filesystem>
#include <optional>
#include <string>

#include "app/bench/history.hpp"
#include "app/bench/sheet.hpp"
#include "fibre/catalogue.hpp"
#include "measure/complaint.hpp"
#include "measure/seen.hpp"
#include "recipe/lots.hpp"

namespace battwright::app {

class Document {
  public:
    // An empty bench, or a recipe that has no file yet.
    Document();
    explicit Document(recipe::Recipe recipe);

    // Reads a recipe file, with what it leaves to its lots from `lot_of`; on failure nothing changes hands
    // and the complaint says why.
    static measure::Expected<Document> open(const std::filesystem::path& path,
                                            const fibre::Catalogue& catalogue,
                                            const recipe::LotOf& lot_of = {});
    // What a crash left behind: unsaved, undo starts here, `path` is where it had come from and `seen` what
    // had been there then; empty when that is not known.
    static Document recovered(recipe::Recipe recipe, std::optional<std::filesystem::path> path,
                              const measure::Seen& seen = {});

    const Sheet& sheet() const { return sheet_; }
    const std::optional<std::filesystem::path>& path() const { return path_; }
    // What was in that file when it was last read or saved here.
    const measure::Seen& seen() const { return seen_; }
    const History& history() const { return history_; }
    bool unsaved() const { return sheet_.recipe != saved_; }
    // The file holds comments and a save would lose them. False once saved.
    bool would_lose_comments() const { return comments_; }
    // A save to `path` would go over what another window or program has written into the recipe's own file
    // since it was read or saved here. A file that is gone is nobody's work.
    bool would_lose_theirs(const std::filesystem::path& path) const;
    // Counts up with every change of the sheet.
    unsigned long version() const { return version_; }

    void change(const Sheet& sheet, std::string what, std::uint64_t gesture = 0);
    bool undo();
    bool redo();
    // Writes the file and remembers the path. The recipe must check; the complaint is the reader's.
    measure::Expected<void> save(const std::filesystem::path& path, const fibre::Catalogue& catalogue);
    // Puts what is in the file now onto the bench; one undo brings back what was there. The complaint is the
    // reader's, and nothing is changed then.
    measure::Expected<void> take_theirs(const fibre::Catalogue& catalogue, const recipe::LotOf& lot_of = {});

  private:
    Sheet sheet_;
    recipe::Recipe saved_;
    std::optional<std::filesystem::path> path_;
    measure::Seen seen_;
    bool comments_ = false;
    unsigned long version_ = 1;
    History history_;
};

}  // namespace battwright::app
