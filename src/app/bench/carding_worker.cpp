#include "app/bench/carding_worker.hpp"

#include <algorithm>
#include <chrono>
#include <thread>

#include "recipe/layout.hpp"

namespace battwright::app {
namespace {

constexpr std::size_t run_steps = 240;
// How long the full answer waits for another request. While a border is dragged, requests come faster than
// this, also where the display lets through no more than ten pictures a second.
constexpr std::chrono::milliseconds hand_rests{120};

// Passes to simulate for a request. One simulation serves all the passes, unless something is added later
// than on the first: when depends on how many passes there are.
int passes_to_card(const CardingRequest& request) {
    const recipe::Recipe& recipe = request.forecast->recipe;
    const auto& layings = recipe.carding.layings;
    bool all_at_first = std::all_of(layings.begin(), layings.end(),
                                    [&](const auto& laying) { return recipe::pass_of(recipe, laying) == 1; });
    for (const recipe::Component& component : recipe.components)
        all_at_first = all_at_first && component.add_on_pass == 1;
    // While strokes are drawn no pass is seen but the recipe's own.
    return all_at_first && !request.all_passes ? std::max(usual_passes, request.pass) : request.pass;
}

// One core stays with the window.
int spare_threads() {
    return std::max(1, static_cast<int>(std::thread::hardware_concurrency()) - 1);
}

const carding::Pass* pass_of(const forecast::Batt& batt, int number) {
    const auto found = std::find_if(batt.passes.begin(), batt.passes.end(),
                                    [number](const carding::Pass& pass) { return pass.number == number; });
    if (found != batt.passes.end()) return &*found;
    return batt.passes.empty() ? nullptr : &batt.passes.back();
}

void picture_batt(const CardingRequest& request, const forecast::Batt& batt, const carding::Pass& pass,
                  Carded& made) {
    const auto& f = *request.forecast;
    if (!strip::fills_strip(request.view)) {
        if (request.canvas.width <= 0 || request.canvas.height <= 0) return;
        strip::TableSettings ask;
        ask.view = request.view;
        ask.pull = request.pull;
        ask.passes = {pass.number};
        made.whole = strip::table_picture(f, batt, ask, request.canvas);
        return;
    }
    if (is_yarn(request.view)) {
        made.yarn =
            strip::yarn_scene(f, batt, pass, request.pull, strip::yarn_view_of(request.view), request.frame);
        made.run = strip::run_of(made.yarn, run_steps);
        return;
    }
    const auto view = request.view == StripView::edge ? strip::View::edge : strip::View::face;
    made.scene = strip::scene_of(f, strip::simulated_field(f, batt, pass, view), pass.number);
}

void picture_faces(const CardingRequest& request, const forecast::Batt& batt, Carded& made) {
    const auto& f = *request.forecast;
    for (const carding::Pass& pass : batt.passes)
        if (pass.number <= request.pass)
            made.faces.push_back(
                strip::scene_of(f, strip::simulated_field(f, batt, pass, strip::View::face), pass.number));
}

Carded pictures_of(const CardingRequest& request, const std::shared_ptr<const forecast::Batt>& whole,
                   bool coarse) {
    const forecast::Batt& batt = *whole;
    const auto& f = *request.forecast;
    Carded made;
    made.version = request.version;
    made.pass = request.pass;
    made.view = request.view;
    made.coarse = coarse;
    made.batt = whole;
    made.measures = batt.measures;
    made.over_carding = batt.over_carding;
    if (const carding::Pass* pass = pass_of(batt, request.pass)) {
        picture_batt(request, batt, *pass, made);
        made.drum = strip::drum_picture(f, batt, *pass);
        if (request.all_passes) picture_faces(request, batt, made);
    } else {
        made.scene = strip::scene_of(f, strip::ideal_field(f), request.pass);
    }
    return made;
}

}  // namespace

const carding::Measures* measures_of(const Carded& carded, int pass) {
    const auto found = std::find_if(carded.measures.begin(), carded.measures.end(),
                                    [pass](const carding::Measures& m) { return m.pass == pass; });
    return found == carded.measures.end() ? nullptr : &*found;
}

Carded carded(const CardingRequest& request, bool coarse, int threads) {
    auto batt = std::make_shared<const forecast::Batt>(
        forecast::batt_of(*request.forecast, {passes_to_card(request), coarse, threads}));
    return pictures_of(request, batt, coarse);
}

CardingWorker::CardingWorker(std::function<void()> ready)
    : worker_([this](const CardingRequest& request, const Worker::Turn& turn) { answer(request, turn); },
              std::move(ready)) {}

void CardingWorker::answer(const CardingRequest& request, const Worker::Turn& turn) {
    const auto show = [&turn](Carded made) {
        turn.publish(std::make_shared<const Carded>(std::move(made)), jobs::Late::shown);
    };
    const int passes = passes_to_card(request);
    if (request.version != batt_version_ || passes != batt_passes_) {
        show(carded(request, true, spare_threads()));
        if (!turn.rest(hand_rests)) return;
        batt_ = std::make_shared<const forecast::Batt>(
            forecast::batt_of(*request.forecast, {passes, false, spare_threads()}));
        batt_version_ = request.version;
        batt_passes_ = passes;
    }
    if (!turn.outdated()) show(pictures_of(request, batt_, false));
}

}  // namespace battwright::app
