#include "strip/yarn_makeup.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "strip/simulated.hpp"
#include "yarn/count.hpp"

namespace battwright::strip {
namespace {

using forecast::Forecast;
using yarn::Plying;

// Plies lie pressed into each other, so each is drawn a little wider than round ones that only touch. By eye.
constexpr double pressed = 1.18;
// Undyed wool, for a thread whose colour is not told.
constexpr colour::Srgb undyed{0.937, 0.914, 0.855};

// The columns from `from` to before `to` across the drum.
carding::Field part_across(const carding::Field& whole, std::size_t from, std::size_t to) {
    carding::Grid grid = whole.grid;
    grid.across = to - from;
    const double share = static_cast<double>(grid.across) / static_cast<double>(whole.grid.across);
    carding::Field part =
        carding::empty_field(grid, whole.portions, whole.circumference_mm, whole.width_mm * share);
    double* out = part.shares.data();
    for (std::size_t p = 0; p < whole.portions; ++p)
        for (std::size_t z = 0; z < grid.depth; ++z)
            for (std::size_t y = from; y < to; ++y)
                for (std::size_t x = 0; x < grid.round; ++x) *out++ = whole.at(p, x, y, z);
    return part;
}

Supply supply_of(Field field, double metres) {
    Supply supply;
    supply.metres_a_step = metres / std::max(1, field.columns);
    supply.field = std::move(field);
    return supply;
}

// `metres`: of the single that one batt gives.
std::vector<Supply> halves_of(const Forecast& f, const forecast::Batt& batt, const carding::Field& field,
                              carding::Pull pull, double metres) {
    const std::size_t across = field.grid.across, middle = across / 2;
    if (middle == 0) return {};
    const int strips = std::max(1, f.recipe.carding.strips / 2);
    std::vector<Supply> halves;
    for (const auto& [from, to] : {std::pair{std::size_t{0}, middle}, std::pair{middle, across}})
        halves.push_back(
            supply_of(pulled_field(f, batt, part_across(field, from, to), pull, strips), 0.5 * metres));
    return halves;
}

Supply thread_supply(const Forecast& f) {
    const auto& thread = f.recipe.spinning.thread;
    Supply supply;
    supply.thread = colour::linear(thread && thread->colour ? *thread->colour : undyed);
    return supply;
}

// n equal round plies touching in a ring reach out to r (1 + 1 / sin(pi / n)), r each one's half thickness.
void stand_in_ring(std::vector<PlyPath>& plies) {
    if (plies.size() <= 1) return;
    const double ring = std::sin(std::numbers::pi / static_cast<double>(plies.size()));
    for (PlyPath& ply : plies) {
        ply.half_width = pressed * ring / (1.0 + ring);
        ply.axis = 1.0 - ply.half_width;
    }
}

// Two of different thickness, each by its share of the whole; the thread comes last.
void stand_beside_thread(const Forecast& f, std::vector<PlyPath>& plies) {
    const double thread_mm = yarn::compact_diameter_mm(
        f.recipe.spinning.thread ? f.recipe.spinning.thread->tex : 0.0, yarn::ashenhurst_very_firm);
    const double share = thread_mm / std::max(thread_mm + f.yarn.single_diameter_mm, 1e-9);
    plies.front().half_width = std::min(1.0, pressed * (1.0 - share));
    plies.back().half_width = std::clamp(pressed * share, 0.02, 1.0);
    for (PlyPath& ply : plies) ply.axis = 1.0 - ply.half_width;
}

void lay_plied(const Makeup& makeup, double single_m, int count, double rate, std::vector<PlyPath>& plies) {
    for (int i = 0; i < count; ++i) {
        PlyPath ply;
        ply.metres_a_metre = rate;
        ply.first_m = single_m * i / count + rate * makeup.from_m;
        plies.push_back(ply);
    }
    if (count != 2) return;
    plies.back().metres_a_metre = -rate;
    plies.back().first_m = single_m - rate * makeup.from_m;
}

// A loop of the chain holds three of its lengths: there, back, and there again.
void lay_chain(Makeup& makeup, double rate, std::vector<PlyPath>& plies) {
    makeup.loop_m = chain_loop_m;
    const double loop = rate * chain_loop_m;
    const double before = std::floor(makeup.from_m / chain_loop_m);
    makeup.from_m = before * chain_loop_m;
    for (const auto& [offset, way] : {std::pair{0.0, 1.0}, std::pair{2.0, -1.0}, std::pair{2.0, 1.0}}) {
        PlyPath ply;
        ply.first_m = (3.0 * before + offset) * loop;
        ply.metres_a_metre = way * rate;
        ply.metres_a_loop = 3.0 * loop;
        plies.push_back(ply);
    }
}

void lay_plies(const Forecast& f, Makeup& makeup, double single_m) {
    const auto& yarn = f.yarn;
    // Plies that the single has to fill.
    const int own = yarn.plying == Plying::with_thread ? 1 : yarn.plies;
    const double rate = single_m / own / makeup.length_m;
    switch (yarn.plying) {
        case Plying::chain:
            lay_chain(makeup, rate, makeup.plies);
            break;
        case Plying::barber_pole:
            for (const std::size_t half : {std::size_t{0}, std::size_t{1}})
                makeup.plies.push_back({half, rate * makeup.from_m, rate});
            break;
        case Plying::with_thread:
            makeup.plies.push_back({0, rate * makeup.from_m, rate});
            makeup.plies.push_back({1, 0.0, 1.0});
            break;
        case Plying::plied:
            lay_plied(makeup, single_m, own, rate, makeup.plies);
            break;
    }
    makeup.fibre_turns_per_m = std::max(0.0, yarn.twist_per_m * rate - makeup.ply_turns_per_m);
    stand_in_ring(makeup.plies);
    if (yarn.plying == Plying::with_thread) stand_beside_thread(f, makeup.plies);
}

// The single as it is spun, at rest: as thick as the yarn would be of one ply, packed alike.
void as_single(const Forecast& f, Makeup& makeup) {
    makeup.diameter_mm = f.yarn.diameter_mm / std::max(f.yarn.effect.thickness_factor, 1e-6);
    makeup.length_m = f.yarn.single_length_m;
    makeup.fibre_turns_per_m = f.yarn.twist_per_m;
    makeup.cv_pct = f.yarn.evenness_limit_pct;
}

void as_yarn(const Forecast& f, Makeup& makeup) {
    makeup.diameter_mm = f.yarn.diameter_mm;
    makeup.length_m = f.yarn.length_m;
    // The wash shortens the yarn, and its turns stay in it.
    makeup.ply_turns_per_m = f.yarn.ply_twist_per_m * f.yarn.length_before_wash_m / f.yarn.length_m;
    makeup.cv_pct = f.yarn.plied_evenness_limit_pct;
}

bool has_yarn(const yarn::YarnForecast& yarn) {
    return yarn.length_m > 0.0 && yarn.single_length_m > 0.0 && yarn.diameter_mm > 0.0 && yarn.plies > 0;
}

}  // namespace

Makeup makeup_of(const Forecast& f, const forecast::Batt& batt, const carding::Pass& pass, carding::Pull pull,
                 YarnView view, double from) {
    Makeup makeup;
    makeup.batts = static_cast<int>(std::max<std::size_t>(1, f.plan.batts));
    if (!has_yarn(f.yarn) || f.strands.empty()) return makeup;
    view == YarnView::single ? as_single(f, makeup) : as_yarn(f, makeup);
    makeup.from_m = std::clamp(from, 0.0, 1.0) * makeup.length_m;
    const double one_batt_m = f.yarn.single_length_m / makeup.batts;
    const bool pole = f.yarn.plying == Plying::barber_pole;
    if (pole) makeup.supplies = halves_of(f, batt, pass.field, pull, one_batt_m);
    if (makeup.supplies.empty())
        makeup.supplies.push_back(supply_of(pulled_field(f, batt, pass, pull), one_batt_m));
    if (view == YarnView::single) {
        // Of a barber pole, the first half's.
        makeup.supplies.resize(1);
        makeup.length_m *= pole ? 0.5 : 1.0;
        makeup.from_m *= pole ? 0.5 : 1.0;
        makeup.plies.push_back({0, makeup.from_m, 1.0});
        return makeup;
    }
    if (f.yarn.plying == Plying::with_thread) makeup.supplies.push_back(thread_supply(f));
    lay_plies(f, makeup, f.yarn.single_length_m);
    for (PlyPath& ply : makeup.plies) ply.supply = std::min(ply.supply, makeup.supplies.size() - 1);
    return makeup;
}

}  // namespace battwright::strip
