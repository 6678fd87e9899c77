#include "carding/seen.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "colour/spaces.hpp"
#include "text/believe.hpp"

namespace battwright::carding {
namespace {

// Friele's function of the blackest fibre is 0 in a double; its logarithm must stay finite.
constexpr double least_f = 1e-300;

// Mean distance from the origin of a normal spread about a point `away` from it (the folded normal, Leone,
// Nelson & Nottingham 1961).
double mean_away(double away, double spread) {
    if (!(spread > 1e-9)) return away;
    const double t = away / spread;
    return spread * std::sqrt(2.0 / std::numbers::pi) * std::exp(-0.5 * t * t) +
           away * std::erf(t / std::numbers::sqrt2);
}

}  // namespace

Blends::Blends(const BattObserver& observer)
    : observer_(observer), additive_(observer.reflectances), white_(colour::white(observer.light)) {
    for (auto& spectrum : additive_) {
        for (double& value : spectrum) value = colour::forward(std::clamp(value, 1e-9, 1.0), observer.optics);
    }
}

colour::Spectrum Blends::mixed(const double* shares, std::size_t stride) const {
    colour::Spectrum mixed{};
    for (std::size_t p = 0; p < additive_.size(); ++p) {
        const double share = shares[p * stride];
        for (std::size_t b = 0; b < colour::bands; ++b) mixed[b] += share * additive_[p][b];
    }
    return mixed;
}

Seen Blends::seen(const colour::Spectrum& mixed) const {
    colour::Spectrum reflectance = mixed;
    for (double& value : reflectance) value = colour::inverse(std::max(value, least_f), observer_.optics);
    Seen seen;
    seen.xyz = colour::xyz(reflectance, observer_.light);
    seen.lab = colour::lab(seen.xyz, white_);
    return seen;
}

double Blends::stray(const double* shares, std::size_t stride, const colour::Spectrum& mixed,
                     const Seen& seen, double tufts, const std::vector<double>& fibres) const {
    double sum = 0.0;
    for (std::size_t p = 0; p < additive_.size(); ++p) {
        const double share = shares[p * stride];
        const double part = std::sqrt(std::min(1.0, tufts + fibres[p]));
        if (!(share > 1e-9) || !(part > 1e-9)) continue;
        colour::Spectrum moved;
        for (std::size_t b = 0; b < colour::bands; ++b)
            moved[b] = (1.0 - part) * mixed[b] + part * additive_[p][b];
        const double apart = colour::ciede2000(seen.lab, this->seen(moved).lab);
        sum += share * apart * apart;
    }
    return std::sqrt(sum);
}

std::vector<double> fibre_parts(const BattObserver& observer, std::size_t portions, double section_tex) {
    std::vector<double> parts(portions, middling_tex() / section_tex);
    for (std::size_t p = 0; p < std::min(portions, observer.tex.size()); ++p)
        parts[p] = observer.tex[p] / section_tex;
    return parts;
}

std::vector<Seen> seen_patches(const Blends& blends, const Field& patches,
                               const std::vector<double>& unresolved, const std::vector<double>& fibres) {
    const std::size_t count = patches.block_size();
    std::vector<Seen> seen(count);
    for (std::size_t i = 0; i < count; ++i) {
        const double* shares = &patches.shares[i];
        const auto mixed = blends.mixed(shares, count);
        seen[i] = blends.seen(mixed);
        seen[i].stray = blends.stray(shares, count, mixed, seen[i], unresolved[i], fibres);
    }
    return seen;
}

colour::Xyz mean_light(std::span<const Seen> seen) {
    BATTWRIGHT_BELIEVE(!seen.empty());
    colour::Xyz sum;
    for (const Seen& one : seen) {
        sum.x += one.xyz.x;
        sum.y += one.xyz.y;
        sum.z += one.xyz.z;
    }
    const double n = static_cast<double>(seen.size());
    return {sum.x / n, sum.y / n, sum.z / n};
}

double variation_of(std::span<const Seen> seen, const BattObserver& observer) {
    if (seen.empty()) return 0.0;
    const colour::Lab mean = colour::lab(mean_light(seen), colour::white(observer.light));
    double sum = 0.0;
    for (const Seen& one : seen) sum += mean_away(colour::ciede2000(mean, one.lab), one.stray);
    return sum / static_cast<double>(seen.size());
}

}  // namespace battwright::carding
