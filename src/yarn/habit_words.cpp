#include "yarn/habit_words.hpp"

#include <cmath>

#include "measure/units.hpp"

namespace battwright::yarn {
namespace {

std::string tidy(double value, double step) {
    return measure::write_number(std::round(value / step) * step);
}

std::string skeins_of(int count) {
    return std::to_string(count) + (count == 1 ? " skein" : " skeins");
}

std::string percent_off(double factor) {
    const double pct = std::round(100.0 * (factor - 1.0));
    if (pct == 0.0) return "as long as";
    return measure::write_number(std::abs(pct)) + (pct > 0.0 ? " % longer than" : " % shorter than");
}

// "(3 skeins)", or whose they are.
std::string rests_on(const Belief& belief, bool borrowed) {
    if (!borrowed) return " (" + skeins_of(belief.count) + ")";
    return " (from " + skeins_of(belief.count) + ", however spun, until there are " +
           std::to_string(enough_skeins) + " of this way)";
}

Range factors(const Belief& belief) {
    return range_80_percent(std::exp(belief.mean), half_width_80_percent(belief));
}

}  // namespace

std::string aim_words(const Belief& aim, double wanted_wpi, bool borrowed) {
    if (aim.count == 0) return {};
    const Range range = factors(aim);
    return "aim: for " + tidy(wanted_wpi, 0.5) + " wraps wanted you get about " +
           tidy(wanted_wpi * std::exp(aim.mean), 0.5) + ", four times in five " +
           tidy(wanted_wpi * range.low, 0.5) + " to " + tidy(wanted_wpi * range.high, 0.5) +
           rests_on(aim, borrowed);
}

std::string loft_words(const Belief& loft, bool borrowed) {
    if (loft.count == 0) return {};
    const Range range = factors(loft);
    return "loft: at the wraps you get, your skeins are " + percent_off(std::exp(loft.mean)) +
           " others' of their weight, four in five " + tidy(range.low, 0.01) + " to " +
           tidy(range.high, 0.01) + " times as long" + rests_on(loft, borrowed);
}

std::string plan_words(const YarnForecast& forecast) {
    if (forecast.aims_logged == 0) return {};
    if (std::abs(forecast.expected_wpi - forecast.wpi) < 0.5) return {};
    return "for " + tidy(forecast.wpi, 0.5) + " wraps your hands give about " +
           tidy(forecast.expected_wpi, 0.5) + "; to get " + tidy(forecast.wpi, 0.5) + ", ask for " +
           tidy(forecast.aim_for_wpi, 0.5) + " (" + skeins_of(forecast.aims_logged) + ")";
}

std::string question_words(Question question, const Lesson& lesson) {
    if (question == Question::changed_her_mind)
        return "wanted " + tidy(lesson.wanted_wpi, 0.5) + " wraps and got " + tidy(lesson.got_wpi, 0.5) +
               ": did you change your mind? Then it says nothing of your aim";
    if (question == Question::is_it_right)
        return "its length is far from what " + tidy(lesson.got_wpi, 0.5) +
               " wraps and its weight make likely: are weight, length and wraps right? Nothing is learnt "
               "from it until you say so";
    return {};
}

std::string taught_words(Taught taught) {
    switch (taught) {
        case Taught::aim_and_loft:
            return "it taught your aim and your loft";
        case Taught::loft_only:
            return "it taught your loft alone";
        case Taught::product_only:
            return "it was not wrapped, so it taught only how long a plan comes out, not whether by aim or "
                   "loft";
        case Taught::nothing:
            break;
    }
    return "it taught nothing";
}

}  // namespace battwright::yarn
