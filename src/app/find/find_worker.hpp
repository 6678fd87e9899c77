// Looks for blends on a thread of its own, so that the window never waits for it. No display, no OpenGL.
#pragma once

#include <condition_variable>
#include <functional>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <thread>
#include <vector>

#include "app/find/find_choice.hpp"
#include "shelving/suggestion.hpp"
#include "solve/gamut.hpp"
#include "strip/picture.hpp"

namespace battwright::app {

struct FindRequest {
    FindProblem problem;
    std::string name;                             // of the batts found
    const fibre::Catalogue* catalogue = nullptr;  // outlives the worker
    yarn::Calibration calibration;                // for their forecasts
    int strip_width = 0, strip_height = 0;        // pixels; 0: no pictures
};

struct FoundBlend {
    shelving::Suggestion suggestion;
    strip::Image strip;  // empty until it is drawn
};
struct FoundBlends {
    unsigned long number = 0;  // of the request it answers
    FindProblem problem;
    std::vector<FoundBlend> blends;  // best first; of a gradient one a colour
    std::optional<solve::Conflict> conflict;
    std::size_t conflict_at = 0;                  // of a gradient: which batt
    std::optional<measure::Complaint> complaint;  // the engine would not take the problem
    bool cancelled = false;
    std::shared_ptr<const solve::Gamut> gamut;  // of the lots; null until it is surveyed
    std::optional<solve::Reach> reach;          // of a single target
};

// One thread. The latest request wins: a search for an older one is stopped where it is. An answer grows:
// first the blends, then the gamut, then their pictures.
class FindWorker {
  public:
    // `ready` is called on the thread after every answer, and now and then while it searches.
    explicit FindWorker(std::function<void()> ready = {});
    // Stops the search and waits for the thread.
    ~FindWorker();
    FindWorker(const FindWorker&) = delete;
    FindWorker& operator=(const FindWorker&) = delete;

    // The number by which the answer will be known, counted from 1.
    unsigned long ask(FindRequest request);
    // Stops the search under way; what it has found so far is kept.
    void cancel();

    struct State {
        std::shared_ptr<const FoundBlends> latest;  // null before the first answer
        bool busy = false;
        double done = 0.0;  // 0..1, of the search under way
        std::string doing;
    };
    State state() const;

  private:
    struct Numbered {
        unsigned long number = 0;
        FindRequest request;
        std::stop_source stop;
    };
    void work(const std::stop_token& stop);
    void answer(const Numbered& request);
    void find(const Numbered& request, FoundBlends& found);
    void survey(const Numbered& request, FoundBlends& found);
    void picture(const Numbered& request, FoundBlends& found);
    bool outdated(const Numbered& request) const;
    void tell(const Numbered& request, const solve::Progress& progress);
    void publish(const Numbered& request, const FoundBlends& found, bool last);

    std::function<void()> ready_;
    mutable std::mutex mutex_;
    std::condition_variable_any changed_;
    std::optional<Numbered> request_;  // not yet begun
    std::stop_source running_;         // of the search under way
    unsigned long asked_ = 0;
    State state_;
    // Only the thread touches these: the gamut surveyed last, and of which lots.
    std::vector<solve::Lot> surveyed_;
    std::shared_ptr<const solve::Gamut> gamut_;
    double told_ = 0.0;
    std::jthread thread_;  // last: it uses all of the above
};

}  // namespace battwright::app
