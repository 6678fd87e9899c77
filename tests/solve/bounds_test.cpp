// Whatever is asked: a proposal keeps every bound, and a conflict is one.
#include "keeping.hpp"
#include "solve/conflict.hpp"

using namespace battwright;
using namespace battwright::testing;

namespace {

// Any one bound less, and these hold together; with all of them they do not.
void check_minimal(const solve::Problem& problem, const solve::Conflict& conflict) {
    const auto all = solve::bounds_of(problem);
    const auto only = [&](const std::vector<solve::Bound>& kept) {
        std::vector<solve::Bound> rest;
        for (const auto& bound : all) {
            if (std::find(kept.begin(), kept.end(), bound) == kept.end()) rest.push_back(bound);
        }
        return *solve::feasible(solve::without(problem, rest), setting());
    };
    CHECK(!only(conflict.bounds));
    for (std::size_t k = 0; k < conflict.bounds.size(); ++k) {
        auto less = conflict.bounds;
        less.erase(less.begin() + std::ptrdiff_t(k));
        CAPTURE(conflict.bounds[k].words);
        CHECK(only(less));
    }
}

void check_change(const solve::Problem& problem, const solve::Conflict& conflict) {
    REQUIRE(!conflict.least_change.empty());
    auto mended = problem;
    for (const auto& change : conflict.least_change) mended = solve::changed(mended, change);
    const auto answer = solve::solve(mended, setting());
    REQUIRE(answer);
    REQUIRE(!answer->proposals.empty());
    check_keeps(mended, answer->proposals.front());
}

}  // namespace

TEST_CASE("proposals keep every bound and sum; conflicts are minimal and the least change mends them") {
    int proposals = 0, conflicts = 0, several = 0, unproved = 0;
    for (unsigned seed = 1; seed <= 250; ++seed) {
        CAPTURE(seed);
        Random random(seed);
        const auto problem = random_problem(random);
        const auto answer = solve::solve(problem, setting());
        REQUIRE(answer);
        CHECK(answer->conflict.has_value() == answer->proposals.empty());
        for (const auto& proposal : answer->proposals) check_keeps(problem, proposal);
        proposals += int(answer->proposals.size());
        CHECK(*solve::feasible(problem, setting()) == !answer->proposals.empty());
        if (!answer->conflict) continue;
        CAPTURE(answer->conflict->words);
        ++conflicts;
        several += answer->conflict->bounds.size() > 1;
        unproved += !answer->conflict->proved;
        check_minimal(problem, *answer->conflict);
        check_change(problem, *answer->conflict);
    }
    MESSAGE(proposals << " proposals, " << conflicts << " conflicts, " << several << " of several bounds");
    // Where a verdict hangs on whole steps, the search may be cut short.
    CHECK(unproved <= conflicts / 10);
    CHECK(conflicts >= 20);
    CHECK(several >= 10);
}
