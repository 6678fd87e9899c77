// The shelf as a value: a picture of all lots at one moment, cheap to share, filter and sort.
#pragma once

#include <array>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "measure/choices.hpp"
#include "stash/lot.hpp"

namespace battwright::stash {

// All lots in the order they came, the empty ones too. Never changes; the stash makes a new one.
struct Shelf {
    std::vector<std::shared_ptr<const Shelved>> lots;
    const Shelved* find(std::string_view mark) const;  // exact mark; nullptr when there is none
};

struct NearColour {
    colour::Lab colour;       // D65
    double most_de00 = 10.0;  // CIEDE2000, kL = kC = kH = 1
    bool any_tint = false;    // the nearest of the palette's colours counts, not the mean
};

// Every condition that is set has to hold.
struct Filter {
    std::string kind;  // catalogue id, anywhere in the content
    std::optional<Form> form;
    std::optional<double> at_least_grams, at_most_grams;  // as it lies
    std::string text;              // every word of it somewhere in mark, name, maker, place, notes, kinds
    std::string got_from, got_to;  // ISO dates, inclusive; a lot of no date passes neither
    std::optional<NearColour> near;
    bool scraps_only = false;
    double scrap_grams = stash::scrap_grams;
    bool empties = false;  // lots of which nothing is left are shown too
};
enum class Order { as_added, name, lightest, heaviest, oldest, newest, nearest };  // nearest: wants `near`
struct OrderRow {
    Order value;
    std::string_view word, label;  // of an option, and as a control shows it
};
inline constexpr std::array<OrderRow, 7> orders{{{Order::as_added, "added", "as they came"},
                                                 {Order::name, "name", "by name"},
                                                 {Order::lightest, "lightest", "lightest first"},
                                                 {Order::heaviest, "heaviest", "heaviest first"},
                                                 {Order::oldest, "oldest", "oldest first"},
                                                 {Order::newest, "newest", "newest first"},
                                                 {Order::nearest, "nearest", "nearest colour first"}}};
static_assert(measure::one_row_each(orders));

// Fills in what filters look at and the file does not hold: `tints` and `searched`, from the lot.
void complete(Shelved& shelved);

// The lots that pass, in that order; ties by age on the shelf. Lots of no date come last by date, those of no
// colour last by colour.
std::vector<std::shared_ptr<const Shelved>> filtered(const Shelf& shelf, const Filter& filter,
                                                     Order order = Order::as_added);
// CIEDE2000 from the lot to the colour, by mean or nearest tint; nothing when the lot's colour is unknown.
std::optional<double> distance(const Shelved& shelved, const NearColour& near);

}  // namespace battwright::stash
