// What the yarn view says, in the user's units.
#include "app/yarn/yarn_words.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "app/yarn/yarn_edits.hpp"
#include "forecast/forecast.hpp"

using namespace battwright;
using recipe::Plying;

namespace {

app::Sheet words_batt(double grams = 60.0) {
    recipe::Recipe recipe;
    recipe.name = "Test Tide";
    recipe::Component component;
    component.content = {{"corriedale", 100.0}};
    component.amount = measure::Mass{grams, measure::MassUnit::gram};
    recipe.components = {component};
    return app::sheet_of(recipe);
}

forecast::Forecast forecast_of(const app::Sheet& sheet) {
    forecast::Bench bench;
    bench.catalogue = &fibre::Catalogue::builtin();
    auto made = forecast::forecast(sheet.recipe, bench);
    if (!made) FAIL(measure::to_line(made.error()));
    return *made;
}

app::Settings imperial() {
    app::Settings settings;
    settings.length = measure::LengthUnit::inch;
    settings.mass = measure::MassUnit::ounce;
    return settings;
}

bool has(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

const app::YarnFigure* figure(const std::vector<app::YarnFigure>& figures, const std::string& name) {
    const auto found =
        std::find_if(figures.begin(), figures.end(), [&](const auto& f) { return f.name == name; });
    return found == figures.end() ? nullptr : &*found;
}

}  // namespace

TEST_CASE("the head names range, middle, class, wraps and grist in metres or in yards") {
    yarn::YarnForecast yarn;
    yarn.length_m = 200.0;
    yarn.length_low_m = 150.0;
    yarn.length_high_m = 260.0;
    yarn.wpi = 12.0;
    yarn.tex = 300.0;
    yarn.class_name = "fine";
    yarn.thickness_words = "fine, 2 (sport or 5-ply)";
    const auto metric = app::head_of(yarn, {});
    CHECK(metric.range == "150 to 260 m");
    CHECK(has(metric.middle, "200 m"));
    // 300 tex is 300 g a kilometre: 100 g are 333 m.
    CHECK(metric.kind == "fine, 2 (sport or 5-ply), 12 wpi, 300 tex, 333 m per 100 g");
    CHECK(has(metric.rests_on, "no skein"));
    CHECK(has(metric.rests_on, "measure it after it is washed and dry"));
    yarn.skeins_logged = 1;
    CHECK(has(app::head_of(yarn, {}).rests_on, "1 skein you"));
    // 150 m / 0.9144 = 164 yd; 496,055 / 300 = 1,654 yd/lb (yard and pound of 1959).
    const auto yards = app::head_of(yarn, imperial());
    CHECK(yards.range == "164 to 284 yd");
    CHECK(has(yards.kind, "1654 yd/lb"));
}

TEST_CASE("the finest sensible yarn is a range, and what is held against it are the fibres wanted") {
    const auto fine = app::set_wraps(words_batt(), 40.0);
    const auto yarn = forecast_of(fine).yarn;
    // Wraps are counted with error, so the yarn expected is thicker than the one wanted.
    REQUIRE(yarn.fibres_wanted < yarn.fibres_in_section);
    const auto figures = app::figures_of(yarn, fine.recipe.spinning, {});
    CHECK(has(figure(figures, "Finest sensible")->value, app::print_finest(yarn)));
    CHECK(has(app::print_finest(yarn), " to "));
    const std::string wanted = std::to_string(std::lround(yarn.fibres_wanted));
    CHECK(figure(figures, "Fibres across")->value.starts_with(wanted + ","));
    CHECK(has(app::yarn_findings(yarn)[0].text, wanted + " fibres"));
    CHECK(has(figure(figures, "Before the wash")->meaning, " to "));
}

TEST_CASE("a plan no yarn can come of is said so, without numbers") {
    CHECK(app::head_of({}, {}).range == "No yarn can be made so");
    CHECK(app::figures_of({}, {}, {}).empty());
    CHECK(app::project_rows({}, 0.9, app::everything, {}).empty());
}

TEST_CASE("too fine a yarn and too short a thread are found, and the remedy for the first mends it") {
    CHECK(app::yarn_findings(forecast_of(words_batt()).yarn).empty());
    const auto fine = app::set_wraps(words_batt(), 40.0);
    const auto findings = app::yarn_findings(forecast_of(fine).yarn);
    REQUIRE(findings.size() == 1);
    REQUIRE(findings[0].wpi);
    CHECK(app::yarn_findings(forecast_of(app::set_wraps(fine, *findings[0].wpi)).yarn).empty());
    const auto finer = app::set_wraps(fine, *findings[0].wpi + 0.5);
    CHECK(app::yarn_findings(forecast_of(finer).yarn).size() == 1);

    const auto threaded = app::set_plying(words_batt(), Plying::with_thread);
    CHECK(app::yarn_findings(forecast_of(threaded).yarn).empty());
    const auto shorter = app::type_thread_length(threaded, "10 m", measure::YarnLengthUnit::metre);
    REQUIRE(shorter);
    const auto short_thread = app::yarn_findings(forecast_of(*shorter).yarn);
    REQUIRE(short_thread.size() == 1);
    CHECK(has(short_thread[0].text, "10 m"));
}

TEST_CASE("the figures answer for the plan: strands, twist, treadles, limits, wash") {
    const auto named = app::set_wheel_ratio(app::set_plying(words_batt(), Plying::chain), 10.0);
    const auto yarn = forecast_of(named).yarn;
    const auto figures = app::figures_of(yarn, named.recipe.spinning, {});
    for (const char* name : {"Strands", "To spin", "Stripes", "Twist of the single", "Twist of the ply",
                             "Twist angle", "Treadles", "Fibres across", "Finest sensible", "Evenness limit",
                             "Before the wash", "After the wash"}) {
        CAPTURE(name);
        REQUIRE(figure(figures, name) != nullptr);
        CHECK_FALSE(figure(figures, name)->meaning.empty());
    }
    CHECK(figure(figures, "Strands")->value.substr(0, 1) == "3");
    CHECK(figure(figures, "Thread") == nullptr);
    CHECK(has(figure(figures, "Stripes")->value, "100 %"));
    CHECK(has(figure(figures, "Twist angle")->meaning, "17\u00b0 to 25\u00b0"));
    CHECK(has(figure(figures, "Treadles")->value, "a metre"));
    CHECK(
        has(figure(app::figures_of(yarn, named.recipe.spinning, imperial()), "Treadles")->value, "an inch"));

    const auto single = app::set_plies(words_batt(), 1);
    const auto plain = app::figures_of(forecast_of(single).yarn, single.recipe.spinning, {});
    CHECK(figure(plain, "Twist of the ply") == nullptr);
    CHECK(figure(plain, "Treadles") == nullptr);
}

TEST_CASE("the table can be narrowed to one thing, or to what the batt reaches for") {
    const auto made = forecast_of(app::set_wraps(words_batt(), 9.0));
    const auto all = app::project_rows(made.yarn, made.batt_share, app::everything, {});
    CHECK(all.size() == yarn::projects().size());
    std::size_t by_thing = 0;
    const auto things = app::project_things();
    CHECK(std::set<std::string_view>(things.begin(), things.end()).size() == things.size());
    for (const auto thing : things)
        by_thing += app::project_rows(made.yarn, made.batt_share, thing, {}).size();
    CHECK(by_thing == all.size());
    const auto reached = app::project_rows(made.yarn, made.batt_share, app::what_it_reaches, {});
    CHECK(reached.size() < all.size());
    for (const auto& row : reached) CHECK(row.verdict != yarn::Verdict::short_of);
}

TEST_CASE("the fibre the table asks for is enough when it is weighed out") {
    const auto made = forecast_of(app::set_wraps(words_batt(60.0), 9.0));
    const auto* project = yarn::project_named("scarf", "wide");
    REQUIRE(project != nullptr);
    const auto enough = yarn::enough_for(*project, made.yarn);
    REQUIRE(enough.short_m > 0.0);
    const auto rows = app::project_rows(made.yarn, made.batt_share, "scarf", {});
    REQUIRE(rows.size() == 2);
    const double more = enough.more_grams * made.total_grams / made.yarn.batt_grams;
    CHECK(has(rows[1].advice, app::print_fibre(more, {}) + " more"));
    const auto again = forecast_of(app::set_wraps(words_batt(60.0 + more), 9.0));
    CHECK(again.yarn.length_m == doctest::Approx(enough.need.middle_m()).epsilon(1e-9));
    const auto ounces = app::project_rows(made.yarn, made.batt_share, "scarf", imperial());
    CHECK(has(ounces[1].advice, " oz more"));
    CHECK(has(ounces[1].needs, " yd"));
}
