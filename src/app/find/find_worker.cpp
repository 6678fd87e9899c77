#include "app/find/find_worker.hpp"

#include <algorithm>
#include <chrono>
#include <utility>

#include "colour/spaces.hpp"
#include "shelving/answer.hpp"
#include "shelving/photo.hpp"
#include "strip/simulated.hpp"

namespace battwright::app {
namespace {

// How long a request waits for another one. While a colour is dragged, requests come faster than this.
constexpr std::chrono::milliseconds choice_rests{120};
// A redraw for every such part of a search.
constexpr double told_step = 0.02;

// As far as a gamut is concerned: how much there is of a lot does not matter.
bool same_colours(const std::vector<solve::Lot>& a, const std::vector<solve::Lot>& b) {
    return std::equal(a.begin(), a.end(), b.begin(), b.end(), [](const solve::Lot& one, const auto& other) {
        return one.content == other.content && one.palette == other.palette;
    });
}

colour::Srgb seen_under(const colour::Spectrum& reflectance, colour::Light light) {
    return colour::encoded(forecast::seen(reflectance, light));
}

// Finer for few lots: a survey of many takes its time.
int detail_for(std::size_t lots) {
    return lots <= 60 ? 3 : 2;
}

}  // namespace

const solve::Target* target_of(const FoundBlends& found, std::size_t index) {
    if (!found.problem.targets.empty())
        return index < found.problem.targets.size() ? &found.problem.targets[index] : nullptr;
    const auto& target = found.problem.problem.goal.target;
    return target ? &*target : nullptr;
}

FindWorker::FindWorker(std::function<void()> ready)
    : ready_(ready),
      worker_([this](const FindRequest& request, const Worker::Turn& turn) { answer(request, turn); },
              std::move(ready)) {}

FindWorker::State FindWorker::state() const {
    auto [latest, number, busy] = worker_.state();
    const std::lock_guard lock(mutex_);
    if (status_.number != asked_) return {std::move(latest), busy, 0.0, {}};
    return {std::move(latest), busy, status_.done, status_.doing};
}

void FindWorker::answer(const FindRequest& request, const Worker::Turn& turn) {
    if (!turn.rest(choice_rests)) return;
    FoundBlends found;
    const auto show = [&] {
        turn.publish(std::make_shared<const FoundBlends>(found), jobs::Late::unless_newer);
    };
    found.number = turn.number();
    found.problem = request.problem;
    find(request, turn, found);
    if (turn.outdated() && !found.cancelled) return;
    show();
    if (found.cancelled || found.complaint) return;
    survey(request, turn, found);
    if (turn.outdated()) return;
    show();
    if (request.strip_width <= 0) return;
    for (FoundBlend& blend : found.blends) {
        const auto& forecast = blend.suggestion.forecast;
        const auto scene = strip::carded_scene(forecast, forecast.recipe.carding.passes);
        // One core stays with the window.
        blend.strip = strip::draw(scene, request.strip_width, request.strip_height, 1);
        if (turn.outdated()) return;
        show();
    }
}

void FindWorker::find(const FindRequest& request, const Worker::Turn& turn, FoundBlends& found) {
    const FindProblem& problem = request.problem;
    const solve::Setting setting{request.catalogue, request.hands.applied_to({})};
    const solve::Control control{turn.stop_token(),
                                 [&](const solve::Progress& progress) { tell(turn, progress); }};
    std::vector<solve::Proposal> proposals;
    if (problem.targets.empty()) {
        auto answer = shelving::answer_to(problem.problem, setting, control);
        if (!answer) {
            found.complaint = answer.error();
            return;
        }
        proposals = std::move(answer->proposals);
        found.conflict = std::move(answer->conflict);
        found.cancelled = answer->cancelled;
    } else {
        auto series = shelving::series_for(problem.problem, problem.targets, setting, control);
        if (!series) {
            found.complaint = series.error();
            return;
        }
        proposals = std::move(series->batts);
        found.conflict = std::move(series->conflict);
        found.conflict_at = series->conflict_at;
        found.cancelled = series->cancelled;
    }
    forecast::Bench bench;
    bench.catalogue = request.catalogue;
    bench.calibration = request.calibration;
    shelving::lay_on(request.hands, bench);
    auto suggestions = shelving::suggestions_of(problem.stock, proposals, request.name, bench);
    if (!suggestions) {
        found.complaint = suggestions.error();
        return;
    }
    const colour::Light second = problem.problem.goal.second_light;
    for (auto& one : *suggestions) {
        FoundBlend blend{std::move(one), {}, {}, {}};
        if (const solve::Target* target = target_of(found, found.blends.size())) {
            const auto& got = blend.suggestion.proposal.reflectance;
            blend.daylight = {colour::Light::d65, colour::srgb_from(target->lab),
                              seen_under(got, colour::Light::d65)};
            blend.second = {second, seen_under(target->reflectance, second), seen_under(got, second)};
        }
        found.blends.push_back(std::move(blend));
    }
}

void FindWorker::survey(const FindRequest& request, const Worker::Turn& turn, FoundBlends& found) {
    const auto& lots = request.problem.problem.lots;
    const solve::Setting setting{request.catalogue, request.hands.applied_to({})};
    if (!gamut_ || !same_colours(lots, surveyed_) || request.hands != surveyed_by_) {
        auto gamut = solve::gamut_of(lots, setting, {detail_for(lots.size())});
        if (!gamut) return;
        gamut_ = std::make_shared<const solve::Gamut>(std::move(*gamut));
        surveyed_ = lots;
        surveyed_by_ = request.hands;
    }
    found.gamut = gamut_;
    const auto& target = request.problem.problem.goal.target;
    if (!target || !request.problem.targets.empty() || turn.outdated()) return;
    auto reach = solve::distance_to_gamut(lots, *target, setting);
    if (!reach) return;
    std::vector<solve::Proposal> proposals;
    for (const auto& blend : found.blends) proposals.push_back(blend.suggestion.proposal);
    solve::hold(*reach, proposals);
    found.reach = std::move(*reach);
}

void FindWorker::tell(const Worker::Turn& turn, const solve::Progress& progress) {
    if (turn.outdated()) return;
    const bool begun = status_.number == turn.number() && status_.done > 0.0;
    if (begun && progress.done < status_.done + told_step) return;
    {
        const std::lock_guard lock(mutex_);
        status_ = {turn.number(), progress.done, std::string(progress.doing)};
    }
    if (ready_) ready_();
}

}  // namespace battwright::app
