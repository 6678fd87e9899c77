// A folder of the test's own, gone with it.
#pragma once

#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <stdexcept>
#include <string>

namespace battwright::testing {

struct Folder {
    std::filesystem::path path;
    explicit Folder(const std::string& name = "test") {
        std::string pattern =
            (std::filesystem::temp_directory_path() / ("battwright-" + name + "-XXXXXX")).string();
        if (::mkdtemp(pattern.data()) == nullptr) throw std::runtime_error("no folder " + pattern);
        path = pattern;
    }
    ~Folder() {
        std::error_code ignored;
        std::filesystem::remove_all(path, ignored);
    }
    Folder(const Folder&) = delete;
    Folder& operator=(const Folder&) = delete;
};

}  // namespace battwright::testing
