#include "fibre/document.hpp"

#include <algorithm>
#include <utility>

namespace battwright::fibre {
namespace {

using measure::Complaint;

// Each dot of a dotted key nests one table deeper, and the library takes them apart by recursion.
constexpr std::ptrdiff_t most_dots_in_a_line = 500;

Complaint complaint_at(std::string what, std::string mend, const std::string& path, std::string_view text,
                       std::size_t byte) {
    const std::string_view before = text.substr(0, byte);
    const std::size_t line_start = before.rfind('\n') + 1;  // npos + 1 is 0
    const auto line = 1 + std::count(before.begin(), before.end(), '\n');
    return {std::move(what), std::move(mend), path, static_cast<int>(line),
            static_cast<int>(byte - line_start) + 1};
}

std::size_t line_of_many_dots(std::string_view text) {
    for (std::size_t start = 0; start < text.size();) {
        const std::size_t end = std::min(text.find('\n', start), text.size());
        const std::string_view line = text.substr(start, end - start);
        if (std::count(line.begin(), line.end(), '.') > most_dots_in_a_line) return start;
        start = end + 1;
    }
    return std::string_view::npos;
}

}  // namespace

measure::Expected<toml::Table> parse_document(std::string_view text, const std::string& path) {
    if (const std::size_t byte = measure::first_not_utf8(text); byte != std::string_view::npos) {
        return tl::make_unexpected(
            complaint_at("the text is not UTF-8 here", "save the file as UTF-8", path, text, byte));
    }
    if (const std::size_t byte = line_of_many_dots(text); byte != std::string_view::npos) {
        return tl::make_unexpected(complaint_at("this line has more dots than a catalogue can need",
                                                "shorten or break the line", path, text, byte));
    }
    auto document = toml::parse(text);
    if (document) return std::move(*document);
    const toml::Fault& fault = document.error();
    return tl::make_unexpected(
        Complaint{"this is not TOML: " + fault.what, fault.mend, path, fault.place.line, fault.place.column});
}

}  // namespace battwright::fibre
