// Inside this room: what is wrong with a recipe, before anyone knows whether it came from a file.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "recipe/composition.hpp"

namespace battwright::recipe {

// `fields` are paths such as "component 2 share" or "carding passes". The reader turns them into lines.
struct Fault {
    std::string what;
    std::string mend;
    std::vector<std::string> fields;
};
using Suspicion = std::optional<Fault>;

// "component 2" or "component 2 share", from an index that counts from 0.
std::string component_field(std::size_t index, std::string_view key = {});
// "weight", "share" or "parts".
std::string_view key_of(const Amount& amount);

// masses_of() with the fields still apart.
tl::expected<Masses, Fault> weigh(const Recipe& recipe);
// The first thing wrong with the recipe as a whole.
Suspicion first_fault(const Recipe& recipe, const fibre::Catalogue& catalogue);

// The fault with its fields as `where`.
measure::Complaint without_lines(const Fault& fault);

}  // namespace battwright::recipe
