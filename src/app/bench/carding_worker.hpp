// Cards the batt on a thread of its own, so that the window never waits for it. No display, no OpenGL.
#pragma once

#include <functional>
#include <memory>
#include <utility>
#include <vector>

#include "app/look.hpp"
#include "forecast/batt.hpp"
#include "jobs/latest.hpp"
#include "strip/drum.hpp"
#include "strip/simulated.hpp"
#include "strip/table.hpp"

namespace battwright::app {

// What is to be looked at. `version` names the forecast: the same number, the same forecast.
struct CardingRequest {
    std::shared_ptr<const forecast::Forecast> forecast;
    unsigned long version = 0;
    int pass = 1;
    StripView view = StripView::edge;
    // Of the yarn: how the batt is taken to the wheel, and which stretch is on show.
    carding::Pull pull = carding::Pull::torn_lengthwise;
    strip::YarnFrame frame{};
    // Of what is seen whole in the strip.
    strip::TableCanvas canvas{};
    bool all_passes = false;  // and the batt's face after each of them
    bool same_as(const CardingRequest& other) const {
        const bool same_batt = version == other.version && pass == other.pass && view == other.view &&
                               all_passes == other.all_passes;
        if (!same_batt) return false;
        if (!strip::fills_strip(view) && !(canvas == other.canvas)) return false;
        return !is_yarn(view) || (pull == other.pull && frame == other.frame);
    }
};

struct Carded {
    unsigned long version = 0;
    int pass = 1;
    StripView view = StripView::edge;
    bool coarse = false;                         // a first answer; the full one follows
    strip::Scene scene;                          // of the batt's views
    strip::YarnScene yarn;                       // of the yarn's
    std::vector<std::vector<colour::Srgb>> run;  // the colours of each ply along all of it
    strip::TablePicture whole;                   // of those that are seen whole
    std::shared_ptr<const forecast::Batt> batt;  // with all its passes
    strip::DrumPicture drum;
    std::vector<strip::Scene> faces;          // after each pass up to that one, when all were asked for
    std::vector<carding::Measures> measures;  // one a simulated pass, each with its number
    carding::OverCarding over_carding;
};
// As far as the worker has got. `carded` may be of an older sheet, or null.
struct CardedShown {
    std::shared_ptr<const Carded> carded;
    bool settled = true;  // false: a better or a newer one is being made
};
const carding::Measures* measures_of(const Carded& carded, int pass);

// The answer to a request, made here and now: the same as the worker's.
Carded carded(const CardingRequest& request, bool coarse, int threads = 0);

// For a new forecast there are two answers, coarse and full; the full one waits a moment for a hand that is
// still moving.
class CardingWorker {
  public:
    using Worker = jobs::Latest<CardingRequest, Carded>;
    // `ready` is called on the worker's thread after every answer. Going away waits for the step it is in.
    explicit CardingWorker(std::function<void()> ready = {});

    void ask(CardingRequest request) { worker_.ask(std::move(request)); }
    Worker::State state() const { return worker_.state(); }

  private:
    void answer(const CardingRequest& request, const Worker::Turn& turn);

    // Only the thread touches these: the full batt made last, and what it was made of.
    std::shared_ptr<const forecast::Batt> batt_;
    unsigned long batt_version_ = 0;
    int batt_passes_ = 0;
    Worker worker_;  // last: it uses all of the above
};

}  // namespace battwright::app
