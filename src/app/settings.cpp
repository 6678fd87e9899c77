#include "app/settings.hpp"

#include <toml++/toml.h>
#include <algorithm>
#include <sstream>

#include "measure/save.hpp"

namespace battwright::app {
namespace {

namespace fs = std::filesystem;
constexpr std::size_t longest_file = 64u << 10;

fs::path file_in(const fs::path& folder) {
    return folder / "window.toml";
}

Settings from_table(const toml::table& table) {
    Settings settings;
    if (table["theme"].value_or(std::string("light")) == "dark") settings.shade = Shade::dark;
    settings.scale = std::clamp(table["scale"].value_or(1.0), 0.75, 2.0);
    if (table["weights"].value_or(std::string("g")) == "oz") settings.mass = measure::MassUnit::ounce;
    if (table["lengths"].value_or(std::string("mm")) == "in") settings.length = measure::LengthUnit::inch;
    settings.currency = table["currency"].value_or(std::string());
    settings.guide_seen = table["guide_seen"].value_or(false);
    settings.winder = table["winder"].value_or(std::string());
    if (const toml::array* recent = table["recent"].as_array()) {
        for (const auto& entry : *recent) {
            if (settings.recent.size() == most_recent) break;
            if (const auto path = entry.value<std::string>()) settings.recent.emplace_back(*path);
        }
    }
    return settings;
}

}  // namespace

Settings load_settings(const fs::path& folder) {
    const auto text = measure::load_bytes(file_in(folder), longest_file);
    if (!text) return {};
    try {
        return from_table(toml::parse(*text));
    } catch (const toml::parse_error&) {
        return {};  // only tastes are lost
    }
}

measure::Expected<void> save_settings(const Settings& settings, const fs::path& folder) {
    toml::array recent;
    for (const auto& path : settings.recent) recent.push_back(path.string());
    const toml::table table{
        {"theme", settings.shade == Shade::dark ? "dark" : "light"},
        {"scale", settings.scale},
        {"weights", settings.mass == measure::MassUnit::ounce ? "oz" : "g"},
        {"lengths", settings.length == measure::LengthUnit::inch ? "in" : "mm"},
        {"currency", settings.currency},
        {"guide_seen", settings.guide_seen},
        {"winder", settings.winder},
        {"recent", recent},
    };
    std::error_code error;
    fs::create_directories(folder, error);
    std::ostringstream text;
    text << table << '\n';
    return measure::save_bytes(file_in(folder), text.str());
}

void remember(Settings& settings, const fs::path& path) {
    std::error_code error;
    fs::path whole = fs::absolute(path, error);
    if (error) whole = path;
    auto& recent = settings.recent;
    recent.erase(std::remove(recent.begin(), recent.end(), whole), recent.end());
    recent.insert(recent.begin(), whole);
    if (recent.size() > most_recent) recent.resize(most_recent);
}

}  // namespace battwright::app
