#include "solve/polish.hpp"

#include <algorithm>
#include <cmath>
#include <nlopt.hpp>
#include <random>

namespace battwright::solve {
namespace {

using Eigen::Index;

constexpr std::size_t most_lots = 8;
constexpr int most_looks = 500;
constexpr int most_steps = 600;
constexpr std::uint64_t wander_seed = 0xe49e;
constexpr double refused = 1e6;

struct LocalSearch {
    const Objective& objective;
    const VectorXd& grams;
    std::vector<Index> lots;
    double total = 0.0;  // of these lots

    VectorXd at(const std::vector<double>& shares) const {
        VectorXd masses = grams;
        double sum = 0.0;
        for (const double share : shares) sum += share;
        for (std::size_t k = 0; k < lots.size(); ++k)
            masses[lots[k]] = total * shares[k] / std::max(sum, 1e-9);
        return masses;
    }
    bool allowed(const VectorXd& masses) const {
        const Model& model = objective.model();
        for (const Index j : lots) {
            if (masses[j] < model.low[j] || masses[j] > model.high[j]) return false;
        }
        return violation(model, masses) == 0.0;
    }
};

double look(const std::vector<double>& shares, std::vector<double>& /*gradient*/, void* data) {
    const LocalSearch& search = *static_cast<const LocalSearch*>(data);
    const VectorXd masses = search.at(shares);
    if (!search.allowed(masses)) return refused;
    return search.objective.delta_e(masses) -
           search.objective.model().use_worth * search.objective.model().use.dot(masses);
}

// One step is kept in five, by the success rule, when the length is right.
void wander(LocalSearch& search, std::vector<double>& shares, double& value, double step) {
    std::mt19937_64 random(wander_seed);
    std::vector<double> none, next = shares;
    for (int k = 0; k < most_steps && step > 1e-7; ++k) {
        for (std::size_t i = 0; i < shares.size(); ++i) {
            // The sum of three is near enough to normal, and the same everywhere.
            double u = -1.5;
            for (int n = 0; n < 3; ++n) u += double(random() >> 11u) * 0x1.0p-53;
            next[i] = std::max(0.0, shares[i] > 0.0 || u > 1.0 ? shares[i] + step * u : 0.0);
        }
        const double at = look(next, none, &search);
        step *= at < value ? 1.5 : 0.904;
        if (!(at < value)) continue;
        value = at;
        shares = next;
    }
}

std::vector<Index> lots_to_move(const Model& model, const VectorXd& grams, const VectorXd& prices) {
    std::vector<Index> lots;
    for (Index j = 0; j < grams.size(); ++j) {
        if (model.high[j] > 0.0) lots.push_back(j);
    }
    std::stable_sort(lots.begin(), lots.end(), [&](Index a, Index b) {
        const bool first = grams[a] > 1e-9, second = grams[b] > 1e-9;
        return first != second ? first : (first ? grams[a] > grams[b] : prices[a] < prices[b]);
    });
    if (lots.size() > most_lots) lots.resize(most_lots);
    return lots;
}

}  // namespace

VectorXd polished(const Objective& objective, const VectorXd& grams, const VectorXd& prices, double step) {
    LocalSearch search{objective, grams, lots_to_move(objective.model(), grams, prices)};
    if (search.lots.size() <= 1) return grams;
    search.total = grams(search.lots).sum();
    std::vector<double> shares;
    for (const Index j : search.lots) shares.push_back(grams[j] / search.total);
    nlopt::opt opt(nlopt::LN_SBPLX, unsigned(shares.size()));
    opt.set_lower_bounds(0.0);
    opt.set_upper_bounds(1.0);
    opt.set_initial_step(step);
    opt.set_ftol_abs(1e-8);
    opt.set_maxeval(most_looks);
    opt.set_min_objective(look, &search);
    double value = 0.0;
    try {
        opt.optimize(shares, value);
    } catch (const std::exception&) {
        return grams;  // stopped by rounding: nothing to gain here
    }
    wander(search, shares, value, step);
    return value < refused ? search.at(shares) : grams;
}

}  // namespace battwright::solve
