#include "strip/simulated.hpp"

#include <algorithm>

namespace battwright::strip {
namespace {

// Rows of the picture: as many as streaks can be told apart in 160 px.
constexpr int edge_rows = 20, face_rows = 40;
constexpr double pulled_steps = 192.0;
constexpr double face_depth = 1.0 / 6.0;

double part(int index, int count) {
    return static_cast<double>(index) / count;
}

// Where one cell of the picture lies in the batt.
carding::Box box_of(View view, int column, int row, const Field& field, int strips) {
    carding::Box box;
    if (view == View::face) {
        box.round_from = part(column, field.columns);
        box.round_to = part(column + 1, field.columns);
        box.across_from = part(row, field.rows);
        box.across_to = part(row + 1, field.rows);
        box.depth_from = 1.0 - face_depth;
        return box;
    }
    const int per_strip = field.columns / strips;
    const int strip = column / per_strip;
    box.across_from = part(strip, strips);
    box.across_to = part(strip + 1, strips);
    box.round_from = part(column % per_strip, per_strip);
    box.round_to = part(column % per_strip + 1, per_strip);
    // The outermost layer is the picture's top.
    box.depth_from = part(field.rows - row - 1, field.rows);
    box.depth_to = part(field.rows - row, field.rows);
    return box;
}

// Shares of portions as shares of strands: within a portion the strands keep their proportions.
void spread_over_strands(const forecast::Forecast& forecast, const forecast::Batt& batt,
                         const std::vector<double>& of_portions, double* cell) {
    double total = 0.0;
    for (std::size_t p = 0; p < batt.portions.size(); ++p) {
        double grams = 0.0;
        for (const std::size_t i : batt.portions[p].strands) grams += forecast.strands[i].grams;
        if (grams <= 0.0) continue;
        for (const std::size_t i : batt.portions[p].strands) {
            cell[i] = of_portions[p] * forecast.strands[i].grams / grams;
            total += cell[i];
        }
    }
    for (std::size_t i = 0; i < forecast.strands.size() && total > 0.0; ++i) cell[i] /= total;
}

}  // namespace

Field simulated_field(const forecast::Forecast& forecast, const forecast::Batt& batt,
                      const carding::Pass& pass, View view) {
    const int strips = std::clamp(forecast.recipe.carding.strips, 1, 8);
    const int round = static_cast<int>(pass.field.grid.round);
    Field field;
    field.strands = static_cast<int>(forecast.strands.size());
    field.columns = view == View::edge ? strips * round : 2 * round;
    field.rows = view == View::edge ? edge_rows : face_rows;
    const std::size_t strands = forecast.strands.size();
    field.shares.assign(
        static_cast<std::size_t>(field.columns) * static_cast<std::size_t>(field.rows) * strands, 0.0);
    double* cell = field.shares.data();
    for (int row = 0; row < field.rows; ++row) {
        for (int column = 0; column < field.columns; ++column, cell += strands) {
            const auto shares = carding::box_mean(pass.field, box_of(view, column, row, field, strips));
            spread_over_strands(forecast, batt, shares, cell);
        }
    }
    return field;
}

Field pulled_field(const forecast::Forecast& forecast, const forecast::Batt& batt,
                   const carding::Field& carded, carding::Pull pull, int strips) {
    const double step_mm = carded.circumference_mm * strips / pulled_steps;
    const carding::Sequence sequence = carding::sequence_of(carded, pull, strips, step_mm);
    Field field;
    field.columns = static_cast<int>(sequence.steps());
    field.rows = 1;
    field.strands = static_cast<int>(forecast.strands.size());
    field.shares.assign(sequence.steps() * forecast.strands.size(), 0.0);
    for (std::size_t step = 0; step < sequence.steps(); ++step) {
        const auto shares = sequence.at(step);
        spread_over_strands(forecast, batt, {shares.begin(), shares.end()},
                            field.shares.data() + step * forecast.strands.size());
    }
    return field;
}

Field pulled_field(const forecast::Forecast& forecast, const forecast::Batt& batt, const carding::Pass& pass,
                   carding::Pull pull) {
    return pulled_field(forecast, batt, pass.field, pull, std::clamp(forecast.recipe.carding.strips, 1, 64));
}

Scene pulled_scene(const forecast::Forecast& forecast, int passes, carding::Pull pull) {
    const forecast::Batt batt = forecast::batt_of(forecast, {passes, false, 0});
    if (batt.passes.empty()) return scene_of(forecast, ideal_field(forecast), passes);
    const carding::Pass& last = batt.passes.back();
    return scene_of(forecast, pulled_field(forecast, batt, last, pull), last.number);
}

Scene carded_scene(const forecast::Forecast& forecast, int passes, View view) {
    const forecast::Batt batt = forecast::batt_of(forecast, {passes, false, 0});
    if (batt.passes.empty()) return scene_of(forecast, ideal_field(forecast), passes);
    const carding::Pass& last = batt.passes.back();
    return scene_of(forecast, simulated_field(forecast, batt, last, view), last.number);
}

}  // namespace battwright::strip
