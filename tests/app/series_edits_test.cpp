// A series set in the window is one that the recipe's own reader takes.
#include "app/plans/series_edits.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <numeric>

#include "../laid.hpp"

using namespace battwright;

namespace {

recipe::Recipe read_again(const app::Sheet& sheet) {
    return laid::recipe_of(recipe::write_text(sheet.recipe));
}

}  // namespace

TEST_CASE("however many batts are asked for, a series has as many as a recipe may have") {
    const auto begun = app::start_series(laid::slip(), measure::Mass{50.0});
    for (const int asked : {-3, 0, 2, 7, 60, 61, 1000}) {
        CAPTURE(asked);
        const auto read = read_again(app::set_series_count(begun, asked));
        REQUIRE(read.series);
        if (asked >= 2 && asked <= 60) CHECK(read.series->count == asked);
    }
}

TEST_CASE("the last mixture of a series stays a whole, whatever share is set") {
    auto sheet = app::start_series(laid::slip(), measure::Mass{50.0});
    for (const double share : {0.0, 35.0, 100.0}) {
        sheet = app::set_series_share(sheet, 0, share);
        const auto shares = app::series_shares(read_again(sheet));
        CHECK(std::abs(shares.front() - share) <= 1e-9);
        CHECK(std::accumulate(shares.begin(), shares.end(), 0.0) == doctest::Approx(100.0));
    }
    CHECK_FALSE(read_again(app::drop_series(sheet)).series);
}
