// A recipe's series as it is set in the window: several batts that step from its mixture to another.
#pragma once

#include <cstddef>
#include <vector>

#include "app/bench/sheet.hpp"
#include "recipe/limits.hpp"

namespace battwright::app {

inline constexpr int fewest_of_series = static_cast<int>(recipe::series_count.low),
                     most_of_series = static_cast<int>(recipe::series_count.high);

// Six batts as heavy as the recipe each, from its mixture to its last component alone. Precondition: there is
// a component.
Sheet start_series(Sheet sheet, measure::Mass each);
Sheet drop_series(Sheet sheet);
// Precondition of these: there is a series.
Sheet set_series_count(Sheet sheet, int count);
Sheet set_series_rolags(Sheet sheet, bool rolags);
Sheet set_series_by_eye(Sheet sheet, bool by_eye);
Sheet set_series_each(Sheet sheet, measure::Mass each);
// A component's share of the last one, 0 to 100; what is left goes to the others as they stand to each other,
// to the next one where they are nothing.
Sheet set_series_share(Sheet sheet, std::size_t component, double share_pct);

// Per component, of the last one; in sum 100.
std::vector<double> series_shares(const recipe::Recipe& recipe);

}  // namespace battwright::app
