// The example recipes the program carries, so that it finds them wherever it lies.
#pragma once

#include <filesystem>
#include <span>
#include <string>
#include <string_view>

#include "measure/complaint.hpp"

namespace battwright::command {

struct Example {
    std::string_view name;  // "kelp-and-brass"
    std::string_view text;  // the recipe, as its file holds it
};

// In the order of their names.
std::span<const Example> examples();

// Their names with commas between.
std::string example_names();

// Copies an example to NAME.batt.toml in `folder` and gives that path. A file that is there already stays as
// it is: that, a name no example has and a folder that cannot be written to are complaints.
measure::Expected<std::filesystem::path> copy_example(const std::string& name,
                                                      const std::filesystem::path& folder);

}  // namespace battwright::command
