// TOML 1.0 documents as a tree that knows where in the text each thing stands. The library that reads them
// shows in this room's source alone: it is long, and every source that read it took seconds more to compile.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "measure/complaint.hpp"

namespace battwright::toml {

// Where something begins: lines and columns count from 1, columns in characters. 0 when it was not in a text.
struct Place {
    int line = 0;
    int column = 0;
};

// Tables, lists, values and keys alike, for what only asks where.
struct Placed {
    Place place;
};

struct Entry;
class Node;

// Keys in the order of their bytes.
class Table : public Placed {
  public:
    // Nothing when the table has no such key.
    const Node* get(std::string_view key) const;
    bool contains(std::string_view key) const { return get(key) != nullptr; }
    void add(Entry entry);

    auto begin() const { return entries_.begin(); }
    auto end() const { return entries_.end(); }

  private:
    std::vector<Entry> entries_;
};

class List : public Placed {
  public:
    void add(Node node);

    bool empty() const { return nodes_.empty(); }
    std::size_t size() const;
    const Node& operator[](std::size_t i) const;
    auto begin() const { return nodes_.begin(); }
    auto end() const { return nodes_.end(); }

  private:
    std::vector<Node> nodes_;
};

enum class Type { table, list, text, whole_number, number, boolean, time };

// A table, a list or a value. Dates and times are known as such and not read.
class Node : public Placed {
  public:
    using Value = std::variant<Table, List, std::string, std::int64_t, double, bool, std::monostate>;
    Node(Place at, Value value);

    Type type() const { return static_cast<Type>(value_.index()); }
    bool is(Type type) const { return this->type() == type; }

    // Each is nothing when the node is of another type.
    const Table* table() const { return std::get_if<Table>(&value_); }
    const List* list() const { return std::get_if<List>(&value_); }
    std::optional<std::string> text() const;
    std::optional<std::int64_t> whole_number() const;
    std::optional<bool> boolean() const;
    // Written with a point or without; nothing, too, for a whole number beyond the 2^53 a double holds.
    std::optional<double> number() const;

  private:
    Value value_;
};

struct Key : Placed {
    std::string text;
};

struct Entry {
    Key key;
    Node value;
};

inline std::size_t List::size() const {
    return nodes_.size();
}
inline const Node& List::operator[](std::size_t i) const {
    return nodes_[i];
}
// Here, since moving a table wants to know what an entry is.
inline Node::Node(Place at, Value value) : Placed{at}, value_(std::move(value)) {}

// Any bytes at all: what is not UTF-8 or not TOML, or a key of endless dots, is a complaint with its place.
measure::Expected<Table> parse(std::string_view text, const std::string& path = {});
// True when the text holds comments, which are read over and so lost when it is written anew.
bool has_comments(std::string_view text);

// As TOML writes them: a text in double quotes with what needs it escaped; a number with a point.
std::string written(const std::string& text);
std::string written(double value);

}  // namespace battwright::toml
