#include "solve/whole_sums.hpp"

#include <algorithm>
#include <vector>

namespace battwright::solve {
namespace {

using Eigen::Index;

constexpr std::size_t few_ways = 4;
constexpr std::size_t most_sums = 16;

// The different values of a row, in order; empty when they are many.
std::vector<double> ways_to_count(const Model& model, Index row) {
    std::vector<double> ways;
    for (Index j = 0; j < Index(model.lots()); ++j) {
        const double value = model.rows(row, j);
        const auto at = std::lower_bound(ways.begin(), ways.end(), value);
        if (at != ways.end() && *at == value) continue;
        if (ways.size() == few_ways) return {};
        ways.insert(at, value);
    }
    return ways;
}

}  // namespace

MatrixXd whole_sums(const Model& model) {
    const Index n = Index(model.lots());
    std::vector<VectorXd> sums{VectorXd::Ones(n)};
    for (Index r = 1; r < model.rows.rows(); ++r) {
        const auto ways = ways_to_count(model, r);
        // With the sum of all, the last follows from the others.
        for (std::size_t k = 0; k + 1 < ways.size() && sums.size() < most_sums; ++k) {
            const VectorXd alike = (model.rows.row(r).array() == ways[k]).cast<double>();
            const auto same = [&](const VectorXd& one) {
                return one == alike || one == sums.front() - alike;
            };
            if (std::none_of(sums.begin(), sums.end(), same)) sums.push_back(alike);
        }
    }
    MatrixXd rows(Index(sums.size()), n);
    for (std::size_t k = 0; k < sums.size(); ++k) rows.row(Index(k)) = sums[k].transpose();
    return rows;
}

}  // namespace battwright::solve
