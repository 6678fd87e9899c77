#include "shelving/answer.hpp"

#include <algorithm>

#include "staple/sparkle.hpp"

namespace battwright::shelving {
namespace {

bool is_sparkle(const std::string& id, const fibre::Catalogue& catalogue) {
    const fibre::Kind* kind = catalogue.find(id);
    return kind != nullptr && kind->family == fibre::Family::sparkle;
}

bool holds_sparkle(const solve::Lot& lot, const fibre::Catalogue& catalogue) {
    return std::any_of(lot.content.begin(), lot.content.end(),
                       [&](const auto& part) { return is_sparkle(part.fibre, catalogue); });
}

bool speaks_of_sparkle(const solve::ShareBound& bound, const solve::Problem& problem,
                       const fibre::Catalogue& catalogue) {
    switch (bound.of) {
        case solve::ShareOf::family:
            return bound.what == fibre::word_for(fibre::Family::sparkle);
        case solve::ShareOf::kind:
            return is_sparkle(bound.what, catalogue);
        case solve::ShareOf::label:
            return false;
        case solve::ShareOf::lot:
            break;
    }
    return std::any_of(problem.lots.begin(), problem.lots.end(), [&](const solve::Lot& lot) {
        return lot.id == bound.what && holds_sparkle(lot, catalogue);
    });
}

// Nothing where the problem is right as it stands.
std::optional<solve::Problem> with_little_sparkle(const solve::Problem& problem,
                                                  const fibre::Catalogue* catalogue) {
    if (catalogue == nullptr) return std::nullopt;
    const auto& bounds = problem.goal.bounds.shares;
    const bool any = std::any_of(problem.lots.begin(), problem.lots.end(),
                                 [&](const solve::Lot& lot) { return holds_sparkle(lot, *catalogue); });
    const bool said = std::any_of(bounds.begin(), bounds.end(), [&](const solve::ShareBound& bound) {
        return speaks_of_sparkle(bound, problem, *catalogue);
    });
    if (!any || said) return std::nullopt;
    solve::Problem held = problem;
    held.goal.bounds.shares.push_back({solve::ShareOf::family,
                                       std::string(fibre::word_for(fibre::Family::sparkle)), 0.0,
                                       100.0 * staple::most_sparkle_share});
    return held;
}

// What is asked for first, where it can be made.
template <class Answered, class Ask>
measure::Expected<Answered> first_of(const std::optional<solve::Problem>& held, const solve::Problem& problem,
                                     const Ask& ask) {
    if (held) {
        auto answer = ask(*held);
        if (!answer || answer->cancelled || !answer->conflict) return answer;
    }
    return ask(problem);
}

}  // namespace

measure::Expected<solve::Answer> answer_to(const solve::Problem& problem, const solve::Setting& setting,
                                           const solve::Control& control) {
    return first_of<solve::Answer>(
        with_little_sparkle(problem, setting.catalogue), problem,
        [&](const solve::Problem& asked) { return solve::solve(asked, setting, control); });
}

measure::Expected<solve::Series> series_for(const solve::Problem& problem,
                                            const std::vector<solve::Target>& targets,
                                            const solve::Setting& setting, const solve::Control& control) {
    return first_of<solve::Series>(
        with_little_sparkle(problem, setting.catalogue), problem,
        [&](const solve::Problem& asked) { return solve::solve_series(asked, targets, setting, control); });
}

}  // namespace battwright::shelving
