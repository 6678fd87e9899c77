// The trade's words, explained, each with where the explanation or figure comes from.
#pragma once

#include <string_view>
#include <vector>

namespace battwright::window {

struct Term {
    std::string_view name;
    std::string_view meaning;
    std::string_view source;
};
const std::vector<Term>& terms();
const Term* find_term(std::string_view name);  // nullptr when unknown

}  // namespace battwright::window
