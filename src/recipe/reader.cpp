#include "recipe/reader.hpp"

#include <algorithm>
#include <set>
#include <utility>
#include <vector>

#include "measure/nearest.hpp"
#include "text/words.hpp"

namespace battwright::recipe {
namespace {

const char* word_for_type(toml::Type type) {
    switch (type) {
        case toml::Type::table:
            return "a table";
        case toml::Type::list:
            return "a list";
        case toml::Type::text:
            return "a text";
        case toml::Type::whole_number:
            return "a whole number";
        case toml::Type::number:
            return "a number";
        case toml::Type::boolean:
            return "true or false";
        case toml::Type::time:
            return "a date or time";
    }
    return "something else";
}

}  // namespace

void Reader::keep_first(std::optional<measure::Complaint>& kept, toml::Place place, std::string what,
                        std::string mend) const {
    if (kept && std::pair(kept->line, kept->column) <= std::pair(place.line, place.column)) return;
    kept = measure::Complaint{std::move(what), std::move(mend), path_, place.line, place.column};
}

void Reader::complain(const toml::Placed& at, std::string what, std::string mend) {
    keep_first(complaint_, at.place, std::move(what), std::move(mend));
}

void Reader::missing(const toml::Placed& table, std::string what, std::string mend) {
    keep_first(absence_, table.place, std::move(what), std::move(mend));
}

void Reader::place(const std::string& field, const toml::Placed& at) {
    places_[field] = at.place;
}

void Reader::only(const toml::Table& table, const std::string& inside,
                  std::initializer_list<const char*> known) {
    const std::vector<std::string> words(known.begin(), known.end());
    for (const auto& [key, value] : table) {
        if (std::find(words.begin(), words.end(), key.text) != words.end()) continue;
        std::string mend = measure::did_you_mean(key.text, words);
        if (mend.empty()) mend = "known here: " + text::listed(words);
        complain(key, "unknown key " + measure::quoted(key.text) + " in " + inside, mend);
    }
}

void Reader::wrong_type(const toml::Node& node, std::string_view key, std::string mend) {
    complain(node, std::string(key) + " is " + word_for_type(node.type()), std::move(mend));
}

std::optional<std::string> Reader::text(const toml::Table& table, std::string_view key,
                                        const std::string& field) {
    const toml::Node* node = table.get(key);
    if (node == nullptr) return std::nullopt;
    place(field, *node);
    auto value = node->text();
    if (!value) {
        wrong_type(*node, key, "write it in quotes");
        return std::nullopt;
    }
    if (value->empty()) {
        complain(*node, std::string(key) + " is empty",
                 "write something between the quotes or leave the line out");
        return std::nullopt;
    }
    return value;
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
    if (!node->is(toml::Type::table))
        wrong_type(*node, key, "start a table with [" + std::string(key) + "] on a line of its own");
    return node->table();
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
    std::string text = " (lines ";
    std::size_t told = 0;
    for (const int line : lines) {
        if (told == most) return text + " and " + std::to_string(lines.size() - most) + " more)";
        const bool final = told + 1 == lines.size();
        text += (told == 0 ? "" : final ? " and " : ", ") + std::to_string(line);
        ++told;
    }
    return text + ")";
}

measure::Complaint Reader::located(const Fault& fault) const {
    toml::Place place{1, 1};
    if (!fault.fields.empty()) place = find(fault.fields.front()).value_or(place);
    return {fault.what + lines_of(fault), fault.mend, path_, place.line, place.column};
}

}  // namespace battwright::recipe
