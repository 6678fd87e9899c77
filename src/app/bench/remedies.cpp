#include <algorithm>
#include <cmath>

#include "app/bench/edits.hpp"
#include "app/bench/give_way.hpp"

namespace battwright::app {
namespace {

// Lowers the components together to `share_pct` of the batt, in proportion, the others taking up the rest.
Sheet lower_share(Sheet sheet, const std::vector<std::size_t>& about, double share_pct) {
    const auto grams = grams_of(sheet.recipe);
    if (!grams) return sheet;
    double total = 0.0, theirs = 0.0;
    for (double value : *grams) total += value;
    for (std::size_t i : about) theirs += (*grams)[i];
    if (theirs <= 0.0 || 100.0 * theirs / total <= share_pct) return sheet;
    auto target = *grams;
    auto held = held_marks(sheet, target.size());
    for (std::size_t i : about) {
        target[i] = std::max(least_grams, (*grams)[i] * share_pct / 100.0 * total / theirs);
        held[i] = true;
    }
    const std::vector<bool> nobody_first(target.size(), false);
    if (!give_way(target, held, nobody_first, total)) return sheet;
    write_back(sheet.recipe, target, total, target.size());
    return sheet;
}

// The number the finding names, else one step.
int passes_advised(const staple::Finding& finding, int one_step) {
    return finding.action_value >= 1.0 ? static_cast<int>(std::lround(finding.action_value)) : one_step;
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
    }
    return "";
}

bool can_apply(const staple::Finding& finding) {
    using staple::Remedy;
    if (finding.action == Remedy::none) return false;
    const bool about_components = finding.action == Remedy::lower_share ||
                                  finding.action == Remedy::remove_component ||
                                  finding.action == Remedy::add_on_last_pass;
    return !about_components || !finding.components.empty();
}

Sheet apply_remedy(Sheet sheet, const staple::Finding& finding) {
    using staple::Remedy;
    auto about = finding.components;
    const std::size_t n = sheet.recipe.components.size();
    about.erase(std::remove_if(about.begin(), about.end(), [n](std::size_t i) { return i >= n; }),
                about.end());
    const int passes = sheet.recipe.carding.passes;
    switch (finding.action) {
        case Remedy::none:
            return sheet;
        case Remedy::lower_share:
            return lower_share(std::move(sheet), about, finding.action_value);
        case Remedy::remove_component:
            std::sort(about.rbegin(), about.rend());
            for (std::size_t i : about) sheet = remove(std::move(sheet), i);
            return sheet;
        case Remedy::add_on_last_pass:
            for (std::size_t i : about) sheet.recipe.components[i].add_on_pass = recipe::last_pass;
            return sheet;
        case Remedy::fewer_passes:
            return set_passes(std::move(sheet), passes_advised(finding, passes - 1));
        case Remedy::lay_stripes:
            return set_feed(std::move(sheet), recipe::Manner::stripes_across);
        case Remedy::more_passes:
            return set_passes(std::move(sheet), passes_advised(finding, passes + 1));
    }
    return sheet;
}

}  // namespace battwright::app
