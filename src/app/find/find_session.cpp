#include "app/find/find_session.hpp"

#include <algorithm>
#include <chrono>
#include <utility>

#include "recipe/file.hpp"
#include "stash/date.hpp"

namespace battwright::app {
namespace {

// As many lots as are priced within a frame: a query of the file each.
constexpr std::size_t priced_a_frame = 200;
// Of the strips under the blends, in pixels.
constexpr int found_strip_width = 460, found_strip_height = 56;

std::string name_for(const Sheet& sheet, const FindChoice& choice) {
    if (!sheet.recipe.name.empty()) return sheet.recipe.name;
    if (choice.colour == FindColour::any) return "Scraps";
    return "Match for " + colour::hex(choice.target.colour);
}

}  // namespace

void FindSession::open(const Sheet& sheet, const Outcome& outcome, bool shelf_is_empty,
                       std::function<void()> wake) {
    const bool first = !worker_;
    if (first) worker_ = std::make_unique<FindWorker>(std::move(wake));
    asked_.forget();
    if (shelf_is_empty && !sheet.recipe.components.empty()) choice.from = FindFrom::batt;
    if (!first || !outcome.forecast) return;
    choice.target = wanted_of(outcome.forecast->colour.reflectance);
}

void FindSession::price_some(StockMade& made, StashSession& stash) {
    const auto& lots = stash.shelf().lots;
    const std::size_t end = std::min(lots.size(), made.priced.size() + priced_a_frame);
    for (std::size_t i = made.priced.size(); i < end; ++i)
        made.priced.push_back(
            {lots[i],
             shelving::cost_per_gram(*lots[i], stash.movements_of(lots[i]->lot.mark), stash.currency())});
}

void FindSession::finish(StockMade& made, shelving::Stock stock, const fibre::Catalogue& catalogue) {
    made.stock = std::make_shared<const shelving::Stock>(std::move(stock));
    made.bound_words = bounded_words(*made.stock, catalogue);
    made.priced.clear();
}

bool FindSession::follow(const Sheet& sheet, StashSession& stash, const fibre::Catalogue& catalogue,
                         const Settings& settings) {
    const bool of_shelf = choice.from == FindFrom::shelf;
    const double scrap_grams = stash.choice().filter.scrap_grams;
    StockInputs inputs{choice.from, of_shelf ? stash.version() : 0, scrap_grams, {}};
    if (!of_shelf) inputs.recipe = sheet.recipe;
    of_.of(std::move(inputs), [this](const StockInputs&, bool&) { made_ = {}; });
    if (!made_.stock && !of_shelf)
        finish(made_, shelving::stock_of(sheet.recipe).value_or(shelving::Stock{}), catalogue);
    if (!made_.stock) {
        price_some(made_, stash);
        if (made_.priced.size() < stash.shelf().lots.size()) return true;
        const auto today = stash::parse_date(stash::today()).value_or(std::chrono::sys_days{});
        finish(made_, shelving::stock_of(made_.priced, today, scrap_grams), catalogue);
    }
    rows_.of({made_.stock, choice.words, choice.scraps_only},
             [&](const RowsInputs& key, std::vector<std::size_t>& rows) {
                 rows = listed(choice, *key.stock, catalogue);
             });
    asked_.of({made_.stock, choice, stash.hands().hands},
              [&](const AskedInputs&, unsigned long&) { ask(sheet, stash, catalogue, settings); });
    shown_ = worker_->state();
    return false;
}

void FindSession::ask(const Sheet& sheet, const StashSession& stash, const fibre::Catalogue& catalogue,
                      const Settings& settings) {
    stopped_ = false;
    complaint_.reset();
    auto problem =
        problem_of(choice, *made_.stock, recipe::carder_of(sheet.recipe.carding), catalogue, settings.mass);
    if (!problem) {
        complaint_ = problem.error();
        worker_->cancel();
        return;
    }
    problem->stock.frame = shelving::frame_of(sheet.recipe);  // carded and spun as the one on the bench
    worker_->ask({std::move(*problem), name_for(sheet, choice), &catalogue, stash.calibration(),
                  found_strip_width, found_strip_height, stash.hands().hands});
}

void FindSession::close() {
    if (!worker_ || !shown_.busy) return;
    worker_->cancel();
    asked_.forget();
    shown_.busy = false;
}

void FindSession::stop() {
    worker_->cancel();
    stopped_ = true;
}

bool FindSession::has_news() const {
    if (!worker_) return false;
    const auto now = worker_->state();
    return now.latest != shown_.latest || now.busy != shown_.busy || now.done != shown_.done;
}

}  // namespace battwright::app
