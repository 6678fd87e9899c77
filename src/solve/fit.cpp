#include "solve/fit.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "solve/quadratic.hpp"
#include "text/believe.hpp"

namespace battwright::solve {
namespace {

using Eigen::Index;

constexpr std::size_t columns_a_round = 8;
constexpr double tiny = 1e-12;

struct Root {
    double value = 0.0, first = 1.0, second = 0.0;
};
Root rooted(double q, bool root) {
    if (!root) return {q, 1.0, 0.0};
    const double s = std::sqrt(std::max(0.0, q) + softness * softness);
    const double first = 0.5 / s;
    return {s - softness, first, -first * first / s};
}

// Sums of a batt and its mean additive function.
struct Batt {
    double total = 0.0;
    VectorXd f;
};

class Fitting {
  public:
    Fitting(const FitProblem& problem, const VectorXd& start) : p_(problem), x_(start) {
        scale_ = std::max(tiny, x_.sum() / double(p_.of.size()));
    }

    Fit run() {
        linearise();
        choose_first();
        for (std::size_t round = 0; round < p_.most_rounds && !p_.stop.stop_requested(); ++round) {
            if (!p_.linear.size() && value_ <= p_.good_enough) break;
            const Took took = step();
            if (took == Took::improved) continue;
            if (took == Took::refused && trust_ < 1e8) {
                trust_ *= 8.0;
                continue;
            }
            if (!widen()) break;
        }
        return {x_, value_, prices()};
    }

  private:
    enum class Took { improved, refused, settled };

    std::vector<Batt> batts_at(const VectorXd& x) const {
        std::vector<Batt> batts(p_.of.size());
        for (Batt& batt : batts) batt.f = VectorXd::Zero(p_.f->rows());
        for (Index c = 0; c < x.size(); ++c) {
            if (x[c] == 0.0) continue;
            const Column& column = p_.columns[std::size_t(c)];
            Batt& batt = batts[std::size_t(column.batt)];
            batt.total += x[c];
            batt.f += x[c] * p_.f->col(column.lot);
        }
        for (Batt& batt : batts) batt.f /= std::max(batt.total, tiny);
        return batts;
    }

  public:
    double value_at(const VectorXd& x) const {
        double sum = p_.linear.size() ? p_.linear.dot(x) : 0.0;
        const auto batts = batts_at(x);
        for (std::size_t b = 0; b < batts.size(); ++b)
            sum += rooted(p_.of[b](lab_of_f(batts[b].f, p_.optics)), p_.root).value;
        return sum;
    }

  private:
    // Value and gradient at x_, for all columns.
    void linearise() {
        batts_ = batts_at(x_);
        local_.clear();
        value_ = p_.linear.size() ? p_.linear.dot(x_) : 0.0;
        std::vector<VectorXd> by_f;
        std::vector<double> own;
        for (std::size_t b = 0; b < batts_.size(); ++b) {
            local_.push_back(local_colour(batts_[b].f, p_.optics, p_.of[b]));
            const Root root = rooted(local_[b].value, p_.root);
            value_ += root.value;
            by_f.push_back(root.first / batts_[b].total * (local_[b].slope.transpose() * local_[b].gradient));
            own.push_back(by_f[b].dot(batts_[b].f));
        }
        gradient_.resize(x_.size());
        for (Index c = 0; c < x_.size(); ++c) {
            const Column& column = p_.columns[std::size_t(c)];
            const auto b = std::size_t(column.batt);
            gradient_[c] = by_f[b].dot(p_.f->col(column.lot)) - own[b];
        }
        if (p_.linear.size()) gradient_ += p_.linear;
    }

    // Those in use, and the most promising others.
    void choose_first() {
        chosen_.clear();
        multipliers_ = VectorXd::Zero(p_.rows.rows());
        for (Index c = 0; c < x_.size(); ++c) {
            const Column& column = p_.columns[std::size_t(c)];
            if (x_[c] > column.low + tiny * scale_) chosen_.push_back(c);
        }
        if (chosen_.size() > 4 * columns_a_round) let_go_idle();
        add_best(2 * columns_a_round, false);
    }

    VectorXd prices() const { return gradient_ - p_.rows.transpose() * multipliers_; }

    bool is_chosen(Index c) const { return std::binary_search(chosen_.begin(), chosen_.end(), c); }

    // The columns whose price promises most. `only_gains`: none that promises nothing.
    std::size_t add_best(std::size_t count, bool only_gains) {
        std::vector<std::pair<double, Index>> gains;
        const VectorXd price = prices();
        const double least = 1e-9 * std::max(1e-9, value_ / scale_);
        for (Index c = 0; c < x_.size(); ++c) {
            const Column& column = p_.columns[std::size_t(c)];
            if (is_chosen(c) || column.high - column.low <= tiny) continue;
            const bool can_rise = x_[c] < column.high - tiny;
            const double gain = can_rise ? -price[c] : price[c];
            if (!only_gains || gain > least) gains.emplace_back(-gain, c);
        }
        const auto kept = std::min(count, gains.size());
        std::partial_sort(gains.begin(), gains.begin() + std::ptrdiff_t(kept), gains.end());
        for (std::size_t k = 0; k < kept; ++k) chosen_.push_back(gains[k].second);
        std::sort(chosen_.begin(), chosen_.end());
        return kept;
    }

    void let_go_idle() {
        const auto idle = [&](Index c) {
            const Column& column = p_.columns[std::size_t(c)];
            return x_[c] <= column.low + tiny || x_[c] >= column.high - tiny;
        };
        chosen_.erase(std::remove_if(chosen_.begin(), chosen_.end(), idle), chosen_.end());
    }

