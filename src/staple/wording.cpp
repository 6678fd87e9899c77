// Numbers and names as the findings print them.
#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

#include "staple/batch.hpp"

namespace battwright::staple {
namespace {

// One decimal where it says something: "5", not "5.0".
std::string tenths(double value) {
    std::string text = number(value, 1);
    if (text.ends_with(".0")) text.resize(text.size() - 2);
    return text;
}

std::string two_figures(double value) {
    return value < 9.95 ? tenths(value) : number(value);
}

std::vector<std::string> distinct_names(std::span<const Body> bodies) {
    std::vector<std::string> names;
    for (const Body& body : bodies)
        if (std::find(names.begin(), names.end(), body.kind->name) == names.end())
            names.push_back(body.kind->name);
    return names;
}

}  // namespace

std::string number(double value, int decimals) {
    std::array<char, 64> text{};
    const auto end =
        std::to_chars(text.data(), text.data() + text.size(), value, std::chars_format::fixed, decimals);
    if (end.ec != std::errc{}) return "?";  // only beyond 60 digits
    return {text.data(), end.ptr};
}

std::string percent(double share) {
    return two_figures(100.0 * share) + " %";
}

std::string percent_to_the_tenth(double value) {
    return tenths(value) + " %";
}

std::string millimetres(double value) {
    return two_figures(value) + " mm";
}

std::string micrometres(double value) {
    return tenths(value) + " um";
}

std::string grams(double value) {
    return two_figures(value) + " g";
}

std::string counted(int count, const std::string& one, const std::string& many) {
    return std::to_string(count) + " " + (count == 1 ? one : many);
}

std::string listed(const std::vector<std::string>& words) {
    std::string text;
    for (std::size_t i = 0; i < words.size(); ++i) {
        if (i > 0) text += i + 1 == words.size() ? " and " : ", ";
        text += words[i];
    }
    return text;
}

std::string names_of(std::span<const Body> bodies) {
    // A name may hold a comma of its own ("Merino, fine"), so a list of several is parted by "and" alone.
    std::string text;
    for (const std::string& name : distinct_names(bodies)) text += (text.empty() ? "" : " and ") + name;
    return text;
}

std::string is_or_are(std::span<const Body> bodies) {
    return distinct_names(bodies).size() == 1 ? " is " : " are ";
}

}  // namespace battwright::staple
