#include "app/bench/carding_worker.hpp"

#include <algorithm>
#include <chrono>
#include <utility>

namespace battwright::app {
namespace {

// The strip can be looked at after one to four passes, or as many as the recipe says.
constexpr int usual_passes = 4;
// How long the full answer waits for another wish. While a border is dragged, wishes come faster than this.
constexpr std::chrono::milliseconds hand_rests{60};

// Passes to simulate for a wish. One simulation serves all the passes, unless something is added later than
// on the first: when depends on how many passes there are.
int passes_to_card(const CardingWish& wish) {
    const auto& components = wish.forecast->recipe.components;
    const bool all_at_first = std::all_of(components.begin(), components.end(),
                                          [](const auto& component) { return component.add_on_pass == 1; });
    return all_at_first ? std::max(usual_passes, wish.pass) : wish.pass;
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

// Round the drum and through its depth, as a field the picture's own colours can be asked for.
strip::Field cross_section(const forecast::Forecast& f, const forecast::Batt& batt,
                           const carding::Pass& pass) {
    const carding::Grid& grid = pass.field.grid;
    strip::Field field{
        static_cast<int>(grid.round), static_cast<int>(grid.depth), static_cast<int>(f.strands.size()), {}};
    std::vector<double> portions(pass.field.portions);
    for (std::size_t z = 0; z < grid.depth; ++z) {
        for (std::size_t x = 0; x < grid.round; ++x) {
            std::fill(portions.begin(), portions.end(), 0.0);
            for (std::size_t p = 0; p < portions.size(); ++p) {
                for (std::size_t y = 0; y < grid.across; ++y) portions[p] += pass.field.at(p, x, y, z);
                portions[p] /= static_cast<double>(grid.across);
            }
            const auto cell = carding::strand_shares(batt.portions, f.strands, portions);
            field.shares.insert(field.shares.end(), cell.begin(), cell.end());
        }
    }
    return field;
}

DrumPicture drum_of(const forecast::Forecast& f, const strip::Field& field, int pass) {
    DrumPicture drum;
    drum.round = static_cast<std::size_t>(field.columns);
    drum.depth = static_cast<std::size_t>(field.rows);
    drum.components = f.components.size();
    const std::size_t cells = drum.round * drum.depth, strands = f.strands.size();
    drum.shares.assign(cells * drum.components, 0.0f);
    for (std::size_t cell = 0; cell < cells; ++cell) {
        for (std::size_t s = 0; s < strands; ++s)
            drum.shares[cell * drum.components + f.strands[s].component] +=
                static_cast<float>(field.shares[cell * strands + s]);
    }
    const auto scene = strip::scene_of(f, field, pass);
    for (std::size_t cell = 0; cell < cells; ++cell) {
        const float* at = scene.cells.data() + 4 * cell;
        drum.colours.push_back(colour::encoded({double{at[0]}, double{at[1]}, double{at[2]}}));
    }
    return drum;
}

strip::YarnView yarn_view(StripView view) {
    if (view == StripView::single) return strip::YarnView::single;
    return view == StripView::plied ? strip::YarnView::plied : strip::YarnView::swatch;
}

void picture_batt(const CardingWish& wish, const forecast::Batt& batt, const carding::Pass& pass,
                  Carded& made) {
    const auto& f = *wish.forecast;
    if (is_yarn(wish.view)) {
        made.yarn = strip::yarn_scene(f, batt, pass, wish.pull, yarn_view(wish.view), wish.frame);
        return;
    }
    const auto view = wish.view == StripView::edge ? strip::View::edge : strip::View::face;
    made.scene = strip::scene_of(f, strip::simulated_field(f, batt, pass, view), pass.number);
}

Carded pictures_of(const CardingWish& wish, const forecast::Batt& batt, bool coarse) {
    const auto& f = *wish.forecast;
    Carded made;
    made.version = wish.version;
    made.pass = wish.pass;
    made.view = wish.view;
    made.coarse = coarse;
    made.measures = batt.measures;
    made.over_carding = batt.over_carding;
    if (const carding::Pass* pass = pass_of(batt, wish.pass)) {
        picture_batt(wish, batt, *pass, made);
        made.drum = drum_of(f, cross_section(f, batt, *pass), pass->number);
    } else {
        made.scene = strip::scene_of(f, strip::ideal_field(f), wish.pass);
    }
    return made;
}

}  // namespace

std::string_view word_for(StripView view) {
    if (is_yarn(view)) return strip::word_for(yarn_view(view));
    return view == StripView::edge ? "torn edge" : "batt face";
}

const carding::Measures* measures_of(const Carded& carded, int pass) {
    const auto found = std::find_if(carded.measures.begin(), carded.measures.end(),
                                    [pass](const carding::Measures& m) { return m.pass == pass; });
    return found == carded.measures.end() ? nullptr : &*found;
}

Carded carded(const CardingWish& wish, bool coarse, int threads) {
    const auto batt = forecast::batt_of(*wish.forecast, {passes_to_card(wish), coarse, threads});
    return pictures_of(wish, batt, coarse);
}

CardingWorker::CardingWorker(std::function<void()> ready)
    : ready_(std::move(ready)), thread_([this](const std::stop_token& stop) { work(stop); }) {}

CardingWorker::~CardingWorker() = default;  // the jthread asks to stop, wakes the wait and joins

void CardingWorker::ask(CardingWish wish) {
    {
        const std::lock_guard lock(mutex_);
        wish_ = std::move(wish);
        state_.busy = true;
    }
    changed_.notify_all();
}

CardingWorker::State CardingWorker::state() const {
    const std::lock_guard lock(mutex_);
    return state_;
}

void CardingWorker::work(const std::stop_token& stop) {
    while (!stop.stop_requested()) {
        std::optional<CardingWish> wish;
        {
            std::unique_lock lock(mutex_);
            if (!changed_.wait(lock, stop, [this] { return wish_.has_value(); })) return;
            wish = std::exchange(wish_, std::nullopt);
        }
        answer(stop, *wish);
    }
}

void CardingWorker::answer(const std::stop_token& stop, const CardingWish& wish) {
    const int passes = passes_to_card(wish);
    if (wish.version != batt_version_ || passes != batt_passes_) {
        publish(carded(wish, true, spare_threads()), false);
        {
            std::unique_lock lock(mutex_);
            if (changed_.wait_for(lock, stop, hand_rests, [this] { return wish_.has_value(); })) return;
        }
        if (stop.stop_requested()) return;
        batt_ = forecast::batt_of(*wish.forecast, {passes, false, spare_threads()});
        batt_version_ = wish.version;
        batt_passes_ = passes;
    }
    if (outdated(stop)) return;
    publish(pictures_of(wish, batt_, false), true);
}

bool CardingWorker::outdated(const std::stop_token& stop) const {
    const std::lock_guard lock(mutex_);
    return wish_.has_value() || stop.stop_requested();
}

void CardingWorker::publish(Carded made, bool last) {
    {
        const std::lock_guard lock(mutex_);
        state_.latest = std::make_shared<const Carded>(std::move(made));
        if (last && !wish_) state_.busy = false;
    }
    if (ready_) ready_();
}

}  // namespace battwright::app
