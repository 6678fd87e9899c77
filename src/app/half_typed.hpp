// What was typed into a form and is written down nowhere yet: let go at the second press only.
#pragma once

#include <initializer_list>
#include <string>
#include <string_view>

namespace battwright::app {

// The texts of a form as one, to be compared with what it was; "" when there is nothing in any of them.
inline std::string typed_in(std::initializer_list<std::string_view> texts) {
    std::string all;
    bool any = false;
    for (const std::string_view text : texts) {
        any = any || text.find_first_not_of(" \t\n") != std::string_view::npos;
        all.append(text).push_back('\x1f');
    }
    return any ? all : std::string();
}

// True when nothing is typed, or this very text was asked about before; else it is remembered as asked about.
inline bool may_let_go(std::string& asked_about, std::string typed) {
    if (typed.empty() || typed == asked_about) {
        asked_about.clear();
        return true;
    }
    asked_about = std::move(typed);
    return false;
}

}  // namespace battwright::app
