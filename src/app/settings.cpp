#include "app/settings.hpp"

#include <algorithm>

#include "measure/save.hpp"
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

Settings from_table(const toml::Table& table) {
    Settings settings;
    if (text_in(table, "theme") == "dark") settings.shade = Shade::dark;
    if (const toml::Node* scale = table.get("scale"))
        settings.scale = std::clamp(scale->number().value_or(1.0), 0.75, 2.0);
    if (text_in(table, "weights") == "oz") settings.mass = measure::MassUnit::ounce;
    if (text_in(table, "lengths") == "in") settings.length = measure::LengthUnit::inch;
    settings.currency = text_in(table, "currency");
    if (const toml::Node* seen = table.get("guide_seen"))
        settings.guide_seen = seen->boolean().value_or(false);
    if (const toml::Node* share = table.get("strip_share"))
        settings.strip_share = std::clamp(share->number().value_or(0.0), 0.0, most_strip_share);
    settings.winder = text_in(table, "winder");
    const toml::Node* recent = table.get("recent");
    if (recent == nullptr || recent->list() == nullptr) return settings;
    for (const toml::Node& entry : *recent->list()) {
        if (settings.recent.size() == most_recent) break;
        if (const auto path = entry.text()) settings.recent.emplace_back(*path);
    }
    return settings;
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
    line("weights", toml::written(settings.mass == measure::MassUnit::ounce ? "oz" : "g"));
    line("lengths", toml::written(settings.length == measure::LengthUnit::inch ? "in" : "mm"));
    line("currency", toml::written(settings.currency));
    line("guide_seen", settings.guide_seen ? "true" : "false");
    if (settings.strip_share > 0.0) line("strip_share", toml::written(settings.strip_share));
    line("winder", toml::written(settings.winder));
    text += "recent = [\n";
    for (const auto& path : settings.recent) text += "    " + toml::written(path.string()) + ",\n";
    text += "]\n";
    std::error_code error;
    fs::create_directories(folder, error);
    return measure::save_bytes(file_in(folder), text);
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
