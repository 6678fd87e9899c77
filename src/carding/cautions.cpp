#include "carding/cautions.hpp"

#include <algorithm>

#include "carding/habits.hpp"
#include "measure/units.hpp"

namespace battwright::carding {
namespace {

constexpr double longest_carded_mm = 150.0;  // common practice: six inches

}  // namespace

std::vector<Caution> cautions_of(std::span<const Portion> portions, std::span<const recipe::Strand> strands,
                                 const recipe::Carder& carder, double batt_grams) {
    const bool flat = recipe::is_flat(carder);
    std::vector<Caution> cautions{
        {"teeth",
         flat ? "The teeth prick: stroke away from the other hand, and lay the cloth by covered"
              : "Keep fingers and sleeves away from where the drums meet; guide fibre with a brush or "
                "a stick"}};
    const auto any = [&](auto test) { return std::any_of(portions.begin(), portions.end(), test); };
    const auto any_strand = [&](auto test) { return std::any_of(strands.begin(), strands.end(), test); };
    if (any_strand([](const recipe::Strand& s) {
            return s.kind->family == fibre::Family::sparkle || s.kind->family == fibre::Family::bast ||
                   s.kind->form == fibre::Form::film;
        }))
        cautions.push_back(
            Caution{"dust", "Sparkle and bast fibres shed fine dust: wear a mask and clean the cloth after"});
    if (!flat && any([](const Portion& p) { return p.staple_mm > longest_carded_mm; }))
        cautions.push_back(
            Caution{"wraps", "Fibre over {mm 150} wraps the drums: cut or pull it to half its length first"});
    if (any([](const Portion& p) { return p.slipperiness >= habits::slick_from; }))
        cautions.push_back(Caution{
            "slick", flat ? "Lay slick fibre between layers of grippy fibre, thinly"
                          : "Feed slick fibre between layers of grippy fibre, thinly, and turn slowly"});
    if (any([](const Portion& p) { return p.lump_grams > 0.0; }))
        cautions.push_back(Caution{
            "lumps", flat ? "Press neps and locks in between two layers, where they are held"
                          : "Keep neps and locks clear of the feed roller: lay them on the drum by hand"});
    if (batt_grams > carder.load_high_grams * (1.0 + 1e-9))
        cautions.push_back(
            Caution{"over-full", "This is more than the " + staple::weighed(carder.load_high_grams) +
                                     " the " + std::string(recipe::words_of(carder).surface) +
                                     (carder.kind == ToolKind::hand_cards ? " take" : " takes") +
                                     ": stop when fibre rides on the tips of the teeth"});
    return cautions;
}

}  // namespace battwright::carding
