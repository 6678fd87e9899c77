#include "recipe/reader.hpp"

#include <set>
#include <vector>

#include "text/words.hpp"

namespace battwright::recipe {

void Reader::place(const std::string& field, const toml::Placed& at) {
    places_[field] = at.place;
}

std::optional<std::string> Reader::text(const toml::Table& table, std::string_view key,
                                        const std::string& field) {
    const toml::Node* node = table.get(key);
    if (node == nullptr) return std::nullopt;
    place(field, *node);
    return Complaints::text(table, key);
}

std::optional<int> Reader::whole_number(const toml::Table& table, std::string_view key,
                                        const std::string& field) {
    constexpr std::int64_t absurd = 1'000'000;
    const toml::Node* node = table.get(key);
    if (node == nullptr) return std::nullopt;
    place(field, *node);
    const auto value = node->whole_number();
    if (!value) {
        wrong_type(*node, key, "write a whole number without quotes");
        return std::nullopt;
    }
    if (*value > absurd || *value < -absurd) {
        complain(*node, std::string(key) + " is far out of range: " + std::to_string(*value),
                 "write a sensible number");
        return std::nullopt;
    }
    return static_cast<int>(*value);
}

std::optional<bool> Reader::yes_or_no(const toml::Table& table, std::string_view key,
                                      const std::string& field) {
    const toml::Node* node = table.get(key);
    if (node == nullptr) return std::nullopt;
    place(field, *node);
    const auto value = node->boolean();
    if (!value) wrong_type(*node, key, "write true or false");
    return value;
}

const toml::Table* Reader::subtable(const toml::Table& table, std::string_view key,
                                    const std::string& field) {
    const toml::Node* node = table.get(key);
    if (node == nullptr) return nullptr;
    place(field, *node);
    return Complaints::subtable(table, key,
                                "start a table with [" + std::string(key) + "] on a line of its own");
}

const toml::List* Reader::tables(const toml::Table& table, std::string_view key, const std::string& field,
                                 const std::string& mend) {
    const toml::Node* node = table.get(key);
    if (node == nullptr) return nullptr;
    place(field, *node);
    const toml::List* array = node->list();
    if (array == nullptr) {
        wrong_type(*node, key, mend);
        return nullptr;
    }
    if (array->empty()) complain(*node, std::string(key) + " is an empty list", mend);
    for (const toml::Node& element : *array) {
        if (!element.is(toml::Type::table)) wrong_type(element, "an entry of " + std::string(key), mend);
    }
    return array;
}

std::optional<toml::Place> Reader::find(std::string field) const {
    // A field the file leaves out stands for the nearest table that would hold it.
    while (true) {
        if (const auto found = places_.find(field); found != places_.end()) return found->second;
        const std::size_t space = field.rfind(' ');
        if (space == std::string::npos) return std::nullopt;
        field.resize(space);
    }
}

std::string Reader::lines_of(const Fault& fault) const {
    constexpr std::size_t most = 8;
    std::set<int> lines;
    for (const std::string& field : fault.fields) {
        if (const auto place = find(field)) lines.insert(place->line);
    }
    if (lines.size() < 2) return {};
    std::vector<std::string> words;
    for (const int line : lines) {
        if (words.size() == most) {
            words.push_back(std::to_string(lines.size() - most) + " more");
            break;
        }
        words.push_back(std::to_string(line));
    }
    return " (lines " + text::listed(words) + ")";
}

measure::Complaint Reader::located(const Fault& fault) const {
    toml::Place place{1, 1};
    if (!fault.fields.empty()) place = find(fault.fields.front()).value_or(place);
    return {fault.what + lines_of(fault), fault.mend, path(), place.line, place.column};
}

}  // namespace battwright::recipe
