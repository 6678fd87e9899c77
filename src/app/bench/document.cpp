#include "app/bench/document.hpp"

#include "measure/save.hpp"
#include "recipe/file.hpp"

namespace battwright::app {

namespace fs = std::filesystem;

Document::Document() : Document(recipe::Recipe{}) {}

Document::Document(recipe::Recipe recipe)
    : sheet_(sheet_of(std::move(recipe))), saved_(sheet_.recipe), history_(sheet_) {}

measure::Expected<Document> Document::open(const fs::path& path, const fibre::Catalogue& catalogue) {
    auto text = measure::load_bytes(path, recipe::longest_file_bytes);
    if (!text) return tl::make_unexpected(text.error());
    auto recipe = recipe::read_text(*text, path.string(), catalogue);
    if (!recipe) return tl::make_unexpected(recipe.error());
    Document document(std::move(*recipe));
    document.path_ = path;
    document.comments_ = recipe::has_comments(*text);
    return document;
}

Document Document::recovered(recipe::Recipe recipe, std::optional<fs::path> path) {
    Document document(std::move(recipe));
    document.saved_ = recipe::Recipe{};
    document.path_ = std::move(path);
    return document;
}

void Document::change(const Sheet& sheet, std::string what, std::uint64_t gesture) {
    if (same(sheet, sheet_)) return;
    sheet_ = sheet;
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
    if (auto written = recipe::write_file(sheet_.recipe, path); !written) return written;
    path_ = path;
    saved_ = sheet_.recipe;
    comments_ = false;
    return {};
}

}  // namespace battwright::app
