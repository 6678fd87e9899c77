#include "robust_fit.hpp"

#include <cmath>
#include <map>

#include "yarn/calibration.hpp"

namespace skeins {
namespace {

constexpr int habit_freedom = 4, chance_freedom = 5, rounds = 300;
constexpr double prior_count = 4.0, prior_habit = 0.25, prior_chance = 0.20;

// What is iterated: weights of records and sources, and the two variances.
struct State {
    Eigen::VectorXd record_weight, source_weight;
    double chance = 0.1, habit = 0.05;
};

struct Sources {
    std::vector<Eigen::Index> of;  // of each record
    Eigen::Index count = 0;
};

Sources numbered(const std::vector<int>& source) {
    std::map<int, Eigen::Index> seen;
    Sources sources;
    for (const int one : source)
        sources.of.push_back(seen.emplace(one, static_cast<Eigen::Index>(seen.size())).first->second);
    sources.count = static_cast<Eigen::Index>(seen.size());
    return sources;
}

// Sums of each record's row into its source's.
Eigen::MatrixXd by_source(const Eigen::MatrixXd& rows, const Sources& sources) {
    Eigen::MatrixXd sums = Eigen::MatrixXd::Zero(sources.count, rows.cols());
    for (Eigen::Index i = 0; i < rows.rows(); ++i)
        sums.row(sources.of[static_cast<std::size_t>(i)]) += rows.row(i);
    return sums;
}

struct Step {
    Eigen::VectorXd b, habit, habit_variance;
    Eigen::MatrixXd covariance;
};

// Generalised least squares with the habits integrated out, then the habits given b.
Step step_of(const Sample& s, const Sources& sources, const State& state) {
    const Eigen::VectorXd w = state.record_weight / state.chance;
    const Eigen::VectorXd q = state.source_weight / state.habit;
    const Eigen::MatrixXd wx = w.asDiagonal() * s.x;
    const Eigen::MatrixXd group_x = by_source(wx, sources);
    const Eigen::MatrixXd group_y = by_source(w.cwiseProduct(s.y), sources);
    const Eigen::VectorXd shrink = (by_source(w, sources).col(0) + q).cwiseInverse();
    const Eigen::VectorXd prior = s.prior_sd.cwiseAbs2().cwiseInverse();
    Eigen::MatrixXd a = s.x.transpose() * wx - group_x.transpose() * shrink.asDiagonal() * group_x;
    a.diagonal() += prior;
    const Eigen::VectorXd right = wx.transpose() * s.y -
                                  group_x.transpose() * shrink.asDiagonal() * group_y.col(0) +
                                  prior.cwiseProduct(s.prior_mean);
    Step step;
    step.covariance = a.inverse();
    step.b = step.covariance * right;
    step.habit = shrink.cwiseProduct(by_source(w.cwiseProduct(s.y - s.x * step.b), sources).col(0));
    step.habit_variance = shrink;
    return step;
}

void reweigh(const Sample& s, const Sources& sources, const Step& step, State& state) {
    double chance_sum = prior_count * prior_chance * prior_chance;
    const Eigen::VectorXd left = s.y - s.x * step.b;
    for (Eigen::Index i = 0; i < s.y.size(); ++i) {
        const Eigen::Index j = sources.of[static_cast<std::size_t>(i)];
        const double error = left[i] - step.habit[j];
        const double spread = s.x.row(i) * step.covariance * s.x.row(i).transpose();
        const double square = error * error + step.habit_variance[j] + spread;
        chance_sum += state.record_weight[i] * square;
        state.record_weight[i] = (chance_freedom + 1.0) / (chance_freedom + square / state.chance);
    }
    double habit_sum = prior_count * prior_habit * prior_habit;
    for (Eigen::Index j = 0; j < sources.count; ++j) {
        const double square = step.habit[j] * step.habit[j] + step.habit_variance[j];
        habit_sum += state.source_weight[j] * square;
        state.source_weight[j] = (habit_freedom + 1.0) / (habit_freedom + square / state.habit);
    }
    state.chance = chance_sum / (static_cast<double>(s.y.size()) + prior_count);
    state.habit = habit_sum / (static_cast<double>(sources.count) + prior_count);
}

double as_prior(double variance, int freedom) {
    using namespace battwright::yarn;
    return std::sqrt(variance) * t_of_80_percent(freedom) / t_of_80_percent(prior_freedom);
}

}  // namespace

double Fit::standard_error(Eigen::Index i) const {
    return std::sqrt(covariance(i, i));
}

Fit fitted(const Sample& sample) {
    const Sources sources = numbered(sample.source);
    State state;
    state.record_weight = Eigen::VectorXd::Ones(sample.y.size());
    state.source_weight = Eigen::VectorXd::Ones(sources.count);
    Step step;
    for (int round = 0; round < rounds; ++round) {
        step = step_of(sample, sources, state);
        reweigh(sample, sources, step, state);
    }
    return {step.b, step.covariance, as_prior(state.habit, habit_freedom),
            as_prior(state.chance, chance_freedom)};
}

Sample without(const Sample& sample, int source) {
    std::vector<Eigen::Index> kept;
    Sample left{{}, {}, {}, sample.prior_mean, sample.prior_sd};
    for (std::size_t i = 0; i < sample.source.size(); ++i) {
        if (sample.source[i] == source) continue;
        kept.push_back(static_cast<Eigen::Index>(i));
        left.source.push_back(sample.source[i]);
    }
    left.x = sample.x(kept, Eigen::all);
    left.y = sample.y(kept);
    return left;
}

}  // namespace skeins
