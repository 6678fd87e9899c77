// How even a yarn can be at best.
#include <cmath>

#include "staple/distribution.hpp"

namespace battwright::staple {

double fibres_in_section(double tex_yarn, double tex_fibre) {
    return tex_fibre > 0.0 ? tex_yarn / tex_fibre : 0.0;
}

double martindale_limit_pct(double fibres_in_section, double diameter_cv_pct) {
    if (fibres_in_section <= 0.0) return 0.0;
    return 100.0 / std::sqrt(fibres_in_section) * std::sqrt(1.0 + 0.0004 * diameter_cv_pct * diameter_cv_pct);
}

double index_of_irregularity(double measured_cv_pct, double limit_cv_pct) {
    return limit_cv_pct > 0.0 ? measured_cv_pct / limit_cv_pct : 0.0;
}

}  // namespace battwright::staple
