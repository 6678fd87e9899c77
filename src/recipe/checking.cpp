#include "recipe/checking.hpp"

#include <cmath>
#include <string_view>

#include "text/numbers.hpp"

namespace battwright::recipe {
namespace {

constexpr std::size_t longest_notes = 20000;

// C0 and C1 control characters and delete; `text` is UTF-8. Notes may have line breaks and tabs.
bool has_control(std::string_view text, bool notes) {
    for (std::size_t i = 0; i < text.size(); ++i) {
        const auto byte = static_cast<unsigned char>(text[i]);
        if (notes && (byte == '\n' || byte == '\t')) continue;
        if (byte < 0x20 || byte == 0x7f) return true;
        const bool c1 = byte == 0xc2 && i + 1 < text.size() && static_cast<unsigned char>(text[i + 1]) < 0xa0;
        if (c1) return true;
    }
    return false;
}

}  // namespace

Suspicion outside(double value, const Figure& figure, const std::string& field) {
    const Range& range = figure.range;
    const auto print = figure.print;
    const auto fault = [&](const std::string& what) {
        return Fault{figure.noun + what,
                     "write it between " + print(range.low) + " and " + print(range.high),
                     {field}};
    };
    if (!std::isfinite(value)) return fault(" is not a finite number");
    if (value == 0.0 && range.low > 0.0) return fault(" is zero");
    if (value < 0.0) return fault(" is negative: " + print(value));
    if (value < range.low) return fault(" is too small: " + print(value));
    if (value > range.high) return fault(" is too large: " + print(value));
    return std::nullopt;
}

std::string print_plain(double value) {
    return measure::write_number(value);
}
std::string print_percentage(double value) {
    return measure::write_percent(value);
}
std::string print_micrometres(double value) {
    return measure::write_diameter(value);
}
std::string print_millimetres(double value) {
    return measure::write_number(value) + " mm";
}
// Nine digits tell any weight from its limit, and none of a division's last bits.
std::string print_weight(double grams) {
    const bool heavy = std::abs(grams) >= 1000.0;
    const double shown = text::to_figures(heavy ? grams / 1000.0 : grams, 9);
    return text::shortest(shown) + (heavy ? " kg" : " g");
}

Suspicion bad_text(const std::string& text, bool notes, const std::string& field) {
    const std::string noun = notes ? "the note" : "the name";
    const std::size_t longest = notes ? longest_notes : longest_name;
    if (measure::first_not_utf8(text) != std::string::npos) {
        return Fault{noun + " is not UTF-8: " + measure::quoted(text), "write it in UTF-8", {field}};
    }
    if (has_control(text, notes)) {
        return Fault{noun + " has a control character: " + measure::quoted(text), "take it out", {field}};
    }
    if (text.size() > longest) {
        return Fault{noun + " is " + std::to_string(text.size()) + " bytes long",
                     "shorten it to " + std::to_string(longest),
                     {field}};
    }
    const bool blank = text.find_first_not_of(" \t\n") == std::string::npos;
    if (blank && !text.empty()) return Fault{noun + " is blank", "write something or leave it out", {field}};
    return std::nullopt;
}

}  // namespace battwright::recipe
