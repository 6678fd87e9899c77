#include "recipe/laying.hpp"

#include <algorithm>
#include <cmath>

#include "measure/units.hpp"
#include "recipe/carder.hpp"
#include "recipe/load.hpp"
#include "text/words.hpp"

namespace battwright::recipe {
namespace {

struct PlaceWord {
    std::string_view word;
    double from, to;
};
constexpr double third = 100.0 / 3.0;
constexpr std::array<PlaceWord, 10> places_across{{{"full width", 0.0, 100.0},
                                                   {"left half", 0.0, 50.0},
                                                   {"right half", 50.0, 100.0},
                                                   {"left third", 0.0, third},
                                                   {"middle third", third, 2.0 * third},
                                                   {"right third", 2.0 * third, 100.0},
                                                   {"left quarter", 0.0, 25.0},
                                                   {"middle half", 25.0, 75.0},
                                                   {"right quarter", 75.0, 100.0},
                                                   {"middle", third, 2.0 * third}}};
constexpr std::array<PlaceWord, 10> places_round{{{"all", 0.0, 100.0},
                                                  {"first half", 0.0, 50.0},
                                                  {"second half", 50.0, 100.0},
                                                  {"first third", 0.0, third},
                                                  {"second third", third, 2.0 * third},
                                                  {"last third", 2.0 * third, 100.0},
                                                  {"first quarter", 0.0, 25.0},
                                                  {"second quarter", 25.0, 50.0},
                                                  {"third quarter", 50.0, 75.0},
                                                  {"last quarter", 75.0, 100.0}}};

// "12 mm" or "5 %" as an extent.
measure::Expected<Extent> extent_from(std::string_view text) {
    if (text.find('%') != std::string_view::npos || text.find("percent") != std::string_view::npos) {
        const auto percent = measure::parse_percent(text);
        if (!percent) return tl::make_unexpected(percent.error());
        return Extent{*percent, {}};
    }
    const auto length = measure::parse_length(text);
    if (!length) return tl::make_unexpected(length.error());
    return Extent{length->millimetres, length->unit};
}

measure::Complaint no_place(std::string_view text, std::string_view along,
                            const std::array<PlaceWord, 10>& places) {
    std::vector<std::string> words;
    for (const PlaceWord& place : places) words.emplace_back(place.word);
    std::string mend = measure::did_you_mean(text, words);
    if (mend.empty())
        mend = "write a range, as in \"0-60 mm\" or \"25-50 %\", or words, as in " +
               measure::quoted(places[1].word);
    return {measure::quoted(text) + " is no place " + std::string(along), mend};
}

measure::Expected<Stretch> parse_stretch(std::string_view text, std::string_view along,
                                         const std::array<PlaceWord, 10>& places) {
    for (const PlaceWord& place : places)
        if (text::same_word(place.word, text)) return Stretch{place.from, place.to, {}};
    const auto ends = ends_of_range(text);
    if (!ends) return tl::make_unexpected(no_place(text, along, places));
    const auto high = extent_from(ends->high);
    if (!high) return tl::make_unexpected(high.error());
    const auto low = extent_from(ends->low);
    if (!low) return tl::make_unexpected(low.error());
    if (low->unit.has_value() != high->unit.has_value())
        return tl::make_unexpected(measure::Complaint{measure::quoted(text) + " mixes a length with a share",
                                                      "write both ends alike, as in \"0-60 mm\""});
    if (low->value >= high->value)
        return tl::make_unexpected(
            measure::Complaint{"the place " + measure::quoted(text) + " runs backwards",
                               "write the smaller end first, as in \"0-60 mm\""});
    return Stretch{low->value, high->value, high->unit};
}

std::string write_in(double mm, measure::LengthUnit unit) {
    return measure::write_length({mm, unit});
}

std::string write_stretch(const Stretch& stretch, const std::array<PlaceWord, 10>& places) {
    if (stretch.unit)
        return write_in(stretch.from, *stretch.unit) + " to " + write_in(stretch.to, *stretch.unit);
    for (const PlaceWord& place : places)
        if (place.from == stretch.from && place.to == stretch.to) return std::string(place.word);
    return measure::write_percent(stretch.from) + " to " + measure::write_percent(stretch.to);
}

}  // namespace

std::string_view word_for(Way way) {
    return measure::row_of(ways, way).word;
}
Way way_of(const Laying& laying) {
    if (laying.way) return *laying.way;
    return laying.how == Spreading::dabs || !laying.round.is_whole() ? Way::drum : Way::tray;
}

double edge_length_mm(const Laying& laying, const Carder& carder) {
    const double width = carder.width_mm, round = carder.drum_circumference_mm;
    const auto whole = [](const Stretch& stretch, double whole_mm) {
        const auto [from, to] = stretch.shares_of(whole_mm);
        return from <= 0.0 && to >= 1.0;
    };
    if (whole(laying.round, round)) return width;
    return whole(laying.across, width) ? round : std::min(width, round);
}

measure::Expected<Stretch> parse_across(std::string_view text) {
    return parse_stretch(text, "across the drum", places_across);
}
measure::Expected<Stretch> parse_round(std::string_view text) {
    return parse_stretch(text, "round the drum", places_round);
}
std::string write_across(const Stretch& stretch) {
    return write_stretch(stretch, places_across);
}
std::string write_round(const Stretch& stretch) {
    return write_stretch(stretch, places_round);
}

measure::Expected<Extent> parse_extent(std::string_view text) {
    return extent_from(text);
}
std::string write_extent(const Extent& extent) {
    return extent.unit ? write_in(extent.value, *extent.unit) : measure::write_percent(extent.value);
}

measure::Expected<SpreadingSize> parse_spreading(std::string_view text) {
    SpreadingSize result;
    std::string_view word = text;
    if (const std::size_t of = text.find(" of "); of != std::string_view::npos) {
        const auto size = measure::parse_length(text::trimmed(text.substr(of + 4)));
        if (!size) return tl::make_unexpected(size.error());
        result.size = *size;
        word = text::trimmed(text.substr(0, of));
    }
    const auto bare = text::lower(word).starts_with("in ") ? std::string(word) : "in " + std::string(word);
    if (text::same_word(word, "even") || text::same_word(word, "evenly")) {
        if (result.size)
            return tl::make_unexpected(
                measure::Complaint{"what lies evenly has no size", "leave the size out, or write in dabs"});
        return result;
    }
    const auto how = measure::parse_word(spreadings, bare, "way to lay");
    if (!how)
        return tl::make_unexpected(measure::unknown_word(text, "way to lay", measure::words_of(spreadings)));
    result.how = *how;
    return result;
}

std::string write_spreading(Spreading how, const std::optional<measure::Length>& size) {
    std::string text(measure::row_of(spreadings, how).word);
    if (size) text += " of " + measure::write_length(*size);
    return text;
}

}  // namespace battwright::recipe
