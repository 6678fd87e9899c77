// branch_and_bound(), declared in solve/linear.hpp.
#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

#include "solve/dominated.hpp"
#include "solve/linear.hpp"
#include "solve/rounding.hpp"
#include "solve/whole_sums.hpp"

namespace battwright::solve {
namespace {

using Eigen::Index;

constexpr double rounding = 1e-7;
constexpr std::size_t few_lots = 60;
constexpr double infinite = std::numeric_limits<double>::infinity();

class LinearScore : public Score {
  public:
    explicit LinearScore(const VectorXd& cost) : cost_(cost) {}
    double of(const VectorXd& grams) const override { return cost_.dot(grams); }

  private:
    const VectorXd& cost_;
};

struct Node {
    VectorXd low, high;
    VectorXd sum_low, sum_high;  // of the whole sums
    std::vector<char> in;        // must be used
    double bound = -infinite;
};

struct Split {
    Index lot = -1;               // or which whole sum
    double down = 0.0, up = 0.0;  // high of one child, low of the other
    bool up_first = true;
    bool decides_use = false;
    bool of_sum = false;
};

class Search {
  public:
    Search(const Model& model, const VectorXd& cost, const BranchOptions& options)
        : model_(model),
          cost_(cost),
          options_(options),
          sums_(options.steps && model.granule > 0.0 ? whole_sums(model) : MatrixXd(0, Index(model.lots()))),
          program_(extended(model, sums_)) {}

    Branched run() {
        std::vector<Node> open{root()};
        while (!open.empty() && !done()) {
            Node node = std::move(open.back());
            open.pop_back();
            if (node.bound < cutoff()) visit(node, open);
        }
        Branched result{best_, best_cost_, best_cost_, open.empty() || (options_.any_will_do && best_)};
        for (const Node& node : open) result.bound = std::min(result.bound, node.bound);
        result.work = programs_ * model_.lots();
        return result;
    }

  private:
    // The model's rows and the whole sums, and one for the count: sum of m / high <= most, true of every
    // solution.
    static Model extended(const Model& model, const MatrixXd& sums) {
        Model with = model;
        const Index all = model.rows.rows() + sums.rows();
        with.rows.conservativeResize(all, Eigen::NoChange);
        with.rows.bottomRows(sums.rows()) = sums;
        with.row_low.conservativeResize(all);
        with.row_low.tail(sums.rows()).setConstant(-no_limit);
        with.row_high.conservativeResize(all);
        with.row_high.tail(sums.rows()).setConstant(no_limit);
        if (model.most_lots >= model.lots()) return with;
        const Index r = with.rows.rows();
        with.rows.conservativeResize(r + 1, Eigen::NoChange);
        with.row_low.conservativeResize(r + 1);
        with.row_high.conservativeResize(r + 1);
        for (Index j = 0; j < Index(model.lots()); ++j)
            with.rows(r, j) = model.high[j] > 0.0 ? 1.0 / model.high[j] : 0.0;
        with.row_low[r] = -no_limit;
        with.row_high[r] = double(model.most_lots);
        return with;
    }

    Node root() const {
        Node node{model_.low, model_.high, VectorXd::Constant(sums_.rows(), -no_limit),
                  VectorXd::Constant(sums_.rows(), no_limit), std::vector<char>(model_.lots(), 0)};
        for (std::size_t j = 0; j < model_.lots(); ++j) node.in[j] = model_.low[Index(j)] > rounding;
        return node;
    }

    bool done() const {
        return programs_ >= options_.most_programs || options_.stop.stop_requested() ||
               (options_.any_will_do && best_);
    }
    double cutoff() const { return best_ ? best_cost_ - 1e-9 : infinite; }

    void visit(Node& node, std::vector<Node>& open) {
        if (!limit_count(node)) return;
        ++programs_;
        for (Index s = 0; s < sums_.rows(); ++s)
            program_.set_row(model_.rows.rows() + s, node.sum_low[s], node.sum_high[s]);
        const auto relaxed = program_.minimise(cost_, node.low, node.high);
        if (!relaxed) return;
        node.bound = cost_.dot(*relaxed);
        if (node.bound >= cutoff()) return;
        const bool too_many = count_used(*relaxed) > model_.most_lots;
        Split split = too_many && options_.any_will_do ? Split{} : sum_split(*relaxed);
        if (split.lot < 0) split = use_split(node, *relaxed);
        if (split.lot < 0) split = sum_split(*relaxed);
        if (split.lot < 0) {
            try_rounding(*relaxed);
            split = step_split(*relaxed);
            if (split.lot < 0) return take(*relaxed);
            if (node.bound >= cutoff()) return;
        }
        branch(node, split, open);
    }

