#include "card/label.hpp"

#include <algorithm>
#include <cmath>

#include "card/label_parts.hpp"
#include "measure/choices.hpp"
#include "measure/units.hpp"
#include "text/words.hpp"

namespace battwright::card {
namespace {

void sort_most_first(std::vector<Share>& shares) {
    std::stable_sort(shares.begin(), shares.end(),
                     [](const Share& a, const Share& b) { return a.percent > b.percent; });
}

// Gives every line at least one step, taking it from the largest.
void lift_from_zero(std::vector<Entry>& entries, double step) {
    for (Entry& entry : entries) {
        if (entry.percent > 0.0) continue;
        const auto largest =
            std::max_element(entries.begin(), entries.end(),
                             [](const Entry& a, const Entry& b) { return a.percent < b.percent; });
        if (largest->percent <= step) return;
        largest->percent -= step;
        entry.percent = step;
    }
}

std::vector<Entry> rounded_to(const std::vector<Share>& shares, double step) {
    std::vector<double> percents;
    percents.reserve(shares.size());
    for (const Share& share : shares) percents.push_back(share.percent);
    const std::vector<double> rounded = measure::round_to_step(percents, step);
    std::vector<Entry> entries;
    for (std::size_t i = 0; i < shares.size(); ++i) entries.push_back({rounded[i], shares[i].name});
    return entries;
}

// What both may be called by: the worse past decides, and whoever brings it is named; so does the coarser
// diameter.
void add_to(Share& share, const Share& more) {
    share.percent += more.percent;
    if (more.past > share.past)
        share.from = more.from;
    else if (more.past == share.past && share.from.find(more.from) == std::string::npos)
        share.from += (share.from.empty() ? "" : ", ") + more.from;
    share.past = std::max(share.past, more.past);
    share.pet = share.pet || more.pet;
    share.cross_goat = share.cross_goat || more.cross_goat;
    if (more.diameter_um > share.diameter_um) {
        share.diameter_um = more.diameter_um;
        share.diameter_cv = more.diameter_cv;
    }
}

}  // namespace

bool is_decorative(const Share& share) {
    return share.decorative;
}
bool is_unknown(const Share& share) {
    return !share.known;
}
bool may_be_reclaimed(const Share& share) {
    return share.past != fibre::Past::fleece;
}
std::string brought_by(const Share& share) {
    return measure::quoted(share.from.empty() ? share.name : share.from);
}

std::vector<Share> merged(std::span<const Share> shares) {
    std::vector<Share> result;
    for (const Share& share : shares) {
        if (!(share.percent > 0.0)) continue;
        const auto same = std::find_if(result.begin(), result.end(), [&](const Share& other) {
            return text::lower(other.name) == text::lower(share.name) &&
                   other.decorative == share.decorative && other.known == share.known;
        });
        if (same == result.end())
            result.push_back(share);
        else
            add_to(*same, share);
    }
    if (result.empty()) return result;
    rescale(result);
    sort_most_first(result);
    return result;
}

double sum_of(const std::vector<Share>& shares, bool (*pick)(const Share&)) {
    double sum = 0.0;
    for (const Share& share : shares)
        if (pick(share)) sum += share.percent;
    return sum;
}

void rescale(std::vector<Share>& shares) {
    const double sum = sum_of(shares, [](const Share&) { return true; });
    for (Share& share : shares) share.percent *= 100.0 / sum;
}

std::vector<Entry> rounded_percents(const std::vector<Share>& shares) {
    constexpr double whole = 1.0, tenth = 0.1;
    const auto trace = [](const Share& share) { return share.percent < 0.5 * whole; };
    const double step = std::count_if(shares.begin(), shares.end(), trace) > 1 ? tenth : whole;
    std::vector<Entry> entries = rounded_to(shares, step);
    lift_from_zero(entries, step);
    return entries;
}

std::string percent_text(double percent) {
    return measure::write_number(std::round(10.0 * percent) / 10.0);
}

std::string in_words(const std::string& name, const LabelOptions& options) {
    const auto word = options.words.find(name);
    return word == options.words.end() ? name : word->second;
}

Label label(std::span<const Share> shares, Market market, const LabelOptions& options) {
    return market == Market::us ? label_us(shares, options) : label_eu(shares, options);
}

}  // namespace battwright::card
