#include "toml/toml.hpp"

#include <toml++/toml.h>

#include <algorithm>
#include <sstream>

#include "toml/scan.hpp"

namespace battwright::toml {
namespace {

Place place_of(const ::toml::source_region& source) {
    return {static_cast<int>(source.begin.line), static_cast<int>(source.begin.column)};
}

Node node_from(::toml::node& node);

Table table_from(::toml::table& from) {
    Table table;
    table.place = place_of(from.source());
    for (auto&& [key, value] : from)
        table.add({{{place_of(key.source())}, std::string(key.str())}, node_from(value)});
    return table;
}

List list_from(::toml::array& from) {
    List list;
    list.place = place_of(from.source());
    for (::toml::node& node : from) list.add(node_from(node));
    return list;
}

Node::Value value_from(::toml::node& node) {
    switch (node.type()) {
        case ::toml::node_type::table:
            return table_from(*node.as_table());
        case ::toml::node_type::array:
            return list_from(*node.as_array());
        case ::toml::node_type::string:
            return std::move(node.as_string()->get());
        case ::toml::node_type::integer:
            return node.as_integer()->get();
        case ::toml::node_type::floating_point:
            return node.as_floating_point()->get();
        case ::toml::node_type::boolean:
            return node.as_boolean()->get();
        default:
            return std::monostate{};
    }
}

Node node_from(::toml::node& node) {
    return {place_of(node.source()), value_from(node)};
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

const char* mend_for(std::string_view description) {
    if (description.find("cannot redefine") != std::string_view::npos)
        return "keep one of the two and remove the other";
    return "check the quotes, brackets and equals signs here";
}

template <class Value>
std::string formatted(const Value& value) {
    std::ostringstream out;
    out << ::toml::toml_formatter{::toml::value<Value>(value), ::toml::format_flags::allow_unicode_strings};
    return out.str();
}

}  // namespace

const Node* Table::get(std::string_view key) const {
    const auto entry = std::lower_bound(entries_.begin(), entries_.end(), key,
                                        [](const Entry& e, std::string_view k) { return e.key.text < k; });
    return entry != entries_.end() && entry->key.text == key ? &entry->value : nullptr;
}

void Table::add(Entry entry) {
    const auto before = std::upper_bound(entries_.begin(), entries_.end(), entry.key.text,
                                         [](const std::string& k, const Entry& e) { return k < e.key.text; });
    entries_.insert(before, std::move(entry));
}

void List::add(Node node) {
    nodes_.push_back(std::move(node));
}

std::optional<std::string> Node::text() const {
    const auto* value = std::get_if<std::string>(&value_);
    return value != nullptr ? std::optional(*value) : std::nullopt;
}

std::optional<std::int64_t> Node::whole_number() const {
    const auto* value = std::get_if<std::int64_t>(&value_);
    return value != nullptr ? std::optional(*value) : std::nullopt;
}

std::optional<bool> Node::boolean() const {
    const auto* value = std::get_if<bool>(&value_);
    return value != nullptr ? std::optional(*value) : std::nullopt;
}

std::optional<double> Node::number() const {
    constexpr std::int64_t largest_whole = std::int64_t{1} << 53;
    if (const auto* value = std::get_if<double>(&value_)) return *value;
    const auto* whole = std::get_if<std::int64_t>(&value_);
    if (whole == nullptr || *whole > largest_whole || *whole < -largest_whole) return std::nullopt;
    return static_cast<double>(*whole);
}

measure::Expected<Table> parse(std::string_view text, const std::string& path) {
    const auto fault = [&](std::string what, const char* mend, Place at) {
        return tl::make_unexpected(measure::Complaint{std::move(what), mend, path, at.line, at.column});
    };
    if (const std::size_t byte = measure::first_not_utf8(text); byte != std::string_view::npos)
        return fault("the text is not UTF-8 here", "save the file as UTF-8", place_of(text, byte));
    if (const std::size_t deep = scan(text).too_deep; deep != std::string_view::npos)
        return fault("a key here has too many dots", "no key of such a file has a dot", place_of(text, deep));
    try {
        ::toml::table table = ::toml::parse(text);
        return table_from(table);
    } catch (const ::toml::parse_error& error) {
        return fault(what_for(error.description()), mend_for(error.description()), place_of(error.source()));
    }
}

bool has_comments(std::string_view text) {
    return scan(text).comments;
}

std::string written(const std::string& text) {
    return formatted(text);
}

std::string written(double value) {
    return formatted(value);
}

}  // namespace battwright::toml
