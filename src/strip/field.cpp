#include <algorithm>
#include <cmath>

#include "measure/parts.hpp"
#include "strip/picture.hpp"

namespace battwright::strip {
namespace {

constexpr int feed_columns = 96;
constexpr double soft_edge = 0.02;  // of the strip's length, to each side
constexpr int streak_columns = 96, streak_rows = 10, streak_length = 6;
constexpr double streak_strength = 0.55;
// Steps that spread points evenly over a plane: powers of the plastic number (Roberts 2018, from memory).
constexpr double even_step_x = 0.7548776662, even_step_y = 0.5698402910;

std::vector<double> component_shares(const forecast::Forecast& forecast) {
    std::vector<double> shares(forecast.recipe.components.size(), 0.0);
    for (const auto& strand : forecast.strands) {
        if (strand.component >= shares.size()) shares.resize(strand.component + 1, 0.0);
        shares[strand.component] += strand.mass_share;
    }
    return shares;
}

double total_share(const forecast::Forecast& forecast) {
    double total = 0.0;
    for (const auto& strand : forecast.strands) total += strand.mass_share;
    return total;
}

// Adds `weight` of each component to a cell, each strand by its part of its component.
void add_components(const forecast::Forecast& forecast, const std::vector<double>& shares,
                    const std::vector<double>& weights, double scale, double* cell) {
    for (std::size_t i = 0; i < forecast.strands.size(); ++i) {
        const auto& strand = forecast.strands[i];
        if (shares[strand.component] > 0.0)
            cell[i] += scale * weights[strand.component] * strand.mass_share / shares[strand.component];
    }
}

Field empty_field(const forecast::Forecast& forecast, int columns, int rows) {
    Field field;
    field.columns = columns;
    field.rows = rows;
    field.strands = static_cast<int>(forecast.strands.size());
    field.shares.assign(
        static_cast<std::size_t>(columns) * static_cast<std::size_t>(rows) * forecast.strands.size(), 0.0);
    return field;
}

// How much of each component's band lies within the window [from, to] of the strip, 0..1 summing to 1.
std::vector<double> bands_within(const std::vector<double>& shares, double total, double from, double to) {
    std::vector<double> weights(shares.size(), 0.0);
    from = std::max(from, 0.0);
    to = std::min(to, 1.0);
    double edge = 0.0;
    for (std::size_t i = 0; i < shares.size(); ++i) {
        const double next = edge + shares[i] / total;
        weights[i] = std::max(0.0, std::min(next, to) - std::max(edge, from)) / (to - from);
        edge = next;
    }
    return weights;
}

std::size_t component_at(const std::vector<double>& shares, double total, double position) {
    double edge = 0.0;
    for (std::size_t i = 0; i < shares.size(); ++i) {
        edge += shares[i] / total;
        if (position < edge) return i;
    }
    return shares.size() - 1;
}

}  // namespace

Field ideal_field(const forecast::Forecast& forecast) {
    Field field = empty_field(forecast, 1, 1);
    const double total = total_share(forecast);
    for (std::size_t i = 0; i < forecast.strands.size(); ++i)
        field.shares[i] = total > 0.0 ? forecast.strands[i].mass_share / total : 0.0;
    return field;
}

Field feed_field(const forecast::Forecast& forecast) {
    Field field = empty_field(forecast, feed_columns, 1);
    const std::vector<double> shares = component_shares(forecast);
    const double total = total_share(forecast);
    if (total <= 0.0) return field;
    for (int column = 0; column < field.columns; ++column) {
        const double middle = measure::middle_of(column, field.columns);
        const auto weights = bands_within(shares, total, middle - soft_edge, middle + soft_edge);
        add_components(forecast, shares, weights, 1.0,
                       field.shares.data() + static_cast<std::size_t>(column) * forecast.strands.size());
    }
    return field;
}

Field streaky_field(const forecast::Forecast& forecast) {
    Field field = empty_field(forecast, streak_columns, streak_rows);
    const Field ideal = ideal_field(forecast);
    const std::vector<double> shares = component_shares(forecast);
    const double total = total_share(forecast);
    if (total <= 0.0) return field;
    const std::size_t strands = forecast.strands.size();
    for (int row = 0; row < streak_rows; ++row) {
        for (int column = 0; column < streak_columns; ++column) {
            double* cell =
                field.shares.data() + static_cast<std::size_t>(row * streak_columns + column) * strands;
            const double along = (column + 0.5) / streak_length + row * even_step_x;
            const double streak = std::floor(along);
            std::vector<double> weights(shares.size(), 0.0);
            for (const double step : {0.0, 1.0}) {
                const double place = (streak + step) * even_step_x + row * even_step_y;
                const double part = step > 0.0 ? along - streak : 1.0 - (along - streak);
                weights[component_at(shares, total, place - std::floor(place))] += part;
            }
            for (std::size_t i = 0; i < strands; ++i) cell[i] = (1.0 - streak_strength) * ideal.shares[i];
            add_components(forecast, shares, weights, streak_strength, cell);
        }
    }
    return field;
}

}  // namespace battwright::strip
