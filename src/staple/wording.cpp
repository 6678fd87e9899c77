// Numbers and names as the findings print them.
#include <algorithm>

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
