#include "shelving/wishes.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>

#include "colour/names.hpp"
#include "measure/nearest.hpp"
#include "text/numbers.hpp"
#include "text/words.hpp"

namespace battwright::shelving {
namespace {

using measure::Complaint;
using measure::Expected;

constexpr std::array families{fibre::Family::wool,      fibre::Family::hair,    fibre::Family::silk,
                              fibre::Family::bast,      fibre::Family::cotton,  fibre::Family::regenerated,
                              fibre::Family::synthetic, fibre::Family::sparkle, fibre::Family::inclusion,
                              fibre::Family::unknown};

enum class Side { least, most, both };
struct Cut {
    std::string_view before, after;
    Side side = Side::both;
};

// The first comparison in the text, and what stands on its two sides.
std::optional<Cut> cut_at_comparison(std::string_view text) {
    struct Sign {
        std::string_view words;
        Side side;
    };
    // Longer ones first: ">=" before ">".
    static constexpr std::array<Sign, 9> signs{{{">=", Side::least},
                                                {"<=", Side::most},
                                                {"\u2265", Side::least},
                                                {"\u2264", Side::most},
                                                {"at least", Side::least},
                                                {"at most", Side::most},
                                                {"=", Side::both},
                                                {">", Side::least},
                                                {"<", Side::most}}};
    for (const Sign& sign : signs) {
        const auto at = text.find(sign.words);
        if (at == std::string_view::npos) continue;
        return Cut{text::trimmed(text.substr(0, at)), text::trimmed(text.substr(at + sign.words.size())),
                   sign.side};
    }
    return std::nullopt;
}

// "10-20 %" and "10 to 20 %" in two; a hyphen or dash counts only between figures.
std::optional<std::pair<std::string, std::string>> cut_range(std::string_view text) {
    for (const std::string_view dash : {"to", "\u2013", "-"}) {
        const auto at = text.find(dash, 1);
        if (text.empty() || at == std::string_view::npos) continue;
        return std::pair{std::string(text::trimmed(text.substr(0, at))),
                         std::string(text::trimmed(text.substr(at + dash.size())))};
    }
    return std::nullopt;
}

bool is_figure(char c) {
    return (c >= '0' && c <= '9') || c == '.';
}

// "silk 10-20 %": the figures begin after the first blank that only figures follow.
std::optional<Cut> cut_at_figures(std::string_view text) {
    for (std::size_t at = text.find(' '); at != std::string_view::npos; at = text.find(' ', at + 1)) {
        const auto rest = text::trimmed(text.substr(at));
        if (rest.empty() || !is_figure(rest.front())) continue;
        if (rest.find_first_not_of("0123456789.,% -to\xe2\x80\x93") != std::string_view::npos) continue;
        return Cut{text::trimmed(text.substr(0, at)), rest, Side::both};
    }
    return std::nullopt;
}

constexpr const char* bound_form = "write such as \"wool >= 60 %\", \"silk 10-20 %\" or \"sparkle <= 3 %\"";

Expected<double> percent_of(const std::string& text, std::string_view whole) {
    const auto value = measure::parse_percent(text);
    const auto refuse = [&](std::string what, std::string mend) {
        return tl::make_unexpected(Complaint{std::move(what), std::move(mend), measure::quoted(whole)});
    };
    if (!value) return refuse(value.error().what, value.error().mend);
    if (!(*value >= 0.0 && *value <= 100.0))
        return refuse("a share of " + measure::print_percent(*value), "give 0 to 100 %");
    return *value;
}

Expected<std::pair<double, double>> percents_of(const Cut& cut, std::string_view whole) {
    const std::string text(cut.after);
    if (cut.side == Side::both) {
        if (auto range = cut_range(text)) {
            if (range->first.find('%') == std::string::npos) range->first += " %";
            const auto low = percent_of(range->first, whole), high = percent_of(range->second, whole);
            if (!low) return tl::make_unexpected(low.error());
            if (!high) return tl::make_unexpected(high.error());
            if (*low > *high)
                return tl::make_unexpected(Complaint{"the range runs backwards", "write the lesser end first",
                                                     measure::quoted(whole)});
            return std::pair{*low, *high};
        }
    }
    const auto value = percent_of(text, whole);
    if (!value) return tl::make_unexpected(value.error());
    return std::pair{cut.side == Side::most ? 0.0 : *value, cut.side == Side::least ? 100.0 : *value};
}

// A family or a lot that is spelt like it, then what the catalogue finds.
std::vector<std::string> near_names(std::string_view word, const fibre::Catalogue& catalogue,
                                    const std::vector<solve::Lot>& lots) {
    constexpr std::size_t most = 3;
    std::vector<std::string> names;
    names.reserve(families.size() + lots.size());
    for (const auto family : families) names.emplace_back(fibre::word_for(family));
    for (const auto& lot : lots) names.push_back(lot.id);
    std::vector<std::string> near = measure::nearest_words(word, names, most);
    for (std::string& kind : catalogue.near(word))
        if (near.size() < most) near.push_back(std::move(kind));
    return near;
}

Expected<double> grams_of(const std::string& text, std::string_view whole) {
    const auto mass = measure::parse_mass(text);
    if (!mass)
        return tl::make_unexpected(Complaint{mass.error().what, mass.error().mend, measure::quoted(whole)});
    if (!(mass->grams > 0.0))
        return tl::make_unexpected(Complaint{"a total of nothing", "give a weight above zero, as in \"80 g\"",
                                             measure::quoted(whole)});
    return mass->grams;
}

// The unit of "120 g" for an end that names none.
std::string with_unit_of(const std::string& low, const std::string& high) {
    const auto is_letter = [](char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); };
    if (std::any_of(low.begin(), low.end(), is_letter)) return low;
    const auto unit = std::find_if(high.begin(), high.end(), is_letter);
    return low + " " + std::string(unit, high.end());
}

Expected<solve::Target> lab_target(std::string_view text) {
    std::array<double, 3> figures{};
    std::size_t at = 0;
    const auto refuse = [&] {
        return tl::make_unexpected(Complaint{
            "no colour " + measure::quoted(text), "write Lab as lightness, a and b, as in 50,10,-20", {}});
    };
    for (std::size_t i = 0; i < 3; ++i) {
        const auto comma = i < 2 ? text.find(',', at) : text.size();
        if (comma == std::string_view::npos) return refuse();
        const auto figure = text::read_decimal(text::trimmed(text.substr(at, comma - at)));
        if (!figure) return refuse();
        figures[i] = *figure;
        at = comma + 1;
    }
    const bool within = figures[0] >= 0.0 && figures[0] <= 100.0 && std::abs(figures[1]) <= 150.0 &&
                        std::abs(figures[2]) <= 150.0;
    if (!within) return refuse();
    return solve::target_of(colour::Lab{figures[0], figures[1], figures[2]});
}

}  // namespace

