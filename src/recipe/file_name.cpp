#include "recipe/file_name.hpp"

#include <string_view>

namespace battwright::recipe {

std::string file_stem(const std::filesystem::path& file) {
    const std::string name = file.filename().string();
    const std::string_view ending = file_ending;
    if (name.size() > ending.size() && name.ends_with(ending))
        return name.substr(0, name.size() - ending.size());
    return file.stem().string();
}

}  // namespace battwright::recipe
