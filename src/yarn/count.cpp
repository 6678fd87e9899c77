#include "yarn/count.hpp"

#include <cmath>

namespace battwright::yarn {

double ashenhurst_k(Firmness firmness) {
    if (firmness == Firmness::soft_woollen) return ashenhurst_soft_woollen;
    return firmness == Firmness::firm_worsted ? ashenhurst_firm_worsted : ashenhurst_very_firm;
}

double compact_diameters_per_inch(double tex, double k) {
    return k * std::sqrt(yards_per_pound(tex));
}

double tex_at_compact_diameters(double diameters_per_inch, double k) {
    return tex_yards_per_pound * (k / diameters_per_inch) * (k / diameters_per_inch);
}

double compact_diameter_mm(double tex, double k) {
    return tex > 0.0 ? measure::millimetres_per_inch / compact_diameters_per_inch(tex, k) : 0.0;
}

}  // namespace battwright::yarn
