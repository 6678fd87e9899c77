#include "toml/complaints.hpp"

#include <algorithm>
#include <array>
#include <utility>

#include "measure/choices.hpp"
#include "measure/nearest.hpp"
#include "text/words.hpp"

namespace battwright::toml {
namespace {

constexpr std::array<measure::Word<Type>, 7> types{{{Type::table, "a table"},
                                                    {Type::list, "a list"},
                                                    {Type::text, "a text"},
                                                    {Type::whole_number, "a whole number"},
                                                    {Type::number, "a number"},
                                                    {Type::boolean, "true or false"},
                                                    {Type::time, "a date or time"}}};
static_assert(measure::one_row_each(types));

void keep_first(std::optional<measure::Complaint>& kept, measure::Complaint complaint) {
    const auto place = [](const measure::Complaint& c) { return std::pair(c.line, c.column); };
    if (!kept || place(complaint) < place(*kept)) kept = std::move(complaint);
}

measure::Complaint complaint_at(const Placed& at, const std::string& path, std::string what,
                                std::string mend) {
    return {std::move(what), std::move(mend), path, at.place.line, at.place.column};
}

}  // namespace

void Complaints::complain(const Placed& at, std::string what, std::string mend) {
    keep_first(fault_, complaint_at(at, path_, std::move(what), std::move(mend)));
}

void Complaints::missing(const Placed& table, std::string what, std::string mend) {
    keep_first(absence_, complaint_at(table, path_, std::move(what), std::move(mend)));
}

void Complaints::wrong_type(const Node& node, std::string_view key, std::string mend) {
    complain(node, std::string(key) + " is " + std::string(measure::row_of(types, node.type()).word),
             std::move(mend));
}

void Complaints::only(const Table& table, const std::string& inside, const std::vector<std::string>& known) {
    for (const auto& [key, value] : table) {
        if (std::find(known.begin(), known.end(), key.text) != known.end()) continue;
        std::string mend = measure::did_you_mean(key.text, known);
        if (mend.empty()) mend = "known here: " + text::listed(known);
        complain(key, "unknown key " + measure::quoted(key.text) + " in " + inside, std::move(mend));
    }
}

std::optional<std::string> Complaints::text(const Table& table, std::string_view key) {
    const Node* node = table.get(key);
    if (node == nullptr) return std::nullopt;
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

std::vector<std::string> Complaints::texts(const Table& table, std::string_view key) {
    const Node* node = table.get(key);
    if (node == nullptr) return {};
    const std::string mend = "write a list of texts, as in " + std::string(key) + " = [\"...\", \"...\"]";
    const List* array = node->list();
    if (array == nullptr) {
        wrong_type(*node, key, mend);
        return {};
    }
    if (array->empty()) complain(*node, std::string(key) + " is an empty list", mend);
    std::vector<std::string> values;
    for (const Node& element : *array) {
        const auto value = element.text();
        if (!value) wrong_type(element, "an entry of " + std::string(key), mend);
        values.push_back(value.value_or(""));
    }
    return values;
}

const Table* Complaints::subtable(const Table& table, std::string_view key, std::string mend) {
    const Node* node = table.get(key);
    if (node == nullptr) return nullptr;
    if (!node->is(Type::table)) wrong_type(*node, key, std::move(mend));
    return node->table();
}

}  // namespace battwright::toml
