// Inside this room: the colours of a batt's patches, and how far they stray.
#pragma once

#include <span>
#include <vector>

#include "carding/habits.hpp"
#include "carding/measures.hpp"
#include "colour/optics.hpp"
#include "fibre/catalogue.hpp"

namespace battwright::carding {

// Of a fibre that nothing is known of: a middling wool.
inline double middling_tex() {
    return fibre::fibre_tex(habits::middling_um, 0.0, fibre::wool_density_g_cm3);
}

// A patch's colour, how far patches of its kind stray from it by chance and by what lies unresolved (root
// mean square, CIEDE2000).
struct Seen {
    colour::Xyz xyz;
    colour::Lab lab;
    double stray = 0.0;
};

// Blend colours of shares. The additive function is linear in the shares, so each portion's is taken once.
// The observer must outlive it.
class Blends {
  public:
    explicit Blends(const BattObserver& observer);
    std::size_t portions() const { return additive_.size(); }
    // Shares one `stride` apart.
    colour::Spectrum mixed(const double* shares, std::size_t stride) const;
    Seen seen(const colour::Spectrum& mixed) const;
    // Shares c vary with the covariance sum_p c_p v_p (e_p - c)(e_p - c)': as if, with chance c_p, a part
    // sqrt(v_p) of the place were given over to portion p alone. So shares stay shares. Tufts of intensity s
    // give v_p = s; fibres of tex T_p drawn at random into a section of T tex give v_p = T_p / T (Stange
    // 1954; p q / n for two alike). Root mean square of the colour differences.
    double stray(const double* shares, std::size_t stride, const colour::Spectrum& mixed, const Seen& seen,
                 double tufts, const std::vector<double>& fibres) const;

  private:
    const BattObserver& observer_;
    std::vector<colour::Spectrum> additive_;
    colour::Xyz white_;
};

// Tex of the fibres over that of the section.
std::vector<double> fibre_parts(const BattObserver& observer, std::size_t portions, double section_tex);
std::vector<Seen> seen_patches(const Blends& blends, const Field& patches,
                               const std::vector<double>& unresolved, const std::vector<double>& fibres);
// Precondition: there are some.
colour::Xyz mean_light(std::span<const Seen> seen);
// Mean CIEDE2000 of the patches from the mean of their light; 0 without any.
double variation_of(std::span<const Seen> seen, const BattObserver& observer);

}  // namespace battwright::carding
