#pragma once

#include <filesystem>
#include <string>

namespace battwright::recipe {

// What follows the name in a recipe's file; any other TOML file may hold one too.
inline constexpr const char* file_ending = ".batt.toml";

struct Recipe;

// The recipe's name, or "Untitled batt" while it has none.
std::string title_of(const Recipe& recipe);

// A recipe's file name without what follows it: "kelp" of "/shelf/kelp.batt.toml" and of "kelp.toml".
std::string file_stem(const std::filesystem::path& file);

}  // namespace battwright::recipe
