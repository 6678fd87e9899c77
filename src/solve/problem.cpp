#include "solve/problem.hpp"

#include <algorithm>

#include "colour/reflectance.hpp"

namespace battwright::solve {

Target target_of(const colour::Spectrum& reflectance) {
    return {colour::lab_under(reflectance, colour::Light::d65), reflectance};
}

Target target_of(const colour::Srgb& colour) {
    return target_of(colour::reflectance_of(colour));
}

Target target_of(const colour::Lab& lab) {
    return {lab, colour::reflectance_of(colour::clipped(colour::srgb_from(lab)))};
}

std::vector<Target> between(const colour::Lab& from, const colour::Lab& to, std::size_t count) {
    std::vector<Target> targets;
    targets.reserve(count);
    for (std::size_t i = 0; i < count; ++i) {
        const double t = count < 2 ? 0.5 : static_cast<double>(i) / static_cast<double>(count - 1);
        targets.push_back(target_of(colour::Lab{from.l + t * (to.l - from.l), from.a + t * (to.a - from.a),
                                                from.b + t * (to.b - from.b)}));
    }
    return targets;
}

UseUp use_up_scraps(const std::vector<Lot>& lots, UseUpBy by) {
    UseUp use_up;
    use_up.by = by;
    for (const Lot& lot : lots) {
        if (lot.scrap) use_up.lots.push_back(lot.id);
    }
    return use_up;
}

double usable_grams(const Lot& lot, const Bounds& bounds) {
    const double kept = std::max(lot.keep_back_grams, lot.on_hand_grams * bounds.keep_back_pct / 100.0);
    const double free = std::max(0.0, lot.on_hand_grams - kept);
    return std::min(free, lot.most_grams.value_or(free));
}

}  // namespace battwright::solve