    // At a minimum over the chosen columns: lets the idle go and takes in others. False when none would help.
    bool widen() {
        if (chosen_.size() > 4 * columns_a_round) let_go_idle();
        trust_ = 1e-6;
        return add_best(columns_a_round, true) > 0;
    }

    // Of the chosen columns, per unit of `scale_`.
    MatrixXd hessian() const {
        const Index n = Index(chosen_.size());
        MatrixXd h = MatrixXd::Zero(n, n);
        for (std::size_t b = 0; b < batts_.size(); ++b) {
            std::vector<Index> place;
            for (Index k = 0; k < n; ++k) {
                if (p_.columns[std::size_t(chosen_[std::size_t(k)])].batt == Index(b)) place.push_back(k);
            }
            MatrixXd away(p_.f->rows(), Index(place.size()));
            for (std::size_t k = 0; k < place.size(); ++k) {
                const Index lot = p_.columns[std::size_t(chosen_[std::size_t(place[k])])].lot;
                away.col(Index(k)) = p_.f->col(lot) - batts_[b].f;
            }
            h(place, place) = block_hessian(b, away * (scale_ / batts_[b].total));
        }
        return h;
    }

    // Second derivatives in the masses of one batt: those of the colour, and those of the shares.
    MatrixXd block_hessian(std::size_t b, const MatrixXd& away) const {
        const LocalColour& local = local_[b];
        const Root root = rooted(local.value, p_.root);
        const MatrixXd xyz = local.slope * away;
        const VectorXd slope = xyz.transpose() * local.gradient;
        MatrixXd h = xyz.transpose() * (local.hessian * xyz);
        h += away.transpose() * local.bend.asDiagonal() * away;
        const double shrink = scale_ / batts_[b].total;
        h -= shrink * (slope.replicate(1, slope.size()) + slope.transpose().replicate(slope.size(), 1));
        return root.first * h + root.second * (slope * slope.transpose());
    }

    QuadraticProgram program() const {
        const Index n = Index(chosen_.size());
        QuadraticProgram q;
        q.g = scale_ * gradient_(chosen_);
        q.low.resize(n);
        q.high.resize(n);
        for (Index k = 0; k < n; ++k) {
            const Index c = chosen_[std::size_t(k)];
            q.low[k] = std::min(0.0, (p_.columns[std::size_t(c)].low - x_[c]) / scale_);
            q.high[k] = std::max(0.0, (p_.columns[std::size_t(c)].high - x_[c]) / scale_);
        }
        const VectorXd sums = p_.rows * x_;
        q.a = scale_ * p_.rows(Eigen::all, chosen_);
        q.row_low = (p_.row_low - sums).cwiseMin(0.0);
        q.row_high = (p_.row_high - sums).cwiseMax(0.0);
        for (Index r = 0; r < sums.size(); ++r) {
            if (p_.row_high[r] - p_.row_low[r] < tiny) q.row_low[r] = q.row_high[r] = 0.0;
        }
        return q;
    }

    Took step() {
        if (chosen_.empty()) return Took::settled;
        QuadraticProgram q = program();
        const MatrixXd h = hessian();
        const double size = 1e-12 + h.diagonal().cwiseAbs().maxCoeff();
        std::optional<QuadraticStep> found;
        for (; !found && trust_ < 1e8; trust_ = found ? trust_ : trust_ * 8.0) {
            q.h = h;
            q.h.diagonal().array() += trust_ * size;
            found = minimise(q);
        }
        if (!found) return Took::settled;
        multipliers_ = found->multipliers;
        const double promised = -(q.g.dot(found->d) + 0.5 * found->d.dot(q.h * found->d));
        if (promised <= 1e-13 * std::abs(value_) + 1e-16) return Took::settled;
        VectorXd to = x_;
        for (std::size_t k = 0; k < chosen_.size(); ++k) {
            const Column& column = p_.columns[std::size_t(chosen_[k])];
            to[chosen_[k]] =
                std::clamp(to[chosen_[k]] + scale_ * found->d[Index(k)], column.low, column.high);
        }
        const double gained = value_ - value_at(to);
        if (!(gained > 1e-3 * promised)) return Took::refused;
        if (gained > 0.7 * promised) trust_ = std::max(1e-12, trust_ * 0.1);
        if (gained < 0.3 * promised) trust_ *= 4.0;
        x_ = to;
        linearise();
        return Took::improved;
    }

    const FitProblem& p_;
    VectorXd x_, gradient_, multipliers_;
    double value_ = 0.0, scale_ = 1.0, trust_ = 1e-6;
    std::vector<Batt> batts_;
    std::vector<LocalColour> local_;
    std::vector<Index> chosen_;  // sorted
};

}  // namespace

Fit fit(const FitProblem& problem, const VectorXd& start) {
    BATTWRIGHT_BELIEVE(start.size() == static_cast<Index>(problem.columns.size()));
    BATTWRIGHT_BELIEVE(problem.rows.rows() == 0 ||
                       ((problem.rows * start - problem.row_low).minCoeff() > -1e-6 &&
                        (problem.row_high - problem.rows * start).minCoeff() > -1e-6));
    return Fitting(problem, start).run();
}

double value_of(const FitProblem& problem, const VectorXd& grams) {
    return Fitting(problem, grams).value_at(grams);
}

}  // namespace battwright::solve
