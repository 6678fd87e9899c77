#include "forecast/colour_doubt.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "forecast/blend.hpp"
#include "text/numbers.hpp"

namespace battwright::forecast {
namespace {

// Over the bands, x from -1 to 1: the first three of Legendre's polynomials.
constexpr std::array<double (*)(double), 3> ways{
    [](double) { return 1.0; },
    [](double x) { return x; },
    [](double x) { return 1.5 * x * x - 0.5; },
};

// A reflectance stays one: positive, at most 1.
colour::Spectrum moved(const colour::Spectrum& from, double (*way)(double), double by) {
    colour::Spectrum to = from;
    const double last = static_cast<double>(from.size() - 1);
    for (std::size_t i = 0; i < from.size(); ++i)
        to[i] = std::min(1.0, from[i] * std::exp(-by * way(2.0 * static_cast<double>(i) / last - 1.0)));
    return to;
}

double doubt_of(recipe::ColourFrom from) {
    switch (from) {
        case recipe::ColourFrom::photo:
            return photo_doubt_de00;
        case recipe::ColourFrom::tag:
            return tag_doubt_de00;
        case recipe::ColourFrom::measured:
            return measured_doubt_de00;
        case recipe::ColourFrom::eye:
            break;
    }
    return eye_doubt_de00;
}

double apart(const Forecast& f, const colour::Spectrum& a, const colour::Spectrum& b) {
    return colour::ciede2000(colour::lab_under(a, f.light), colour::lab_under(b, f.light));
}

// How far to move a component so that it lies `doubt` from itself: the difference grows near enough in step.
double step_for(const Forecast& f, const colour::Spectrum& own, double (*way)(double), double doubt_de00) {
    double by = 0.05;
    for (int turn = 0; turn < 4; ++turn) {
        const double found = apart(f, own, moved(own, way, by));
        if (found <= 0.0) return by;
        by = std::min(by * doubt_de00 / found, 2.0);
    }
    return by;
}

colour::Spectrum moved_blend(const Forecast& f, std::size_t component, double (*way)(double), double by,
                             const colour::OpticsModel& optics) {
    std::vector<colour::Portion> portions;
    portions.reserve(f.strands.size());
    for (std::size_t i = 0; i < f.strands.size(); ++i) {
        const colour::Spectrum& own = f.strand_reflectances[i];
        portions.push_back(
            {f.strands[i].mass_share, f.strands[i].component == component ? moved(own, way, by) : own});
    }
    return colour::blend(portions, optics);
}

// How far the blend moves when ln m does by its doubt.
double m_moves(const Forecast& f) {
    if (f.optics.optics != colour::Optics::stearns_noechel) return 0.0;
    colour::OpticsModel other = f.optics;
    other.m *= std::exp(f.optics.m_log_sd);
    return apart(f, f.colour.reflectance, blend_of(f, other));
}

}  // namespace

double own_doubt_de00(const recipe::Component& component) {
    if (component.palette.empty()) return natural_colour_doubt_de00;
    return doubt_of(component.colour_from.value_or(recipe::ColourFrom::eye));
}

std::string origins_in_words(const recipe::Recipe& recipe) {
    std::vector<std::string> parts;
    const auto add = [&](const std::string& what, double doubt_de00) {
        std::string part = what + " may be " + text::number(doubt_de00, doubt_de00 < 1.0 ? 1 : 0) + " off";
        if (std::find(parts.begin(), parts.end(), part) == parts.end()) parts.push_back(std::move(part));
    };
    for (const recipe::Component& component : recipe.components) {
        if (component.palette.empty())
            add("an undyed fibre, by the catalogue's colour for it,", own_doubt_de00(component));
        else if (component.colour_from)
            add("a colour " +
                    std::string(measure::row_of(recipe::colour_origins, *component.colour_from).phrase),
                own_doubt_de00(component));
        else
            add("a colour of which the recipe does not say where it is from", own_doubt_de00(component));
    }
    std::string words;
    for (const std::string& part : parts) words += (words.empty() ? "" : "; ") + part;
    return words;
}

colour::Spectrum blend_of(const Forecast& f, const colour::OpticsModel& optics) {
    std::vector<double> shares;
    for (const recipe::Strand& strand : f.strands) shares.push_back(strand.mass_share);
    return blend_of_strands(f, shares, optics);
}

std::vector<colour::Spectrum> moved_blends(const Forecast& f, const colour::OpticsModel& optics) {
    static_assert(ways.size() == ways_to_move);
    std::vector<colour::Spectrum> blends;
    for (std::size_t i = 0; i < f.components.size(); ++i)
        for (const auto way : ways) {
            const double by =
                step_for(f, f.components[i].reflectance, way, own_doubt_de00(f.recipe.components[i]));
            blends.push_back(moved_blend(f, i, way, by, optics));
        }
    return blends;
}

ColourDoubt colour_doubt(const Forecast& f) {
    ColourDoubt doubt;
    for (std::size_t i = 0; i < f.components.size(); ++i)
        doubt.components_de00.push_back(own_doubt_de00(f.recipe.components[i]));
    doubt.m_de00 = m_moves(f);
    double squares = model_doubt_de00 * model_doubt_de00 + doubt.m_de00 * doubt.m_de00;
    for (const colour::Spectrum& blend : moved_blends(f, f.optics)) {
        const double moves = apart(f, f.colour.reflectance, blend);
        squares += moves * moves / static_cast<double>(ways.size());
    }
    doubt.blend_de00 = std::sqrt(squares);
    return doubt;
}

}  // namespace battwright::forecast
