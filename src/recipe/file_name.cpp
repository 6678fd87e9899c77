#include "recipe/file_name.hpp"

#include <string_view>

#include "recipe/recipe.hpp"

namespace battwright::recipe {

std::string title_of(const Recipe& recipe) {
    return recipe.name.empty() ? "Untitled batt" : recipe.name;
}

std::string file_stem(const std::filesystem::path& file) {
    const std::string name = file.filename().string();
    const std::string_view ending = file_ending;
    if (name.size() > ending.size() && name.ends_with(ending))
        return name.substr(0, name.size() - ending.size());
    return file.stem().string();
}

}  // namespace battwright::recipe
