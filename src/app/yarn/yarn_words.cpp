#include "app/yarn/yarn_words.hpp"

#include <algorithm>
#include <cmath>

#include "app/yarn/yarn_plot.hpp"
#include "measure/count.hpp"
#include "measure/unit_tables.hpp"
#include "text/words.hpp"
#include "yarn/finish.hpp"
#include "yarn/spin.hpp"

namespace battwright::app {
namespace {

using measure::print_number;
using yarn::Verdict;
using yarn::YarnForecast;

std::string print_degrees(double degrees) {
    return print_number(degrees, 0) + "\u00b0";
}

std::string print_diameter_of_yarn(double millimetres, const Settings& settings) {
    const auto& unit = measure::row_of(measure::length_units, settings.length);
    return print_number(millimetres / unit.size, unit.fine_decimals) + " " + std::string(unit.word);
}

std::string skeins_in_words(int count) {
    if (count == 0) return "Rests on no skein of yours yet";
    return "Rests on " + text::counted(count, "skein", "skeins") + " you logged";
}

void add_plying(std::vector<YarnFigure>& figures, const YarnForecast& f, const Settings& settings) {
    const std::string strands =
        f.plies == 1 ? "1, not plied"
                     : std::to_string(f.plies) + ", take-up " + print_number(f.take_up_pct, 1) + " %";
    figures.push_back({"Strands", strands,
                       "Strands that lie side by side in the yarn. Winding round each other takes up some of "
                       "their length, by the geometry of the helix."});
    figures.push_back({"To spin", print_metres(f.single_length_m, settings) + " of single",
                       "The length of single the whole batt makes, all strands together, " +
                           print_number(f.singles_tex, 0) + " tex. About " +
                           print_number(f.spinning_loss_pct, 0) +
                           " % of the batt is lost at the wheel (common practice, no source)."});
    if (f.thread_needed_m > 0.0)
        figures.push_back({"Thread", print_metres(f.thread_needed_m, settings) + " needed",
                           "The bought thread that goes into the yarn."});
    figures.push_back({"Stripes", print_number(100.0 * f.effect.stripe_strength, 0) + " % as strong",
                       "How strongly the batt's colour changes show along the yarn, against the single left "
                       "as it is. Strands that change by chance soften each other as one over the root of "
                       "their number."});
}

void add_twist(std::vector<YarnFigure>& figures, const YarnForecast& f, const recipe::Spinning& spinning,
               const Settings& settings) {
    const auto range = yarn::range_of(spinning.twist);
    figures.push_back({"Twist of the single", print_turns(f.twist_per_m),
                       "Turns that lay the surface fibres at the angle, on the thickness of the single while "
                       "the wheel pulls it taut (Morton & Hearle)."});
    if (f.ply_twist_per_m > 0.0)
        figures.push_back({"Twist of the ply", print_turns(f.ply_twist_per_m),
                           "Turns the other way that leave the yarn balanced: two thirds of the single's "
                           "(common practice, no source)."});
    figures.push_back({"Twist angle",
                       print_degrees(f.twist_angle_degrees) + ", " + std::string(word_for(spinning.twist)),
                       std::string(word_for(spinning.twist)) + " is " + print_degrees(range.from_degrees) +
                           " to " + print_degrees(range.to_degrees) +
                           " (common practice, no source); short and slick fibre takes more within it."});
    if (f.treadles_per_m > 0.0)
        figures.push_back(
            {"Treadles", print_treadles(f, settings),
             "Strokes of the foot at the ratio of your wheel: for the single, then for the ply."});
}

void add_limits(std::vector<YarnFigure>& figures, const YarnForecast& f) {
    figures.push_back({"Fibres across",
                       print_number(f.fibres_wanted, 0) + ", least " + print_number(f.least_fibres, 0),
                       "Fibres in the cross-section of the single, were the yarn truly as thin as planned. "
                       "Fewer than the least and it breaks while it is drafted (common practice, above the "
                       "anchors of Klein's manual of spinning)."});
    figures.push_back({"Finest sensible", print_finest(f) + ", " + print_number(f.finest_tex, 0) + " tex",
                       "The thinnest yarn made up this way whose singles still have the least fibres: " +
                           print_wraps(f.finest_wpi) +
                           " is the middle, the finer end is for good hands. Wraps are counted with error."});
    std::string evenness = print_number(f.evenness_limit_pct, 1) + " %";
    if (f.plied_evenness_limit_pct < f.evenness_limit_pct - 0.05)
        evenness += ", plied " + print_number(f.plied_evenness_limit_pct, 1) + " %";
    figures.push_back({"Evenness limit", evenness,
                       "Variation of thickness that even perfect drafting cannot go below, since fibres fall "
                       "by chance (Martindale). Plying averages it."});
}

void add_wash(std::vector<YarnFigure>& figures, const YarnForecast& f, const Settings& settings) {
    figures.push_back({"Before the wash",
                       print_metres(f.length_before_wash_m, settings) + ", " + print_wraps(f.wpi_before_wash),
                       "As it comes off the wheel, " +
                           print_span(f.length_before_wash_low_m, f.length_before_wash_high_m, settings) +
                           ". The wash shortens it by " + print_number(f.shrink_low_pct, 0) + " to " +
                           print_number(f.shrink_high_pct, 0) + " %, typically " +
                           print_number(f.shrink_pct, 0) + " %, and makes it " +
                           print_number(f.bloom_pct, 0) + " % thicker (common practice, no source)."});
    figures.push_back({"After the wash", print_metres(f.length_m, settings) + ", " + print_wraps(f.wpi),
                       "Washed and dry, which is how every other number of the yarn is meant."});
    figures.push_back({"Thickness", print_diameter_of_yarn(f.diameter_mm, settings),
                       "Of the relaxed yarn: an inch over the wraps."});
}

bool fits(const yarn::Project& project, Verdict verdict, std::string_view what) {
    if (what == everything) return true;
    return what == what_it_reaches ? verdict != Verdict::short_of : project.thing == what;
}

std::string advice_on(const yarn::Project& project, const yarn::Enough& enough, const YarnForecast& forecast,
                      double fed_per_batt, const Settings& settings) {
    const auto grams = [&](double batt) { return print_fibre(batt * fed_per_batt, settings); };
    const auto card = yarn::card_for(project, forecast);
    if (enough.verdict == Verdict::enough) return grams(card.sure_grams) + " of fibre would do, to be sure";
    if (enough.short_m <= 0.0) return "to be sure, card " + grams(enough.more_grams_to_be_sure) + " more";
    return "card " + grams(enough.more_grams) + " more, " + grams(enough.more_grams_to_be_sure) +
           " to be sure; " + grams(card.typical_grams) + " in all";
}

}  // namespace

measure::YarnLengthUnit yarn_length_unit(const Settings& settings) {
    return measure::yarn_unit_beside(settings.length);
}

std::string print_metres(double metres, const Settings& settings) {
    return measure::print_yarn_length(metres, yarn_length_unit(settings));
}

std::string print_span(double low_m, double high_m, const Settings& settings) {
    const std::string low = print_metres(low_m, settings);
    return low.substr(0, low.find(' ')) + " to " + print_metres(high_m, settings);
}

measure::Expected<double> parse_yarn_metres(std::string_view typed, measure::YarnLengthUnit unit) {
    auto metres = measure::parse_yarn_length_metres(typed);
    if (metres) return metres;
    auto bare = measure::parse_yarn_length_metres(std::string(typed).append(" ").append(word_for(unit)));
    return bare ? bare : metres;
}

std::string print_fibre(double grams, const Settings& settings) {
    const auto& unit = measure::row_of(measure::mass_units, settings.mass);
    const double step = unit.fibre_step * unit.size;
    return measure::print_mass(std::round(grams / step) * step, settings.mass);
}

std::string print_wraps(double wpi) {
    return print_number(wpi, 1) + " wpi";
}

std::string print_finest(const YarnForecast& forecast) {
    return print_number(forecast.finest_wpi_low, 1) + " to " + print_wraps(forecast.finest_wpi_high);
}

std::string print_grist(double tex, const Settings& settings) {
    if (!(tex > 0.0)) return "no yarn";
    const auto& unit = measure::row_of(measure::yarn_length_units, yarn_length_unit(settings));
    const double metres = 1000.0 * unit.grist_grams / tex;  // tex: grams to the kilometre
    return print_number(tex, 0) + " tex, " + print_number(metres / unit.size, 0) + " " +
           std::string(unit.grist);
}

std::string print_turns(double per_metre) {
    return print_number(yarn::per_inch(per_metre), 1) + " per inch, " + print_number(per_metre, 0) + " per m";
}

std::string print_treadles(const YarnForecast& forecast, const Settings& settings) {
    if (!(forecast.treadles_per_m > 0.0)) return {};
    const auto& unit = measure::row_of(measure::yarn_length_units, yarn_length_unit(settings));
    const auto rate = [&unit](double per_m) {
        return print_number(per_m * unit.turns_metres, unit.turns_decimals);
    };
    std::string words = rate(forecast.treadles_per_m);
    if (forecast.ply_treadles_per_m > 0.0) words += ", ply " + rate(forecast.ply_treadles_per_m);
    return words + " " + std::string(unit.turns);
}

YarnHead head_of(const YarnForecast& forecast, const Settings& settings) {
    YarnHead head;
    if (!(forecast.length_m > 0.0)) {
        head.range = "No yarn can be made so";
        head.kind = "The plan below says why.";
        return head;
    }
    head.range = print_span(forecast.length_low_m, forecast.length_high_m, settings);
    head.middle = "four skeins in five; the middle is " + print_metres(forecast.length_m, settings);
    head.kind = forecast.thickness_words + ", " + print_wraps(forecast.wpi) + ", " +
                print_grist(forecast.tex, settings);
    head.rests_on = skeins_in_words(forecast.skeins_logged) + "; " + yarn::measure_when;
    return head;
}

std::vector<YarnFinding> yarn_findings(const YarnForecast& forecast) {
    std::vector<YarnFinding> findings;
    if (forecast.thread_complaint)
        findings.push_back({YarnFinding::About::thread, forecast.thread_complaint->what,
                            forecast.thread_complaint->mend, std::nullopt});
    if (forecast.length_m > 0.0 && !forecast.spinnable) {
        const double sound = std::floor(forecast.finest_wpi / 0.5) * 0.5;
        findings.push_back({YarnFinding::About::thickness,
                            "finer than this fibre spins: " + print_number(forecast.fibres_wanted, 0) +
                                " fibres in the cross-section of a single, and " +
                                print_number(forecast.least_fibres, 0) + " hold",
                            "plan it at " + print_wraps(sound) + " or thicker, or with fewer plies", sound});
    }
    return findings;
}

std::vector<YarnFigure> figures_of(const YarnForecast& forecast, const recipe::Spinning& spinning,
                                   const Settings& settings) {
    std::vector<YarnFigure> figures;
    if (!(forecast.length_m > 0.0)) return figures;
    add_plying(figures, forecast, settings);
    add_twist(figures, forecast, spinning, settings);
    add_limits(figures, forecast);
    add_wash(figures, forecast, settings);
    return figures;
}

std::string thickness_in_words(const YarnForecast& forecast, double wpi, const Settings& settings) {
    const double metres = length_on_curve_m(forecast, wpi);
    std::string words = print_wraps(wpi) + ", " + std::string(yarn::class_of_wpi(wpi).name) + ": ";
    words += metres > 0.0 ? "about " + print_metres(metres, settings) : "no yarn can be made so";
    if (metres > 0.0 && wpi > forecast.finest_wpi) words += "; finer than this fibre spins";
    return words;
}

std::vector<std::string_view> project_things() {
    std::vector<std::string_view> things;
    for (const auto& project : yarn::projects()) {
        if (things.empty() || things.back() != project.thing) things.push_back(project.thing);
    }
    return things;
}

std::vector<ProjectRow> project_rows(const YarnForecast& forecast, double batt_share, std::string_view what,
                                     const Settings& settings) {
    std::vector<ProjectRow> rows;
    if (!(forecast.length_m > 0.0) || !(batt_share > 0.0)) return rows;
    for (const auto& project : yarn::projects()) {
        const auto enough = yarn::enough_for(project, forecast);
        if (!fits(project, enough.verdict, what)) continue;
        rows.push_back({std::string(project.thing) + ", " + std::string(project.size),
                        print_span(enough.need.low_m, enough.need.high_m, settings), enough.verdict,
                        advice_on(project, enough, forecast, 1.0 / batt_share, settings)});
    }
    return rows;
}

std::optional<ProjectRow> purpose_row(const forecast::Forecast& forecast, const Settings& settings) {
    const recipe::Purpose& purpose = forecast.recipe.purpose;
    if (!forecast.enough) return std::nullopt;
    for (ProjectRow& row : project_rows(forecast.yarn, forecast.batt_share, purpose.thing, settings))
        if (row.thing == purpose.thing + ", " + purpose.size) return std::move(row);
    return std::nullopt;
}

YarnWords yarn_words(const forecast::Forecast& forecast, std::string_view what, const Settings& settings) {
    const YarnForecast& yarn = forecast.yarn;
    return {head_of(yarn, settings), yarn_findings(yarn),
            figures_of(yarn, forecast.recipe.spinning, settings),
            project_rows(yarn, forecast.batt_share, what, settings), purpose_row(forecast, settings)};
}

}  // namespace battwright::app
