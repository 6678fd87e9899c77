// One unknown figure, seen through a colour that depends on it.
#pragma once

#include <array>
#include <functional>
#include <span>

#include "colour/spectrum.hpp"

namespace battwright::colour {

// What is believed of the figure before, as a normal on whatever scale it is given (a logarithm, mostly).
struct PriorNormal {
    double mean = 0.0, sd = 1.0;
};
// What one colour says of the figure: a value, its standard deviation (infinite: nothing), and how well the
// colour fits at all: root mean square of the three residuals over their standard deviations, about 1.
struct Sighting {
    double at = 0.0;
    double sd = 0.0;
    double misfit = 0.0;
};

// Each error moves the colour by one standard deviation, apart from the others, and is small against it. The
// figure's most likely value, the prior counted, is found by Gauss and Newton's steps, and the model taken as
// a line there; so a conjugate update with the sighting (prior not counted) is closed.
Sighting sighting_of(const Lab& seen, const std::function<Lab(double)>& foretold, std::span<const Lab> errors,
                     const PriorNormal& prior);
// A number that was seen, give or take sd, and how it goes with the figure x: level + slope x + bend x^2, and
// flat on the far side of that parabola's lowest point. A bare sighting is the line of level 0 and slope 1.
struct CurvedSighting {
    double seen = 0.0, sd = 1.0;
    double level = 0.0, slope = 1.0, bend = 0.0;
    double by_other = 0.0;  // what is foretold goes up by with another figure that all sightings share
    double foretold(double x) const;
    double slope_at(double x) const;
};
// The parabola of least squares through points of a curve. Precondition: three points or more, not all at one
// place.
CurvedSighting curved_through(std::span<const double> at, std::span<const double> values);

// What is believed after all of them: the most likely x by Gauss and Newton's steps on all at once, the
// variance with every curve taken as its tangent there, and the squares that are left, the prior's among
// them, each over its variance. With straight lines this is the conjugate update, in any order.
struct BeliefNormal {
    double mean = 0.0, variance = 1.0, squares = 0.0;
};
// `other`: how far the shared figure lies from where the levels were taken, and how sure that is; what it may
// move x by comes on top of the variance.
BeliefNormal believed(const PriorNormal& prior, std::span<const CurvedSighting> sightings,
                      const PriorNormal& other = {0.0, 0.0});

// Three errors, in lightness, chroma and hue, that lie `de00` CIEDE2000 from the colour taken together (root
// of the sum of squares).
std::array<Lab, 3> errors_of(const Lab& colour, double de00);
Lab minus(const Lab& first, const Lab& second);

}  // namespace battwright::colour
