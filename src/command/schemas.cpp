#include "command/schemas.hpp"

#include <algorithm>
#include <string>

#include "measure/choices.hpp"

namespace battwright::command {

measure::Expected<std::string_view> schema_of(std::string_view command) {
    std::string name(command);
    std::replace(name.begin(), name.end(), ' ', '-');
    std::vector<std::string> known;
    for (const Schema& schema : schemas()) {
        if (schema.command == name) return schema.text;
        known.emplace_back(schema.command);
    }
    auto complaint = measure::unknown_word(command, "command with --json", known);
    complaint.where = "--schema";
    return tl::unexpected(complaint);
}

}  // namespace battwright::command
