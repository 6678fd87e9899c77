#include "measure/replace.hpp"

#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>

#include "measure/beside.hpp"
#include "measure/choices.hpp"
#include "measure/files.hpp"
#include "measure/save.hpp"
#include "measure/seen.hpp"

namespace battwright::measure {
namespace {

namespace fs = std::filesystem;

// Beyond this a file is nothing this program made.
constexpr std::size_t longest_own_file = 256u << 20;
// As far as a text is looked into for the line every recipe has.
constexpr std::size_t head_bytes = 65536;

bool starts_with_any(std::string_view text, std::initializer_list<std::string_view> starts) {
    return std::any_of(starts.begin(), starts.end(),
                       [&](std::string_view start) { return text.starts_with(start); });
}

// A line "format = ...", which every recipe must have and no table or card has.
bool has_format_line(std::string_view text) {
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t end = std::min(text.find('\n', at), text.size());
        std::string_view line = text.substr(at, end - at);
        at = end + 1;
        line.remove_prefix(std::min(line.find_first_not_of(" \t\""), line.size()));
        if (!line.starts_with("format")) continue;
        line.remove_prefix(6);
        line.remove_prefix(std::min(line.find_first_not_of(" \t\""), line.size()));
        if (line.starts_with('=')) return true;
    }
    return false;
}

bool is_text(std::string_view head) {
    // The cut may have gone through the last character.
    const std::size_t bad = first_not_utf8(head);
    if (bad != std::string_view::npos && bad + 4 < head.size()) return false;
    return head.find('\0') == std::string_view::npos;
}

FileKind kind_of(std::string_view head) {
    if (head.empty()) return FileKind::nothing;
    if (head.starts_with(std::string_view("SQLite format 3\0", 16))) return FileKind::database;
    if (head.starts_with("\x89PNG\r\n\x1a\n")) return FileKind::png;
    if (head.starts_with("\xff\xd8\xff")) return FileKind::jpeg;
    if (starts_with_any(head, {"%PDF-"})) return FileKind::pdf;
    if (!is_text(head)) return FileKind::other;
    return has_format_line(head) ? FileKind::recipe : FileKind::text;
}

// Where the formats put it: a tEXt chunk "Software", an entry /Creator of the document information.
bool names_us(FileKind kind, std::string_view bytes) {
    const std::string mark(maker_mark);
    if (kind == FileKind::png)
        return bytes.find(std::string("tEXtSoftware") + '\0' + mark) != std::string_view::npos;
    if (kind == FileKind::pdf) return bytes.find("/Creator (" + mark + ")") != std::string_view::npos;
    return false;
}

// The database whose log or journal this would be: SQLite takes whatever lies there for its own.
fs::path database_helped_by(const fs::path& to) {
    const std::string name = to.filename().string();
    for (const std::string_view ending : helper_endings) {
        if (name.size() <= ending.size() || !name.ends_with(ending)) continue;
        fs::path beside = to.parent_path() / name.substr(0, name.size() - ending.size());
        const auto content = content_of(beside);
        if (content && content->kind == FileKind::database) return beside;
    }
    return {};
}

// For people: what would be lost.
std::string it_is(FileKind kind) {
    return "it is " + std::string(word_for(kind)) + " already";
}

}  // namespace

std::string_view word_for(FileKind kind) {
    constexpr std::array<Word<FileKind>, 8> kinds{{{FileKind::nothing, "nothing"},
                                                   {FileKind::database, "a stash or another database"},
                                                   {FileKind::png, "a PNG picture"},
                                                   {FileKind::jpeg, "a photo"},
                                                   {FileKind::pdf, "a PDF"},
                                                   {FileKind::recipe, "a recipe"},
                                                   {FileKind::text, "a text"},
                                                   {FileKind::other, "a file of another kind"}}};
    static_assert(one_row_each(kinds));
    return row_of(kinds, kind).word;
}

Expected<Content> content_of(const fs::path& path) {
    struct stat status {};
    if (::stat(path.c_str(), &status) != 0 && (errno == ENOENT || errno == ENOTDIR)) return Content{};
    const auto descriptor = open_ordinary(path);
    if (!descriptor) return tl::make_unexpected(descriptor.error());
    std::string head(head_bytes, '\0');
    const ssize_t got = ::pread(descriptor->number(), head.data(), head.size(), 0);
    if (got < 0) return complain_of_reading(path, errno);
    head.resize(static_cast<std::size_t>(got));
    const FileKind kind = kind_of(head);
    if (kind != FileKind::png && kind != FileKind::pdf) return Content{kind, false};
    const auto bytes = read_rest(*descriptor, path, longest_own_file);
    return Content{kind, bytes && names_us(kind, *bytes)};
}

Expected<void> may_write(const fs::path& to, FileKind as, Replace replace, std::span<const fs::path> inputs) {
    for (const fs::path& input : inputs)
        if (is_same_file(to, input))
            return complain_of(to, "cannot be written: it is read for this too, as " + input.string(),
                               "name another file for the output");
    if (auto may = check_replaceable(to); !may) return may;
    if (const fs::path helped = database_helped_by(to); !helped.empty())
        return complain_of(to, "cannot be written: it is where " + helped.string() + " keeps its changes",
                           "name another file");
    const auto there = content_of(to);
    // What cannot be looked at is left to the saving, which says why.
    if (!there || there->kind == FileKind::nothing) return {};
    if (there->kind != as)
        return complain_of(
            to, "is not replaced: " + it_is(there->kind) + ", and this would be " + std::string(word_for(as)),
            "name another file");
    if (there->ours || replace == Replace::yes) return {};
    return complain_of(to, "is not replaced: " + it_is(there->kind), "name another file, or add --replace");
}

Expected<void> save_as(FileKind kind, const fs::path& path, std::string_view bytes, const Saving& saving) {
    if (auto may = may_write(path, kind, saving.replace, saving.inputs); !may) return may;
    return save_bytes(path, bytes);
}

}  // namespace battwright::measure
