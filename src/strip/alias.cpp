#include "strip/alias.hpp"

#include <cstddef>
#include <numeric>

namespace battwright::strip {

void append_alias_table(const std::vector<double>& chances, std::vector<float>& table) {
    const std::size_t count = chances.size();
    const double sum = std::accumulate(chances.begin(), chances.end(), 0.0);
    std::vector<double> level(count, 1.0);
    std::vector<std::size_t> under, over, alias(count);
    for (std::size_t i = 0; i < count; ++i) {
        alias[i] = i;
        if (sum > 0.0) level[i] = chances[i] / sum * static_cast<double>(count);
        (level[i] < 1.0 ? under : over).push_back(i);
    }
    while (!under.empty() && !over.empty()) {
        const std::size_t poor = under.back();
        under.pop_back();
        alias[poor] = over.back();
        level[over.back()] -= 1.0 - level[poor];
        if (level[over.back()] < 1.0) {
            under.push_back(over.back());
            over.pop_back();
        }
    }
    // What is left on either side is 1 but for rounding.
    for (const std::size_t i : under) level[i] = 1.0;
    for (const std::size_t i : over) level[i] = 1.0;
    for (std::size_t i = 0; i < count; ++i) {
        table.push_back(static_cast<float>(level[i]));
        table.push_back(static_cast<float>(alias[i]));
    }
}

}  // namespace battwright::strip