    // When as many lots are in as may be, the rest are out.
    bool limit_count(Node& node) const {
        const auto in = std::size_t(std::count(node.in.begin(), node.in.end(), char(1)));
        if (in > model_.most_lots) return false;
        if (in < model_.most_lots) return true;
        for (std::size_t j = 0; j < model_.lots(); ++j) {
            if (!node.in[j]) node.high[Index(j)] = 0.0;
        }
        return true;
    }

    // A lot used less than its least, or one lot too many.
    Split use_split(const Node& node, const VectorXd& x) const {
        Split split;
        double most = 0.0;
        const bool too_many = count_used(x) > model_.most_lots;
        for (Index j = 0; j < x.size(); ++j) {
            if (node.in[std::size_t(j)] || !(x[j] > rounding)) continue;
            const double missing = model_.least[j] - x[j];
            const double weight = too_many ? x[j] / model_.high[j] : missing / model_.least[j];
            if ((!too_many && missing <= rounding) || weight <= most) continue;
            most = weight;
            split = {j, 0.0, model_.least[j], too_many || x[j] > 0.5 * model_.least[j], true};
        }
        return split;
    }

    // What is farthest from a whole number of steps.
    Split off_step(const VectorXd& grams) const {
        Split split;
        double most = 1e-6;
        for (Index j = 0; j < grams.size(); ++j) {
            const double units = grams[j] / model_.granule;
            const double off = std::abs(units - std::round(units));
            if (off <= most) continue;
            most = off;
            const double floor = std::floor(units);
            split = {j, floor * model_.granule, (floor + 1.0) * model_.granule, units - floor > 0.5};
        }
        return split;
    }
    Split step_split(const VectorXd& x) const {
        return options_.steps && model_.granule > 0.0 ? off_step(x) : Split{};
    }
    Split sum_split(const VectorXd& x) const {
        if (sums_.rows() == 0) return {};
        Split split = off_step(sums_ * x);
        split.of_sum = true;
        return split;
    }

    void branch(const Node& node, const Split& split, std::vector<Node>& open) const {
        Node down = node, up = node;
        (split.of_sum ? down.sum_high : down.high)[split.lot] = split.down;
        double& low = (split.of_sum ? up.sum_low : up.low)[split.lot];
        low = std::max(low, split.up);
        if (split.decides_use) up.in[std::size_t(split.lot)] = 1;
        if (split.up_first) std::swap(down, up);
        open.push_back(std::move(up));
        open.push_back(std::move(down));
    }

    void try_rounding(const VectorXd& x) {
        if (!options_.steps || !(model_.granule > 0.0)) return;
        if (const auto rounded = on_steps(model_, x, LinearScore(cost_)); rounded) take(*rounded);
    }

    void take(const VectorXd& x) {
        VectorXd grams = x;
        if (options_.steps && model_.granule > 0.0)
            grams = (x.array() / model_.granule).round() * model_.granule;
        const double cost = cost_.dot(grams);
        if (cost >= cutoff() || violation(model_, grams) > 0.0) return;
        best_ = grams;
        best_cost_ = cost;
    }

    const Model& model_;
    const VectorXd& cost_;
    BranchOptions options_;
    MatrixXd sums_;
    LinearProgram program_;
    std::optional<VectorXd> best_;
    double best_cost_ = infinite;
    std::size_t programs_ = 0;
};

}  // namespace

Branched branch_and_bound(const Model& model, const VectorXd& cost, const BranchOptions& options) {
    const auto lots = lots_to_choose_from(model, cost);
    if (lots.empty()) return {std::nullopt, infinite, infinite, true};
    const Model few = only_of(model, lots);
    const VectorXd cost_of_few = cost(lots);
    Branched branched = Search(few, cost_of_few, options).run();
    if (!branched.grams) return branched;
    VectorXd grams = VectorXd::Zero(Index(model.lots()));
    grams(lots) = *branched.grams;
    branched.grams = std::move(grams);
    return branched;
}

Branched any_solution(const Model& model, std::size_t most_programs, const std::stop_token& stop) {
    VectorXd cost = VectorXd::Zero(Index(model.lots()));
    for (Index j = 0; j < cost.size() && model.most_lots < model.lots(); ++j)
        cost[j] = model.high[j] > 0.0 ? 1.0 / model.high[j] : 0.0;
    BranchOptions options;
    options.any_will_do = true;
    // Programs over few lots are short, so there may be more of them.
    const bool few = lots_to_choose_from(model, cost).size() <= few_lots;
    options.most_programs = few ? 6 * most_programs : most_programs;
    options.stop = stop;
    return branch_and_bound(model, cost, options);
}

}  // namespace battwright::solve
