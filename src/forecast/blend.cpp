#include "forecast/blend.hpp"

namespace battwright::forecast {

colour::Spectrum blend_of_strands(const Forecast& f, std::span<const double> weights,
                                  const colour::OpticsModel& optics) {
    std::vector<colour::Portion> portions;
    portions.reserve(f.strands.size());
    for (std::size_t s = 0; s < f.strands.size(); ++s)
        if (weights[s] > 0.0) portions.push_back({weights[s], f.strand_reflectances[s]});
    return colour::blend(portions, optics);
}

colour::Spectrum blend_of_components(const Forecast& f, std::span<const double> weights) {
    std::vector<double> of_strands;
    of_strands.reserve(f.strands.size());
    for (const recipe::Strand& strand : f.strands)
        of_strands.push_back(weights[strand.component] * strand.grams / f.components[strand.component].grams);
    return blend_of_strands(f, of_strands, f.optics);
}

}  // namespace battwright::forecast
