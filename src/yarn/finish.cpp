#include "yarn/finish.hpp"

namespace battwright::yarn {
namespace {

constexpr Wash wool{{3.0, 8.0}, {5.0, 15.0}};

void add(Spread& sum, const Spread& part, double weight) {
    sum.low += weight * part.low;
    sum.high += weight * part.high;
}

double carded_share(recipe::Preparation preparation) {
    return 1.0 - carding_loss_pct(preparation).middle() / 100.0;
}

}  // namespace

Spread carding_loss_pct(recipe::Preparation preparation) {
    if (preparation == recipe::Preparation::woollen) return {3.0, 8.0};
    return preparation == recipe::Preparation::worsted ? Spread{2.0, 5.0} : Spread{2.0, 6.0};
}

Spread spinning_loss_pct(recipe::Preparation preparation) {
    if (preparation == recipe::Preparation::woollen) return {2.0, 6.0};
    return preparation == recipe::Preparation::worsted ? Spread{1.0, 3.0} : Spread{1.0, 5.0};
}

double batt_grams_from_fed(double fed_grams, recipe::Preparation preparation) {
    return fed_grams * carded_share(preparation);
}

double fed_grams_for_batt(double batt_grams, recipe::Preparation preparation) {
    return batt_grams / carded_share(preparation);
}

double retained_share(std::span<const recipe::Strand> strands) {
    double grams = 0.0, kept = 0.0;
    for (const recipe::Strand& strand : strands) {
        grams += strand.grams;
        kept += strand.grams * (strand.kind != nullptr ? strand.kind->retention : 1.0);
    }
    return grams > 0.0 ? kept / grams : 1.0;
}

Wash wash_of(fibre::Family family) {
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
    return wool;
}

Wash wash_of(std::span<const recipe::Strand> strands) {
    double grams = 0.0;
    for (const recipe::Strand& strand : strands) grams += strand.grams;
    if (!(grams > 0.0)) return wool;
    Wash blend;
    for (const recipe::Strand& strand : strands) {
        const Wash own = strand.kind != nullptr ? wash_of(strand.kind->family) : wool;
        add(blend.shrink_pct, own.shrink_pct, strand.grams / grams);
        add(blend.bloom_pct, own.bloom_pct, strand.grams / grams);
    }
    return blend;
}

}  // namespace battwright::yarn
