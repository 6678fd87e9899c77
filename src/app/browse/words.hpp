// What is said of files while one is chosen.
#pragma once

#include <string>

#include "app/browse/browser.hpp"

namespace battwright::app {

// "3.4 MB", decimal as the SI has it.
std::string print_bytes(std::uintmax_t bytes);
// The day here on which it was changed, as 2025-03-09.
std::string print_day(std::filesystem::file_time_type changed);

// One line under the files: what is wrong, else of the file that is named, else of the folder.
struct FilesLine {
    std::string words;
    bool trouble = false;
};
FilesLine line_under(const FileBrowser& files);

}  // namespace battwright::app
