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

// Lengths and masses wait for a person's units: see words_in.
std::string millimetres(double value) {
    return "{mm " + number(value, 3) + "}";
}

std::string micrometres(double value) {
    return tenths(value) + " um";
}

std::string grams(double value) {
    return "{g " + number(value, 3) + "}";
}

std::string weighed(double grams) {
    return "{weigh " + number(grams, 3) + "}";
}

std::string words_in(const std::string& marked, const Units& units) {
    std::string words;
    for (std::size_t at = 0; at < marked.size();) {
        const std::string_view rest = std::string_view(marked).substr(at);
        const bool length = rest.starts_with("{mm "), mass = rest.starts_with("{g ");
        const bool scale = rest.starts_with("{weigh ");
        const std::size_t end = length || mass || scale ? marked.find('}', at) : std::string::npos;
        if (end == std::string::npos) {
            words += marked[at++];
            continue;
        }
        std::string_view digits = rest.substr(rest.find(' ') + 1);
        const double value = text::take_decimal(digits).value_or(0.0);
        if (length && units.length != measure::LengthUnit::millimetre)
            words += measure::print_length(value, units.length);
        else if (scale || (mass && units.mass != measure::MassUnit::gram))
            words += measure::print_mass(value, units.mass);
        else
            words += two_figures(value) + (length ? " mm" : " g");
        at = end + 1;
    }
    return words;
}

void settle_words(Finding& finding) {
    finding.text_with_quantities = std::move(finding.text);
    finding.remedy_with_quantities = std::move(finding.remedy);
    finding.text = words_in(finding.text_with_quantities, {});
    finding.remedy = words_in(finding.remedy_with_quantities, {});
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
