// Inside this room: reading values out of TOML tables with complaints that know their line.
#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>

#include "measure/complaint.hpp"
#include "recipe/fault.hpp"
#include "toml/complaints.hpp"

namespace battwright::recipe {

// Every value read leaves its place under a field name ("component 2 share"), for the checks that come later.
class Reader : public toml::Complaints {
  public:
    using Complaints::Complaints;

    void place(const std::string& field, const toml::Placed& at);

    // Each reads one key, records its place and complains of a wrong type; nothing when absent or wrong.
    std::optional<std::string> text(const toml::Table& table, std::string_view key, const std::string& field);
    std::optional<int> whole_number(const toml::Table& table, std::string_view key, const std::string& field);
    std::optional<bool> yes_or_no(const toml::Table& table, std::string_view key, const std::string& field);
    const toml::Table* subtable(const toml::Table& table, std::string_view key, const std::string& field);
    // A list of tables, with at least one.
    const toml::List* tables(const toml::Table& table, std::string_view key, const std::string& field,
                             const std::string& mend);
    // A text with a parser: parse(text) -> Expected<T>, its complaint put at the value.
    template <class Parse>
    auto parsed(const toml::Table& table, std::string_view key, const std::string& field, const char* example,
                Parse parse) -> std::optional<typename decltype(parse(std::string_view{}))::value_type> {
        const toml::Node* node = table.get(key);
        if (node == nullptr) return std::nullopt;
        if (!node->is(toml::Type::text)) {
            wrong_type(*node, key, std::string("write it in quotes, as in ") + example);
            return std::nullopt;
        }
        const auto words = text(table, key, field);
        if (!words) return std::nullopt;
        auto value = parse(std::string_view(*words));
        if (value) return *value;
        complain(*node, value.error().what, value.error().mend);
        return std::nullopt;
    }
    // A fault of a later check, with its fields turned into lines.
    measure::Complaint located(const Fault& fault) const;

  private:
    std::optional<toml::Place> find(std::string field) const;
    std::string lines_of(const Fault& fault) const;

    std::map<std::string, toml::Place> places_;
};

}  // namespace battwright::recipe
