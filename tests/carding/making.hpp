// Batts for tests.
#pragma once

#include <string>

#include "carding/measures.hpp"
#include "carding/simulate.hpp"
#include "colour/reflectance.hpp"

namespace battwright::testing {

// `count` even portions of a middling wool on a standard drum, each a colour of its own.
inline carding::Setup setup_of(std::size_t count, carding::Manner manner) {
    carding::Setup setup;
    for (std::size_t i = 0; i < count; ++i) {
        carding::Portion portion;
        portion.component = i;
        portion.grams = 60.0 / static_cast<double>(count);
        portion.staple_mm = 80.0;
        portion.diameter_um = 21.0;
        setup.portions.push_back(portion);
    }
    setup.feed.manner = manner;
    setup.passes = 3;
    const recipe::Carder& carder = *recipe::find_carder("table-standard");
    setup.spread = carding::spread_of(carder, setup.portions, 60.0, false);
    setup.opening = carding::opening_of(carder, setup.portions, 60.0, false);
    return setup;
}

inline carding::BattObserver eye_for(std::size_t count) {
    const colour::Srgb colours[] = {{0.10, 0.20, 0.50}, {0.90, 0.80, 0.10}, {0.20, 0.50, 0.30},
                                    {0.95, 0.95, 0.90}, {0.50, 0.10, 0.10}, {0.30, 0.30, 0.35}};
    carding::BattObserver observer;
    for (std::size_t i = 0; i < count; ++i)
        observer.reflectances.push_back(colour::reflectance_of(colours[i % 6]));
    return observer;
}

// Two portions: one in the lower half of the depth, one in the upper, the same everywhere else.
inline carding::Pass two_layers(const carding::Grid& grid) {
    carding::Pass batt{1, carding::empty_field(grid, 2, 560.0, 200.0), {}};
    const std::size_t half = batt.field.block_size() / 2;
    for (std::size_t i = 0; i < 2 * half; ++i) {
        batt.field.block(0)[i] = i < half ? 1.0 : 0.0;
        batt.field.block(1)[i] = i < half ? 0.0 : 1.0;
    }
    return batt;
}

}  // namespace battwright::testing
