#include <algorithm>

#include "command/layout.hpp"
#include "command/report.hpp"
#include "forecast/colour_doubt.hpp"
#include "recipe/file_name.hpp"

namespace battwright::command {
namespace {

std::string composition_text(const forecast::Forecast& f, const Units& units) {
    std::size_t widest = 10;
    std::vector<double> grams, mass, count;
    for (const auto& line : f.components) {
        widest = std::max(widest, width_of(line.label));
        grams.push_back(line.grams);
        mass.push_back(line.mass_pct);
        count.push_back(line.count_pct);
    }
    grams = measure::weighable(grams, units.mass);
    mass = measure::tenths(mass);
    count = measure::tenths(count);
    std::string text = "  " + left("component", widest + 2) + right("weight", 10) + right("by weight", 12) +
                       right("of fibres", 12) + "   colour\n";
    for (std::size_t i = 0; i < f.components.size(); ++i) {
        const auto& line = f.components[i];
        text += "  " + left(line.label, widest + 2) + right(measure::print_mass(grams[i], units.mass), 10) +
                right(number(mass[i], 1) + " %", 12) + right(number(count[i], 1) + " %", 12) + "   " +
                colour::hex(line.srgb) + "\n";
    }
    return text + "  " + left("together", widest + 2) +
           right(measure::print_mass(f.total_grams, units.mass), 10) + right("100.0 %", 12) +
           right("100.0 %", 12) + "   " + colour::hex(f.colour.srgb) + "\n";
}

std::string kinds_text(const forecast::Forecast& f) {
    std::vector<double> pct;
    for (const auto& line : f.kinds) pct.push_back(line.mass_pct);
    pct = measure::tenths(pct);
    std::string text;
    for (std::size_t i = 0; i < f.kinds.size(); ++i)
        text += (i ? ", " : "") + f.kinds[i].name + " " + number(pct[i], 1) + " %";
    return text;
}

// Nothing is said of a doubt that would not be read.
template <class Print>
std::string doubt(double value, Print print) {
    const std::string words = print(value);
    return words.find_first_of("123456789") == std::string::npos ? "" : " give or take " + words;
}

// Each by itself: none is a fibre of the mixture.
std::string inclusions_text(const forecast::Forecast& f, const Units& units) {
    std::string text;
    for (const staple::Inclusion& inclusion : f.inclusions) {
        std::string line = inclusion.kind->name + ", " + number(inclusion.mass_pct, 1) +
                           " % of the weight, lies among the fibres and is not in these figures";
        if (inclusion.kind->form == fibre::Form::lock)
            line += ": locks of " + measure::print_length(inclusion.staple_mm, units.length) + ", " +
                    number(inclusion.diameter_um, 1) + " um, " + number(inclusion.over_30um_pct, 0) +
                    " % over 30 um";
        text += wrapped(line, 2);
    }
    return text;
}

std::string staple_text(const forecast::Forecast& f, const Units& units) {
    const auto length = [&](double mm) { return measure::print_length(mm, units.length); };
    const auto& s = f.length;
    return wrapped("mean length " + length(s.number_mean_mm) + doubt(s.mean_doubt_mm, length) +
                       " (as met in the yarn " + length(s.length_biased_mean_mm) + "), CV " +
                       number(s.cv_pct, 0) + " %; " + number(s.short_share_pct, 1) +
                       " % of the weight under " + length(25.0) + "; one fibre in twenty is longer than " +
                       length(s.p95_mm),
                   2) +
           wrapped(
               "mean diameter " + number(f.diameter.mean_um, 1) + " um" +
                   doubt(f.diameter.mean_doubt_um, [](double um) { return number(um, 1) + " um"; }) +
                   ", CV " + number(f.diameter.cv_pct, 0) + " %; " + number(f.diameter.over_30um_pct, 1) +
                   " %" +
                   doubt(f.diameter.over_30um_doubt_pct, [](double points) { return number(points, 1); }) +
                   " of its length over 30 um, fit for " + std::string(f.feel) + "; one fibre " +
                   number(f.fibre_tex, 3) + " tex on average",
               2) +
           wrapped("drafting: hands about " + length(f.drafting.hands_apart_mm) +
                       " apart; start with a twist angle near " + number(f.drafting.twist_angle_degrees, 0) +
                       " degrees",
                   2) +
           inclusions_text(f, units);
}

std::string colour_doubt_text(const forecast::Forecast& f) {
    const forecast::ColourDoubt doubt = forecast::colour_doubt(f);
    std::string text = "give or take about " + number(doubt.blend_de00, 0) +
                       ", where 1 is just seen: with measured fibres it would be " +
                       number(forecast::model_doubt_de00, 1) + "; " + forecast::origins_in_words(f.recipe);
    if (f.optics.m_log_sd < colour::OpticsModel{}.m_log_sd)
        text += "; photos of your batts have taught how your fibre blends (m " + number(f.optics.m, 3) +
                "), which leaves " + number(doubt.m_de00, 1) + " of it";
    return text;
}

}  // namespace

std::string findings_text(const forecast::Forecast& f, const Units& units) {
    if (f.findings.empty()) return "  nothing to warn of\n";
    const staple::Units in{units.length, units.mass};
    std::string text;
    for (const auto& finding : f.findings) {
        const std::string basis = finding.basis == staple::Basis::published
                                      ? finding.source
                                      : std::string(staple::word_for(finding.basis));
        text += wrapped(std::string(staple::word_for(finding.severity)) + " [" + finding.code + "] " +
                            staple::words_in(finding.text_with_quantities, in),
                        2);
        text += wrapped("-> " + staple::words_in(finding.remedy_with_quantities, in) + " (" + basis + ")", 6);
    }
    return text;
}

std::string forecast_text(const forecast::Forecast& f, const forecast::Batt& batt, const Units& units) {
    std::string text = recipe::title_of(f.recipe) + "\n";
    text += wrapped(measure::print_mass(f.total_grams, units.mass) + " as weighed in a room, on " +
                        f.carder.name + ", " +
                        text::counted(f.recipe.carding.passes, recipe::words_of(f.carder).pass,
                                      recipe::words_of(f.carder).passes),
                    2);
    text += "\nWhat goes in\n" + composition_text(f, units) + wrapped("kinds: " + kinds_text(f), 2);
    if (f.cost > 0.0)
        text += wrapped("cost: " + number(f.cost, 2) + (f.cost_is_whole ? "" : " for what has a price"), 2);
    text += "\nStaple\n" + staple_text(f, units);
    text += "\nColour\n";
    text += wrapped("fully blended " + colour::hex(f.colour.srgb) + ", L* " + number(f.colour.lab.l, 1) +
                        " a* " + number(f.colour.lab.a, 1) + " b* " + number(f.colour.lab.b, 1) + " under " +
                        std::string(colour::word_for(f.light)) + " by " +
                        std::string(colour::word_for(f.optics.optics)),
                    2);
    text += wrapped(colour_doubt_text(f), 2);
    for (const auto& note : f.left_out) text += wrapped("not in the model: " + note, 2);
    text += making_text(f, batt, units);
    text += "\nFindings\n" + findings_text(f, units);
    return text;
}

}  // namespace battwright::command
