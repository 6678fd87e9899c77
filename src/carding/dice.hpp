// Inside this room: random numbers that depend on what they are for, not on when they are asked for.
#pragma once

#include <cmath>
#include <cstdint>
#include <numbers>

namespace battwright::carding {

// A counter-based generator: the finaliser of SplitMix64 (Steele, Lea, Flood 2014) over seed and counters, so
// any number can be drawn in any order on any thread.
class Dice {
  public:
    explicit Dice(std::uint64_t seed) : seed_(mixed(seed + 0x9e3779b97f4a7c15u)) {}

    Dice with(std::uint64_t counter) const { return Dice(seed_ ^ mixed(counter + 0x632be59bd9b4e019u)); }
    // 0 <= u < 1, 53 bits.
    double uniform(std::uint64_t counter) const {
        return static_cast<double>(with(counter).seed_ >> 11u) * 0x1.0p-53;
    }
    // Standard normal (Box & Muller 1958); uses counters 2n and 2n + 1.
    double normal(std::uint64_t counter) const {
        const double radius = std::sqrt(-2.0 * std::log(1.0 - uniform(2 * counter)));
        return radius * std::cos(2.0 * std::numbers::pi * uniform(2 * counter + 1));
    }

  private:
    static std::uint64_t mixed(std::uint64_t x) {
        x = (x ^ (x >> 30u)) * 0xbf58476d1ce4e5b9u;
        x = (x ^ (x >> 27u)) * 0x94d049bb133111ebu;
        return x ^ (x >> 31u);
    }
    std::uint64_t seed_;
};

}  // namespace battwright::carding
