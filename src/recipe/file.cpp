#include "recipe/file.hpp"

#include <utility>

#include "measure/save.hpp"
#include "recipe/kinds.hpp"
#include "recipe/read.hpp"
#include "recipe/scan.hpp"

namespace battwright::recipe {
namespace {

measure::Complaint at(std::string what, std::string mend, const std::string& path, Position position) {
    return {std::move(what), std::move(mend), path, position.line, position.column};
}

// What the library would not survive or would explain badly.
std::optional<measure::Complaint> unfit(std::string_view text, const std::string& path) {
    if (text.size() > longest_file_bytes) {
        return measure::Complaint{"is longer than " + std::to_string(longest_file_bytes) + " bytes",
                                  "this is no recipe; open another file", path};
    }
    const std::size_t byte = measure::first_not_utf8(text);
    if (byte != std::string_view::npos) {
        return at("the text is not UTF-8 here", "save the file as UTF-8", path, position_of(text, byte));
    }
    const std::size_t deep = scan_toml(text).too_deep;
    if (deep != std::string_view::npos) {
        return at("a key here has too many dots", "no key of a recipe has a dot", path,
                  position_of(text, deep));
    }
    return std::nullopt;
}

// "Error while parsing inline table: ..." in words of our own, with the library's particulars.
std::string what_for(std::string_view description) {
    constexpr std::string_view opening = "Error while parsing ";
    if (!description.starts_with(opening)) return "this is not TOML: " + std::string(description);
    description.remove_prefix(opening.size());
    const bool vowel =
        !description.empty() && std::string_view("aeiou").find(description[0]) != std::string_view::npos;
    return (vowel ? "this is not TOML, in an " : "this is not TOML, in a ") + std::string(description);
}

}  // namespace

measure::Expected<Recipe> read_text(std::string_view text, const std::string& path,
                                    const fibre::Catalogue& catalogue, const LotOf& lot_of) {
    if (auto complaint = unfit(text, path)) return tl::make_unexpected(*complaint);
    const auto document = toml::parse(text);
    if (!document) {
        const toml::Fault& fault = document.error();
        return tl::make_unexpected(
            at(what_for(fault.what), fault.mend, path, {fault.place.line, fault.place.column}));
    }
    Reader reader(path);
    Recipe recipe = read_document(reader, *document);
    if (reader.complaint()) return tl::make_unexpected(*reader.complaint());
    settle_lots(recipe, lot_of);
    settle_kinds(recipe, catalogue);
    if (const auto fault = first_fault(recipe, catalogue)) return tl::make_unexpected(reader.located(*fault));
    return recipe;
}

measure::Complaint at_field(const measure::Complaint& complaint, std::string_view text,
                            const std::string& path, const std::string& field) {
    Reader reader(path);
    const auto document = toml::parse(text);
    if (!document) return {complaint.what, complaint.mend, path};
    read_document(reader, *document);
    return reader.located(Fault{complaint.what, complaint.mend, {field}});
}

measure::Expected<Recipe> read_file(const std::filesystem::path& path, const fibre::Catalogue& catalogue,
                                    const LotOf& lot_of) {
    const auto bytes = measure::load_bytes(path, longest_file_bytes);
    if (!bytes) return tl::make_unexpected(bytes.error());
    return read_text(*bytes, path.string(), catalogue, lot_of);
}

measure::Expected<void> write_file(const Recipe& recipe, const std::filesystem::path& path) {
    return measure::save_bytes(path, write_text(recipe));
}

bool has_comments(std::string_view text) {
    return scan_toml(text).comments;
}

}  // namespace battwright::recipe
