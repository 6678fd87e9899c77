#include "app/find/find_worker.hpp"

#include <algorithm>
#include <chrono>
#include <utility>

#include "strip/simulated.hpp"

namespace battwright::app {
namespace {

// How long a request waits for another one. While a colour is dragged, requests come faster than this.
constexpr std::chrono::milliseconds choice_rests{120};
// A redraw for every such part of a search.
constexpr double told_step = 0.02;

bool same(const recipe::Content& a, const recipe::Content& b) {
    return a.fibre == b.fibre && a.share_pct == b.share_pct;
}
bool same(const recipe::Tint& a, const recipe::Tint& b) {
    return a.colour == b.colour && a.share_pct == b.share_pct;
}
template <class Entry>
bool same(const std::vector<Entry>& a, const std::vector<Entry>& b) {
    return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                      [](const Entry& one, const Entry& other) { return same(one, other); });
}
// As far as a gamut is concerned: how much there is of a lot does not matter.
bool same_colours(const std::vector<solve::Lot>& a, const std::vector<solve::Lot>& b) {
    return std::equal(a.begin(), a.end(), b.begin(), b.end(), [](const solve::Lot& one, const auto& other) {
        return same(one.content, other.content) && same(one.palette, other.palette);
    });
}

// Finer for few lots: a survey of many takes its time.
int detail_for(std::size_t lots) {
    return lots <= 60 ? 3 : 2;
}

}  // namespace

FindWorker::FindWorker(std::function<void()> ready)
    : ready_(std::move(ready)), thread_([this](const std::stop_token& stop) { work(stop); }) {}

FindWorker::~FindWorker() {
    thread_.request_stop();
    const std::lock_guard lock(mutex_);
    running_.request_stop();
}

unsigned long FindWorker::ask(FindRequest request) {
    unsigned long number = 0;
    {
        const std::lock_guard lock(mutex_);
        number = ++asked_;
        running_.request_stop();
        request_ = Numbered{number, std::move(request), {}};
        state_.busy = true;
        state_.done = 0.0;
        state_.doing.clear();
    }
    changed_.notify_all();
    return number;
}

void FindWorker::cancel() {
    {
        const std::lock_guard lock(mutex_);
        request_.reset();
        running_.request_stop();
        state_.busy = false;
    }
    changed_.notify_all();
}

FindWorker::State FindWorker::state() const {
    const std::lock_guard lock(mutex_);
    return state_;
}

void FindWorker::work(const std::stop_token& stop) {
    while (!stop.stop_requested()) {
        std::optional<Numbered> request;
        {
            std::unique_lock lock(mutex_);
            if (!changed_.wait(lock, stop, [this] { return request_.has_value(); })) return;
            const unsigned long number = request_->number;
            const auto moved_on = [&] { return !request_ || request_->number != number; };
            if (changed_.wait_for(lock, stop, choice_rests, moved_on)) continue;
            if (stop.stop_requested()) return;
            request = std::exchange(request_, std::nullopt);
            running_ = request->stop;
        }
        answer(*request);
    }
}

void FindWorker::answer(const Numbered& request) {
    FoundBlends found;
    found.number = request.number;
    found.problem = request.request.problem;
    told_ = 0.0;
    find(request, found);
    if (outdated(request) && !found.cancelled) return;
    publish(request, found, found.cancelled || found.complaint);
    if (found.cancelled || found.complaint) return;
    survey(request, found);
    if (outdated(request)) return;
    publish(request, found, found.blends.empty());
    picture(request, found);
}

void FindWorker::find(const Numbered& request, FoundBlends& found) {
    const FindProblem& problem = request.request.problem;
    const solve::Setting setting{request.request.catalogue, {}};
    const solve::Control control{request.stop.get_token(),
                                 [&](const solve::Progress& progress) { tell(request, progress); }};
    std::vector<solve::Proposal> proposals;
    if (problem.targets.empty()) {
        auto answer = solve::solve(problem.problem, setting, control);
        if (!answer) {
            found.complaint = answer.error();
            return;
        }
        proposals = std::move(answer->proposals);
        found.conflict = std::move(answer->conflict);
        found.cancelled = answer->cancelled;
    } else {
        auto series = solve::solve_series(problem.problem, problem.targets, setting, control);
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
    bench.catalogue = request.request.catalogue;
    bench.calibration = request.request.calibration;
    auto suggestions = shelving::suggestions_of(problem.stock, proposals, request.request.name, bench);
    if (!suggestions) {
        found.complaint = suggestions.error();
        return;
    }
    for (auto& one : *suggestions) found.blends.push_back({std::move(one), {}});
}

void FindWorker::survey(const Numbered& request, FoundBlends& found) {
    const auto& lots = request.request.problem.problem.lots;
    const solve::Setting setting{request.request.catalogue, {}};
    if (!gamut_ || !same_colours(lots, surveyed_)) {
        auto gamut = solve::gamut_of(lots, setting, {detail_for(lots.size())});
        if (!gamut) return;
        gamut_ = std::make_shared<const solve::Gamut>(std::move(*gamut));
        surveyed_ = lots;
    }
    found.gamut = gamut_;
    const auto& target = request.request.problem.problem.goal.target;
    if (!target || !request.request.problem.targets.empty() || outdated(request)) return;
    auto reach = solve::distance_to_gamut(lots, *target, setting);
    if (!reach) return;
    std::vector<solve::Proposal> proposals;
    for (const auto& blend : found.blends) proposals.push_back(blend.suggestion.proposal);
    solve::hold(*reach, proposals);
    found.reach = std::move(*reach);
}

void FindWorker::picture(const Numbered& request, FoundBlends& found) {
    if (request.request.strip_width <= 0) return publish(request, found, true);
    for (std::size_t i = 0; i < found.blends.size(); ++i) {
        const auto& forecast = found.blends[i].suggestion.forecast;
        const auto scene = strip::carded_scene(forecast, forecast.recipe.carding.passes);
        // One core stays with the window.
        found.blends[i].strip =
            strip::draw(scene, request.request.strip_width, request.request.strip_height, 1);
        if (outdated(request)) return;
        publish(request, found, i + 1 == found.blends.size());
    }
}

bool FindWorker::outdated(const Numbered& request) const {
    return request.stop.stop_requested();
}

void FindWorker::tell(const Numbered& request, const solve::Progress& progress) {
    if (progress.done < told_ + told_step && told_ > 0.0) return;
    told_ = progress.done;
    {
        const std::lock_guard lock(mutex_);
        if (asked_ != request.number) return;
        state_.done = progress.done;
        state_.doing = progress.doing;
    }
    if (ready_) ready_();
}

void FindWorker::publish(const Numbered& request, const FoundBlends& found, bool last) {
    {
        const std::lock_guard lock(mutex_);
        if (asked_ != request.number) return;
        state_.latest = std::make_shared<const FoundBlends>(found);
        if (last) state_.busy = false;
    }
    if (ready_) ready_();
}

}  // namespace battwright::app
