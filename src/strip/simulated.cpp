#include "strip/simulated.hpp"
#include "measure/parts.hpp"

#include <algorithm>

#include "strip/cell_colours.hpp"
#include "strip/raster.hpp"
#include "text/believe.hpp"

namespace battwright::strip {
namespace {

// Rows and columns of the picture: as many as streaks can be told apart in 160 px.
constexpr int edge_rows = 20, face_rows = 40, strip_columns = 16, face_columns = 32,
              edge_columns = 4 * face_columns;
constexpr double pulled_steps = 192.0;
// A tuft is drawn out over about three columns: each takes a half of itself and a quarter of its neighbours,
// which leaves 3/8 of the variance of independent draws.
constexpr double beside = 0.25, drawn_out = 8.0 / 3.0;

double part(int index, int count) {
    return static_cast<double>(index) / count;
}

// Where one cell of the picture lies in the batt.
carding::Box box_of(View view, int column, int row, const Field& field, int strips, bool rolags) {
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
    double &from = rolags ? box.round_from : box.across_from, &to = rolags ? box.round_to : box.across_to;
    double &begin = rolags ? box.across_from : box.round_from, &end = rolags ? box.across_to : box.round_to;
    from = part(strip, strips);
    to = part(strip + 1, strips);
    begin = part(column % per_strip, per_strip);
    end = part(column % per_strip + 1, per_strip);
    // The outermost layer is the picture's top.
    box.depth_from = part(field.rows - row - 1, field.rows);
    box.depth_to = part(field.rows - row, field.rows);
    return box;
}

// Joined by hand, a strip's end is laid over the next one's beginning for about a staple: how much of a
// column is the neighbour's. `from_joint`: in shares of the strip.
double of_neighbour(double from_joint, double reach) {
    const double t = std::clamp(from_joint / reach, 0.0, 1.0);
    return 0.5 * (1.0 - t * t * (3.0 - 2.0 * t));
}

void mix_in(std::vector<double>& shares, const std::vector<double>& others, double weight) {
    for (std::size_t p = 0; p < shares.size(); ++p) shares[p] += weight * (others[p] - shares[p]);
}

std::vector<double> at_joint(const carding::Field& carded, int column, int row, const Field& field,
                             int strips, double reach, std::vector<double> shares) {
    const int per_strip = field.columns / strips, in_strip = column % per_strip;
    const int before = column - in_strip - 1, after = before + per_strip + 1;
    const auto neighbour = [&](int from, double distance) {
        const double weight = of_neighbour(distance, reach);
        if (from < 0 || from >= field.columns || weight <= 0.0) return;
        mix_in(shares, carding::box_mean(carded, box_of(View::edge, from, row, field, strips, false)),
               weight);
    };
    neighbour(before, measure::middle_of(in_strip, per_strip));
    neighbour(after, measure::middle_of(per_strip - 1 - in_strip, per_strip));
    return shares;
}

// One row of the picture: means, strayed as the tufts below the grid make them, drawn out along the row.
std::vector<std::vector<double>> strayed_row(std::vector<std::vector<double>> row,
                                             const std::vector<double>& intensities, std::uint64_t seed,
                                             std::uint64_t number) {
    for (std::size_t i = 0; i < row.size(); ++i)
        carding::draw_place(row[i], std::min(1.0, drawn_out * intensities[i]), seed, number * 65536 + i);
    auto drawn = row;
    for (std::size_t i = 0; i < row.size(); ++i) {
        mix_in(drawn[i], row[i > 0 ? i - 1 : i], beside / (1.0 - beside));
        mix_in(drawn[i], row[i + 1 < row.size() ? i + 1 : i], beside);
    }
    return drawn;
}

double batt_mg(const forecast::Forecast& forecast) {
    return 1000.0 * forecast.total_grams / static_cast<double>(std::max<std::size_t>(1, forecast.plan.batts));
}

double staple_share(const forecast::Batt& batt, const carding::Field& carded) {
    double grams = 0.0, staple = 0.0;
    for (const auto& portion : batt.portions) {
        grams += portion.grams;
        staple += portion.grams * portion.staple_mm;
    }
    // No further than to the middle of a strip: from the other end comes its other neighbour.
    return std::clamp(staple / std::max(grams, 1e-9) / carded.circumference_mm, 1e-6, 0.5);
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

View suited_view(const forecast::Forecast& forecast) {
    using carding::Manner;
    const auto& layings = forecast.recipe.carding.layings;
    if (!layings.empty()) {
        const bool placed = std::any_of(layings.begin(), layings.end(), [](const recipe::Laying& laying) {
            return !laying.across.is_whole() || !laying.round.is_whole() ||
                   laying.how == recipe::Spreading::dabs;
        });
        return placed ? View::face : View::edge;
    }
    switch (forecast.plan.feed.manner) {
        case Manner::stripes_across:
        case Manner::gradient_round:
        case Manner::dabs:
            return View::face;
        case Manner::layers:
        case Manner::sandwich:
        case Manner::gradient_across:
        case Manner::alternating:
            break;
    }
    return View::edge;
}

Field rastered(const forecast::Forecast& forecast, const forecast::Batt& batt, const carding::Field& carded,
               const Raster& raster) {
    const std::size_t strands = forecast.strands.size();
    Field field{raster.columns, raster.rows, static_cast<int>(strands), {}};
    field.shares.assign(
        static_cast<std::size_t>(field.columns) * static_cast<std::size_t>(field.rows) * strands, 0.0);
    const double cell_mg = batt_mg(forecast) / (field.columns * field.rows) * raster.mass_share;
    double* cell = field.shares.data();
    for (int row = 0; row < field.rows; ++row) {
        std::vector<std::vector<double>> means;
        std::vector<double> intensities;
        for (int column = 0; column < field.columns; ++column) {
            auto box = raster.box(column, row);
            if (raster.placed) box = carding::placed_box(carded, box);
            auto shares = carding::box_mean(carded, box);
            intensities.push_back(carding::intensity_in(carded, box, shares, cell_mg));
            if (raster.mend) shares = raster.mend(column, row, std::move(shares));
            means.push_back(std::move(shares));
        }
        const auto drawn = strayed_row(std::move(means), intensities, seed_of(forecast.recipe.name),
                                       static_cast<std::uint64_t>(row));
        for (int column = 0; column < field.columns; ++column, cell += strands)
            spread_over_strands(forecast, batt, drawn[static_cast<std::size_t>(column)], cell);
    }
    return field;
}

Field simulated_field(const forecast::Forecast& forecast, const forecast::Batt& batt,
                      const carding::Pass& pass, View view) {
    BATTWRIGHT_BELIEVE(forecast::is_of(forecast, batt, pass));
    const bool rolags = forecast.plan.feed.rolags > 0;
    const int strips = std::max(1, recipe::pieces_spun(forecast.recipe.carding));
    const bool face = view == View::face;
    Field size;
    // Many strips are seen in fewer columns each.
    size.columns = face ? face_columns : strips * std::clamp(edge_columns / strips, 1, strip_columns);
    size.rows = face ? face_rows : edge_rows;
    Raster raster{size.columns, size.rows, face ? face_depth : 1.0, face, {}, {}};
    raster.box = [&](int column, int row) { return box_of(view, column, row, size, strips, rolags); };
    // Fibre lies round a rolag: end to end, the next one's begins where it ends.
    const double reach = staple_share(batt, pass.field);
    if (!face && !rolags)
        raster.mend = [&](int column, int row, std::vector<double> shares) {
            return at_joint(pass.field, column, row, size, strips, reach, std::move(shares));
        };
    return rastered(forecast, batt, pass.field, raster);
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
    // What the hands draw from at one moment is a patch, and strays from the strip's mean as patches do.
    const double patch_mg = carding::patch_mg(carded, 0.001 * batt_mg(forecast));
    for (std::size_t step = 0; step < sequence.steps(); ++step) {
        const auto shares = sequence.at(step);
        std::vector<double> drawn(shares.begin(), shares.end());
        const double intensity = carding::intensity_in(carded, {}, shares, patch_mg);
        carding::draw_place(drawn, intensity, seed_of(forecast.recipe.name), (1u << 30u) + step);
        spread_over_strands(forecast, batt, drawn, field.shares.data() + step * forecast.strands.size());
    }
    return field;
}

Field pulled_field(const forecast::Forecast& forecast, const forecast::Batt& batt, const carding::Pass& pass,
                   carding::Pull pull) {
    BATTWRIGHT_BELIEVE(forecast::is_of(forecast, batt, pass));
    if (forecast.plan.feed.rolags > 0) pull = carding::Pull::torn_across;
    return pulled_field(forecast, batt, pass.field, pull, recipe::pieces_spun(forecast.recipe.carding));
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
