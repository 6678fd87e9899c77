#include "app/browse/words.hpp"

#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>
#include <ctime>

#include "app/shelf/shelf_choice.hpp"
#include "measure/units.hpp"

namespace battwright::app {
namespace {

std::string count_of(std::size_t count, std::string_view word) {
    return std::to_string(count) + " " + std::string(word);
}

const FolderEntry* named_entry(const FileBrowser& files) {
    if (files.listing() == nullptr || files.name().empty()) return nullptr;
    const auto& entries = files.listing()->entries;
    const auto found = std::ranges::find(entries, files.name(), &FolderEntry::name);
    return found == entries.end() ? nullptr : &*found;
}

FilesLine line_of(const FolderEntry& entry, const Thumbnail* thumbnail) {
    if (thumbnail != nullptr && !thumbnail->trouble.empty()) return {thumbnail->trouble, true};
    std::string line;
    if (thumbnail != nullptr) append(line, thumbnail->about);
    append(line, print_bytes(entry.bytes));
    append(line, print_day(entry.changed));
    return {line};
}

FilesLine line_of(const Listing& listing, FileKind kind) {
    if (!listing.trouble.empty()) return {listing.trouble, true};
    const auto folders =
        static_cast<std::size_t>(std::ranges::count(listing.entries, true, &FolderEntry::is_folder));
    const std::size_t files = listing.entries.size() - folders;
    std::string line;
    const FileKindRow& row = row_for(kind);
    if (kind != FileKind::folder)
        append(line, files > 0 ? count_of(files, row.word) : "no " + std::string(row.word));
    append(line, count_of(folders, folders == 1 ? "folder" : "folders"));
    if (listing.unfit > 0)
        append(line,
               count_of(listing.unfit, listing.unfit == 1 ? "file" : "files") + " of other kinds, not shown");
    return {line};
}

}  // namespace

std::string print_bytes(std::uintmax_t bytes) {
    constexpr std::array<const char*, 4> units{"bytes", "kB", "MB", "GB"};
    double value = static_cast<double>(bytes);
    std::size_t unit = 0;
    for (; value >= 999.5 && unit + 1 < units.size(); ++unit) value /= 1000.0;
    const double tidy = value < 10.0 && unit > 0 ? std::round(10.0 * value) / 10.0 : std::round(value);
    return measure::write_number(tidy) + " " + units.at(unit);
}

std::string print_day(std::filesystem::file_time_type changed) {
    const std::time_t time = std::chrono::system_clock::to_time_t(
        std::chrono::time_point_cast<std::chrono::system_clock::duration>(
            std::chrono::file_clock::to_sys(changed)));
    std::tm day{};
    if (localtime_r(&time, &day) == nullptr) return {};
    std::array<char, 32> text{};
    std::strftime(text.data(), text.size(), "%Y-%m-%d", &day);
    return text.data();
}

FilesLine line_under(const FileBrowser& files) {
    if (!files.complaint().empty()) return {files.complaint(), true};
    if (files.listing() == nullptr) return {"Reading the folder\u2026"};
    if (const FolderEntry* named = named_entry(files)) return line_of(*named, files.thumbnail_of(*named));
    return line_of(*files.listing(), files.ask().kind);
}

}  // namespace battwright::app
