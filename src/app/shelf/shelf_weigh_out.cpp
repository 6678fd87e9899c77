#include "app/shelf/shelf_weigh_out.hpp"

#include <map>

#include "colour/spaces.hpp"
#include "recipe/file.hpp"
#include "recipe/file_name.hpp"
#include "text/words.hpp"
#include "yarn/finish.hpp"

namespace battwright::app {
namespace {

// "Kelp", "Kelp and Brass", "Kelp, Brass and 3 more"
std::string listed(const std::vector<std::string>& names) {
    constexpr std::size_t most = 2;
    std::vector<std::string> shown;
    for (const std::string& name : names)
        if (shown.size() < most) shown.push_back("\u201c" + name + "\u201d");
    if (names.size() > most) shown.push_back(std::to_string(names.size() - most) + " more");
    return text::listed(shown);
}

// Marks in a recipe typed by hand may have spaces and small letters.
std::string mark_of(const recipe::Component& component) {
    return stash::parse_mark(component.lot).value_or(component.lot);
}

}  // namespace

std::vector<WeighLine> weigh_lines(const forecast::Forecast& forecast, const stash::Shelf& shelf) {
    std::vector<WeighLine> lines;
    std::map<std::string, double> left;
    const auto& weighed = forecast.weigh_out.component_grams;
    for (std::size_t i = 0; i < weighed.size() && i < forecast.components.size(); ++i) {
        if (!(weighed[i] > 0.0)) continue;
        WeighLine line;
        line.component = forecast.components[i].label;
        line.mark = mark_of(forecast.recipe.components[i]);
        line.grams = weighed[i];
        if (const auto* shelved = line.mark.empty() ? nullptr : shelf.find(line.mark)) {
            line.on_shelf = true;
            line.lot = shelved->lot.name;
            line.raw = shelved->lot.raw;
            double& of_lot = left.emplace(line.mark, shelved->clean_grams()).first->second;
            line.on_hand_grams = of_lot;
            of_lot -= line.grams;
            line.left_grams = of_lot;
        }
        lines.push_back(std::move(line));
    }
    return lines;
}

std::string why_not_from_shelf(const std::vector<WeighLine>& lines) {
    if (lines.empty()) return "Nothing is on the bench yet.";
    std::vector<std::string> without, unknown;
    for (const WeighLine& line : lines) {
        if (line.mark.empty())
            without.push_back(line.component);
        else if (!line.on_shelf)
            unknown.push_back(line.mark);
    }
    if (!without.empty())
        return listed(without) + (without.size() == 1 ? " comes" : " come") +
               " from no lot. Drag a lot from the shelf onto the bench for it: only what was taken from "
               "the shelf is in the record, and a batt that is half in it would teach wrong losses.";
    if (!unknown.empty())
        return "There is no lot " + listed(unknown) +
               " on the shelf. Point the component at another, or put the lot on the shelf.";
    return {};
}

stash::Carding carding_of(const forecast::Forecast& forecast, const std::vector<WeighLine>& lines,
                          const CardingWords& words) {
    stash::Carding carding;
    carding.name = recipe::title_of(forecast.recipe);
    carding.date = words.date;
    carding.recipe = recipe::write_text(forecast.recipe);
    carding.preparation = recipe::preparation_of(forecast.recipe);
    carding.batts = words.batts;
    for (const WeighLine& line : lines) carding.lines.push_back({line.mark, line.grams});
    carding.retained_share = yarn::retained_share(forecast.strands) * forecast.wear.kept_share;
    carding.colour = colour::lab_under(forecast.colour.reflectance, colour::Light::d65);
    carding.notes = words.note;
    return carding;
}

}  // namespace battwright::app
