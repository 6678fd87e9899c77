// Looks for blends on a thread of its own, so that the window never waits for it. No display, no OpenGL.
#pragma once

#include <functional>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "app/find/find_choice.hpp"
#include "jobs/latest.hpp"
#include "shelving/suggestion.hpp"
#include "solve/gamut.hpp"
#include "stash/hands.hpp"
#include "strip/picture.hpp"

namespace battwright::app {

struct FindRequest {
    FindProblem problem;
    std::string name;                             // of the batts found
    const fibre::Catalogue* catalogue = nullptr;  // outlives the worker
    yarn::Calibration calibration;                // for their forecasts
    int strip_width = 0, strip_height = 0;        // pixels; 0: no pictures
    stash::Hands hands{};                         // what photos of batts have taught
};

// A colour wanted and what comes out, seen under one light.
struct SeenPair {
    colour::Light light = colour::Light::d65;
    colour::Srgb wanted, got;
};
struct FoundBlend {
    shelving::Suggestion suggestion;
    std::optional<SeenPair> daylight, second;  // with a target: under D65 and under the goal's second light
    strip::Image strip;                        // empty until it is drawn
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
// What the blend of that index aims at; nullptr when nothing.
const solve::Target* target_of(const FoundBlends& found, std::size_t index);

// A search for an older request is stopped where it is. An answer grows: first the blends, then the gamut,
// then their pictures.
class FindWorker {
  public:
    // `ready` is called on the thread after every answer, and now and then while it searches. Going away
    // stops the search and waits for the thread.
    explicit FindWorker(std::function<void()> ready = {});

    // The number by which the answer will be known, counted from 1.
    unsigned long ask(FindRequest request) { return asked_ = worker_.ask(std::move(request)); }
    // Stops the search under way; what it has found so far is kept.
    void cancel() { worker_.cancel(); }

    struct State {
        std::shared_ptr<const FoundBlends> latest;  // null before the first answer
        bool busy = false;
        double done = 0.0;  // 0..1, of the search under way
        std::string doing;
    };
    State state() const;

  private:
    using Worker = jobs::Latest<FindRequest, FoundBlends>;
    void answer(const FindRequest& request, const Worker::Turn& turn);
    void find(const FindRequest& request, const Worker::Turn& turn, FoundBlends& found);
    void survey(const FindRequest& request, const Worker::Turn& turn, FoundBlends& found);
    void tell(const Worker::Turn& turn, const solve::Progress& progress);

    std::function<void()> ready_;
    unsigned long asked_ = 0;
    // How far the search has got; the thread alone changes it.
    struct Status {
        unsigned long number = 0;  // of the request
        double done = 0.0;
        std::string doing;
    };
    mutable std::mutex mutex_;
    Status status_;
    // Only the thread touches these: the gamut surveyed last, and of which lots.
    std::vector<solve::Lot> surveyed_;
    stash::Hands surveyed_by_;
    std::shared_ptr<const solve::Gamut> gamut_;
    Worker worker_;  // last: it uses all of the above
};

}  // namespace battwright::app
