#include "app/settings.hpp"

#include <algorithm>
#include <cstdlib>

#include "measure/save.hpp"
#include "measure/unit_tables.hpp"
#include "toml/toml.hpp"

namespace battwright::app {
namespace {

namespace fs = std::filesystem;
constexpr std::size_t longest_file = 64u << 10;

fs::path file_in(const fs::path& folder) {
    return folder / "window.toml";
}

std::string text_in(const toml::Table& table, const char* key) {
    const toml::Node* node = table.get(key);
    return node != nullptr ? node->text().value_or("") : "";
}

std::vector<fs::path> paths_in(const toml::Table& table, const char* key, std::size_t most) {
    std::vector<fs::path> paths;
    const toml::Node* node = table.get(key);
    if (node == nullptr || node->list() == nullptr) return paths;
    for (const toml::Node& entry : *node->list()) {
        if (paths.size() == most) break;
        if (const auto path = entry.text()) paths.emplace_back(*path);
    }
    return paths;
}

// The unit of that word, when it is one the window offers.
template <class Row, std::size_t n>
void take_offered(const std::array<Row, n>& rows, std::string_view word, decltype(Row::value)& unit) {
    for (const Row& row : rows)
        if (row.word == word && !row.label.empty()) unit = row.value;
}

Settings from_table(const toml::Table& table) {
    Settings settings;
    if (text_in(table, "theme") == "dark") settings.shade = Shade::dark;
    if (const toml::Node* scale = table.get("scale"))
        settings.scale = std::clamp(scale->number().value_or(1.0), 0.75, 2.0);
    take_offered(measure::mass_units, text_in(table, "weights"), settings.mass);
    take_offered(measure::length_units, text_in(table, "lengths"), settings.length);
    settings.currency = text_in(table, "currency");
    if (const toml::Node* seen = table.get("guide_seen"))
        settings.guide_seen = seen->boolean().value_or(false);
    if (const toml::Node* share = table.get("strip_share"))
        settings.strip_share = std::clamp(share->number().value_or(0.0), 0.0, most_strip_share);
    settings.winder = text_in(table, "winder");
    settings.recent = paths_in(table, "recent", most_recent);
    settings.folders = paths_in(table, "folders", most_visited);
    return settings;
}

std::string written_paths(const char* key, const std::vector<fs::path>& paths) {
    std::string text = std::string(key) + " = [\n";
    for (const auto& path : paths) text += "    " + toml::written(path.string()) + ",\n";
    return text + "]\n";
}

void put_first(std::vector<fs::path>& paths, const fs::path& path, std::size_t most) {
    std::error_code error;
    fs::path whole = fs::absolute(path, error);
    if (error) whole = path;
    std::erase(paths, whole);
    paths.insert(paths.begin(), whole);
    if (paths.size() > most) paths.resize(most);
}

// The specification says to ignore a relative path in the variable.
fs::path from_environment(const char* variable, const fs::path& otherwise) {
    const char* value = std::getenv(variable);
    const fs::path base = value != nullptr && fs::path(value).is_absolute() ? fs::path(value) : otherwise;
    return base / "battwright";
}

}  // namespace

Settings load_settings(const fs::path& folder) {
    const auto text = measure::load_bytes(file_in(folder), longest_file);
    if (!text) return {};
    const auto table = toml::parse(*text);
    return table ? from_table(*table) : Settings{};  // only tastes are lost
}

measure::Expected<void> save_settings(const Settings& settings, const fs::path& folder) {
    std::string text;
    const auto line = [&](const char* key, const std::string& value) {
        text += std::string(key) + " = " + value + '\n';
    };
    line("theme", toml::written(settings.shade == Shade::dark ? "dark" : "light"));
    line("scale", toml::written(settings.scale));
    line("weights", toml::written(std::string(measure::word_for(settings.mass))));
    line("lengths", toml::written(std::string(measure::word_for(settings.length))));
    line("currency", toml::written(settings.currency));
    line("guide_seen", settings.guide_seen ? "true" : "false");
    if (settings.strip_share > 0.0) line("strip_share", toml::written(settings.strip_share));
    line("winder", toml::written(settings.winder));
    text += written_paths("recent", settings.recent) + written_paths("folders", settings.folders);
    std::error_code error;
    fs::create_directories(folder, error);
    return measure::save_bytes(file_in(folder), text);
}

void remember(Settings& settings, const fs::path& path) {
    put_first(settings.recent, path, most_recent);
}

void visit(Settings& settings, const fs::path& folder) {
    put_first(settings.folders, folder, most_visited);
}

fs::path home_folder() {
    const char* home = std::getenv("HOME");
    return home != nullptr && *home != '\0' ? fs::path(home) : fs::path("/");
}

fs::path default_config_folder() {
    return from_environment("XDG_CONFIG_HOME", home_folder() / ".config");
}

fs::path default_state_folder() {
    return from_environment("XDG_STATE_HOME", home_folder() / ".local" / "state");
}

}  // namespace battwright::app
