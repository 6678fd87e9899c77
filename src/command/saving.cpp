#include "command/saving.hpp"

namespace battwright::command {

void add_replace_option(Command& app, bool& replace) {
    app.add_flag("--replace", replace, "even where a file of yours of that kind is");
}

measure::Saving saving_of(bool replace, const std::vector<std::string>& inputs) {
    measure::Saving saving{replace ? measure::Replace::yes : measure::Replace::no, {}};
    for (const std::string& input : inputs)
        if (!input.empty()) saving.inputs.emplace_back(input);
    return saving;
}

}  // namespace battwright::command
