// Inside this room: gathering what is wrong with a catalogue file, and reading its values.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "measure/complaint.hpp"
#include "toml/toml.hpp"

namespace battwright::fibre {

// Reading goes on after a fault, so that of all faults the first in the file is the one told.
class Complaints {
  public:
    explicit Complaints(std::string path) : path_(std::move(path)) {}

    void add(const toml::Placed& at, std::string what, std::string mend);
    // Something left out. Told only when nothing else is wrong: the missing key is often there, misspelt.
    void add_missing(const toml::Placed& table, std::string what, std::string mend);

    // "staple is a whole number; ...".
    void add_wrong_type(const toml::Node& node, std::string_view key, std::string mend);
    // One for every key of `table` that is not in `known`.
    void add_unknown(const toml::Table& table, const std::string& inside,
                     const std::vector<std::string>& known);

    // The value of a key; nothing when it is absent, or not of the type (then there is a complaint).
    std::optional<std::string> text(const toml::Table& table, std::string_view key);
    std::vector<std::string> texts(const toml::Table& table, std::string_view key);
    const toml::Table* subtable(const toml::Table& table, std::string_view key);

    const std::optional<measure::Complaint>& first() const { return fault_ ? fault_ : absence_; }

  private:
    std::string path_;
    std::optional<measure::Complaint> fault_;
    std::optional<measure::Complaint> absence_;
};

}  // namespace battwright::fibre
