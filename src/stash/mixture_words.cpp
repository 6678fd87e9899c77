#include "stash/mixture_words.hpp"

#include <algorithm>
#include <optional>

#include "colour/names.hpp"
#include "measure/units.hpp"
#include "text/words.hpp"

namespace battwright::stash {
namespace {

using measure::Complaint;

struct Part {
    std::string word;
    double share_pct = 0.0;
};

measure::Expected<std::optional<double>> share_in(std::string_view text) {
    if (text.empty()) return std::optional<double>();
    auto quantity = measure::parse_quantity(text, "share", "70 %");
    if (!quantity) return tl::make_unexpected(quantity.error());
    if (!quantity->unit.empty() && quantity->unit != "%")
        return tl::make_unexpected(Complaint{"the share " + measure::quoted(text) + " is no percentage",
                                             "write it in percent, as in 70 %"});
    return std::optional(quantity->value);
}

tl::unexpected<Complaint> some_without_share(std::string_view text) {
    return tl::make_unexpected(
        Complaint{"some of " + measure::quoted(text) + " have a share and some have none",
                  "give each one a share, or none"});
}

// Where the word ends. A name with spaces ends before its share, which begins with no letter: "dark blue 60".
std::size_t gap_in(std::string_view part) {
    const auto is_letter = [](char c) { return text::lower(c) >= 'a' && text::lower(c) <= 'z'; };
    std::size_t gap = std::min(part.find_first_of(" \t"), part.size());
    while (gap < part.size() && is_letter(text::trimmed(part.substr(gap)).front()))
        gap = std::min(part.find_first_of(" \t", gap + 1), part.size());
    return gap;
}

measure::Expected<std::vector<Part>> parts_of(std::string_view text, const std::string& example) {
    std::vector<Part> parts;
    std::size_t with_share = 0;
    for (std::string_view rest = text; !text::trimmed(text).empty();) {
        const std::size_t end = std::min(rest.find(';'), rest.size());
        const std::string_view part = text::trimmed(rest.substr(0, end));
        if (part.empty())
            return tl::make_unexpected(
                Complaint{"there is nothing between two semicolons of " + measure::quoted(text),
                          "write it as in " + example});
        const std::size_t gap = gap_in(part);
        const auto share = share_in(text::trimmed(part.substr(gap)));
        if (!share) return tl::make_unexpected(share.error());
        if (*share) ++with_share;
        parts.push_back({std::string(part.substr(0, gap)), share->value_or(0.0)});
        if (end == rest.size()) break;
        rest.remove_prefix(end + 1);
    }
    if (with_share != 0 && with_share != parts.size()) return some_without_share(text);
    if (with_share == 0)
        for (Part& part : parts) part.share_pct = 100.0 / static_cast<double>(parts.size());
    return parts;
}

void write_part(std::string& out, const std::string& word, double share_pct) {
    if (!out.empty()) out += "; ";
    out += word + " " + measure::write_number(share_pct);
}

}  // namespace

measure::Expected<std::vector<recipe::Content>> parse_content(std::string_view text) {
    auto parts = parts_of(text, "merino-fine 70; bombyx-silk 30");
    if (!parts) return tl::make_unexpected(parts.error());
    std::vector<recipe::Content> content;
    for (Part& part : *parts) content.push_back({std::move(part.word), part.share_pct});
    return content;
}

measure::Expected<std::vector<recipe::Tint>> parse_palette(std::string_view text) {
    auto parts = parts_of(text, "#2f5d50 60; dark blue 40");
    if (!parts) return tl::make_unexpected(parts.error());
    std::vector<recipe::Tint> palette;
    for (const Part& part : *parts) {
        auto colour = colour::parse_colour(part.word);
        if (!colour) return tl::make_unexpected(colour.error());
        palette.push_back({*colour, part.share_pct});
    }
    return palette;
}

std::string write_content(const std::vector<recipe::Content>& content) {
    std::string text;
    for (const recipe::Content& part : content) write_part(text, part.fibre, part.share_pct);
    return text;
}

std::string write_palette(const std::vector<recipe::Tint>& palette) {
    std::string text;
    for (const recipe::Tint& tint : palette) write_part(text, colour::hex(tint.colour), tint.share_pct);
    return text;
}

}  // namespace battwright::stash
