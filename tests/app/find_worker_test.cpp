// Blends looked for on a thread: the answer, the latest request, and a search that is stopped.
#include "app/find/find_worker.hpp"

#include <doctest/doctest.h>

#include <atomic>
#include <chrono>
#include <random>
#include <thread>

#include "harbour.hpp"
#include "stash/date.hpp"

using namespace battwright;
using app::FindWorker;

namespace {

const fibre::Catalogue& worker_catalogue() {
    return fibre::Catalogue::builtin();
}

// `times` the harbour's shelf, each copy in colours of its own.
shelving::Stock shelf(int times) {
    std::mt19937 dice(7);
    std::vector<shelving::PricedLot> lots;
    for (int copy = 0; copy < times; ++copy) {
        for (const auto& bag : harbour::bags()) {
            stash::Shelved one{harbour::lot_of(bag), bag.grams, std::nullopt};
            one.lot.mark = bag.name + std::to_string(copy);
            for (auto& tint : one.lot.palette)
                if (copy > 0) tint.colour.g = static_cast<double>(dice() % 256) / 255.0;
            lots.push_back({std::make_shared<const stash::Shelved>(std::move(one)), std::nullopt});
        }
    }
    return shelving::stock_of(lots, *stash::parse_date("2026-01-01"));
}

app::FindRequest request_for(const shelving::Stock& stock, const char* colour, const char* total = "80 g") {
    app::FindChoice choice;
    choice.use_up = app::UseUpWhat::nothing;
    choice.colour = app::FindColour::one;
    choice.target.colour = colour::parse_hex(colour).value();
    choice.total = total;
    app::FindRequest request;
    request.problem = app::problem_of(choice, stock, recipe::carder_presets()[1], worker_catalogue(),
                                      measure::MassUnit::gram)
                          .value();
    request.name = "Tide line";
    request.catalogue = &worker_catalogue();
    return request;
}

template <class Done>
bool wait_until(const Done& done, std::chrono::seconds most = std::chrono::seconds(60)) {
    const auto end = std::chrono::steady_clock::now() + most;
    while (std::chrono::steady_clock::now() < end) {
        if (done()) return true;
        std::this_thread::sleep_for(std::chrono::milliseconds(2));
    }
    return false;
}

}  // namespace

TEST_CASE("an answer holds blends with their forecasts, the gamut, and pictures at last") {
    std::atomic<int> woken{0};
    FindWorker worker([&] { ++woken; });
    CHECK_FALSE(worker.state().busy);
    auto request = request_for(shelf(1), "#6b7f5c");
    request.strip_width = 120;
    request.strip_height = 20;
    const auto number = worker.ask(request);
    CHECK(worker.state().busy);
    REQUIRE(wait_until([&] { return !worker.state().busy; }));
    const auto found = worker.state().latest;
    REQUIRE(found);
    CHECK(found->number == number);
    CHECK_FALSE(found->conflict);
    CHECK_FALSE(found->cancelled);
    REQUIRE_FALSE(found->blends.empty());
    CHECK(found->blends.size() <= 5);
    for (const auto& blend : found->blends) {
        CHECK(blend.suggestion.forecast.total_grams == doctest::Approx(80.0));
        CHECK(blend.suggestion.proposal.delta_e);
        CHECK(blend.strip.width == 120);
        CHECK(blend.strip.rgb.size() == 120u * 20u * 3u);
    }
    REQUIRE(found->gamut);
    CHECK(found->gamut->points.size() > 100);
    REQUIRE(found->reach);
    CHECK(found->reach->delta_e <= *found->blends.front().suggestion.proposal.delta_e + 0.01);
    CHECK(woken > 0);
    // The same lots are not surveyed again.
    worker.ask(request_for(shelf(1), "#a05050"));
    REQUIRE(wait_until([&] { return !worker.state().busy; }));
    CHECK(worker.state().latest->gamut == found->gamut);
}

TEST_CASE("the latest wish wins") {
    FindWorker worker;
    const auto stock = shelf(1);
    unsigned long last = 0;
    for (const char* colour : {"#203040", "#406080", "#80a0c0", "#c39a4a"})
        last = worker.ask(request_for(stock, colour));
    REQUIRE(wait_until([&] { return !worker.state().busy; }));
    const auto found = worker.state().latest;
    REQUIRE(found);
    CHECK(found->number == last);
    const auto wanted = solve::target_of(colour::parse_hex("#c39a4a").value());
    CHECK(colour::ciede2000(found->problem.problem.goal.target->lab, wanted.lab) < 1e-9);
}

TEST_CASE("a search is stopped by hand, and a stopped worker looks again") {
    FindWorker worker;
    const auto stock = shelf(25);  // a thousand lots
    worker.ask(request_for(stock, "#6b7f5c"));
    // Under way once it tells what it is doing.
    REQUIRE(wait_until([&] { return !worker.state().doing.empty() || !worker.state().busy; }));
    const auto start = std::chrono::steady_clock::now();
    worker.cancel();
    CHECK_FALSE(worker.state().busy);
    const auto again = worker.ask(request_for(shelf(1), "#6b7f5c"));
    REQUIRE(wait_until([&] { return !worker.state().busy; }));
    CHECK(worker.state().latest->number == again);
    CHECK(worker.state().latest->blends.size() > 0);
    // Ten times what it takes here: the thread did not finish the large search first, nor hang.
    CHECK(std::chrono::steady_clock::now() - start < std::chrono::seconds(30));
}

TEST_CASE("a wish that is withdrawn before it begins is never answered; one in the way is told") {
    FindWorker worker;
    worker.ask(request_for(shelf(1), "#6b7f5c"));
    worker.cancel();
    std::this_thread::sleep_for(std::chrono::milliseconds(300));
    CHECK_FALSE(worker.state().latest);
    auto stuck = request_for(shelf(1), "#6b7f5c");
    stuck.problem.problem.goal.bounds.shares = {{solve::ShareOf::family, "silk", 70.0, 100.0},
                                                {solve::ShareOf::family, "wool", 70.0, 100.0}};
    worker.ask(stuck);
    REQUIRE(wait_until([&] { return !worker.state().busy; }));
    const auto found = worker.state().latest;
    CHECK(found->blends.empty());
    REQUIRE(found->conflict);
    CHECK(found->conflict->bounds.size() == 2);
    CHECK(found->gamut);
}

TEST_CASE("closing while it searches does not hang") {
    const auto start = std::chrono::steady_clock::now();
    {
        FindWorker worker;
        worker.ask(request_for(shelf(25), "#6b7f5c"));
        wait_until([&] { return !worker.state().doing.empty() || !worker.state().busy; });
    }
    CHECK(std::chrono::steady_clock::now() - start < std::chrono::seconds(30));
}
