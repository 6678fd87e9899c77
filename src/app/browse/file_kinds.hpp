// What a file is asked for as, and which files fit.
#pragma once

#include <array>
#include <string_view>

#include "measure/choices.hpp"

namespace battwright::app {

enum class FileKind { recipe, photo, table, backup, folder };
enum class FilePurpose { open, save, folder };

struct FileKindRow {
    FileKind value;
    std::string_view one, word;  // "a photo", "photos"
    std::string_view endings;    // each with its dot and a blank after it; "" where no file fits
    bool pictured;               // such files are told apart by looking at them
};
inline constexpr std::array<FileKindRow, 5> all_file_kinds{{
    // A photo of a printed card has the recipe in its code.
    {FileKind::recipe, "a recipe", "recipes or photos", ".toml .jpg .jpeg .png ", true},
    {FileKind::photo, "a photo", "photos", ".jpg .jpeg .png ", true},
    {FileKind::table, "a table", "tables", ".csv ", false},
    {FileKind::backup, "a backup", "backups", ".db ", false},
    {FileKind::folder, "a folder", "folders", "", false},
}};
static_assert(measure::one_row_each(all_file_kinds));
const FileKindRow& row_for(FileKind kind);

// By how its name ends, in letters of either case. A photo is one of those that strip::load_photo reads.
bool fits(FileKind kind, std::string_view name);
inline bool looks_like_photo(std::string_view name) {
    return fits(FileKind::photo, name);
}

}  // namespace battwright::app
