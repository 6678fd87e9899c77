#include "forecast/colour_doubt.hpp"

#include <algorithm>
#include <array>
#include <cmath>

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

double blend_moves(const Forecast& f, std::size_t component, double (*way)(double), double by) {
    std::vector<colour::Portion> portions;
    portions.reserve(f.strands.size());
    for (std::size_t i = 0; i < f.strands.size(); ++i) {
        const colour::Spectrum& own = f.strand_reflectances[i];
        portions.push_back(
            {f.strands[i].mass_share, f.strands[i].component == component ? moved(own, way, by) : own});
    }
    return apart(f, f.colour.reflectance, colour::blend(portions, f.optics));
}

}  // namespace

ColourDoubt colour_doubt(const Forecast& f) {
    ColourDoubt doubt;
    double squares = model_doubt_de00 * model_doubt_de00;
    for (std::size_t i = 0; i < f.components.size(); ++i) {
        const double own =
            f.recipe.components[i].palette.empty() ? natural_colour_doubt_de00 : given_colour_doubt_de00;
        doubt.components_de00.push_back(own);
        for (const auto way : ways) {
            const double by = step_for(f, f.components[i].reflectance, way, own);
            const double moves = blend_moves(f, i, way, by);
            squares += moves * moves / static_cast<double>(ways.size());
        }
    }
    doubt.blend_de00 = std::sqrt(squares);
    return doubt;
}

}  // namespace battwright::forecast
