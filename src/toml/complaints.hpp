// Gathering what is wrong with a file in TOML, and reading its values.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "measure/complaint.hpp"
#include "toml/toml.hpp"

namespace battwright::toml {

// Reading goes on after a fault, so that of all faults the first in the file is the one told.
class Complaints {
  public:
    explicit Complaints(std::string path) : path_(std::move(path)) {}

    void complain(const Placed& at, std::string what, std::string mend);
    // Something left out. Told only when nothing else is wrong: the missing key is often there, misspelt.
    void missing(const Placed& table, std::string what, std::string mend);
    // "staple is a whole number; ...".
    void wrong_type(const Node& node, std::string_view key, std::string mend);
    // Complains of every key not in `known`; `inside` names the table for a person.
    void only(const Table& table, const std::string& inside, const std::vector<std::string>& known);

    // The value of a key; nothing when it is absent, empty or not of the type (then there is a complaint).
    std::optional<std::string> text(const Table& table, std::string_view key);
    std::vector<std::string> texts(const Table& table, std::string_view key);
    // `mend`: what to write instead of what is no table.
    const Table* subtable(const Table& table, std::string_view key, std::string mend);

    // The first in the file.
    const std::optional<measure::Complaint>& complaint() const { return fault_ ? fault_ : absence_; }
    const std::string& path() const { return path_; }

  private:
    std::string path_;
    std::optional<measure::Complaint> fault_;
    std::optional<measure::Complaint> absence_;
};

}  // namespace battwright::toml
