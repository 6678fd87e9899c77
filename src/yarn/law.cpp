#include "yarn/law.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "text/believe.hpp"
#include "yarn/calibration.hpp"

namespace battwright::yarn {
namespace {

double z_of(double wpi) {
    BATTWRIGHT_BELIEVE(wpi > 0.0);
    return std::log(wpi / law_centre_wpi);
}

double pulled(double z) {
    return z / (1.0 + (z / law_reach) * (z / law_reach));
}

double log_plies(const Makeup& makeup) {
    BATTWRIGHT_BELIEVE(makeup.plies >= 1);
    return std::log(makeup.plies / 2.0);
}

double log_diameter(const Makeup& makeup) {
    BATTWRIGHT_BELIEVE(makeup.diameter_um > 0.0);
    return std::log(makeup.diameter_um / law_diameter_um);
}

// ln(metres per kilogram) at 14 wraps.
double level_of(const Makeup& makeup) {
    return law_centre + law_plies * log_plies(makeup) + law_diameter * log_diameter(makeup);
}

bool takes_part(const recipe::Strand& strand) {
    return strand.kind != nullptr && strand.kind->form == fibre::Form::fibre &&
           strand.kind->family != fibre::Family::unknown && strand.diameter_um > 0.0;
}

}  // namespace

Makeup makeup_of(int plies, std::span<const recipe::Strand> strands) {
    double grams = 0.0, sum = 0.0;
    for (const recipe::Strand& strand : strands) {
        if (!takes_part(strand)) continue;
        grams += strand.grams;
        sum += strand.grams * std::log(strand.diameter_um);
    }
    return {plies, grams > 0.0 ? std::exp(sum / grams) : law_diameter_um};
}

double guessed_diameter_log_sd(std::span<const recipe::Strand> strands) {
    double grams = 0.0;
    std::map<const fibre::Kind*, double> guessed;
    for (const recipe::Strand& strand : strands) {
        if (!takes_part(strand)) continue;
        grams += strand.grams;
        const bool from_catalogue = strand.diameter_um == strand.kind->diameter_um;
        if (from_catalogue && fibre::is_guess(*strand.kind, "diameter"))
            guessed[strand.kind.get()] += strand.grams * fibre::doubt(*strand.kind, "diameter");
    }
    double squares = 0.0;
    for (const auto& [kind, sum] : guessed) squares += sum * sum;
    return grams > 0.0 ? std::abs(law_diameter) * std::sqrt(squares) / grams : 0.0;
}

double log_m_per_kg_at_wraps(double wpi, const Makeup& makeup) {
    const double z = z_of(wpi);
    return level_of(makeup) + 2.0 * z - law_pull * pulled(z);
}

double log_m_per_kg_by_name(double usual_wpi) {
    return name_centre + name_slope * z_of(usual_wpi);
}

double law_slope(double wpi) {
    const double squared = z_of(wpi) * z_of(wpi) / (law_reach * law_reach);
    return 2.0 - law_pull * (1.0 - squared) / ((1.0 + squared) * (1.0 + squared));
}

double law_log_se(double wpi, const Makeup& makeup) {
    return std::hypot(std::hypot(law_centre_se, law_pull_se * pulled(z_of(wpi))),
                      std::hypot(law_plies_se * log_plies(makeup), law_diameter_se * log_diameter(makeup)));
}

double name_log_se(double usual_wpi) {
    return std::hypot(name_centre_se, name_slope_se * z_of(usual_wpi));
}

double wpi_of_tex(double tex, const Makeup& makeup) {
    return tex > 0.0 ? law_centre_wpi * std::exp(0.5 * (std::log(1e6 / tex) - level_of(makeup))) : 0.0;
}

double tex_truly_at(double wpi, const Makeup& makeup) {
    return wpi > 0.0 ? tex_of_log_m_per_kg(level_of(makeup) + 2.0 * z_of(wpi)) : 0.0;
}

double wpi_factor_80_percent() {
    const double loft = std::hypot(loft_habit_log_sd, loft_chance_log_sd);
    return std::exp(z_of_80_percent * std::hypot(0.5 * loft, count_log_sd));
}

double tex_of_log_m_per_kg(double log_m_per_kg) {
    return 1e6 * std::exp(-log_m_per_kg);
}

}  // namespace battwright::yarn
