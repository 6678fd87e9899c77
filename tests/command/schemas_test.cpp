// The words a schema lists are those of the tables that the JSON is written from, so that a new row is told
// there too.
#include <doctest/doctest.h>

#include <filesystem>
#include <map>
#include <string>

#include "colour/batt_photo.hpp"
#include "measure/save.hpp"
#include "place.hpp"
#include "recipe/carder.hpp"
#include "recipe/colour_from.hpp"

using namespace battwright;

namespace {

std::string listed_as_json(const std::vector<std::string>& words) {
    std::string text;
    for (const std::string& word : words) text += (text.empty() ? "[\"" : ", \"") + word + '"';
    return text + ']';
}

}  // namespace

TEST_CASE("a schema that lists words lists those of their table") {
    // A component's colour may also be its catalogue's or its recipe's, without a word of where from.
    auto origins = measure::words_of(recipe::colour_origins);
    origins.insert(origins.begin(), {"catalogue", "recipe"});
    const std::map<std::string, std::string> tables{
        {"of", listed_as_json(measure::words_of(colour::all_taken))},
        {"unfit", listed_as_json(measure::words_of(colour::all_unfit))},
        {"tool", listed_as_json(measure::words_of(recipe::tool_rows))},
        {"colour_from", listed_as_json(origins)}};
    std::map<std::string, int> found;
    const auto folder = std::filesystem::path(testing::source_dir()) / "src/command/schemas";
    for (const auto& file : std::filesystem::directory_iterator(folder)) {
        const std::string text = measure::load_bytes(file.path(), 1u << 20).value();
        CAPTURE(file.path());
        for (const auto& [key, words] : tables) {
            const std::string start = '"' + key + "\": {";
            for (auto at = text.find(start); at != std::string::npos; at = text.find(start, at + 1)) {
                const std::string said = text.substr(at, text.find('}', at) - at);
                if (said.find("\"enum\"") == std::string::npos) continue;
                CHECK_MESSAGE(said.find("\"enum\": " + words) != std::string::npos, said);
                ++found[key];
            }
        }
    }
    CHECK(found.size() == tables.size());
}
