#include "app/browse/file_kinds.hpp"

#include <filesystem>
#include <string>

#include "text/words.hpp"

namespace battwright::app {

const FileKindRow& row_for(FileKind kind) {
    return measure::row_of(all_file_kinds, kind);
}

bool fits(FileKind kind, std::string_view name) {
    const std::string ending = text::lower(std::filesystem::path(name).extension().string());
    if (ending.empty() || ending.find(' ') != std::string::npos) return false;
    return row_for(kind).endings.find(ending + ' ') != std::string_view::npos;
}

}  // namespace battwright::app
