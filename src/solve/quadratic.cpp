#include "solve/quadratic.hpp"

#include <Eigen/Cholesky>
#include <Eigen/QR>
#include <algorithm>
#include <cmath>
#include <vector>

namespace battwright::solve {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

constexpr double tight = 1e-12;
constexpr double smallest_step = 1e-11;

enum class At { free, low, high };

class ActiveSet {
  public:
    explicit ActiveSet(const QuadraticProgram& program)
        : p_(program),
          d_(VectorXd::Zero(program.g.size())),
          gradient_(program.g),
          lots_(std::size_t(program.g.size()), At::free),
          rows_(std::size_t(program.a.rows()), At::free) {
        for (Index j = 0; j < d_.size(); ++j) {
            if (p_.low[j] > -tight && (p_.g[j] > 0.0 || p_.high[j] < tight)) lots_[std::size_t(j)] = At::low;
            if (p_.high[j] < tight && p_.g[j] < 0.0) lots_[std::size_t(j)] = At::high;
        }
        for (Index r = 0; r < p_.a.rows(); ++r) {
            if (is_equality(r)) rows_[std::size_t(r)] = At::low;
        }
    }

    std::optional<QuadraticStep> run() {
        const Index most = 20 * (d_.size() + p_.a.rows()) + 50;
        for (Index round = 0; round < most; ++round) {
            collect();
            const auto step = free_step();
            if (!step) return std::nullopt;
            if (step->size() > 0 && step->lpNorm<Eigen::Infinity>() > smallest_step) {
                move(*step);
                continue;
            }
            if (!release(round > most / 2)) break;
        }
        collect();
        weigh();
        VectorXd multipliers = VectorXd::Zero(p_.a.rows());
        for (std::size_t k = 0; k < active_.size(); ++k) multipliers[active_[k]] = lambda_[Index(k)];
        return QuadraticStep{d_, multipliers};
    }

  private:
    bool is_equality(Index r) const { return p_.row_high[r] - p_.row_low[r] < 1e-10; }

    void collect() {
        free_.clear();
        active_.clear();
        for (Index j = 0; j < d_.size(); ++j) {
            if (lots_[std::size_t(j)] == At::free) free_.push_back(j);
        }
        for (Index r = 0; r < p_.a.rows(); ++r) {
            if (rows_[std::size_t(r)] != At::free) active_.push_back(r);
        }
        normals_ = p_.a(active_, free_).transpose();
        decomposition_.setThreshold(1e-9);
        if (normals_.size() > 0) decomposition_.compute(normals_);
    }

    // The least of the quadratic on the active rows, over the free lots.
    std::optional<VectorXd> free_step() const {
        const Index n = Index(free_.size());
        const Index rank = normals_.size() > 0 ? decomposition_.rank() : 0;
        if (n == rank) return VectorXd(VectorXd::Zero(n));
        MatrixXd null = MatrixXd::Identity(n, n);
        if (rank > 0) null = MatrixXd(decomposition_.householderQ()).rightCols(n - rank);
        const MatrixXd reduced = null.transpose() * p_.h(free_, free_) * null;
        const Eigen::LLT<MatrixXd> factor(reduced);
        if (factor.info() != Eigen::Success) return std::nullopt;
        return VectorXd(null * factor.solve(-(null.transpose() * gradient_(free_))));
    }

    // Goes as far as nothing blocks; what blocks becomes active.
    void move(const VectorXd& step) {
        VectorXd full = VectorXd::Zero(d_.size());
        for (std::size_t k = 0; k < free_.size(); ++k) full[free_[k]] = step[Index(k)];
        double length = 1.0;
        Index lot = -1, row = -1;
        At side = At::free;
        for (const Index j : free_) {
            const double to = full[j];
            if (std::abs(to) < 1e-15) continue;
            const double room = std::max(0.0, ((to < 0.0 ? p_.low[j] : p_.high[j]) - d_[j]) / to);
            if (room < length) {
                length = room;
                lot = j;
                side = to < 0.0 ? At::low : At::high;
            }
        }
        const VectorXd sums = p_.a * d_, slopes = p_.a * full;
        for (Index r = 0; r < p_.a.rows(); ++r) {
            if (rows_[std::size_t(r)] != At::free || std::abs(slopes[r]) < 1e-13) continue;
            const double edge = slopes[r] < 0.0 ? p_.row_low[r] : p_.row_high[r];
            const double room = std::max(0.0, (edge - sums[r]) / slopes[r]);
            if (room < length) {
                length = room;
                lot = -1;
                row = r;
                side = slopes[r] < 0.0 ? At::low : At::high;
            }
        }
        d_ += length * full;
        gradient_ += length * (p_.h * full);
        if (lot >= 0) {
            d_[lot] = side == At::low ? p_.low[lot] : p_.high[lot];
            lots_[std::size_t(lot)] = side;
        } else if (row >= 0) {
            rows_[std::size_t(row)] = side;
        }
    }

    // Multipliers of the active rows, by least squares.
    void weigh() {
        lambda_ = VectorXd::Zero(Index(active_.size()));
        if (normals_.size() > 0) lambda_ = decomposition_.solve(VectorXd(gradient_(free_)));
    }

    // Lets go of the active bound that holds back most; after many rounds, of the first that does, lest equal
    // ones take turns for ever (Bland). False when none does: done.
    bool release(bool first_will_do) {
        weigh();
        VectorXd rest = gradient_;
        for (std::size_t k = 0; k < active_.size(); ++k)
            rest -= lambda_[Index(k)] * p_.a.row(active_[k]).transpose();
        double worst = 1e-11 * (1.0 + p_.g.lpNorm<Eigen::Infinity>());
        At* loosened = nullptr;
        const auto look = [&](double pull, At& at) {
            if (pull <= worst || (first_will_do && loosened != nullptr)) return;
            worst = pull;
            loosened = &at;
        };
        for (Index j = 0; j < d_.size(); ++j) {
            At& at = lots_[std::size_t(j)];
            if (at != At::free && p_.high[j] - p_.low[j] > tight)
                look(at == At::low ? -rest[j] : rest[j], at);
        }
        for (std::size_t k = 0; k < active_.size(); ++k) {
            if (is_equality(active_[k])) continue;
            At& at = rows_[std::size_t(active_[k])];
            look(at == At::low ? -lambda_[Index(k)] : lambda_[Index(k)], at);
        }
        if (loosened != nullptr) *loosened = At::free;
        return loosened != nullptr;
    }

    const QuadraticProgram& p_;
    VectorXd d_, gradient_, lambda_;
    std::vector<At> lots_, rows_;
    std::vector<Index> free_, active_;
    MatrixXd normals_;
    Eigen::ColPivHouseholderQR<MatrixXd> decomposition_;
};

}  // namespace

std::optional<QuadraticStep> minimise(const QuadraticProgram& program) {
    return ActiveSet(program).run();
}

}  // namespace battwright::solve
