#include "solve/alike.hpp"

#include <algorithm>
#include <cmath>
#include <map>

namespace battwright::solve {
namespace {

using Eigen::Index;
using Columns = std::vector<Index>;

// The most lots any solution uses.
std::size_t most_ever_used(const Model& model) {
    double least = no_limit;
    for (Index j = 0; j < model.low.size(); ++j)
        if (model.high[j] > 0.0) least = std::min(least, model.least[j]);
    const double total = std::min(model.row_high[0], model.high.sum());
    if (!(least > 0.0) || !(total / least < double(model.most_lots))) return model.most_lots;
    return std::size_t(std::floor(total / least + 1e-6));
}

// Those alike that a solution may have to use: one that as many others stand in for as may be used at all is
// never needed.
Columns ever_needed(const Model& model, Columns alike, std::size_t most) {
    std::stable_sort(alike.begin(), alike.end(), [&](Index a, Index b) {
        if (model.high[a] != model.high[b]) return model.high[a] > model.high[b];
        return model.least[a] < model.least[b];
    });
    Columns kept;
    for (const Index j : alike) {
        const auto stands_in = [&](Index other) { return model.least[other] <= model.least[j]; };
        if (std::size_t(std::count_if(kept.begin(), kept.end(), stands_in)) < most) kept.push_back(j);
    }
    return kept;
}

void put_lot(Fewer& fewer, const Model& model, const Columns& lots) {
    fewer.stands_for.push_back(lots);
    const Index c = Index(fewer.stands_for.size()) - 1, first = lots.front();
    double high = 0.0;
    for (const Index j : lots) high += model.high[j];
    fewer.model.low[c] = model.low[first];
    fewer.model.high[c] = high;
    fewer.model.least[c] = model.least[first];
    fewer.model.rows.col(c) = model.rows.col(first);
}

void cut_to_size(Model& model, Index lots) {
    for (VectorXd* each : {&model.low, &model.high, &model.least}) each->conservativeResize(lots);
    model.rows.conservativeResize(Eigen::NoChange, lots);
    model.use = model.lot_worth = VectorXd::Zero(lots);
    model.most_lots = std::min(model.most_lots, std::size_t(lots));
}

}  // namespace

VectorXd Fewer::in_whole(const VectorXd& grams, const Model& whole) const {
    VectorXd all = VectorXd::Zero(Index(whole.lots()));
    for (std::size_t c = 0; c < stands_for.size(); ++c) {
        double left = grams[Index(c)];
        for (const Index j : stands_for[c]) {
            all[j] = std::min(left, whole.high[j]);
            left -= all[j];
        }
    }
    return all;
}

Fewer fewer_alike(const Model& model) {
    // Must-be-used lots stand for themselves.
    std::map<std::vector<double>, Columns> groups;
    std::vector<Columns> alone;
    for (Index j = 0; j < Index(model.lots()); ++j) {
        if (model.low[j] > 0.0) alone.push_back({j});
        if (model.low[j] > 0.0 || !(model.high[j] > 0.0)) continue;
        const VectorXd column = model.rows.col(j);
        groups[{column.data(), column.data() + column.size()}].push_back(j);
    }
    const std::size_t most = most_ever_used(model);
    Fewer fewer{model, {}};
    for (const Columns& lots : alone) put_lot(fewer, model, lots);
    for (const auto& [column, alike] : groups) {
        if (!model.has_counts()) {
            put_lot(fewer, model, alike);
            continue;
        }
        for (const Index j : ever_needed(model, alike, most)) put_lot(fewer, model, {j});
    }
    cut_to_size(fewer.model, Index(fewer.stands_for.size()));
    return fewer;
}

}  // namespace battwright::solve