Expected<Named> named(std::string_view word, const fibre::Catalogue& catalogue,
                      const std::vector<solve::Lot>& lots) {
    using solve::ShareOf;
    for (const auto family : families)
        if (text::same_word(word, fibre::word_for(family))) return Named{ShareOf::family, text::lower(word)};
    for (const auto& kind : catalogue.kinds())
        if (text::same_word(word, kind.id) || text::same_word(word, kind.name))
            return Named{ShareOf::kind, kind.id};
    for (const auto& kind : catalogue.kinds())
        if (text::same_word(word, kind.label_eu)) return Named{ShareOf::label, kind.label_eu};
    for (const auto& lot : lots)
        if (text::same_word(word, lot.id)) return Named{ShareOf::lot, lot.id};
    for (const auto& lot : lots)
        if (text::same_word(word, lot.name)) return Named{ShareOf::lot, lot.id};
    if (const fibre::Kind* kind = catalogue.meant(word)) return Named{ShareOf::kind, kind->id};
    const std::string question = measure::ask_for(near_names(word, catalogue, lots));
    return tl::make_unexpected(
        Complaint{"no fibre, family or lot is called " + measure::quoted(word),
                  question.empty() ? "use a family such as wool, a fibre's id, or a lot's mark" : question,
                  {}});
}

Expected<solve::ShareBound> parse_share_bound(std::string_view text, const fibre::Catalogue& catalogue,
                                              const std::vector<solve::Lot>& lots) {
    auto cut = cut_at_comparison(text);
    if (!cut) cut = cut_at_figures(text);
    if (!cut || cut->before.empty() || cut->after.empty())
        return tl::make_unexpected(Complaint{"no bound in " + measure::quoted(text), bound_form, {}});
    const auto name = named(cut->before, catalogue, lots);
    if (!name) return tl::make_unexpected(name.error());
    const auto percents = percents_of(*cut, text);
    if (!percents) return tl::make_unexpected(percents.error());
    return solve::ShareBound{name->of, name->what, percents->first, percents->second};
}

Expected<solve::Total> parse_total(std::string_view text) {
    const auto whole = text::trimmed(text);
    solve::Total total;
    auto cut = cut_at_comparison(whole);
    if (cut && cut->before.empty()) {
        const auto grams = grams_of(std::string(cut->after), whole);
        if (!grams) return tl::make_unexpected(grams.error());
        if (cut->side != Side::most) total.least_grams = *grams;
        if (cut->side != Side::least) total.most_grams = *grams;
        return total;
    }
    const auto range = cut_range(whole);
    if (!range) {
        const auto grams = grams_of(std::string(whole), whole);
        if (!grams) return tl::make_unexpected(grams.error());
        return solve::Total{*grams, *grams};
    }
    const auto low = grams_of(with_unit_of(range->first, range->second), whole);
    const auto high = grams_of(range->second, whole);
    if (!low) return tl::make_unexpected(low.error());
    if (!high) return tl::make_unexpected(high.error());
    if (*low > *high)
        return tl::make_unexpected(
            Complaint{"the range runs backwards", "write the lesser end first", measure::quoted(whole)});
    return solve::Total{*low, *high};
}

std::string print_total(const solve::Total& total, measure::MassUnit unit) {
    const auto print = [unit](double grams) { return measure::write_mass({grams, unit}); };
    if (total.least_grams && total.most_grams)
        return *total.least_grams == *total.most_grams
                   ? print(*total.least_grams)
                   : print(*total.least_grams) + " - " + print(*total.most_grams);
    if (total.least_grams) return ">= " + print(*total.least_grams);
    return total.most_grams ? "<= " + print(*total.most_grams) : "";
}

std::optional<Expected<solve::Target>> parse_target(std::string_view text) {
    const auto whole = text::trimmed(text);
    if (const auto named = colour::colour_named(whole))
        return Expected<solve::Target>(solve::target_of(*named));
    if (whole.starts_with('#')) {
        const auto colour = colour::parse_hex(whole);
        if (!colour) return Expected<solve::Target>(tl::make_unexpected(colour.error()));
        return Expected<solve::Target>(solve::target_of(*colour));
    }
    const bool figures =
        !whole.empty() && whole.find_first_not_of("0123456789.,+- ") == std::string_view::npos;
    if (!figures || whole.find(',') == std::string_view::npos) return std::nullopt;
    return lab_target(whole);
}

}  // namespace battwright::shelving
