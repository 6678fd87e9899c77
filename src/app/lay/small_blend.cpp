#include "app/lay/small_blend.hpp"

#include <algorithm>
#include <cmath>

#include "app/lay/closing.hpp"
#include "recipe/layout.hpp"
#include "text/believe.hpp"
#include "text/words.hpp"

namespace battwright::app {
namespace {

// Down to what a fine scale shows, so that never more is asked for than there is.
double to_hundredths(double grams) {
    return std::floor(grams * 100.0 + 1e-6) / 100.0;
}

recipe::Laying laying_of(const BlendPart& part, double grams) {
    recipe::Laying laying;
    laying.what = part.what;
    laying.colour = part.colour;
    laying.amount = measure::Mass{grams, part.weight.unit};
    return laying;
}

bool is_laid_in(const recipe::SmallBlend& blend, const std::string& name) {
    return std::ranges::any_of(blend.layings, [&](const recipe::Laying& one) { return one.what == name; });
}

// Of one that is gone nothing can be laid, and what was made of nothing else is gone as well.
void take_out(recipe::Carding& carding, const std::string& name) {
    std::erase_if(carding.layings, [&](const recipe::Laying& one) { return one.what == name; });
    std::erase_if(carding.blends, [&](const recipe::SmallBlend& one) { return one.name == name; });
    std::vector<std::string> empty;
    for (recipe::SmallBlend& blend : carding.blends) {
        if (!is_laid_in(blend, name)) continue;
        std::erase_if(blend.layings, [&](const recipe::Laying& one) { return one.what == name; });
        if (blend.layings.empty()) empty.push_back(blend.name);
    }
    for (const std::string& one : empty) take_out(carding, one);
}

}  // namespace

std::optional<measure::Complaint> bad_blend_name(const Sheet& sheet, const std::string& name) {
    if (text::is_blank(name))
        return measure::Complaint{"the small blend has no name", "write one, such as first light"};
    const auto& blends = sheet.recipe.carding.blends;
    const bool taken = recipe::named(sheet.recipe, name).has_value() ||
                       std::ranges::any_of(blends, [&](const auto& one) { return one.name == name; });
    if (!taken) return std::nullopt;
    return measure::Complaint{"there is something called " + measure::quoted(name) + " already",
                              "give the small blend another name"};
}

Laid make_blend(const Sheet& sheet, const std::string& name, const std::vector<BlendPart>& parts, int passes,
                std::size_t batts) {
    BATTWRIGHT_BELIEVE(!bad_blend_name(sheet, name));
    recipe::SmallBlend blend;
    blend.name = name;
    blend.passes = std::clamp(passes, 1, recipe::most_passes);
    std::string line;
    for (const BlendPart& part : parts) {
        const double wanted = part.weight.grams * static_cast<double>(batts);
        recipe::Laying laying = laying_of(part, wanted);
        const double left = left_for(sheet, laying);
        if (left < wanted - 0.005) line = "No more went into it than is left of " + part.what + ".";
        const double grams = to_hundredths(std::min(left, wanted));
        if (grams <= 0.0) continue;
        laying.amount = measure::Mass{grams, part.weight.unit};
        blend.layings.push_back(std::move(laying));
    }
    if (blend.layings.empty()) return {sheet, "Nothing is left of what it would be made of."};
    Sheet after = sheet;
    after.recipe.carding.blends.push_back(std::move(blend));
    return closed(std::move(after), {}, std::move(line));
}

Laid take_blend_apart(const Sheet& sheet, const std::string& name) {
    Sheet after = sheet;
    take_out(after.recipe.carding, name);
    return closed(std::move(after), {});
}

}  // namespace battwright::app
