#include "fibre/complaints.hpp"

#include <algorithm>
#include <utility>

#include "measure/nearest.hpp"

namespace battwright::fibre {
namespace {

const char* word_for_type(const toml::node& node) {
    switch (node.type()) {
        case toml::node_type::table:
            return "a table";
        case toml::node_type::array:
            return "a list";
        case toml::node_type::string:
            return "a text";
        case toml::node_type::integer:
        case toml::node_type::floating_point:
            return "a number";
        case toml::node_type::boolean:
            return "true or false";
        default:
            return "a date or time";
    }
}

void keep_first(std::optional<measure::Complaint>& kept, measure::Complaint complaint) {
    const auto place = [](const measure::Complaint& c) { return std::pair(c.line, c.column); };
    if (!kept || place(complaint) < place(*kept)) kept = std::move(complaint);
}

measure::Complaint complaint_at(const toml::source_region& source, const std::string& path, std::string what,
                                std::string mend) {
    return {std::move(what), std::move(mend), path, static_cast<int>(source.begin.line),
            static_cast<int>(source.begin.column)};
}

}  // namespace

void Complaints::add(const toml::source_region& source, std::string what, std::string mend) {
    keep_first(fault_, complaint_at(source, path_, std::move(what), std::move(mend)));
}

void Complaints::add_missing(const toml::node& table, std::string what, std::string mend) {
    keep_first(absence_, complaint_at(table.source(), path_, std::move(what), std::move(mend)));
}

void Complaints::add_wrong_type(const toml::node& node, std::string_view key, std::string mend) {
    add(node, std::string(key) + " is " + word_for_type(node), std::move(mend));
}

void Complaints::add_unknown(const toml::table& table, const std::string& inside,
                             const std::vector<std::string>& known) {
    for (const auto& [key, value] : table) {
        if (std::find(known.begin(), known.end(), key.str()) != known.end()) continue;
        std::string mend = measure::did_you_mean(key.str(), known);
        if (mend.empty()) {
            for (const std::string& word : known) mend += (mend.empty() ? "known here: " : ", ") + word;
        }
        add(key.source(), "unknown key " + measure::quoted(key.str()) + " in " + inside, std::move(mend));
    }
}

std::optional<std::string> Complaints::text(const toml::table& table, std::string_view key) {
    const toml::node* node = table.get(key);
    if (node == nullptr) return std::nullopt;
    auto value = node->value_exact<std::string>();
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

std::vector<std::string> Complaints::texts(const toml::table& table, std::string_view key) {
    const toml::node* node = table.get(key);
    if (node == nullptr) return {};
    const std::string mend = "write a list of texts, as in " + std::string(key) + " = [\"...\", \"...\"]";
    const toml::array* array = node->as_array();
    if (array == nullptr) {
        add_wrong_type(*node, key, mend);
        return {};
    }
    if (array->empty()) add(*node, std::string(key) + " is an empty list", mend);
    std::vector<std::string> values;
    for (const toml::node& element : *array) {
        const auto value = element.value_exact<std::string>();
        if (!value) add_wrong_type(element, "an entry of " + std::string(key), mend);
        values.push_back(value.value_or(""));
    }
    return values;
}

const toml::table* Complaints::subtable(const toml::table& table, std::string_view key) {
    const toml::node* node = table.get(key);
    if (node == nullptr) return nullptr;
    if (!node->is_table()) {
        add_wrong_type(*node, key, "write a table, as in " + std::string(key) + " = { staple = \"memory\" }");
    }
    return node->as_table();
}

}  // namespace battwright::fibre
