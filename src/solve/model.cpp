#include "solve/model.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <set>

namespace battwright::solve {
namespace {

using Eigen::Index;

constexpr std::size_t most_batts = 24;
constexpr double grams_slack = 1e-7;  // far under any scale, far over a linear program's own rounding

double nearest_multiple(double value, double step) {
    return std::max(1.0, std::round(value / step)) * step;
}
double multiple_above(double value, double step) {
    return step > 0.0 ? std::ceil(value / step - grams_slack) * step : value;
}
double multiple_below(double value, double step) {
    return step > 0.0 ? std::floor(value / step + grams_slack) * step : value;
}

double share_of(const LotProperties& worked, const std::string& id, const ShareBound& bound) {
    const auto in = [&](const auto& map, const auto& key) {
        const auto found = map.find(key);
        return found == map.end() ? 0.0 : found->second;
    };
    switch (bound.of) {
        case ShareOf::kind:
            return in(worked.by_kind, bound.what);
        case ShareOf::family:
            return in(worked.by_family, fibre::family_from(bound.what).value_or(fibre::Family::unknown));
        case ShareOf::label:
            return in(worked.by_label, bound.what);
        case ShareOf::lot:
            break;
    }
    return id == bound.what ? 1.0 : 0.0;
}

void add_row(Model& model, const VectorXd& row, double low, double high) {
    const Index r = model.rows.rows();
    model.rows.conservativeResize(r + 1, Index(model.lots()));
    model.rows.row(r) = row.transpose();
    model.row_low.conservativeResize(r + 1);
    model.row_high.conservativeResize(r + 1);
    model.row_low[r] = low;
    model.row_high[r] = high;
}

void add_total(Model& model, const Goal& goal) {
    const double batts = double(model.batts);
    double low = std::max(model.granule, finest_scale_grams), high = no_limit;
    const auto stepped = [&](double grams) {
        return model.granule > 0.0 ? nearest_multiple(grams, model.granule) : grams;
    };
    if (goal.total.least_grams) low = std::max(low, stepped(*goal.total.least_grams));
    if (goal.total.most_grams) high = stepped(*goal.total.most_grams);
    if (goal.batts.least_grams)
        low = std::max(low, multiple_above(*goal.batts.least_grams * batts, model.granule));
    if (goal.batts.most_grams)
        high = std::min(high, multiple_below(*goal.batts.most_grams * batts, model.granule));
    add_row(model, VectorXd::Ones(Index(model.lots())), low, high);
}

void add_shares(Model& model, const Problem& problem, const Shelf& shelf) {
    for (const ShareBound& bound : problem.goal.bounds.shares) {
        VectorXd share(Index(model.lots()));
        for (std::size_t j = 0; j < model.lots(); ++j)
            share[Index(j)] = share_of(shelf.worked[j], problem.lots[j].id, bound);
        const VectorXd low = share.array() - bound.least_pct / 100.0;
        const VectorXd high = share.array() - bound.most_pct / 100.0;
        if (bound.least_pct == bound.most_pct) {
            add_row(model, low, 0.0, 0.0);
            continue;
        }
        if (bound.least_pct > 0.0) add_row(model, low, 0.0, no_limit);
        if (bound.most_pct < ShareBound{}.most_pct) add_row(model, high, -no_limit, 0.0);
    }
}

void add_cost(Model& model, const Problem& problem) {
    const Bounds& bounds = problem.goal.bounds;
    if (!bounds.most_cost && !bounds.most_cost_per_100_g) return;
    VectorXd cost(Index(model.lots()));
    for (std::size_t j = 0; j < model.lots(); ++j) {
        const auto& price = problem.lots[j].cost_per_gram;
        if (!price) model.high[Index(j)] = 0.0;
        cost[Index(j)] = price.value_or(0.0);
    }
    if (bounds.most_cost) add_row(model, cost, -no_limit, *bounds.most_cost);
    if (bounds.most_cost_per_100_g)
        add_row(model, cost.array() - *bounds.most_cost_per_100_g / priced_grams, -no_limit, 0.0);
}

void keep_staple(Model& model, const Shelf& shelf, double least_mm, double most_mm) {
    for (std::size_t j = 0; j < model.lots(); ++j) {
        const LotProperties& lot = shelf.worked[j];
        if (!(lot.longest_mm > 0.0)) continue;
        const bool kept =
            lot.shortest_mm >= least_mm * (1.0 - 1e-9) && lot.longest_mm <= most_mm * (1.0 + 1e-9);
        if (!kept) model.high[Index(j)] = 0.0;
    }
}

void set_objective(Model& model, const Problem& problem) {
    const Goal& goal = problem.goal;
    const std::size_t n = model.lots();
    model.use = VectorXd::Zero(Index(n));
    const bool all = !goal.target && !goal.use_up;
    std::set<std::string> named;
    if (goal.use_up) named.insert(goal.use_up->lots.begin(), goal.use_up->lots.end());
    double sum = 0.0;
    for (std::size_t j = 0; j < n; ++j) {
        const Lot& lot = problem.lots[j];
        const double usable = usable_grams(lot, goal.bounds);
        if (!(usable > 0.0) || (!all && !named.count(lot.id))) continue;
        double weight = 1.0;
        if (goal.use_up && goal.use_up->by == UseUpBy::oldest) weight = std::max(1, lot.age_days);
        if (goal.use_up && goal.use_up->by == UseUpBy::smallest_first) weight = 1.0 / usable;
        model.use[Index(j)] = weight;
        sum += weight * usable;
    }
    if (sum > 0.0) model.use /= sum;
    model.use_worth = goal.use_up ? goal.use_up->worth_delta_e : (all ? UseUp{}.worth_delta_e : 0.0);
    model.lot_worth = VectorXd::Constant(Index(n), goal.lot_worth_delta_e);
    for (Index j = 0; j < Index(n); ++j) {
        if (model.use[j] > 0.0) model.lot_worth[j] = 0.0;
    }
    model.as_much_as_can = goal.target && !goal.use_up;
}

void set_limits(Model& model, const Problem& problem) {
    const Goal& goal = problem.goal;
    const Index n = Index(problem.lots.size());
    model.low.resize(n);
    model.high.resize(n);
    model.most_lots = std::min(goal.bounds.most_lots.value_or(problem.lots.size()), problem.lots.size());
    const double least_used = goal.bounds.least_used_grams * double(model.batts);
    for (Index j = 0; j < n; ++j) {
        const Lot& lot = problem.lots[std::size_t(j)];
        model.low[j] = multiple_above(lot.least_grams, model.granule);
        model.high[j] = multiple_below(usable_grams(lot, goal.bounds), model.granule);
        if (model.high[j] < grams_slack) model.high[j] = 0.0;
    }
    model.least = model.low.cwiseMax(multiple_above(least_used, model.granule));
    for (Index j = 0; j < n; ++j) {
        if (model.least[j] > model.high[j] + grams_slack && model.low[j] <= 0.0) model.high[j] = 0.0;
        if (model.high[j] <= 0.0) model.least[j] = model.low[j];
        if (model.low[j] > 0.0) model.low[j] = model.least[j];
    }
}

// Staples a batt may run from: each lot's shortest, but not those whose window holds no lot the one before
// does not.
std::vector<double> window_starts(const Problem& problem, const Shelf& shelf) {
    const auto& spread = problem.goal.bounds.staple_spread;
    if (!spread) return {0.0};
    std::set<double> starts;
    for (const LotProperties& lot : shelf.worked) {
        if (lot.longest_mm > 0.0) starts.insert(lot.shortest_mm);
    }
    std::vector<double> kept;
    for (const double start : starts) {
        const auto adds = [&](const LotProperties& lot) {
            const bool inside = lot.shortest_mm >= start && lot.longest_mm <= start * *spread;
            return inside && (kept.empty() || lot.longest_mm > kept.back() * *spread);
        };
        if (std::any_of(shelf.worked.begin(), shelf.worked.end(), adds)) kept.push_back(start);
    }
    return kept.empty() ? std::vector<double>{0.0} : kept;
}

Model model_of(const Problem& problem, const Shelf& shelf, std::size_t batts, double window_start) {
    const Bounds& bounds = problem.goal.bounds;
    Model model;
    model.batts = batts;
    model.granule = problem.goal.scale_step_grams * double(batts);
    set_limits(model, problem);
    add_total(model, problem.goal);
    add_shares(model, problem, shelf);
    add_cost(model, problem);
    keep_staple(model, shelf, bounds.least_staple_mm.value_or(0.0), bounds.most_staple_mm.value_or(no_limit));
    if (bounds.staple_spread && window_start > 0.0)
        keep_staple(model, shelf, window_start, window_start * *bounds.staple_spread);
    // No lot can weigh more than all of them together.
    for (Index j = 0; j < model.high.size(); ++j) {
        model.high[j] = std::min(model.high[j], model.row_high[0]);
        if (model.high[j] <= 0.0) model.least[j] = model.low[j];
    }
    set_objective(model, problem);
    return model;
}

}  // namespace

measure::Expected<Shelf> shelf_of(const std::vector<Lot>& lots, const Setting& setting) {
    Shelf shelf;
    shelf.optics = setting.optics;
    shelf.f.resize(Index(colour::bands), Index(lots.size()));
    for (std::size_t j = 0; j < lots.size(); ++j) {
        auto worked = work_out(lots[j], *setting.catalogue, setting.optics);
        if (!worked) return tl::make_unexpected(worked.error());
        for (std::size_t b = 0; b < colour::bands; ++b)
            shelf.f(Index(b), Index(j)) =
                colour::forward(std::max(worked->reflectance[b], 1e-12), setting.optics);
        shelf.worked.push_back(std::move(*worked));
    }
    return shelf;
}

std::vector<Model> models_of(const Problem& problem, const Shelf& shelf) {
    const std::size_t asked = problem.goal.batts.count;
    const std::size_t first = asked > 0 ? asked : 1;
    const std::size_t last = asked > 0 ? asked : most_batts;
    const std::vector<double> starts = window_starts(problem, shelf);
    std::vector<Model> models;
    models.reserve((last - first + 1) * starts.size());
    for (std::size_t batts = first; batts <= last; ++batts) {
        for (const double start : starts) {
            Model model = model_of(problem, shelf, batts, start);
            const double room = model.high.sum() + grams_slack;
            // What the eye sees at once needs no linear program.
            const bool empty = model.row_low[0] > model.row_high[0] + grams_slack ||
                               model.row_low[0] > room ||
                               (model.low.array() > model.high.array() + grams_slack).any();
            if (!empty) models.push_back(std::move(model));
        }
    }
    return models;
}

double violation(const Model& model, const VectorXd& grams) {
    const VectorXd sums = model.rows * grams;
    double worst = 0.0;
    for (Index r = 0; r < sums.size(); ++r)
        worst += std::max({0.0, model.row_low[r] - sums[r], sums[r] - model.row_high[r]});
    return worst <= grams_slack ? 0.0 : worst;
}

std::size_t count_used(const VectorXd& grams) {
    return std::size_t((grams.array() > grams_slack).count());
}

bool keeps(const Model& model, const VectorXd& grams) {
    if (violation(model, grams) > 0.0 || count_used(grams) > model.most_lots) return false;
    for (Index j = 0; j < grams.size(); ++j) {
        const double m = grams[j];
        if (m < model.low[j] - grams_slack || m > model.high[j] + grams_slack) return false;
        if (m > grams_slack && m < model.least[j] - grams_slack) return false;
        if (model.granule > 0.0 && std::abs(m / model.granule - std::round(m / model.granule)) > 1e-6)
            return false;
    }
    return true;
}

}  // namespace battwright::solve
