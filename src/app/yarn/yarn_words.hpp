// What the yarn view says, in the user's units. No display.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "app/settings.hpp"
#include "forecast/forecast.hpp"
#include "yarn/project.hpp"

namespace battwright::app {

// Lengths of yarn follow the unit of fibre lengths: yards beside inches, else metres.
measure::YarnLengthUnit yarn_length_unit(const Settings& settings);
std::string print_metres(double metres, const Settings& settings);
// "163 to 301 m": the unit once.
std::string print_span(double low_m, double high_m, const Settings& settings);
// A bare number is in that unit.
measure::Expected<double> parse_yarn_metres(std::string_view typed, measure::YarnLengthUnit unit);
// Fibre to weigh out, to the gram or a tenth of an ounce.
std::string print_fibre(double grams, const Settings& settings);
// "14 wpi", to a tenth.
std::string print_wraps(double wpi);
// The finest sensible yarn, "9.5 to 13 wpi".
std::string print_finest(const yarn::YarnForecast& forecast);
// "294 tex, 340 m per 100 g" or "294 tex, 1690 yd/lb".
std::string print_grist(double tex, const Settings& settings);
// "8.1 per inch, 320 per metre".
std::string print_turns(double per_metre);
// "20 to 29 treadles", per metre, or per inch beside inches; empty when the plan names no wheel.
std::string print_treadles(const yarn::YarnForecast& forecast, const Settings& settings);

struct YarnHead {
    std::string range;     // "163 to 301 m"
    std::string middle;    // "222 m is the middle of ten skeins, eight lie in the range"
    std::string kind;      // class by both systems, wraps, grist
    std::string rests_on;  // logged skeins, and when to measure
};
YarnHead head_of(const yarn::YarnForecast& forecast, const Settings& settings);

// Something stands against the plan; `wpi` is a thickness that would mend it.
struct YarnFinding {
    enum class About { thickness, thread } about = About::thickness;
    std::string text, remedy;
    std::optional<double> wpi;
};
std::vector<YarnFinding> yarn_findings(const yarn::YarnForecast& forecast);

// Of a place on the plot: "12 wpi, sport: about 210 m".
std::string thickness_in_words(const yarn::YarnForecast& forecast, double wpi, const Settings& settings);

struct YarnFigure {
    std::string name, value, meaning;
};
std::vector<YarnFigure> figures_of(const yarn::YarnForecast& forecast, const recipe::Spinning& spinning,
                                   const Settings& settings);

// The table of things to make. `what` filters: what_it_reaches, everything, or one of project_things().
inline constexpr std::string_view what_it_reaches = "what it reaches for", everything = "everything";
std::vector<std::string_view> project_things();
struct ProjectRow {
    std::string thing;  // "hat, adult"
    std::string needs;  // "160 to 280 m"
    yarn::Verdict verdict = yarn::Verdict::short_of;
    std::string advice;  // "weigh out 20 g more, 45 g to be sure"
};
// `batt_share`: of what is fed, what comes off the drum, 0..1.
std::vector<ProjectRow> project_rows(const yarn::YarnForecast& forecast, double batt_share,
                                     std::string_view what, const Settings& settings);

// The row of what the recipe is for; nothing without a thing and a size of the table.
std::optional<ProjectRow> purpose_row(const forecast::Forecast& forecast, const Settings& settings);

// All of that of one forecast, with the rows that `what` lets through.
struct YarnWords {
    YarnHead head;
    std::vector<YarnFinding> findings;
    std::vector<YarnFigure> figures;
    std::vector<ProjectRow> rows;
    std::optional<ProjectRow> purpose;
};
YarnWords yarn_words(const forecast::Forecast& forecast, std::string_view what, const Settings& settings);

}  // namespace battwright::app
