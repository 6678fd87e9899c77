// The rooms hold to what src/CMakeLists.txt says they use: headers alone would not fail to link.
#include <doctest/doctest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <map>
#include <regex>
#include <set>
#include <sstream>
#include <string>

#include "place.hpp"

namespace {

namespace fs = std::filesystem;
using Rooms = std::map<std::string, std::set<std::string>>;

std::string slurp(const fs::path& path) {
    std::ifstream file(path);
    return {std::istreambuf_iterator<char>(file), {}};
}

// Room -> the rooms it names after USES.
Rooms declared_rooms(const std::string& cmake) {
    Rooms rooms;
    const std::regex call(R"(battwright_room\(([^)]*)\))");
    for (auto it = std::sregex_iterator(cmake.begin(), cmake.end(), call); it != std::sregex_iterator();
         ++it) {
        std::istringstream words((*it)[1].str());
        std::string name, word;
        words >> name;
        std::set<std::string>& uses = rooms[name];
        for (bool in_uses = false; words >> word;) {
            if (word == "USES")
                in_uses = true;
            else if (word == "LINKS" || word == "PRIVATE_LINKS" || word == "SOURCES")
                in_uses = false;
            else if (in_uses)
                uses.insert(word);
        }
    }
    return rooms;
}

// A room with all that the rooms it uses use in turn.
std::set<std::string> reachable(const Rooms& rooms, const std::string& room) {
    std::set<std::string> found{room};
    for (const auto& next : rooms.at(room))
        if (rooms.contains(next)) found.merge(reachable(rooms, next));
    return found;
}

}  // namespace

TEST_CASE("a room includes only the rooms it says it uses") {
    const fs::path source = fs::path(battwright::testing::source_dir()) / "src";
    const Rooms rooms = declared_rooms(slurp(source / "CMakeLists.txt"));
    REQUIRE(rooms.size() >= 8);
    const std::regex include(R"inc(#include "([a-z]+)/)inc");
    int includes = 0;
    for (const auto& [room, uses] : rooms) {
        const std::set<std::string> may = reachable(rooms, room);
        for (const auto& entry : fs::recursive_directory_iterator(source / room)) {
            if (!entry.is_regular_file()) continue;
            const std::string text = slurp(entry.path());
            for (auto it = std::sregex_iterator(text.begin(), text.end(), include);
                 it != std::sregex_iterator(); ++it) {
                CHECK_MESSAGE(may.contains((*it)[1].str()), entry.path().string() << ": " << it->str());
                ++includes;
            }
        }
    }
    CHECK(includes > 50);
}

TEST_CASE("no file of the source has outgrown 450 lines") {
    for (const auto& entry :
         fs::recursive_directory_iterator(fs::path(battwright::testing::source_dir()) / "src")) {
        const auto extension = entry.path().extension();
        if (extension != ".cpp" && extension != ".hpp") continue;
        const std::string text = slurp(entry.path());
        CHECK_MESSAGE(std::count(text.begin(), text.end(), '\n') <= 450, entry.path().string());
    }
}
