#include "app/bench/document.hpp"

#include "recipe/file.hpp"
#include "recipe/layout.hpp"
#include "toml/toml.hpp"

namespace battwright::app {

namespace fs = std::filesystem;

namespace {

struct RecipeRead {
    recipe::Recipe recipe;
    bool comments = false;
    measure::Seen seen;
};

measure::Expected<RecipeRead> read_recipe(const fs::path& path, const fibre::Catalogue& catalogue,
                                          const recipe::LotOf& lot_of) {
    const auto loaded = measure::load_seen(path, recipe::longest_file_bytes);
    if (!loaded) return tl::make_unexpected(loaded.error());
    auto recipe = recipe::read_text(loaded->bytes, path.string(), catalogue, lot_of);
    if (!recipe) return tl::make_unexpected(recipe.error());
    return RecipeRead{std::move(*recipe), toml::has_comments(loaded->bytes), loaded->seen};
}

}  // namespace

Document::Document() : Document(recipe::Recipe{}) {}

Document::Document(recipe::Recipe recipe)
    : sheet_(sheet_of(std::move(recipe))), saved_(sheet_.recipe), history_(sheet_) {}

measure::Expected<Document> Document::open(const fs::path& path, const fibre::Catalogue& catalogue,
                                           const recipe::LotOf& lot_of) {
    auto read = read_recipe(path, catalogue, lot_of);
    if (!read) return tl::make_unexpected(read.error());
    Document document(std::move(read->recipe));
    document.path_ = path;
    document.comments_ = read->comments;
    document.seen_ = read->seen;
    return document;
}

Document Document::recovered(recipe::Recipe recipe, std::optional<fs::path> path, const measure::Seen& seen) {
    Document document(std::move(recipe));
    document.saved_ = recipe::Recipe{};
    document.path_ = std::move(path);
    document.seen_ = seen;
    return document;
}

void Document::change(const Sheet& sheet, std::string what, std::uint64_t gesture) {
    if (sheet == sheet_) return;
    Sheet next = sheet;
    recipe::follow_layings(sheet_.recipe, next.recipe);
    sheet_ = std::move(next);
    history_.push(sheet_, std::move(what), gesture);
    ++version_;
}

bool Document::undo() {
    if (!history_.can_undo()) return false;
    sheet_ = history_.undo();
    ++version_;
    return true;
}

bool Document::redo() {
    if (!history_.can_redo()) return false;
    sheet_ = history_.redo();
    ++version_;
    return true;
}

measure::Expected<void> Document::save(const fs::path& path, const fibre::Catalogue& catalogue) {
    if (auto checked = recipe::check(sheet_.recipe, catalogue); !checked) return checked;
    const auto seen = measure::save_seen(path, recipe::write_text(sheet_.recipe));
    if (!seen) return tl::make_unexpected(seen.error());
    path_ = path;
    seen_ = *seen;
    saved_ = sheet_.recipe;
    comments_ = false;
    return {};
}

bool Document::would_lose_theirs(const fs::path& path) const {
    std::error_code error;
    if (!path_ || (path != *path_ && !measure::is_same_file(path, *path_)) || !fs::exists(path, error))
        return false;
    // What cannot be looked at is not taken for unchanged.
    return !measure::is_still(path, seen_).value_or(false);
}

measure::Expected<void> Document::take_theirs(const fibre::Catalogue& catalogue,
                                              const recipe::LotOf& lot_of) {
    auto read = read_recipe(path_.value_or(fs::path()), catalogue, lot_of);
    if (!read) return tl::make_unexpected(read.error());
    saved_ = read->recipe;
    comments_ = read->comments;
    seen_ = read->seen;
    change(sheet_of(std::move(read->recipe)), "take what is in the file");
    return {};
}

}  // namespace battwright::app
