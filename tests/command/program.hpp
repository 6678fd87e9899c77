// The program as its users run it: a child process in a folder of its own, its output, its exit code.
#pragma once

#include <doctest/doctest.h>
#include <sys/wait.h>

#include <algorithm>
#include <array>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string>

#include "place.hpp"

namespace program {

namespace fs = std::filesystem;

struct Outcome {
    int code = -1;
    std::string out;
    std::string err;
};

inline std::string slurp(const fs::path& path) {
    std::ifstream file(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(file), {}};
}

// A folder of this process's own, removed at the end.
struct Scratch {
    fs::path folder;
    Scratch() {
        std::string pattern = (fs::temp_directory_path() / "battwright-XXXXXX").string();
        folder = mkdtemp(pattern.data());
    }
    ~Scratch() { fs::remove_all(folder); }
    Scratch(const Scratch&) = delete;
    Scratch& operator=(const Scratch&) = delete;
};

// Runs the program in `scratch` with no display, words split by the shell; ended with 124 after so many
// seconds.
inline Outcome run_within(const Scratch& scratch, int seconds, const std::string& words) {
    const fs::path err = scratch.folder / "stderr.txt";
    const std::string line =
        "cd '" + scratch.folder.string() +
        "' && env -u DISPLAY -u WAYLAND_DISPLAY XDG_DATA_HOME=" + scratch.folder.string() +
        (seconds > 0 ? " timeout " + std::to_string(seconds) : std::string()) + " '" +
        battwright::testing::program() + "' " + words + " 2>'" + err.string() + "'";
    Outcome outcome;
    FILE* pipe = popen(line.c_str(), "r");
    REQUIRE(pipe != nullptr);
    std::array<char, 4096> buffer{};
    while (const std::size_t got = fread(buffer.data(), 1, buffer.size(), pipe))
        outcome.out.append(buffer.data(), got);
    outcome.code = WEXITSTATUS(pclose(pipe));
    outcome.err = slurp(err);
    return outcome;
}
// The same for as long as it takes.
inline Outcome run(const Scratch& scratch, const std::string& words) {
    return run_within(scratch, 0, words);
}

inline const std::string blends = battwright::testing::source_dir() + "/blends/";

inline void check_one_line(const std::string& text) {
    CHECK(std::count(text.begin(), text.end(), '\n') == 1);
    CHECK(text.ends_with("\n"));
}

}  // namespace program
