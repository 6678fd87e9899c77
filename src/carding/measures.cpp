#include "carding/measures.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

#include "carding/dice.hpp"
#include "carding/habits.hpp"
#include "jobs/wide.hpp"
#include "measure/parts.hpp"
#include "text/believe.hpp"

namespace battwright::carding {
namespace {

// A variance this small against p q is rounding.
constexpr double nothing = 1e-12;
// Autocorrelation is taken on at most so many lines in each direction across the axis: enough for the scale.
constexpr std::size_t lines_each_way = 8;

double variance(std::span<const double> values, double mean) {
    double sum = 0.0;
    for (const double value : values) sum += (value - mean) * (value - mean);
    return sum / static_cast<double>(values.size());
}

struct Axis {
    std::size_t cells, stride;
    std::size_t other_cells[2], other_stride[2];
    bool wraps;
};

// Lags of half a line and more are pairs of the same two ends over and over, or hardly any.
std::size_t longest_lag(const Axis& axis) {
    return axis.cells / 2;
}

// Start of the lines looked at.
std::vector<std::size_t> lines_of(const Axis& axis) {
    const auto evenly = [](std::size_t cells) {
        const std::size_t count = std::min(cells, lines_each_way);
        std::vector<std::size_t> picked;
        for (std::size_t i = 0; i < count; ++i)
            picked.push_back(
                static_cast<std::size_t>(measure::middle_of(i, count) * static_cast<double>(cells)));
        return picked;
    };
    std::vector<std::size_t> starts;
    for (const std::size_t a : evenly(axis.other_cells[0])) {
        for (const std::size_t b : evenly(axis.other_cells[1]))
            starts.push_back(a * axis.other_stride[0] + b * axis.other_stride[1]);
    }
    return starts;
}

// Lags looked at together: each is a sum of its own, and they lie side by side.
constexpr std::size_t lags_at_once = 8;

// What each line looked at differs from the mean, portion by portion. After each line as many cells more as
// there are lags: its beginning again where it wraps, else nought.
struct Deviations {
    std::size_t cells = 0, lines = 0;  // of a line, of a portion
    std::size_t stride = 0;            // from a line to the next
    std::vector<double> values;
};
Deviations deviations_of(const Field& field, const Axis& axis, std::span<const double> means) {
    const auto lines = lines_of(axis);
    const std::size_t most_lag = longest_lag(axis) + lags_at_once;
    Deviations deviations{axis.cells, lines.size(), axis.cells + most_lag, {}};
    deviations.values.reserve(field.portions * lines.size() * deviations.stride);
    for (std::size_t p = 0; p < field.portions; ++p) {
        const auto block = field.block(p);
        for (const std::size_t start : lines) {
            const double* line = &block[start];
            for (std::size_t i = 0; i < deviations.stride; ++i) {
                const bool inside = i < axis.cells || axis.wraps;
                deviations.values.push_back(inside ? line[i % axis.cells * axis.stride] - means[p] : 0.0);
            }
        }
    }
    return deviations;
}

// Sums of products of deviations at the lags from `first` on.
BATTWRIGHT_WIDE
std::array<double, lags_at_once> products(const Deviations& deviations, std::size_t first) {
    std::array<double, lags_at_once> sums{};
    const double* end = deviations.values.data() + deviations.values.size();
    for (const double* line = deviations.values.data(); line != end; line += deviations.stride) {
        for (std::size_t i = 0; i < deviations.cells; ++i) {
            for (std::size_t k = 0; k < lags_at_once; ++k) sums[k] += line[i] * line[i + first + k];
        }
    }
    return sums;
}

// In cells, by the trapezoid rule; the last step ends where the straight line between two lags meets zero.
double integral_scale(const Field& field, const Axis& axis, std::span<const double> means) {
    const Deviations deviations = deviations_of(field, axis, means);
    double length = 0.0, before = 1.0, whole = 0.0;
    for (std::size_t first = 0; first <= longest_lag(axis); first += lags_at_once) {
        const auto sums = products(deviations, first);
        for (std::size_t lag = first; lag < first + lags_at_once && lag <= longest_lag(axis); ++lag) {
            const std::size_t pairs = axis.wraps ? axis.cells : axis.cells - lag;
            const double covariance = sums[lag - first] / static_cast<double>(pairs * deviations.lines);
            if (lag == 0) {
                whole = covariance;
                if (!(whole > nothing)) return 0.0;
                continue;
            }
            const double now = covariance / whole;
            if (now <= 0.0) return length + 0.5 * before * before / (before - now);
            length += 0.5 * (before + now);
            before = now;
        }
    }
    return length;
}

std::vector<double> means_of(const Field& field) {
    std::vector<double> means;
    for (std::size_t p = 0; p < field.portions; ++p) means.push_back(mean_share(field, p));
    return means;
}

std::size_t patches_along(double extent, double size) {
    return static_cast<std::size_t>(std::max(1.0, std::round(extent / size)));
}

}  // namespace

double intensity(const Field& field, std::size_t portion) {
    const double p = mean_share(field, portion);
    const double random = p * (1.0 - p);
    return random > nothing ? variance(field.block(portion), p) / random : 0.0;
}

double intensity(const Field& field) {
    double spread = 0.0, random = 0.0;
    for (std::size_t i = 0; i < field.portions; ++i) {
        const double p = mean_share(field, i);
        spread += variance(field.block(i), p);
        random += p * (1.0 - p);
    }
    return random > nothing ? spread / random : 0.0;
}

Scale scale(const Field& field) {
    const auto [round, across, depth] = field.grid;
    const auto means = means_of(field);
    const std::size_t plane = field.plane_size();
    const Axis x{round, 1, {across, depth}, {round, plane}, !field.flat};
    const Axis y{across, round, {round, depth}, {1, plane}, false};
    const Axis z{depth, plane, {round, across}, {1, round}, false};
    return {integral_scale(field, x, means) * field.circumference_mm / static_cast<double>(round),
            integral_scale(field, y, means) * field.width_mm / static_cast<double>(across),
            integral_scale(field, z, means) / static_cast<double>(depth)};
}

double blend_irregularity(std::span<const int> counts, int fibres, double p) {
    BATTWRIGHT_BELIEVE(p > 0.0 && p < 1.0 && !counts.empty());
    double sum = 0.0;
    for (const int count : counts) sum += (fibres * p - count) * (fibres * p - count);
    return std::sqrt(sum / static_cast<double>(counts.size()) / (fibres * p * (1.0 - p)));
}

double expected_irregularity(double intensity, double fibres) {
    return std::sqrt(1.0 + std::max(0.0, fibres - 1.0) * intensity);
}

std::vector<int> drawn_sections(const Field& field, std::size_t portion, int fibres, std::size_t sections,
                                std::uint64_t seed) {
    const auto block = field.block(portion);
    std::vector<int> counts(sections, 0);
    for (std::size_t i = 0; i < sections; ++i) {
        const Dice dice = Dice(seed).with(7).with(i);
        const auto cell = static_cast<std::size_t>(dice.uniform(0) * static_cast<double>(block.size()));
        for (int f = 1; f <= fibres; ++f)
            counts[i] += dice.uniform(static_cast<std::uint64_t>(f)) < block[cell] ? 1 : 0;
    }
    return counts;
}

double cv_after_doubling(double cv, double doublings) {
    return cv / std::sqrt(doublings);
}

double patch_length_mm(const Field& field) {
    return field.circumference_mm /
           static_cast<double>(patches_along(field.circumference_mm, habits::draw_round_mm));
}

double patch_mg(const Field& field, double batt_grams) {
    const std::size_t patches = patches_along(field.circumference_mm, habits::draw_round_mm) *
                                patches_along(field.width_mm, habits::draw_across_mm) *
                                patches_along(1.0, habits::draw_depth_share);
    return 1000.0 * batt_grams / static_cast<double>(patches);
}

Field patches_of(const Field& field) {
    const std::size_t round =
        field.grid.round == 1 ? 1 : patches_along(field.circumference_mm, habits::draw_round_mm);
    return resampled(field, {round, patches_along(field.width_mm, habits::draw_across_mm),
                             patches_along(1.0, habits::draw_depth_share)});
}

std::vector<double> unresolved_intensity(const Field& field, const Field& patches, double sample_mg) {
    std::vector<double> result(patches.block_size(), 0.0);
    if (field.unresolved.empty()) return result;
    Field cells = empty_field(field.grid, 1, field.circumference_mm, field.width_mm);
    for (std::size_t i = 0; i < cells.shares.size(); ++i)
        cells.shares[i] = sampled_variance(field.unresolved[i], field.clumped[i], sample_mg);
    const Field means = resampled(cells, patches.grid);
    const auto squares = squares_of(patches);
    for (std::size_t i = 0; i < result.size(); ++i) {
        const double most = 1.0 - squares[i];
        if (most > nothing) result[i] = std::min(1.0, means.shares[i] / most);
    }
    return result;
}

double intensity_at(const Field& field, double sample_mg) {
    const Field patches = patches_of(field);
    const auto unresolved = unresolved_intensity(field, patches, sample_mg);
    const auto squares = squares_of(patches);
    double below = 0.0, random = 0.0;
    for (std::size_t i = 0; i < squares.size(); ++i) below += unresolved[i] * (1.0 - squares[i]);
    below /= static_cast<double>(squares.size());
    for (std::size_t p = 0; p < field.portions; ++p) {
        const double share = mean_share(field, p);
        random += share * (1.0 - share);
    }
    return intensity(patches) + (random > nothing ? below / random : 0.0);
}

}  // namespace battwright::carding
