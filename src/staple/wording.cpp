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

std::string words_in(const std::string& text, const Units& units) {
    std::string words;
    for (std::size_t at = 0; at < text.size();) {
        const bool length = text.compare(at, 4, "{mm ") == 0, mass = text.compare(at, 3, "{g ") == 0;
        const std::size_t end = length || mass ? text.find('}', at) : std::string::npos;
        if (end == std::string::npos) {
            words += text[at++];
            continue;
        }
        double value = 0.0;
        const std::size_t from = at + (length ? 4 : 3);
        std::from_chars(text.data() + from, text.data() + end, value);
        if (length && units.length != measure::LengthUnit::millimetre)
            words += measure::print_length(value, units.length);
        else if (mass && units.mass != measure::MassUnit::gram)
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
