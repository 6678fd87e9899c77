// The shelf of a spinner in a made-up harbour town, for tests and pictures.
#pragma once

#include <filesystem>
#include <stdexcept>
#include <string>
#include <vector>

#include "colour/spaces.hpp"
#include "stash/stash.hpp"

namespace harbour {

using namespace battwright;

struct Bag {
    const char* name;
    const char* kind;
    const char* second;  // other half of a blend, or ""
    stash::Form form;
    double grams;
    std::vector<const char*> colours;  // "#rrggbb", equal shares; none: undyed
    const char* got_on;
    const char* place;
};

inline const std::vector<Bag>& bags() {
    using enum stash::Form;
    static const std::vector<Bag> all{
        {"Low water", "corriedale", "", top, 214, {"#4f6b78"}, "2023-03-11", "blue trunk"},
        {"Kelp forest",
         "corriedale",
         "",
         roving,
         182,
         {"#4a5a2c", "#77803a", "#2f3b22"},
         "2024-05-17",
         "loft"},
        {"Gull's back", "polwarth", "", top, 96, {"#9aa4ab"}, "2024-08-02", "loft"},
        {"Rusty winch",
         "bluefaced-leicester",
         "",
         braid,
         113,
         {"#8a4426", "#b5673a", "#5d2f20"},
         "2025-01-20",
         "loft"},
        {"Ferry paint", "merino-fine", "", top, 75, {"#b3222b"}, "2022-10-01", "tin box"},
        {"Foghorn", "merino-medium", "", top, 240, {}, "2021-06-12", "blue trunk"},
        {"Net loft", "shetland", "", fleece, 1250, {}, "2025-06-30", "shed"},
        {"Sail ends", "tussah-silk", "", top, 48, {}, "2023-11-05", "tin box"},
        {"Brass lamp", "tussah-silk", "", top, 31, {"#b98a2f", "#d8b65c"}, "2023-11-05", "tin box"},
        {"Cockle bed",
         "merino-fine",
         "bombyx-silk",
         braid,
         100,
         {"#c9b8a4", "#e2d2c4", "#a58c7c"},
         "2024-02-29",
         "loft"},
        {"Lifeboat", "corriedale", "", batt, 62, {"#d9541e", "#1d2f52"}, "2025-09-14", "basket"},
        {"Harbour fog", "alpaca", "", roving, 158, {"#bfc2c0"}, "2022-04-23", "blue trunk"},
        {"Tarred rope", "romney", "", sliver, 305, {"#33271d"}, "2020-09-09", "shed"},
        {"Slipway moss", "corriedale", "", batt, 28, {"#6f7f3d", "#3e5a3a"}, "2025-03-03", "basket"},
        {"Night tide", "merino-medium", "", top, 150, {"#1b2440"}, "2024-12-12", "loft"},
        {"Pier light", "polwarth", "", roving, 88, {"#f0d98a"}, "2023-07-19", "loft"},
        {"Storm warning",
         "bluefaced-leicester",
         "",
         braid,
         109,
         {"#3b3f57", "#6c7392", "#a8aec4"},
         "2025-11-02",
         "loft"},
        {"Barnacle", "jacob", "", locks, 66, {}, "2024-04-04", "basket"},
        {"Herring scale", "sparkle-film", "", sparkle, 22, {"#c9d4dd"}, "2022-02-14", "tin box"},
        {"Buoy", "merino-fine", "", top, 40, {"#e46a2b"}, "2025-05-25", "tin box"},
        {"Quay stone", "romney", "", roving, 131, {"#7b7a74"}, "2021-11-30", "shed"},
        {"Chart paper", "bombyx-silk", "", top, 25, {"#efe6cf"}, "2024-01-08", "tin box"},
        {"Mussel blue", "merino-medium", "", top, 119, {"#27324d", "#4a5878"}, "2025-08-08", "loft"},
        {"Sea pink", "polwarth", "", braid, 97, {"#d58aa6", "#e9b7c6", "#a75b7d"}, "2025-04-18", "loft"},
        {"Driftwood", "bluefaced-leicester", "", top, 84, {"#a08c74"}, "2022-08-21", "basket"},
        {"Winter jersey", "corriedale", "nylon", roving, 143, {"#2c4a63"}, "2023-12-24", "loft"},
        {"Salt pan", "merino-fine", "", top, 205, {}, "2020-05-05", "blue trunk"},
        {"Lobster pot", "shetland", "", roving, 72, {"#5b3a2a", "#28507a"}, "2024-09-27", "loft"},
        {"Spring tide", "corriedale", "", top, 90, {"#3e8f8a"}, "2025-10-10", "loft"},
        {"Deck oil", "tussah-silk", "", noils, 36, {"#c8a56a"}, "2021-03-15", "tin box"},
        {"Last of the pier", "polwarth", "", top, 9, {"#e5cf7f"}, "2019-10-03", "basket"},
        {"Wharf sweepings", "unknown-fibre", "", other, 12, {"#77726a", "#4d5a60"}, "", "basket"},
        {"Signal red", "merino-fine", "", top, 6, {"#c1272d"}, "2022-10-01", "tin box"},
        {"Bit of net", "shetland", "", roving, 11, {"#46627a"}, "2023-02-02", "basket"},
        {"Gutter silk", "tussah-silk", "", noils, 4, {"#d7b26b"}, "2021-03-15", "tin box"},
        {"Buoy crumbs", "merino-fine", "", neps, 7, {"#e46a2b", "#f0f0e8"}, "2025-05-25", "tin box"},
        {"Green flag", "corriedale", "", top, 13, {"#2f7d4a"}, "2024-06-06", "basket"},
        {"Kelp end", "corriedale", "", roving, 8, {"#5d6a32"}, "2024-05-17", "basket"},
        {"Sailmaker's thread", "nylon", "", thread, 14, {"#e8e2d0"}, "", "tin box"},
        {"Oyster", "alpaca-suri", "", locks, 10, {"#cbbfae"}, "2022-04-23", "basket"},
    };
    return all;
}

inline stash::Lot lot_of(const Bag& bag) {
    stash::Lot lot;
    lot.name = bag.name;
    lot.content = {{bag.kind, 100.0}};
    if (*bag.second != '\0') lot.content = {{bag.kind, 70.0}, {bag.second, 30.0}};
    lot.form = bag.form;
    lot.raw = bag.form == stash::Form::fleece;
    if (lot.raw) lot.yield_pct = 60.0;
    for (const char* hex : bag.colours)
        lot.palette.push_back(
            {colour::parse_hex(hex).value(), 100.0 / static_cast<double>(bag.colours.size())});
    lot.got_on = bag.got_on;
    lot.place = bag.place;
    lot.maker = "the co-op at the fish steps";
    lot.cost = stash::Money{bag.grams * 0.09, "kr"};
    return lot;
}

inline void fill(const std::filesystem::path& path) {
    auto shelf = stash::Stash::open(path).value();
    const auto filled = shelf.all_or_nothing([&]() -> stash::Expected<void> {
        for (const Bag& bag : bags()) {
            if (auto added = shelf.add(lot_of(bag), bag.grams); !added)
                return tl::make_unexpected(added.error());
        }
        return {};
    });
    if (!filled) throw std::runtime_error(measure::to_line(filled.error()));
}

}  // namespace harbour
