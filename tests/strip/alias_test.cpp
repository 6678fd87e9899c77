#include "strip/alias.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <cstddef>
#include <numeric>
#include <random>

using battwright::strip::append_alias_table;

namespace {

// The chances a table stands for, added up slot by slot.
std::vector<double> chances_in(const std::vector<float>& table) {
    const std::size_t count = table.size() / 2;
    std::vector<double> chances(count, 0.0);
    for (std::size_t slot = 0; slot < count; ++slot) {
        const double own = table[2 * slot];
        chances[slot] += own / static_cast<double>(count);
        chances[static_cast<std::size_t>(table[2 * slot + 1])] += (1.0 - own) / static_cast<double>(count);
    }
    return chances;
}

}  // namespace

// Walker's property itself: the slots add up to the chances that went in.
TEST_CASE("alias tables hold the chances they were made from") {
    std::mt19937 random(4);
    std::uniform_real_distribution<double> any(0.0, 1.0);
    for (std::size_t count = 1; count <= 40; ++count) {
        std::vector<double> chances(count);
        for (double& chance : chances) chance = any(random) < 0.2 ? 0.0 : any(random) * any(random);
        chances[count / 2] += 0.01;
        const double sum = std::accumulate(chances.begin(), chances.end(), 0.0);
        std::vector<float> table;
        append_alias_table(chances, table);
        REQUIRE(table.size() == 2 * count);
        const auto held = chances_in(table);
        for (std::size_t i = 0; i < count; ++i) CHECK(std::abs(held[i] - chances[i] / sum) < 1e-6);
    }
}

TEST_CASE("an alias table of noughts takes all alike; one of nothing is nothing") {
    std::vector<float> table;
    append_alias_table({0.0, 0.0}, table);
    CHECK(chances_in(table) == std::vector<double>{0.5, 0.5});
    std::vector<float> none;
    append_alias_table({}, none);
    CHECK(none.empty());
}
