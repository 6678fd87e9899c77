// How fine a yarn or thread is, in every count a ball band or a cone may carry.
#pragma once

#include <string_view>

#include "measure/complaint.hpp"
#include "measure/units.hpp"

namespace battwright::measure {

// Direct counts grow with the yarn (tex: grams per 1,000 m, ISO 1144; denier: per 9,000 m); indirect ones
// shrink (metric: metres per gram; worsted and cotton: hanks of 560 and 840 yd per pound; yards per pound).
enum class CountSystem { tex, decitex, denier, metric, worsted, cotton, yards_per_pound };

// tex * yards per pound, from the exact pound and yard of 1959.
inline constexpr double tex_yards_per_pound = 1000.0 * grams_per_pound / metres_per_yard;

// Exact by definition, both ways. Precondition of these four: what is given is above zero.
double tex_from(double count, CountSystem system);
double count_from(double tex, CountSystem system);
double metres_per_100_g(double tex);
double yards_per_pound(double tex);

// A plied count as the trade writes it: 2/24 worsted is two ends of 24s. The resultant leaves take-up out, as
// the notation does. Preconditions: count > 0, plies >= 1.
struct PliedCount {
    double single = 0.0;
    int plies = 1;
    CountSystem system = CountSystem::tex;
};
double tex_of(const PliedCount& count);
// Reads "2/24 worsted", "16/2 Ne", "2/28 Nm", "60 tex", "1800 yd/lb". Of two numbers the smaller is the
// plies, since the trades write them in either order.
Expected<PliedCount> parse_count(std::string_view text);

}  // namespace battwright::measure
