// What may be written where: never over what a person made, unless she says so.
#pragma once

#include <filesystem>
#include <span>
#include <string_view>
#include <vector>

#include "measure/complaint.hpp"

namespace battwright::measure {

// What a file is, by its first bytes and not by its name.
enum class FileKind { nothing, database, png, jpeg, pdf, recipe, text, other };
struct Content {
    FileKind kind = FileKind::nothing;  // an empty file counts as none
    bool ours = false;                  // a PNG or PDF that carries this program's name as its maker
};
// Reads the file when it is one whose maker has to be looked for. Complaints as load_bytes().
Expected<Content> content_of(const std::filesystem::path& path);
std::string_view word_for(FileKind kind);  // "a stash or other database", "a recipe", ...

// What PNG and PDF carry as their maker (PNG keyword Software, PDF key Creator).
inline constexpr std::string_view maker_mark = "Battwright";

enum class Replace { no, yes };
// May a file of this kind be written at `to`? Complaints: it is one of `inputs` (by path, symbolic or hard
// link); another kind of file lies there, which even Replace::yes does not allow; what lies there is a
// person's (a recipe, a text, a stash, a picture of another maker) and Replace is no.
Expected<void> may_write(const std::filesystem::path& to, FileKind as, Replace replace,
                         std::span<const std::filesystem::path> inputs = {});

// How far a save may go, and what it was made from.
struct Saving {
    Replace replace = Replace::yes;  // for callers who have asked already
    std::vector<std::filesystem::path> inputs{};
};
// save_bytes() where may_write() lets it.
Expected<void> save_as(FileKind kind, const std::filesystem::path& path, std::string_view bytes,
                       const Saving& saving);

}  // namespace battwright::measure
