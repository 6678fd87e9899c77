// Plying: the geometry of strands wound round each other, and what each way of plying does.
#pragma once

#include <optional>
#include <string_view>

#include "measure/complaint.hpp"
#include "recipe/plying.hpp"

namespace battwright::yarn {

using recipe::Plying;
using recipe::Thread;
std::string_view word_for(Plying plying);  // for a person: "chain ply"
// Strands in the finished yarn, the thread counted. `plies` only matters to `plied`.
int strands_in(Plying plying, int plies);

// Distance of a strand's axis from the yarn's axis, mm: n equal round strands touching in a ring,
// d / (2 sin(pi / n)); 0 for a single.
double axis_radius_mm(int strands, double strand_diameter_mm);
// Metres of strand in a metre of plied yarn, exact for a helix: sqrt(1 + (2 pi r T)^2).
double helix_factor(double radius_mm, double turns_per_m);
// Length lost to plying, percent of the strand: 100 (1 - 1 / factor).
double take_up_pct(double factor);

// Turns of a balanced ply over turns of its singles. Common practice, no source: two thirds for two and three
// strands; beyond, the helix angle of three strands is kept, as a thicker bundle takes fewer turns.
inline constexpr double balanced_ply = 2.0 / 3.0;
double ply_twist_fraction(int strands);

// Everything a plying needs to know of the singles.
struct Strands {
    Plying plying = Plying::plied;
    int plies = 1;
    double angle_degrees = 0.0;    // of the single, on its taut diameter
    double k = 1.0;                // Ashenhurst's, of the single
    std::optional<Thread> thread;  // for with_thread
};
// The yarn as it comes off the wheel, before the wash.
struct Plied {
    int strands = 1;
    double tex = 0.0;
    double single_turns_per_m = 0.0;
    double turns_per_m = 0.0;          // of the ply; 0 for a single
    double helix_angle_degrees = 0.0;  // of the single's path
    double factor = 1.0;               // metres of each single in a metre of yarn
    double thread_factor = 0.0;        // metres of thread in a metre of yarn
    double take_up_pct = 0.0;
    double single_m_per_m = 1.0;  // metres of single in a metre of yarn, all strands together
};
// A thread and a single of two thicknesses lie either side of the axis of the circle round both, so each is
// half the other's diameter away from it. Precondition: single_tex > 0.
Plied plied_from(double single_tex, const Strands& strands);
// The single that plies to a yarn of `plied_tex`, in closed form, since the turns go with the strand's own
// thickness. 0 when the thread alone is thicker than that.
double single_tex_for(double plied_tex, const Strands& strands);

// Metres the cone has to spare, or the complaint that it is too short by so much.
measure::Expected<double> thread_to_spare_m(const Thread& thread, double needed_m);

// What plying does, against the single left as it is.
struct PlyEffect {
    double length_factor = 1.0;     // yarn metres per metre of single spun
    double thickness_factor = 1.0;  // relaxed diameter, at the same packing: sqrt(tex ratio)
    // Colour changes along the yarn, 1 as in the single. n strands that change independently average to
    // 1 / sqrt(n) (the law of doubling); a chain ply keeps them; a thread hides its share of the surface.
    double stripe_strength = 1.0;
    double contrast_across = 0.0;  // two colours side by side: 1 for equal shares of the surface
    std::string_view text;         // for a person
};
PlyEffect effect_of(double single_tex, const Strands& strands);

}  // namespace battwright::yarn
