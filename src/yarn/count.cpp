#include "yarn/count.hpp"

#include <cmath>

namespace battwright::yarn {

double compact_diameters_per_inch(double tex, double k) {
    return k * std::sqrt(yards_per_pound(tex));
}

double compact_diameter_mm(double tex, double k) {
    return tex > 0.0 ? measure::millimetres_per_inch / compact_diameters_per_inch(tex, k) : 0.0;
}

}  // namespace battwright::yarn
