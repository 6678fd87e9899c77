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
// The same of a plain number with one standard deviation.
Sighting sighting_of(double seen, double sd, const std::function<double(double)>& foretold,
                     const PriorNormal& prior);

// Three errors, in lightness, chroma and hue, that lie `de00` CIEDE2000 from the colour taken together (root
// of the sum of squares).
std::array<Lab, 3> errors_of(const Lab& colour, double de00);
Lab minus(const Lab& first, const Lab& second);

}  // namespace battwright::colour
