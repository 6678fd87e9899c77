// check(), declared in solve/problem.hpp.
#include <algorithm>
#include <cmath>
#include <set>

#include "solve/checking.hpp"
#include "solve/model.hpp"
#include "solve/problem.hpp"

namespace battwright::solve {
namespace {

using measure::Complaint;
using measure::Expected;

Expected<void> wrong(std::string where, std::string what, std::string mend) {
    return tl::make_unexpected(Complaint{std::move(what), std::move(mend), std::move(where)});
}

bool sound(const std::optional<double>& value) {
    return !value || (std::isfinite(*value) && *value >= 0.0);
}

Expected<void> check_pair(const std::string& where, const std::optional<double>& least,
                          const std::optional<double>& most) {
    if (!sound(least) || !sound(most))
        return wrong(where, "a bound is negative or not a number", "write bounds of 0 or more");
    if (least && most && *least > *most)
        return wrong(where, "the least is more than the most", "swap the two, or lower the least");
    if (most && *most <= 0.0) return wrong(where, "the most is zero", "write a most above zero");
    return {};
}

bool is_known(const ShareBound& bound, const Problem& problem, const fibre::Catalogue& catalogue) {
    const auto& kinds = catalogue.kinds();
    const auto lot = [&](const Lot& one) { return one.id == bound.what; };
    const auto label = [&](const fibre::Kind& kind) { return kind.label_eu == bound.what; };
    switch (bound.of) {
        case ShareOf::kind:
            return catalogue.find(bound.what) != nullptr;
        case ShareOf::family:
            return fibre::family_from(bound.what).has_value();
        case ShareOf::label:
            return std::any_of(kinds.begin(), kinds.end(), label);
        case ShareOf::lot:
            break;
    }
    return std::any_of(problem.lots.begin(), problem.lots.end(), lot);
}

Expected<void> check_shares(const Problem& problem, const fibre::Catalogue& catalogue) {
    for (const ShareBound& bound : problem.goal.bounds.shares) {
        const std::string where = "share of " + measure::quoted(bound.what);
        const bool within = bound.least_pct >= 0.0 && bound.most_pct <= 100.0;
        if (!within || !std::isfinite(bound.least_pct + bound.most_pct))
            return wrong(where, "a percentage is not within 0-100 %", "write 0 to 100");
        if (bound.least_pct > bound.most_pct)
            return wrong(where, "the least is more than the most", "swap the two, or lower the least");
        if (!is_known(bound, problem, catalogue))
            return wrong(where, "nothing is called that",
                         "write a fibre, family, label name or lot there is");
    }
    return {};
}

Expected<void> check_bounds(const Goal& goal) {
    const Bounds& bounds = goal.bounds;
    if (auto ok = check_pair("total", goal.total.least_grams, goal.total.most_grams); !ok) return ok;
    if (auto ok = check_pair("batt", goal.batts.least_grams, goal.batts.most_grams); !ok) return ok;
    if (auto ok = check_pair("staple", bounds.least_staple_mm, bounds.most_staple_mm); !ok) return ok;
    if (goal.batts.count > 1000) return wrong("batts", "more than 1,000 batts", "ask for fewer");
    if (!sound(bounds.most_cost) || !sound(bounds.most_cost_per_100_g))
        return wrong("cost", "the cost is negative or not a number", "write a cost of 0 or more");
    if (bounds.staple_spread && !(std::isfinite(*bounds.staple_spread) && *bounds.staple_spread >= 1.0))
        return wrong("staple spread", "the longest staple cannot be shorter than the shortest",
                     "write 1 or more, as in 1.5");
    if (bounds.most_lots && *bounds.most_lots == 0)
        return wrong("most lots", "no lot may be used", "write 1 or more");
    if (!sound(bounds.least_used_grams))
        return wrong("least used", "the weight is negative or not a number", "write 0 g or more");
    if (!sound(bounds.keep_back_pct) || bounds.keep_back_pct > 100.0)
        return wrong("keep back", "not within 0-100 %", "write 0 to 100");
    return {};
}

Expected<void> check_goal(const Goal& goal) {
    const double step = goal.scale_step_grams;
    if (!(std::isfinite(step) && (step >= finest_scale_grams || step == 0.0)))
        return wrong("scale step", "the scale's step is under 0.001 g or not a number",
                     "write a step, as in 0.1 g");
    if (!std::isfinite(goal.textile_k_l) || goal.textile_k_l <= 0.0)
        return wrong("kL", "kL is not above zero", "write 1, or 2 as textiles do");
    const bool worth = sound(goal.lot_worth_delta_e) && sound(goal.worst_delta_e) &&
                       (!goal.use_up || sound(goal.use_up->worth_delta_e));
    if (!worth) return wrong("worth", "a worth is negative or not a number", "write 0 or more");
    if (!goal.target) return {};
    bool finite = std::isfinite(goal.target->lab.l + goal.target->lab.a + goal.target->lab.b);
    for (const double r : goal.target->reflectance) finite = finite && std::isfinite(r);
    if (!finite) return wrong("target", "the target colour is not a number", "pick a colour");
    return {};
}

Expected<std::set<std::string>> ids_of(const Problem& problem, const Setting& setting) {
    std::set<std::string> ids;
    for (const Lot& lot : problem.lots) {
        const std::string where = "lot " + measure::quoted(lot.id);
        if (!ids.insert(lot.id).second)
            return tl::make_unexpected(
                Complaint{"two lots have this id", "give each lot an id of its own", where});
        if (auto ok = check_lot(lot, *setting.catalogue); !ok) return tl::make_unexpected(ok.error());
        if (lot.most_grams && lot.least_grams > *lot.most_grams)
            return tl::make_unexpected(Complaint{"must use more of it than may be used",
                                                 "lower the least, or raise the most", where});
    }
    return ids;
}

}  // namespace

Expected<void> check(const Problem& problem, const Setting& setting) {
    if (problem.lots.empty()) return wrong("lots", "there are no lots to choose from", "add a lot");
    auto ids = ids_of(problem, setting);
    if (!ids) return tl::make_unexpected(ids.error());
    if (auto ok = check_goal(problem.goal); !ok) return ok;
    if (auto ok = check_bounds(problem.goal); !ok) return ok;
    if (problem.goal.use_up) {
        if (problem.goal.use_up->lots.empty())
            return wrong("use up", "no lot is named", "name the lots to use up, or leave this out");
        for (const std::string& id : problem.goal.use_up->lots) {
            if (!ids->count(id))
                return wrong("use up", "no lot is called " + measure::quoted(id), "name a lot");
        }
    }
    return check_shares(problem, *setting.catalogue);
}

}  // namespace battwright::solve
