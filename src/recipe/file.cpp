#include "recipe/file.hpp"

#include <utility>

#include "measure/save.hpp"
#include "recipe/kinds.hpp"
#include "recipe/read.hpp"

namespace battwright::recipe {

measure::Expected<Recipe> read_text(std::string_view text, const std::string& path,
                                    const fibre::Catalogue& catalogue, const LotOf& lot_of) {
    if (text.size() > longest_file_bytes) {
        return tl::make_unexpected(
            measure::Complaint{"is longer than " + std::to_string(longest_file_bytes) + " bytes",
                               "this is no recipe; open another file", path});
    }
    const auto document = toml::parse(text, path);
    if (!document) return tl::make_unexpected(document.error());
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

}  // namespace battwright::recipe
