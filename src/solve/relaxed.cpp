// best_relaxed(), declared in solve/finder.hpp.
#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <random>

#include "colour/large.hpp"
#include "solve/finder.hpp"
#include "solve/linear.hpp"
#include "solve/polish.hpp"

namespace battwright::solve {
namespace {

using Eigen::Index;

constexpr std::uint64_t start_seed = 0x5ca1ab1e;
constexpr double matched = 1e-9;  // CIEDE2000 squared: other starts cannot do better
constexpr int shaken = 4;
constexpr double leaning_cost = 1e3;  // CIEDE2000, by which a start leans on a lot: far over any
constexpr Index most_at_once = 60;    // lots; a start with more makes large quadratic programs

std::vector<Index> usable_lots(const Model& model) {
    std::vector<Index> lots;
    for (Index j = 0; j < Index(model.lots()); ++j) {
        if (model.high[j] > 0.0) lots.push_back(j);
    }
    return lots;
}

// Vertices of what the bounds leave: one of the lots nearest the target, one leaning on each of them, and
// some of shaken costs.
std::vector<VectorXd> vertices(const Objective& objective, const std::vector<Index>& lots,
                               std::size_t leaning) {
    const Model& model = objective.model();
    LinearProgram program(model.rows(Eigen::all, lots), model.row_low, model.row_high);
    const VectorXd near = objective.lot_delta_e()(lots) - 100.0 * model.use_worth * model.use(lots);
    std::vector<VectorXd> found;
    const auto add = [&](const VectorXd& cost) {
        auto vertex = program.minimise(cost, model.low(lots), model.high(lots));
        if (vertex) found.push_back(std::move(*vertex));
    };
    add(near);
    if (found.empty()) return found;
    std::vector<Index> order(lots.size());
    std::iota(order.begin(), order.end(), Index(0));
    std::stable_sort(order.begin(), order.end(), [&](Index a, Index b) { return near[a] < near[b]; });
    for (std::size_t k = 0; k < std::min(order.size(), leaning); ++k) {
        VectorXd cost = near;
        cost[order[k]] -= leaning_cost;
        add(cost);
    }
    std::mt19937_64 random(start_seed);
    // The generator is the same everywhere, the standard distributions are not.
    const auto uniform = [&] { return double(random() >> 11u) * 0x1.0p-53; };
    for (int k = 0; k < shaken; ++k) {
        VectorXd cost = near;
        for (Index c = 0; c < cost.size(); ++c) cost[c] = (cost[c] + 10.0) * uniform();
        add(cost);
    }
    return found;
}

// The best of the vertices and of blends of two of them, no two of the same two; and the middle of all.
std::vector<VectorXd> starts_of(const FitProblem& problem, const std::vector<VectorXd>& corners,
                                std::size_t count) {
    struct Start {
        double value = 0.0;
        VectorXd grams;
    };
    std::vector<Start> starts;
    for (std::size_t i = 0; i < corners.size(); ++i) {
        starts.push_back({value_of(problem, corners[i]), corners[i]});
        for (std::size_t j = 0; j < i; ++j) {
            Start best{std::numeric_limits<double>::infinity(), {}};
            for (const double t : {0.25, 0.5, 0.75}) {
                const VectorXd blend = t * corners[i] + (1.0 - t) * corners[j];
                const double value = value_of(problem, blend);
                if (value < best.value) best = {value, blend};
            }
            starts.push_back(std::move(best));
        }
    }
    std::stable_sort(starts.begin(), starts.end(),
                     [](const Start& a, const Start& b) { return a.value < b.value; });
    std::vector<VectorXd> chosen;
    for (std::size_t k = 0; k < std::min(count, starts.size()); ++k)
        chosen.push_back(std::move(starts[k].grams));
    const VectorXd middle =
        std::accumulate(corners.begin() + 1, corners.end(), corners.front()) / double(corners.size());
    if ((middle.array() > 0.0).count() <= most_at_once) chosen.push_back(middle);
    return chosen;
}

void polish(const Objective& objective, Found& found, const VectorXd& prices) {
    int idle = 0;
    for (const double step : {0.05, 0.02, 0.005, 0.02, 0.002, 0.0005}) {
        const VectorXd better = polished(objective, found.grams, prices, step);
        const double value = objective.of(better);
        // What each lot is worth counts in the objective: a trace of one is not a lot.
        const bool gains = objective.delta_e(better) < objective.delta_e(found.grams) - 1e-6;
        idle = gains || value < found.objective - 1e-6 ? 0 : idle + 1;
        if (idle > 1) break;
        if (idle == 0) found = {better, value};
    }
}

}  // namespace

std::optional<Found> best_relaxed(const Objective& objective, std::size_t starts, const std::stop_token& stop,
                                  VectorXd* prices) {
    const auto lots = usable_lots(objective.model());
    if (lots.empty()) return std::nullopt;
    const auto corners = vertices(objective, lots, 2 * starts);
    if (corners.empty()) return std::nullopt;
    FitProblem problem = objective.fit_over(lots, false);
    problem.stop = stop;
    std::optional<Fit> best;
    for (const VectorXd& start : starts_of(problem, corners, starts)) {
        if (stop.stop_requested() && best) break;
        Fit one = fit(problem, start);
        if (!best || one.value < best->value - 1e-12) best = std::move(one);
        if (!problem.root && best->value < matched) break;
    }
    Found found{VectorXd::Zero(Index(objective.model().lots())), 0.0};
    VectorXd price = VectorXd::Constant(found.grams.size(), no_limit);
    found.grams(lots) = best->grams;
    price(lots) = best->prices;
    found.objective = objective.of(found.grams);
    // Further than this the difference itself has edges that a smooth fit does not get past.
    if (objective.delta_e(found.grams) > colour::near_de00 && !stop.stop_requested())
        polish(objective, found, price);
    if (prices != nullptr) *prices = price;
    return found;
}

}  // namespace battwright::solve
