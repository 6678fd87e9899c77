// The yarn the batt can become: how long at which thickness, how it is made up, what it is enough for.
#pragma once

#include <memory>
#include <string>

#include "app/bench/outcome.hpp"
#include "app/derived.hpp"
#include "app/yarn/yarn_words.hpp"
#include "window/kit/ui.hpp"

namespace battwright::window {

enum class YarnPage { plan, figures, enough };
struct YarnInputs {
    std::shared_ptr<const forecast::Forecast> forecast;
    std::string filter;
    Settings settings;
    bool operator==(const YarnInputs&) const = default;
};
struct YarnState {
    bool shown = false;  // in the panel of what comes out, instead of the batt
    YarnPage page = YarnPage::plan;
    std::string filter{what_it_reaches};     // of the table of things to make
    Derived<YarnInputs, YarnWords> derived;  // what is said of the forecast
    const YarnWords& words() const { return derived.value(); }
};
// Before it is drawn.
void follow_yarn(YarnState& state, const Outcome& outcome, const Settings& settings);

// What is under the panel's head.
void view_yarn(const Ui& ui, const Sheet& sheet, const Outcome& outcome, YarnState& state);
// Pieces of it.
void view_yarn_plot(const Ui& ui, const Sheet& sheet, const yarn::YarnForecast& forecast, ImVec2 size);
// `forecast` is null while there is none.
void view_yarn_plan(const Ui& ui, const Sheet& sheet, const yarn::YarnForecast* forecast,
                    const std::vector<YarnFinding>& findings);
// What lies on the scale: the fibre for the drum, or yarn that is spun already.
void view_yarn_weighed(const Ui& ui, const forecast::Forecast& forecast);
void view_yarn_finding(const Ui& ui, const Sheet& sheet, const YarnFinding& finding);
void view_yarn_figures(const Ui& ui, const yarn::YarnForecast& forecast,
                       const std::vector<YarnFigure>& figures);
void view_yarn_enough(const Ui& ui, const Sheet& sheet, YarnState& state);

// Tells the probe how the yarn stands.
void report_yarn(const YarnState& state, const Sheet& sheet, const Outcome& outcome, Probe& probe);

}  // namespace battwright::window
