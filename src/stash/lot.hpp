// One bag on the shelf: what it is, not how much is left of it (the movements say that).
#pragma once

#include <cstdint>
#include <numeric>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "colour/spectrum.hpp"
#include "fibre/catalogue.hpp"
#include "measure/complaint.hpp"
#include "recipe/recipe.hpp"

namespace battwright::stash {

// How the fibre lies in the bag.
enum class Form { top, roving, sliver, braid, batt, locks, fleece, noils, neps, sparkle, thread, other };
std::string_view word_for(Form form);
const std::vector<std::string>& form_words();
measure::Expected<Form> parse_form(std::string_view text);  // case ignored

// Money in the currency the user named, as she writes it ("EUR", "kr"). Kept to a millionth.
struct Money {
    double amount = 0.0;
    std::string currency;
    bool operator==(const Money&) const = default;
};

struct Lot {
    std::int64_t id = 0;  // the file's own number, 0 before it is on the shelf
    std::string mark;     // what the tag on the bag says; made by the stash unless given
    std::string name;
    std::vector<recipe::Content> content;  // catalogue ids; shares sum to 100
    std::vector<recipe::Tint> palette;     // empty: the kinds' natural colours
    Form form = Form::other;
    bool raw = false;           // unscoured: weighed with its grease and dirt
    double yield_pct = 100.0;   // of clean fibre in a raw lot's weight; 100 for any other
    std::optional<Money> cost;  // of the whole as first bought; later purchases carry their own
    std::string maker;
    std::string got_on;  // ISO date or ""
    std::string place;   // where the bag lies
    std::string photo;   // path
    std::string notes;
    std::optional<double> staple_mm;  // the tag's own figures beat the catalogue
    std::optional<double> diameter_um;
};

// The lot and what is left of it.
struct Shelved {
    Lot lot;
    double grams = 0.0;                 // as it lies, the sum of its movements
    std::optional<colour::Lab> colour;  // mean of the palette's light under D65; none when nothing is known
    std::vector<colour::Lab> tints{};   // the palette's colours, D65
    std::string searched{};             // all its words in small letters, what a text filter looks through
    // Weight that can go on the drum: of a raw lot only what scouring leaves.
    double clean_grams() const { return lot.raw ? grams * lot.yield_pct / 100.0 : grams; }
};

// Too little for a batt of its own, yet not nothing. Common practice, no source.
inline constexpr double scrap_grams = 15.0;
bool is_scrap(const Shelved& shelved, double threshold_grams = scrap_grams);

// What scouring leaves of a raw fleece, in percent of its weight: what is published of its kinds, by their
// shares; where nothing is published of one, common practice for it, no source: half to four fifths.
struct UsualYield {
    double low_pct = 0.0, high_pct = 0.0;
    bool published = true;  // of all its kinds
    double middle_pct() const { return std::midpoint(low_pct, high_pct); }
};
UsualYield usual_yield(const std::vector<recipe::Content>& content, const fibre::Catalogue& catalogue);
std::string yield_words(const UsualYield& usual);  // a sentence

// Marks: six of these, which no hand and no eye takes for one another, and no vowels, so that they spell
// nothing; at least one letter.
inline constexpr std::string_view mark_alphabet = "CDFGHJKMNPRTVWXY34679";
inline constexpr std::size_t mark_length = 6;
// "kf-7 r3x" is KF7R3X: case, spaces and hyphens are forgiven, anything else is a complaint.
measure::Expected<std::string> parse_mark(std::string_view text);

// The colour a lot has from across the room: the mean of its tints' linear light by share, in Lab under D65.
// Without a palette, of its kinds' natural colours; none when the catalogue has no such kind.
std::optional<colour::Lab> mean_colour(const Lot& lot, const fibre::Catalogue& catalogue);

// What keeps a lot off the shelf: no name, no content, shares that do not sum to 100 (within 0.05), a kind
// the catalogue does not have, a yield outside 1..100, a date that is none, text that is not UTF-8 or has
// control characters or more than `most_text_bytes`, a figure that is not above zero. `where` is the field.
inline constexpr std::size_t most_text_bytes = 20'000;
std::optional<measure::Complaint> fault_in(const Lot& lot, const fibre::Catalogue& catalogue);

}  // namespace battwright::stash
