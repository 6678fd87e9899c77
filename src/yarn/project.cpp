#include "yarn/project.hpp"

#include <algorithm>
#include <array>

#include "measure/choices.hpp"
#include "recipe/purpose.hpp"

namespace battwright::yarn {
namespace {

// Common practice, no source: every row. Metres at 9 wraps per inch, frugal to generous.
constexpr std::array table{
    Project{"hat", "child", 65.0, 115.0},
    Project{"hat", "adult", 105.0, 180.0},
    Project{"cowl", "close", 100.0, 180.0},
    Project{"cowl", "long", 220.0, 350.0},
    Project{"mitts", "child", 50.0, 85.0},
    Project{"mitts", "adult", 85.0, 150.0},
    Project{"socks", "child", 90.0, 150.0},
    Project{"socks", "adult", 175.0, 245.0},
    Project{"socks", "large", 215.0, 290.0},
    Project{"scarf", "narrow", 180.0, 300.0},
    Project{"scarf", "wide", 300.0, 460.0},
    Project{"shawl", "small", 220.0, 360.0},
    Project{"shawl", "large", 400.0, 680.0},
    Project{"child's jumper", "2 years", 240.0, 370.0},
    Project{"child's jumper", "6 years", 390.0, 580.0},
    Project{"child's jumper", "10 years", 540.0, 780.0},
    Project{"adult's jumper", "small", 800.0, 1100.0},
    Project{"adult's jumper", "medium", 920.0, 1280.0},
    Project{"adult's jumper", "large", 1100.0, 1500.0},
    Project{"adult's jumper", "extra large", 1300.0, 1800.0},
    Project{"blanket", "cradle", 480.0, 800.0},
    Project{"blanket", "lap", 850.0, 1400.0},
    Project{"blanket", "bed", 1700.0, 2800.0},
};

// The things and sizes of a recipe, in its order.
constexpr bool as_purposes() {
    std::size_t at = 0;
    for (const recipe::PurposeRow& row : recipe::purposes)
        for (const std::string_view size : row.sizes) {
            if (size.empty()) continue;
            if (at == table.size() || table[at].thing != row.thing || table[at].size != size) return false;
            ++at;
        }
    return at == table.size();
}
static_assert(as_purposes());

Verdict verdict_on(const Need& need, const YarnForecast& forecast) {
    if (forecast.length_low_m >= need.high_m) return Verdict::enough;
    if (forecast.length_m >= need.middle_m()) return Verdict::likely;
    return forecast.length_high_m >= need.low_m ? Verdict::hardly : Verdict::short_of;
}

}  // namespace

std::span<const Project> projects() {
    return table;
}

const Project* project_named(std::string_view thing, std::string_view size) {
    const auto* const found = std::find_if(
        table.begin(), table.end(), [&](const Project& p) { return p.thing == thing && p.size == size; });
    return found == table.end() ? nullptr : found;
}

Need need_of(const Project& project, double wpi) {
    BATTWRIGHT_BELIEVE(wpi > 0.0);
    const bool lace = &class_of_wpi(wpi) == &thickness_classes().front();
    const double factor = wpi / table_wpi * (lace ? open_work : 1.0);
    return {project.low_m * factor, project.high_m * factor};
}

Need need_of(const Project& project, const ThicknessClass& thickness) {
    return need_of(project, thickness.typical_wpi);
}

std::string_view word_for(Verdict verdict) {
    constexpr std::array<measure::Word<Verdict>, 4> verdicts{{{Verdict::enough, "enough"},
                                                              {Verdict::likely, "likely enough"},
                                                              {Verdict::hardly, "hardly enough"},
                                                              {Verdict::short_of, "too short"}}};
    static_assert(measure::one_row_each(verdicts));
    return measure::row_of(verdicts, verdict).word;
}

Enough enough_for(const Project& project, const YarnForecast& forecast) {
    Enough enough;
    if (!(forecast.length_m > 0.0)) return enough;
    enough.need = need_of(project, forecast.wpi);
    enough.verdict = verdict_on(enough.need, forecast);
    enough.short_m = std::max(0.0, enough.need.middle_m() - forecast.length_m);
    enough.short_at_worst_m = std::max(0.0, enough.need.high_m - forecast.length_low_m);
    enough.more_grams = enough.short_m * forecast.batt_grams / forecast.length_m;
    enough.more_grams_to_be_sure = enough.short_at_worst_m * forecast.batt_grams / forecast.length_low_m;
    return enough;
}

CardSoMuch card_for(const Project& project, const YarnForecast& forecast) {
    if (!(forecast.length_m > 0.0)) return {};
    const Need need = need_of(project, forecast.wpi);
    const double grams_per_m = forecast.batt_grams / forecast.length_m;
    return {need.low_m * grams_per_m, need.middle_m() * grams_per_m,
            need.high_m * forecast.batt_grams / forecast.length_low_m};
}

}  // namespace battwright::yarn
