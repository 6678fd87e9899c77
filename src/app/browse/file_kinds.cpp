#include "app/browse/file_kinds.hpp"

#include <algorithm>
#include <cctype>
#include <filesystem>
#include <string>

namespace battwright::app {

const FileKindRow& row_for(FileKind kind) {
    return measure::row_of(all_file_kinds, kind);
}

bool fits(FileKind kind, std::string_view name) {
    std::string ending = std::filesystem::path(name).extension().string();
    if (ending.empty() || ending.find(' ') != std::string::npos) return false;
    std::ranges::transform(ending, ending.begin(),
                           [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    return row_for(kind).endings.find(ending + ' ') != std::string_view::npos;
}

}  // namespace battwright::app
