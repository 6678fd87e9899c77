#include "fibre/complaints.hpp"

#include <algorithm>
#include <utility>

#include "measure/nearest.hpp"

namespace battwright::fibre {
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
        case toml::Type::number:
            return "a number";
        case toml::Type::boolean:
            return "true or false";
        case toml::Type::time:
            return "a date or time";
    }
    return "something else";
}

void keep_first(std::optional<measure::Complaint>& kept, measure::Complaint complaint) {
    const auto place = [](const measure::Complaint& c) { return std::pair(c.line, c.column); };
    if (!kept || place(complaint) < place(*kept)) kept = std::move(complaint);
}

measure::Complaint complaint_at(const toml::Placed& at, const std::string& path, std::string what,
                                std::string mend) {
    return {std::move(what), std::move(mend), path, at.place.line, at.place.column};
}

}  // namespace

void Complaints::add(const toml::Placed& at, std::string what, std::string mend) {
    keep_first(fault_, complaint_at(at, path_, std::move(what), std::move(mend)));
}

void Complaints::add_missing(const toml::Placed& table, std::string what, std::string mend) {
    keep_first(absence_, complaint_at(table, path_, std::move(what), std::move(mend)));
}

void Complaints::add_wrong_type(const toml::Node& node, std::string_view key, std::string mend) {
    add(node, std::string(key) + " is " + word_for_type(node.type()), std::move(mend));
}

void Complaints::add_unknown(const toml::Table& table, const std::string& inside,
                             const std::vector<std::string>& known) {
    for (const auto& [key, value] : table) {
        if (std::find(known.begin(), known.end(), key.text) != known.end()) continue;
        std::string mend = measure::did_you_mean(key.text, known);
        if (mend.empty()) {
            for (const std::string& word : known) mend += (mend.empty() ? "known here: " : ", ") + word;
        }
        add(key, "unknown key " + measure::quoted(key.text) + " in " + inside, std::move(mend));
    }
}

std::optional<std::string> Complaints::text(const toml::Table& table, std::string_view key) {
    const toml::Node* node = table.get(key);
    if (node == nullptr) return std::nullopt;
    auto value = node->text();
    if (!value) {
        add_wrong_type(*node, key, "write it in quotes");
        return std::nullopt;
    }
    if (value->empty()) {
        add(*node, std::string(key) + " is empty",
            "write something between the quotes or leave the line out");
        return std::nullopt;
    }
    return value;
}

std::vector<std::string> Complaints::texts(const toml::Table& table, std::string_view key) {
    const toml::Node* node = table.get(key);
    if (node == nullptr) return {};
    const std::string mend = "write a list of texts, as in " + std::string(key) + " = [\"...\", \"...\"]";
    const toml::List* array = node->list();
    if (array == nullptr) {
        add_wrong_type(*node, key, mend);
        return {};
    }
    if (array->empty()) add(*node, std::string(key) + " is an empty list", mend);
    std::vector<std::string> values;
    for (const toml::Node& element : *array) {
        const auto value = element.text();
        if (!value) add_wrong_type(element, "an entry of " + std::string(key), mend);
        values.push_back(value.value_or(""));
    }
    return values;
}

const toml::Table* Complaints::subtable(const toml::Table& table, std::string_view key) {
    const toml::Node* node = table.get(key);
    if (node == nullptr) return nullptr;
    if (!node->is(toml::Type::table)) {
        add_wrong_type(*node, key, "write a table, as in " + std::string(key) + " = { staple = \"memory\" }");
    }
    return node->table();
}

}  // namespace battwright::fibre
