// The carding worker, with no display: the latest request wins, its answers are the direct call's.
#include "app/bench/carding_worker.hpp"
#include "place.hpp"

#include <doctest/doctest.h>

#include <atomic>
#include <chrono>
#include <filesystem>
#include <memory>

#include "recipe/file.hpp"

using namespace battwright;
using namespace std::chrono_literals;

namespace {

std::shared_ptr<const forecast::Forecast> example_forecast(const std::string& name) {
    const auto path = std::filesystem::path(battwright::testing::source_dir()) / "blends" / (name + ".toml");
    const auto recipe = recipe::read_file(path, fibre::Catalogue::builtin());
    if (!recipe) FAIL(measure::to_line(recipe.error()));
    forecast::Bench bench;
    bench.catalogue = &fibre::Catalogue::builtin();
    auto made = forecast::forecast(*recipe, bench);
    if (!made) FAIL(measure::to_line(made.error()));
    return std::make_shared<const forecast::Forecast>(std::move(*made));
}

std::shared_ptr<const app::Carded> settled(const app::CardingWorker& worker) {
    for (int i = 0; i < 6000; ++i) {
        const auto state = worker.state();
        if (!state.busy) return state.latest;
        std::this_thread::sleep_for(5ms);
    }
    FAIL("the worker did not settle within half a minute");
    return nullptr;
}

void check_same(const strip::Scene& first, const strip::Scene& second) {
    CHECK(first.strands == second.strands);
    CHECK(first.picks == second.picks);
    CHECK(first.fibres == second.fibres);
    CHECK(first.cells == second.cells);
    CHECK(first.field_columns == second.field_columns);
    CHECK(first.field_rows == second.field_rows);
    CHECK(first.seed == second.seed);
}

}  // namespace

TEST_CASE("the worker's answer is the direct call's, pass by pass and view by view") {
    const auto forecast = example_forecast("harbour-heather");
    app::CardingWorker worker;
    for (const auto view : {app::StripView::edge, app::StripView::face}) {
        for (int pass = 1; pass <= 4; ++pass) {
            CAPTURE(pass);
            worker.ask({forecast, 1, pass, view});
            const auto made = settled(worker);
            REQUIRE(made);
            CHECK_FALSE(made->coarse);
            CHECK(made->pass == pass);
            // Carded just so often and seen at the end, as the command line does it.
            check_same(made->scene, strip::carded_scene(*forecast, pass,
                                                        view == app::StripView::edge ? strip::View::edge
                                                                                     : strip::View::face));
            CHECK(app::measures_of(*made, pass) != nullptr);
        }
    }
}

TEST_CASE("every example's recipe, carded as often as it says, is the direct call's to the digit") {
    app::CardingWorker worker;
    unsigned long version = 0;
    for (const char* name : {"kelp-and-brass", "low-tide-scraps", "dawn-tide"}) {
        CAPTURE(name);
        const auto forecast = example_forecast(name);
        const int pass = forecast->recipe.carding.passes;
        worker.ask({forecast, ++version, pass, app::StripView::edge});
        const auto made = settled(worker);
        REQUIRE(made);
        CHECK(made->version == version);
        check_same(made->scene, strip::carded_scene(*forecast, pass));
    }
}

TEST_CASE("of many wishes the last one is answered, and answers never go back") {
    const auto first = example_forecast("kelp-and-brass"), second = example_forecast("harbour-heather");
    std::atomic<int> answers{0};
    app::CardingWorker worker([&answers] { ++answers; });
    constexpr unsigned long requests = 40;
    unsigned long seen = 0;
    for (unsigned long version = 1; version <= requests; ++version) {
        worker.ask({version % 2 == 0 ? second : first, version, 2, app::StripView::edge});
        if (const auto latest = worker.state().latest) {
            CHECK(latest->version >= seen);
            seen = latest->version;
        }
    }
    const auto made = settled(worker);
    REQUIRE(made);
    CHECK(made->version == requests);
    check_same(made->scene, strip::carded_scene(*second, 2));
    // Two answers each would be 80: the ones in between were dropped.
    CHECK(answers.load() < 40);
}

TEST_CASE("the last answer stays while the next is made") {
    const auto forecast = example_forecast("harbour-heather");
    app::CardingWorker worker;
    worker.ask({forecast, 1, 1, app::StripView::edge});
    const auto before = settled(worker);
    worker.ask({forecast, 2, 1, app::StripView::edge});
    CHECK(worker.state().latest != nullptr);
    CHECK(settled(worker)->version == 2);
    CHECK(before->version == 1);
}

TEST_CASE("a worker gone in the middle of its work leaves no thread that still calls") {
    const auto forecast = example_forecast("kelp-and-brass");
    for (int i = 0; i < 20; ++i) {
        std::atomic<int> answers{0};
        {
            app::CardingWorker worker([&answers] { ++answers; });
            worker.ask({forecast, 1, 3, app::StripView::edge});
            std::this_thread::sleep_for(i * 3ms);
        }
        const int at_the_end = answers.load();
        std::this_thread::sleep_for(5ms);
        CHECK(answers.load() == at_the_end);
        CHECK(forecast.use_count() == 1);
    }
}

TEST_CASE("the drum's cells hold the whole batt") {
    const auto forecast = example_forecast("kelp-and-brass");
    const auto made = app::carded({forecast, 1, 2, app::StripView::edge}, false);
    const auto& drum = made.drum;
    REQUIRE(drum.components == forecast->components.size());
    REQUIRE(drum.colours.size() == drum.round * drum.depth);
    // Conservation of mass: every cell is an equal part of the batt, so the mean of a component's shares is
    // its share of the batt, if all of it is on the drum by then.
    for (std::size_t c = 0; c < drum.components; ++c) {
        double sum = 0.0;
        for (std::size_t cell = 0; cell < drum.colours.size(); ++cell)
            sum += double{drum.shares[cell * drum.components + c]};
        CAPTURE(c);
        CHECK(sum / static_cast<double>(drum.colours.size()) ==
              doctest::Approx(forecast->components[c].mass_pct / 100.0).epsilon(0.02));
    }
}
