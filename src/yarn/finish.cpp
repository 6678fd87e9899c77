#include "yarn/finish.hpp"

#include <algorithm>
#include <array>

#include "measure/choices.hpp"

namespace battwright::yarn {
namespace {

struct LossRow {
    recipe::Preparation value{};
    Spread carding, spinning;  // percent
};
constexpr std::array<LossRow, 3> losses{{
    {recipe::Preparation::woollen, {3.0, 8.0}, {2.0, 6.0}},
    {recipe::Preparation::semi_woollen, {2.0, 6.0}, {1.0, 5.0}},
    {recipe::Preparation::worsted, {2.0, 5.0}, {1.0, 3.0}},
}};
static_assert(measure::one_row_each(losses));

Wash wool(double crimp_per_cm) {
    const double crimp = std::min(1.0, crimp_per_cm / full_crimp_per_cm);
    return {{5.0 + crimp, 12.0 + 21.0 * crimp}, {5.0, 15.0}};
}

void add(Spread& sum, const Spread& part, double weight) {
    sum.low += weight * part.low;
    sum.high += weight * part.high;
}

// A crimp that is only guessed: both ends move out by what the middle would.
void widen_for_guess(Wash& wash, const fibre::Kind& kind) {
    if (kind.family != fibre::Family::wool || !fibre::is_guess(kind, "crimp")) return;
    const double off = kind.crimp_per_cm * fibre::doubt(kind, "crimp");
    const double by = 0.5 * (wool(kind.crimp_per_cm + off).shrink_pct.middle() -
                             wool(std::max(0.0, kind.crimp_per_cm - off)).shrink_pct.middle());
    wash.shrink_pct.low = std::max(0.0, wash.shrink_pct.low - by);
    wash.shrink_pct.high += by;
}

double carded_share(recipe::Preparation preparation) {
    return 1.0 - carding_loss_pct(preparation).middle() / 100.0;
}

}  // namespace

Spread carding_loss_pct(recipe::Preparation preparation) {
    return measure::row_of(losses, preparation).carding;
}

Spread spinning_loss_pct(recipe::Preparation preparation) {
    return measure::row_of(losses, preparation).spinning;
}

double batt_grams_from_fed(double fed_grams, recipe::Preparation preparation) {
    return fed_grams * carded_share(preparation);
}

double retained_share(std::span<const recipe::Strand> strands) {
    double grams = 0.0, kept = 0.0;
    for (const recipe::Strand& strand : strands) {
        grams += strand.grams;
        kept += strand.grams * (strand.kind != nullptr ? strand.kind->retention : 1.0);
    }
    return grams > 0.0 ? kept / grams : 1.0;
}

Wash wash_of(fibre::Family family, double crimp_per_cm) {
    switch (family) {
        case fibre::Family::hair:
            return {{2.0, 6.0}, {5.0, 20.0}};
        case fibre::Family::silk:
            return {{0.0, 3.0}, {0.0, 5.0}};
        case fibre::Family::bast:
            return {{1.0, 4.0}, {0.0, 3.0}};
        case fibre::Family::cotton:
            return {{2.0, 6.0}, {2.0, 8.0}};
        case fibre::Family::regenerated:
            return {{1.0, 5.0}, {0.0, 4.0}};
        case fibre::Family::synthetic:
        case fibre::Family::sparkle:
            return {{0.0, 1.0}, {0.0, 3.0}};
        case fibre::Family::unknown:
            return {{0.0, 10.0}, {0.0, 20.0}};
        case fibre::Family::wool:
        case fibre::Family::inclusion:
            break;
    }
    return wool(crimp_per_cm);
}

Wash wash_of(std::span<const recipe::Strand> strands) {
    double grams = 0.0;
    for (const recipe::Strand& strand : strands) grams += strand.grams;
    if (!(grams > 0.0)) return wool(middling_crimp_per_cm);
    Wash blend;
    for (const recipe::Strand& strand : strands) {
        const fibre::Kind* kind = strand.kind.get();
        Wash own = kind != nullptr ? wash_of(kind->family, kind->crimp_per_cm) : wool(middling_crimp_per_cm);
        if (kind != nullptr) widen_for_guess(own, *kind);
        add(blend.shrink_pct, own.shrink_pct, strand.grams / grams);
        add(blend.bloom_pct, own.bloom_pct, strand.grams / grams);
    }
    return blend;
}

double length_before_wash_m(double after_m, double shrink_pct) {
    return after_m / (1.0 - shrink_pct / 100.0);
}

double length_after_wash_m(double before_m, double shrink_pct) {
    return before_m * (1.0 - shrink_pct / 100.0);
}

}  // namespace battwright::yarn
