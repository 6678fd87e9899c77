// The names of recipes' files, as src/install/battwright-mime.xml claims them.
#include "recipe/file_name.hpp"

#include <doctest/doctest.h>

#include <fstream>
#include <iterator>

#include "place.hpp"

using battwright::recipe::file_stem;

TEST_CASE("a recipe's file goes by its name without the ending") {
    CHECK(file_stem("/shelf/kelp.batt.toml") == "kelp");
    CHECK(file_stem("kelp.toml") == "kelp");
    CHECK(file_stem("kelp.v2.batt.toml") == "kelp.v2");
    CHECK(file_stem(".batt.toml") == ".batt");
    CHECK(file_stem("batt.toml") == "batt");
    CHECK(file_stem("kelp") == "kelp");
}

TEST_CASE("the ending is the one the desktop is told of") {
    std::ifstream file(battwright::testing::source_dir() + "/src/install/battwright-mime.xml");
    const std::string mime(std::istreambuf_iterator<char>(file), {});
    CHECK(mime.find(std::string("<glob pattern=\"*") + battwright::recipe::file_ending + "\"/>") !=
          std::string::npos);
}
