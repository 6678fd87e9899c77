// What is lost on the way (common practice, no source), and what the wash does.
#pragma once

#include <span>

#include "recipe/composition.hpp"

namespace battwright::yarn {

struct Spread {
    double low = 0.0, high = 0.0;
    double middle() const { return 0.5 * (low + high); }
};

// Percent of the weight put in that does not come out: on the carder (short bits under the drum, dust, what
// stays in the teeth) and at the wheel (ends, breaks, lint). A lofty preparation sheds most.
Spread carding_loss_pct(recipe::Preparation preparation);
Spread spinning_loss_pct(recipe::Preparation preparation);
// Weight of the batt carded from so much fibre, at the middle of the range. What drops out of its own accord
// (a kind's `retention`) comes on top.
double batt_grams_from_fed(double fed_grams, recipe::Preparation preparation);
// Share of a mixture's mass expected to stay in the yarn: sum of w * retention. 1 for no strands.
double retained_share(std::span<const recipe::Strand> strands);

// A wash lets the yarn relax: it shortens and grows thicker. Percent of the length and of the diameter as it
// comes off the wheel.
struct Wash {
    Spread shrink_pct;
    Spread bloom_pct;
};
// Wool springs back by its crimp: published figures of spinners' pages, length from wound to washed and dry,
// are merino 6 and 33 % by how it was spun and handled, polwarth 22 to 28, polypay 22, churro 11, a bulky
// batt yarn 17. The range runs from 5 to 12 % without crimp to 6 to 33 % from `full_crimp_per_cm` on.
// Everything else here is common practice, no source.
inline constexpr double full_crimp_per_cm = 5.0;
// A wool nothing more is known of.
inline constexpr double middling_crimp_per_cm = 3.0;
Wash wash_of(fibre::Family family, double crimp_per_cm = middling_crimp_per_cm);
// Of a blend, weighted by mass; wider for a wool whose crimp is only guessed (fibre::doubt). No strands, or a
// strand of no kind: as a middling wool.
Wash wash_of(std::span<const recipe::Strand> strands);
// The length before the wash of a yarn that is so long after it, and the other way.
double length_before_wash_m(double after_m, double shrink_pct);
double length_after_wash_m(double before_m, double shrink_pct);

// When to measure, for the person holding the skein.
inline constexpr const char* measure_when = "measure it after it is washed and dry";

}  // namespace battwright::yarn
