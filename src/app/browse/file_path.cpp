#include "app/browse/file_path.hpp"

#include <cctype>
#include <optional>
#include <string>

#include "app/settings.hpp"

namespace battwright::app {
namespace {

namespace fs = std::filesystem;

std::string_view bare(std::string_view text) {
    constexpr std::string_view blanks = " \t\r\n";
    const std::size_t from = text.find_first_not_of(blanks);
    if (from == std::string_view::npos) return {};
    text = text.substr(from, text.find_last_not_of(blanks) - from + 1);
    const bool quoted =
        text.size() >= 2 && text.front() == text.back() && (text.front() == '"' || text.front() == '\'');
    return quoted ? text.substr(1, text.size() - 2) : text;
}

// %41 is A; what is no such pair stays.
std::string percent_decoded(std::string_view text) {
    const auto digit = [](char c) { return std::isxdigit(static_cast<unsigned char>(c)) != 0; };
    std::string decoded;
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (text[i] == '%' && i + 2 < text.size() && digit(text[i + 1]) && digit(text[i + 2])) {
            decoded += static_cast<char>(std::stoi(std::string(text.substr(i + 1, 2)), nullptr, 16));
            i += 2;
        } else {
            decoded += text[i];
        }
    }
    return decoded;
}

// The path of a file's address; none for any other text. Of another machine: none.
std::optional<std::string> path_of_address(std::string_view text) {
    constexpr std::string_view scheme = "file://", here = "localhost";
    if (!text.starts_with(scheme)) return {};
    text.remove_prefix(scheme.size());
    if (text.starts_with(here)) text.remove_prefix(here.size());
    if (!text.starts_with('/')) return {};
    return percent_decoded(text);
}

}  // namespace

fs::path typed_path(std::string_view typed, const fs::path& folder) {
    const std::string_view text = bare(typed);
    if (text.empty()) return {};
    if (const auto path = path_of_address(text)) return *path;
    if (text == "~") return home_folder();
    if (text.starts_with("~/")) return home_folder() / text.substr(2);
    const fs::path path(text);
    return path.is_absolute() ? path : (folder / path).lexically_normal();
}

measure::Expected<fs::path> pasted_path(std::string_view clipboard) {
    while (!clipboard.empty()) {
        const std::size_t end = clipboard.find('\n');
        const std::string_view line = bare(clipboard.substr(0, end));
        clipboard.remove_prefix(end == std::string_view::npos ? clipboard.size() : end + 1);
        if (line.empty() || line.front() == '#' || line == "copy" || line == "cut") continue;
        if (const auto path = path_of_address(line)) return *path;
        if (line.front() == '/' || line.starts_with("~/")) return typed_path(line, {});
        break;
    }
    return tl::make_unexpected(measure::Complaint{
        "what was copied is not the path of a file, and nothing but text can be pasted here",
        "copy the file in your file manager, or its path; save a copied picture as a file "
        "first"});
}

}  // namespace battwright::app
