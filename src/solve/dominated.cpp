#include "solve/dominated.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <numeric>
#include <queue>

namespace battwright::solve {
namespace {

using Eigen::Index;

// The largest `most` of the weights that were put in.
class Largest {
  public:
    explicit Largest(std::size_t most) : most_(most) {}
    // Whether so many are at least this large.
    bool all_reach(double weight) const { return kept_.size() == most_ && kept_.top() >= weight; }
    void put(double weight) {
        kept_.push(weight);
        if (kept_.size() > most_) kept_.pop();
    }

  private:
    std::size_t most_;
    std::priority_queue<double, std::vector<double>, std::greater<>> kept_;
};

// The most lots any solution uses: no more than may be, nor than have room with the least weight of each.
std::size_t most_ever_used(const Model& model) {
    double least = no_limit;
    for (Index j = 0; j < Index(model.lots()); ++j) {
        if (model.high[j] > 0.0) least = std::min(least, model.least[j]);
    }
    const double total = std::min(model.row_high[0], model.high.sum());
    if (!(least > 0.0) || !(total / least < double(model.most_lots))) return model.most_lots;
    return std::size_t(std::floor(total / least + 1e-6));
}

// -1, 0 or 1: an order of lots in which those alike in rows and least stand together.
int compare(const Model& model, Index a, Index b) {
    const auto order = [](double first, double second) { return first < second ? -1 : int(second < first); };
    for (Index r = 0; r < model.rows.rows(); ++r) {
        if (const int by_row = order(model.rows(r, a), model.rows(r, b)); by_row != 0) return by_row;
    }
    return order(model.least[a], model.least[b]);
}

}  // namespace

std::vector<Index> lots_to_choose_from(const Model& model, const VectorXd& cost) {
    std::vector<Index> order(model.lots());
    std::iota(order.begin(), order.end(), Index(0));
    std::erase_if(order, [&](Index j) { return !(model.high[j] > 0.0) && !(model.low[j] > 0.0); });
    const std::size_t most = most_ever_used(model);
    if (most >= order.size() || most == 0) return order;
    std::stable_sort(order.begin(), order.end(), [&](Index a, Index b) {
        if (const int alike = compare(model, a, b); alike != 0) return alike < 0;
        return cost[a] < cost[b] || (cost[a] == cost[b] && model.high[a] > model.high[b]);
    });
    std::vector<Index> kept;
    Largest larger(most);
    for (std::size_t k = 0; k < order.size(); ++k) {
        const Index j = order[k];
        if (k > 0 && compare(model, order[k - 1], j) != 0) larger = Largest(most);
        if (model.low[j] > 0.0 || !larger.all_reach(model.high[j])) kept.push_back(j);
        // One that must be used anyway cannot stand in for another.
        if (!(model.low[j] > 0.0)) larger.put(model.high[j]);
    }
    std::sort(kept.begin(), kept.end());
    return kept;
}

Model only_of(const Model& model, const std::vector<Index>& lots) {
    Model few = model;
    few.low = model.low(lots);
    few.high = model.high(lots);
    few.least = model.least(lots);
    few.rows = model.rows(Eigen::all, lots);
    few.use = model.use(lots);
    few.lot_worth = model.lot_worth(lots);
    few.most_lots = std::min(model.most_lots, lots.size());
    return few;
}

}  // namespace battwright::solve
