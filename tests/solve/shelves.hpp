// Shelves of lots to solve with: made up, seeded, in colours a dyer might have.
#pragma once

#include <cmath>
#include <numeric>
#include <random>
#include <string>
#include <vector>

#include "colour/spaces.hpp"
#include "solve/solve.hpp"

namespace battwright::testing {

using Random = std::mt19937_64;

inline double uniform(Random& random, double low, double high) {
    return low + (high - low) * double(random() >> 11u) * 0x1.0p-53;
}
inline std::size_t whole(Random& random, std::size_t low, std::size_t high) {
    return low + std::size_t(random() % (high - low + 1));
}

inline solve::Setting setting() {
    return {&fibre::Catalogue::builtin(), {}};
}

inline solve::Lot lot(std::string id, const std::string& hex, double grams,
                      std::string kind = "merino-fine") {
    solve::Lot lot;
    lot.name = id;
    lot.id = std::move(id);
    lot.content = {{std::move(kind), 100.0}};
    lot.palette = {{*colour::parse_hex(hex), 100.0}};
    lot.on_hand_grams = grams;
    return lot;
}

// Dyed and natural fibre: any hue, lightness 15 to 92, chroma up to what sRGB holds.
inline colour::Srgb dyed_colour(Random& random) {
    for (;;) {
        const double l = uniform(random, 15.0, 92.0), hue = uniform(random, 0.0, 6.2831853);
        const double c =
            uniform(random, 0.0, 1.0) < 0.2 ? uniform(random, 0.0, 8.0) : uniform(random, 8.0, 75.0);
        const auto srgb = colour::srgb_from(colour::Lab{l, c * std::cos(hue), c * std::sin(hue)});
        const auto inside = [](double v) { return v >= 0.0 && v <= 1.0; };
        if (inside(srgb.r) && inside(srgb.g) && inside(srgb.b)) return srgb;
    }
}

inline solve::Lot random_lot(Random& random, std::size_t index) {
    static const std::vector<std::string> kinds{"merino-fine",   "corriedale",  "tussah-silk", "alpaca",
                                                "merino-medium", "bombyx-silk", "polwarth",    "cotton"};
    solve::Lot lot;
    lot.id = "lot-" + std::to_string(index);
    lot.name = lot.id;
    do {
        lot.content = {{kinds[whole(random, 0, kinds.size() - 1)], 100.0}};
    } while (fibre::Catalogue::builtin().find(lot.content.front().fibre) == nullptr);
    lot.palette = {{dyed_colour(random), 100.0}};
    lot.on_hand_grams = std::round(uniform(random, 5.0, 120.0) * 10.0) / 10.0;
    lot.cost_per_gram = uniform(random, 0.02, 0.3);
    lot.age_days = int(whole(random, 0, 2000));
    lot.scrap = lot.on_hand_grams < 30.0;
    return lot;
}

inline std::vector<solve::Lot> random_lots(Random& random, std::size_t count) {
    std::vector<solve::Lot> lots;
    for (std::size_t k = 0; k < count; ++k) lots.push_back(random_lot(random, k));
    return lots;
}

// The colour of known shares of some lots.
inline solve::Target blend_of(const std::vector<solve::Lot>& lots, const std::vector<std::size_t>& which,
                              const std::vector<double>& shares) {
    std::vector<colour::Portion> portions;
    for (std::size_t k = 0; k < which.size(); ++k) {
        const auto worked = solve::work_out(lots[which[k]], fibre::Catalogue::builtin(), {});
        portions.push_back({shares[k], worked->reflectance});
    }
    return solve::target_of(colour::blend(portions, {}));
}

}  // namespace battwright::testing
