#include <algorithm>
#include <cmath>

#include "app/bench/edits.hpp"
#include "colour/spaces.hpp"

namespace battwright::app {
namespace {

// The number the finding names, else one step.
int passes_advised(const staple::Finding& finding, int one_step) {
    return finding.action_value >= 1.0 ? static_cast<int>(std::lround(finding.action_value)) : one_step;
}

Sheet lightened(Sheet sheet, std::size_t index, double by_l) {
    auto palette = sheet.recipe.components[index].palette;
    for (recipe::Tint& tint : palette) {
        colour::Lab lab = colour::lab(tint.colour);
        lab.l = std::clamp(lab.l + by_l, 0.0, 100.0);
        tint.colour = colour::clipped(colour::srgb_from(lab));
    }
    return set_palette(std::move(sheet), index, std::move(palette));
}

}  // namespace

std::string_view remedy_in_words(staple::Remedy remedy) {
    using staple::Remedy;
    switch (remedy) {
        case Remedy::none:
            break;
        case Remedy::lower_share:
            return "Lower it";
        case Remedy::remove_component:
            return "Take it out";
        case Remedy::add_on_last_pass:
            return "Add it last";
        case Remedy::fewer_passes:
            return "Fewer passes";
        case Remedy::more_passes:
            return "More passes";
        case Remedy::lay_stripes:
            return "Lay in stripes";
        case Remedy::lighten:
            return "Part the shades";
        case Remedy::see_in_light:
            return "See it there";
    }
    return "";
}

bool can_apply(const staple::Finding& finding) {
    using staple::Remedy;
    if (finding.action == Remedy::none) return false;
    const bool about_components =
        finding.action == Remedy::lower_share || finding.action == Remedy::remove_component ||
        finding.action == Remedy::add_on_last_pass || finding.action == Remedy::lighten;
    return !about_components || !finding.components.empty();
}

Change apply_remedy(Sheet sheet, const staple::Finding& finding) {
    using staple::Remedy;
    auto about = finding.components;
    const std::size_t n = sheet.recipe.components.size();
    about.erase(std::remove_if(about.begin(), about.end(), [n](std::size_t i) { return i >= n; }),
                about.end());
    const int passes = sheet.recipe.carding.passes;
    switch (finding.action) {
        case Remedy::none:
            break;
        case Remedy::lower_share:
            return lower_share(sheet, about, finding.action_value);
        case Remedy::remove_component:
            std::sort(about.rbegin(), about.rend());
            for (std::size_t i : about) {
                Change without = remove(sheet, i);
                if (without.disagreement) return without;
                sheet = std::move(without.sheet);
            }
            break;
        case Remedy::add_on_last_pass:
            for (std::size_t i : about) sheet.recipe.components[i].add_on_pass = recipe::last_pass;
            break;
        case Remedy::fewer_passes:
            sheet = set_passes(std::move(sheet), passes_advised(finding, passes - 1));
            break;
        case Remedy::lay_stripes:
            sheet = set_feed(std::move(sheet), recipe::Manner::stripes_across);
            if (passes > 1) sheet = set_refeed(std::move(sheet), recipe::Refeed::own_places);
            break;
        case Remedy::lighten:
            if (!about.empty()) sheet = lightened(std::move(sheet), about.front(), finding.action_value);
            break;
        case Remedy::see_in_light:
            break;  // the sheet stays as it is: what is looked at changes
        case Remedy::more_passes:
            sheet = set_passes(std::move(sheet), passes_advised(finding, passes + 1));
            break;
    }
    return {std::move(sheet), std::nullopt};
}

}  // namespace battwright::app
