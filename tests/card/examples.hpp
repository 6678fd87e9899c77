// Forecasts for the tests, and other programs to read our files with.
#pragma once

#include <doctest/doctest.h>
#include <sys/wait.h>

#include <array>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <string>

#include "forecast/forecast.hpp"
#include "place.hpp"
#include "recipe/file.hpp"

namespace examples {

inline battwright::forecast::Forecast forecast_of(const battwright::recipe::Recipe& recipe) {
    battwright::forecast::Bench bench;
    bench.catalogue = &battwright::fibre::Catalogue::builtin();
    auto result = battwright::forecast::forecast(recipe, bench);
    REQUIRE(result.has_value());
    return *result;
}
inline battwright::recipe::Recipe recipe_of(const std::string& text) {
    auto recipe = battwright::recipe::read_text(text, "example", battwright::fibre::Catalogue::builtin());
    if (!recipe) FAIL(battwright::measure::to_line(recipe.error()));
    return *recipe;
}
inline battwright::forecast::Forecast from_file(const std::string& name) {
    auto recipe =
        battwright::recipe::read_file(battwright::testing::source_dir() + "/blends/" + name + ".toml",
                                      battwright::fibre::Catalogue::builtin());
    REQUIRE(recipe.has_value());
    return forecast_of(*recipe);
}

// A folder of this process's own, removed at the end.
struct Scratch {
    std::filesystem::path folder;
    Scratch() {
        std::string pattern = (std::filesystem::temp_directory_path() / "card-XXXXXX").string();
        folder = mkdtemp(pattern.data());
    }
    ~Scratch() { std::filesystem::remove_all(folder); }
    Scratch(const Scratch&) = delete;
    Scratch& operator=(const Scratch&) = delete;
    std::string path(const std::string& name) const { return (folder / name).string(); }
};

inline std::string slurp(const std::string& path) {
    std::ifstream file(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(file), {}};
}

// What a program prints; it must go well.
inline std::string output_of(const std::string& line) {
    FILE* pipe = popen((line + " 2>/dev/null").c_str(), "r");
    REQUIRE(pipe != nullptr);
    std::string text;
    std::array<char, 4096> buffer{};
    while (const std::size_t got = fread(buffer.data(), 1, buffer.size(), pipe))
        text.append(buffer.data(), got);
    CHECK_MESSAGE(WEXITSTATUS(pclose(pipe)) == 0, line);
    return text;
}

inline bool holds(const std::string& text, const std::string& words) {
    return text.find(words) != std::string::npos;
}

}  // namespace examples
