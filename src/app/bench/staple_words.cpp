#include "app/bench/staple_words.hpp"

#include <array>
#include <cmath>
#include <utility>

#include "text/believe.hpp"

namespace battwright::app {
namespace {

std::string tenths(double value) {
    return measure::print_number(value, 1);
}

std::string micrometres(double value) {
    return tenths(value) + " \u00b5m";
}

std::string number_of(const std::string& quantity) {
    return quantity.substr(0, quantity.find(' '));
}

// A doubt that would read as nothing is not named.
bool reads(const std::string& quantity) {
    return quantity.find_first_of("123456789") != std::string::npos;
}

std::string give_or_take(const std::string& doubt) {
    return "Give or take " + doubt + ": how far the catalogue's figures may lie from these lots.";
}

std::string inclusion_in_words(const staple::Inclusion& inclusion, const Settings& settings) {
    std::string line = inclusion.kind->name + ", " + tenths(inclusion.mass_pct) + " %, lies among the fibres";
    if (inclusion.kind->form == fibre::Form::lock)
        line += ": locks of " + measure::print_length(inclusion.staple_mm, settings.length) + ", " +
                micrometres(inclusion.diameter_um) + ", " + tenths(inclusion.over_30um_pct) +
                " % over 30 \u00b5m";
    return line;
}

template <class Print>
KindFigure figure_of(const fibre::Kind& kind, const std::string& figure, double value, const Print& print) {
    KindFigure made{print(value), fibre::is_guess(kind, figure), ""};
    if (const auto source = kind.sources.find(figure); source != kind.sources.end())
        made.source = source->second;
    if (const auto range = kind.published.find(figure); range != kind.published.end())
        made.words +=
            " (" + number_of(print(range->second.low)) + " to " + number_of(print(range->second.high)) + ")";
    if (made.guess) made.words += ", a guess";
    return made;
}

}  // namespace

StapleWords staple_words(const forecast::Forecast& forecast, const Settings& settings) {
    StapleWords words;
    words.mean_length = measure::print_length(forecast.length.number_mean_mm, settings.length);
    const std::string length_doubt = measure::print_length(forecast.length.mean_doubt_mm, settings.length);
    if (reads(length_doubt)) {
        words.mean_length += " \u00b1" + number_of(length_doubt);
        words.length_doubt = give_or_take(length_doubt);
    }
    words.mean_diameter = micrometres(forecast.diameter.mean_um);
    const std::string diameter_doubt = micrometres(forecast.diameter.mean_doubt_um);
    if (reads(diameter_doubt)) {
        words.mean_diameter += " \u00b1" + number_of(diameter_doubt);
        words.diameter_doubt = give_or_take(diameter_doubt);
    }
    words.prickle = tenths(forecast.diameter.over_30um_pct) + " %";
    const std::string prickle_doubt = tenths(forecast.diameter.over_30um_doubt_pct) + " points";
    if (reads(prickle_doubt)) {
        // There is no less than none: of what is mostly doubt the upper end is told.
        const double doubt_pct = forecast.diameter.over_30um_doubt_pct;
        words.prickle += doubt_pct > forecast.diameter.over_30um_pct
                             ? ", to " + tenths(forecast.diameter.over_30um_pct + doubt_pct)
                             : " \u00b1" + number_of(prickle_doubt);
        words.prickle_doubt = give_or_take(prickle_doubt);
    }
    if (!forecast.feel.empty()) words.feel = "Fit for: " + std::string(forecast.feel);
    for (const staple::Inclusion& inclusion : forecast.inclusions)
        words.inclusions.push_back(inclusion_in_words(inclusion, settings));
    return words;
}

std::string words_at(double mm, const forecast::Forecast& forecast, const forecast::StapleDiagram& diagram,
                     const Settings& settings) {
    BATTWRIGHT_BELIEVE(!diagram.at_least.empty());
    const std::size_t here = diagram.class_at(mm);
    std::string words = measure::print_length(mm, settings.length) + ": " +
                        measure::print_percent(double{diagram.at_least[here]}) +
                        " of the fibres are at least this long";
    if (const auto most = diagram.foremost[here]; most && *most < forecast.components.size())
        words += "; around here most are " + forecast.components[*most].label;
    return words;
}

KindFigure staple_figure(const fibre::Kind& kind, const Settings& settings) {
    return figure_of(kind, "staple", kind.staple_mm,
                     [&](double mm) { return measure::print_length(mm, settings.length); });
}

KindFigure diameter_figure(const fibre::Kind& kind) {
    return figure_of(kind, "diameter", kind.diameter_um, micrometres);
}

std::string other_guesses(const fibre::Kind& kind) {
    constexpr std::array<std::pair<const char*, const char*>, 3> figures{
        {{"staple_cv", "spread of the length"},
         {"diameter_cv", "spread of the thickness"},
         {"crimp", "crimp"}}};
    std::string words;
    for (const auto& [figure, noun] : figures)
        if (fibre::is_guess(kind, figure)) words += (words.empty() ? "guesses: " : ", ") + std::string(noun);
    return words;
}

std::string in_own_units(const std::string& text_with_quantities, const Settings& settings) {
    std::string words = staple::words_in(text_with_quantities, {settings.length, settings.mass});
    constexpr std::string_view plain = " um";
    for (std::size_t at = words.find(plain); at != std::string::npos; at = words.find(plain, at + 1)) {
        const std::size_t end = at + plain.size();
        const bool whole = end == words.size() || std::isalpha(static_cast<unsigned char>(words[end])) == 0;
        if (whole && at > 0 && std::isdigit(static_cast<unsigned char>(words[at - 1])) != 0)
            words.replace(at, plain.size(), " \u00b5m");
    }
    return words;
}

}  // namespace battwright::app
