#include "measure/own_units.hpp"

#include <cctype>
#include <string_view>
#include <utility>

#include "text/numbers.hpp"

namespace battwright::measure {
namespace {

bool is_part_of_word(char c) {
    return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '.' || c == '_';
}

// The unit at the front of `rest`, when it stands alone: "g" or "m"; 0 for neither.
char unit_ahead(std::string_view rest) {
    if (rest.size() < 2 || rest[0] != ' ' || (rest[1] != 'g' && rest[1] != 'm')) return 0;
    const bool alone = rest.size() == 2 || std::isalnum(static_cast<unsigned char>(rest[2])) == 0;
    return alone ? rest[1] : '\0';
}

std::string printed_anew(double value, char unit, const OwnUnits& units) {
    return unit == 'g' ? print_mass(value, units.mass) : print_yarn_length(value, units.length);
}

}  // namespace

std::string in_units(const std::string& words, const OwnUnits& units) {
    if (units == OwnUnits{}) return words;
    std::string told;
    bool quoted = false;
    for (std::size_t at = 0; at < words.size();) {
        const char c = words[at];
        if (c == '"') quoted = !quoted;
        const bool begins =
            std::isdigit(static_cast<unsigned char>(c)) != 0 && (at == 0 || !is_part_of_word(words[at - 1]));
        std::string_view rest = std::string_view(words).substr(at);
        const auto value = begins && !quoted ? text::take_decimal(rest) : std::nullopt;
        const char unit = value ? unit_ahead(rest) : '\0';
        if (unit == 0) {
            told += words[at++];
            continue;
        }
        told += printed_anew(*value, unit, units);
        at = words.size() - rest.size() + 2;
    }
    return told;
}

Complaint in_units(Complaint complaint, const OwnUnits& units) {
    complaint.what = in_units(complaint.what, units);
    complaint.mend = in_units(complaint.mend, units);
    return complaint;
}

}  // namespace battwright::measure
