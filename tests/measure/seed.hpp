// Random tests that can be run again: the seed is printed, and BATTWRIGHT_SEED sets it.
#pragma once

#include <doctest/doctest.h>

#include <cstdlib>
#include <random>

namespace battwright::testing {

inline std::mt19937_64 seeded() {
    const char* given = std::getenv("BATTWRIGHT_SEED");
    const auto seed = given != nullptr ? std::strtoull(given, nullptr, 10) : std::random_device{}();
    MESSAGE("seed " << seed << " (set BATTWRIGHT_SEED to repeat)");
    return std::mt19937_64(seed);
}

inline double uniform(std::mt19937_64& random, double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(random);
}

inline int whole(std::mt19937_64& random, int low, int high) {
    return std::uniform_int_distribution<int>(low, high)(random);
}

}  // namespace battwright::testing
