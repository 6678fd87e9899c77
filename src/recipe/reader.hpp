// Inside this room: reading values out of TOML tables with complaints that know their line.
#pragma once

#include <cstdint>
#include <initializer_list>
#include <map>
#include <optional>
#include <string>
#include <string_view>

#include "measure/complaint.hpp"
#include "recipe/fault.hpp"
#include "toml/toml.hpp"

namespace battwright::recipe {

// Reads on after a fault, so that of all faults the first in the file is the one told. Every value read
// leaves its place under a field name ("component 2 share"), for the checks that come later.
class Reader {
  public:
    explicit Reader(std::string path) : path_(std::move(path)) {}

    void complain(const toml::Placed& at, std::string what, std::string mend);
    // Something that should be in `table` is not. Told only when there is no other fault: the missing key is
    // often there, misspelt.
    void missing(const toml::Placed& table, std::string what, std::string mend);
    void place(const std::string& field, const toml::Placed& at);

    // Complains of every key not in `known`; `inside` names the table for a person.
    void only(const toml::Table& table, const std::string& inside, std::initializer_list<const char*> known);
    // Each reads one key, records its place and complains of a wrong type; nothing when absent or wrong.
    // A text must not be empty.
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
    // "share is a whole number, not ...".
    void wrong_type(const toml::Node& node, std::string_view key, std::string mend);

    const std::optional<measure::Complaint>& complaint() const { return complaint_ ? complaint_ : absence_; }
    // A fault of a later check, with its fields turned into lines.
    measure::Complaint located(const Fault& fault) const;

  private:
    void keep_first(std::optional<measure::Complaint>& kept, toml::Place place, std::string what,
                    std::string mend) const;
    std::optional<toml::Place> find(std::string field) const;
    std::string lines_of(const Fault& fault) const;

    std::string path_;
    std::optional<measure::Complaint> complaint_;
    std::optional<measure::Complaint> absence_;
    std::map<std::string, toml::Place> places_;
};

}  // namespace battwright::recipe
