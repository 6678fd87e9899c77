#include "measure/count.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <string>
#include <utility>

#include "measure/unit_tables.hpp"
#include "text/believe.hpp"
#include "text/numbers.hpp"
#include "text/words.hpp"

namespace battwright::measure {
namespace {

constexpr double yards_per_worsted_hank = 560.0;
constexpr double yards_per_cotton_hank = 840.0;
constexpr int most_plies_of_a_thread = 12;

struct CountRow {
    CountSystem value;
    std::string_view word, also;  // as a ball band writes it; other spellings, parted by spaces
    double per_tex;               // of a direct count; 0 for an indirect one
    double times_tex;             // of an indirect count: what the two multiply to; 0 for a direct one
};
constexpr std::array<CountRow, 7> systems{{
    {CountSystem::tex, "tex", "", 1.0, 0.0},
    {CountSystem::decitex, "dtex", "decitex", 10.0, 0.0},
    {CountSystem::denier, "denier", "den", 9.0, 0.0},
    {CountSystem::metric, "nm", "metric", 0.0, 1000.0},
    {CountSystem::worsted, "worsted", "nw", 0.0, tex_yards_per_pound / yards_per_worsted_hank},
    {CountSystem::cotton, "cotton", "ne", 0.0, tex_yards_per_pound / yards_per_cotton_hank},
    {CountSystem::yards_per_pound, "yd/lb", "", 0.0, tex_yards_per_pound},
}};
static_assert(one_row_each(systems));

// Takes a number above zero off the front of `text`.
std::optional<double> take_positive(std::string_view& text) {
    text = text::trimmed(text);
    const auto value = text::take_decimal(text);
    if (!value || *value <= 0.0) return std::nullopt;
    text = text::trimmed(text);
    return value;
}

bool is_plies(double value) {
    return value >= 1.0 && value <= most_plies_of_a_thread && std::floor(value) == value;
}

std::optional<PliedCount> read_count(std::string_view text) {
    PliedCount count;
    const auto first = take_positive(text);
    if (!first) return std::nullopt;
    count.single = *first;
    if (!text.empty() && text.front() == '/') {
        text.remove_prefix(1);
        const auto second = take_positive(text);
        if (!second || !is_plies(std::min(*first, *second))) return std::nullopt;
        count.plies = static_cast<int>(std::min(*first, *second));
        count.single = std::max(*first, *second);
    }
    const auto system = unit_from(systems, text::trimmed(text));
    if (!system) return std::nullopt;
    count.system = *system;
    return count;
}

}  // namespace

double tex_from(double count, CountSystem system) {
    BATTWRIGHT_BELIEVE(count > 0.0);
    const CountRow& row = row_of(systems, system);
    return row.times_tex > 0.0 ? row.times_tex / count : count / row.per_tex;
}

double count_from(double tex, CountSystem system) {
    BATTWRIGHT_BELIEVE(tex > 0.0);
    const CountRow& row = row_of(systems, system);
    return row.times_tex > 0.0 ? row.times_tex / tex : tex * row.per_tex;
}

double metres_per_100_g(double tex) {
    BATTWRIGHT_BELIEVE(tex > 0.0);
    return 1e5 / tex;
}

double yards_per_pound(double tex) {
    BATTWRIGHT_BELIEVE(tex > 0.0);
    return tex_yards_per_pound / tex;
}

double tex_of(const PliedCount& count) {
    BATTWRIGHT_BELIEVE(count.single > 0.0 && count.plies >= 1);
    return tex_from(count.single, count.system) * count.plies;
}

Expected<PliedCount> parse_count(std::string_view text) {
    if (const auto count = read_count(text); count && std::isfinite(tex_of(*count))) return *count;
    return tl::make_unexpected(
        Complaint{"the count " + measure::quoted(text) + " is not understood",
                  "write it as \"2/24 worsted\", \"16/2 cotton\", \"2/28 Nm\" or \"60 tex\""});
}

}  // namespace battwright::measure
