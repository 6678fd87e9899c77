#include "app/lay/laying_edits.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "app/lay/closing.hpp"
#include "carding/layings.hpp"
#include "recipe/file.hpp"

namespace battwright::app {
namespace {

using recipe::Laying;

bool is_one_of(const Layings& which, std::size_t index) {
    return std::ranges::find(which, index) != which.end();
}

// Each of them as `change` makes it.
template <class Change>
Laid each_changed(Sheet sheet, const Layings& which, Change change, std::string line = {}) {
    auto& layings = sheet.recipe.carding.layings;
    for (const std::size_t i : which)
        if (i < layings.size()) change(layings[i]);
    return closed(std::move(sheet), which, std::move(line));
}

// A change of how it is laid leaves the way it goes in; without a tray there is one way only.
void keep_way(Laying& laying, recipe::Way way, const Surface& surface) {
    laying.way.reset();
    if (surface.has_tray && recipe::way_of(laying) != way) laying.way = way;
}

double to_centigrams(double grams) {
    return std::round(grams * 100.0) / 100.0;
}

recipe::LaidAmount weight(double grams, measure::MassUnit unit) {
    return measure::Mass{to_centigrams(grams), unit};
}
measure::MassUnit unit_of(const Laying& laying) {
    const auto* mass = std::get_if<measure::Mass>(&laying.amount);
    return mass != nullptr ? mass->unit : measure::MassUnit::gram;
}

std::string off_words(const Surface& surface, measure::LengthUnit unit) {
    return "the " + std::string(surface.name) + ", which is " +
           measure::print_length(surface.across_mm, unit) + " wide and " +
           measure::print_length(surface.along_mm, unit) + " " + std::string(surface.length);
}

}  // namespace

Sheet as_list(const Sheet& sheet, const fibre::Catalogue& catalogue) {
    if (!sheet.recipe.carding.layings.empty() || sheet.recipe.components.empty()) return sheet;
    if (!recipe::check(sheet.recipe, catalogue)) return sheet;
    const auto masses = recipe::masses_of(sheet.recipe);
    if (!masses) return sheet;
    Sheet listed = sheet;
    listed.recipe = carding::written_out(sheet.recipe, recipe::strands_of(sheet.recipe, *masses, catalogue));
    // What goes without saying is left unsaid.
    const Surface surface = surface_of(listed.recipe);
    for (Laying& laying : listed.recipe.carding.layings) keep_way(laying, recipe::way_of(laying), surface);
    listed.recipe.carding_written = true;
    return listed;
}

Laid take_off(const Sheet& sheet, const Layings& which) {
    Sheet after = sheet;
    std::string line;
    auto& layings = after.recipe.carding.layings;
    std::vector<Laying> kept;
    for (std::size_t i = 0; i < layings.size(); ++i) {
        const bool stays = is_plain_rest(layings[i]);
        if (is_one_of(which, i) && stays)
            line = "What no stroke has placed goes in evenly: lay it somewhere to have it elsewhere.";
        if (!is_one_of(which, i) || stays) kept.push_back(layings[i]);
    }
    layings = std::move(kept);
    return closed(std::move(after), {}, std::move(line));
}

Layings rests_of(const Sheet& sheet) {
    Layings rests;
    const auto& layings = sheet.recipe.carding.layings;
    for (std::size_t i = 0; i < layings.size(); ++i)
        if (is_rest(layings[i])) rests.push_back(i);
    return rests;
}

Laid clear_layings(const Sheet& sheet) {
    Sheet after = sheet;
    after.recipe.carding.layings.clear();
    return closed(std::move(after), {});
}

Laid double_layings(const Sheet& sheet, const Layings& which) {
    Sheet after = sheet;
    Layings sorted = which, copies;
    std::ranges::sort(sorted);
    std::string line;
    auto& layings = after.recipe.carding.layings;
    std::size_t put_in = 0;
    for (const std::size_t i : sorted) {
        if (i + put_in >= layings.size()) continue;
        const std::size_t at = i + put_in;
        const double grams = grams_of_layings(after.recipe)[at];
        const double left = is_rest(layings[at]) ? 0.0 : left_for(after, layings[at]);
        if (layings.size() >= recipe::most_layings) {
            line = "There are " + std::to_string(layings.size()) + " layings, the most there can be.";
            break;
        }
        if (left < grams) line = "No more than is left of it was laid once more.";
        if (to_centigrams(std::min(left, grams)) <= 0.0) {
            line = "Nothing is left of it to lay once more.";
            continue;
        }
        Laying copy = layings[at];
        copy.amount = weight(std::min(left, grams), unit_of(copy));
        layings.insert(layings.begin() + static_cast<std::ptrdiff_t>(at) + 1, copy);
        copies.push_back(at + 1);
        ++put_in;
    }
    return closed(std::move(after), copies, std::move(line));
}

Laid mirror_layings(const Sheet& sheet, const Layings& which) {
    const double width = surface_of(sheet.recipe).across_mm;
    Layings all(sheet.recipe.carding.layings.size());
    std::iota(all.begin(), all.end(), std::size_t{0});
    return each_changed(sheet, which.empty() ? all : which, [width](Laying& laying) {
        const double whole = laying.across.unit ? width : 100.0;
        laying.across = {whole - laying.across.to, whole - laying.across.from, laying.across.unit};
    });
}

Laid spread_evenly(const Sheet& sheet, const Layings& which) {
    return each_changed(sheet, which, [surface = surface_of(sheet.recipe)](Laying& laying) {
        const recipe::Way way = recipe::way_of(laying);
        laying.across = laying.round = {};
        laying.fade.reset();
        laying.overlap.reset();
        laying.how = recipe::Spreading::even;
        laying.size.reset();
        keep_way(laying, way, surface);
    });
}

Laid move_layings(const Sheet& sheet, const Layings& which, std::size_t to) {
    Sheet after = sheet;
    std::vector<Laying> taken, before, behind;
    const auto& layings = sheet.recipe.carding.layings;
    for (std::size_t i = 0; i < layings.size(); ++i)
        (is_one_of(which, i) ? taken : i < to ? before : behind).push_back(layings[i]);
    Layings now(taken.size());
    std::iota(now.begin(), now.end(), before.size());
    auto& moved = after.recipe.carding.layings;
    moved = std::move(before);
    moved.insert(moved.end(), taken.begin(), taken.end());
    moved.insert(moved.end(), behind.begin(), behind.end());
    return closed(std::move(after), now);
}

double laid_grams(const Sheet& sheet, const Layings& which, std::size_t batts) {
    const auto all = grams_of_layings(sheet.recipe);
    double grams = 0.0;
    for (const std::size_t i : which) grams += i < all.size() ? all[i] : 0.0;
    return grams / static_cast<double>(std::max<std::size_t>(1, batts));
}

Laid set_laid_grams(const Sheet& sheet, const Layings& which, double grams, measure::MassUnit unit,
                    std::size_t batts) {
    const auto all = grams_of_layings(sheet.recipe);
    const double whole = grams * static_cast<double>(std::max<std::size_t>(1, batts));
    const double now = laid_grams(sheet, which, 1);
    if (all.empty() || !(whole > 0.0) || !(now > 0.0)) return {sheet, "It must weigh more than nothing."};
    Sheet after = sheet;
    std::string line;
    for (const std::size_t i : which) {
        if (i >= all.size()) continue;
        Laying& laying = after.recipe.carding.layings[i];
        // A rest counts what it holds as left already.
        const double most = left_for(after, laying) + (is_rest(laying) ? 0.0 : all[i]);
        const double wanted = all[i] * whole / now;
        if (wanted > most + 0.005)
            line = "There is no more of it than " + measure::print_mass(most, unit) + ": that is laid.";
        laying.amount = weight(std::min(wanted, most), unit);
    }
    return closed(std::move(after), which, std::move(line));
}

namespace {

// On the surface, or nothing changes.
Laid placed_at(const Sheet& sheet, const Layings& which, const recipe::Stretch& wanted, double whole_mm,
               recipe::Stretch Laying::*along, bool needs_drum) {
    bool cut = false;
    const auto place = clipped(wanted, whole_mm, &cut);
    const auto unit = wanted.unit.value_or(measure::LengthUnit::millimetre);
    const Surface surface = surface_of(sheet.recipe);
    if (!place) return {sheet, "That lies beside " + off_words(surface, unit) + ".", which};
    std::string line;
    if (cut) line = "Cut off at the edge of " + off_words(surface, unit) + ".";
    const bool whole = place->from <= 0.0 && place->to >= (place->unit ? whole_mm : 100.0);
    return each_changed(
        sheet, which,
        [&](Laying& laying) {
            laying.*along = whole ? recipe::Stretch{} : *place;
            if (needs_drum && !whole) keep_way(laying, recipe::Way::drum, surface);
        },
        line);
}

}  // namespace

Laid set_laid_across(const Sheet& sheet, const Layings& which, const recipe::Stretch& across) {
    return placed_at(sheet, which, across, surface_of(sheet.recipe).across_mm, &Laying::across, false);
}

Laid set_laid_round(const Sheet& sheet, const Layings& which, const recipe::Stretch& round) {
    if (const Surface surface = surface_of(sheet.recipe); !surface.places_along)
        return {sheet,
                "What lies along the " + std::string(surface.name) +
                    " is drawn out over their whole length: it has a place across only.",
                which};
    return placed_at(sheet, which, round, surface_of(sheet.recipe).along_mm, &Laying::round, true);
}

Laid set_laid_edge(const Sheet& sheet, const Layings& which, std::optional<recipe::Extent> Laying::*edge,
                   const std::optional<recipe::Extent>& wanted) {
    return each_changed(sheet, which, [&](Laying& laying) { laying.*edge = wanted; });
}

Laid set_laid_how(const Sheet& sheet, const Layings& which, recipe::Spreading how,
                  const std::optional<measure::Length>& size) {
    const Surface surface = surface_of(sheet.recipe);
    return each_changed(sheet, which, [&](Laying& laying) {
        const recipe::Way way = recipe::way_of(laying);
        laying.how = how;
        laying.size = how == recipe::Spreading::even ? std::nullopt : size;
        keep_way(laying, way, surface);
    });
}

Laid set_laid_way(const Sheet& sheet, const Layings& which, recipe::Way way) {
    return each_changed(sheet, which, [way, surface = surface_of(sheet.recipe)](Laying& laying) {
        if (way == recipe::Way::tray && surface.has_tray) laying.round = {};
        keep_way(laying, way, surface);
    });
}

Laid set_laid_pass(const Sheet& sheet, const Layings& which, int pass) {
    const int last = std::max(1, sheet.recipe.carding.passes);
    return each_changed(sheet, which, [&](Laying& laying) { laying.pass = std::clamp(pass, 1, last); });
}

Laid set_laid_lies(const Sheet& sheet, const Layings& which, recipe::Lies lies) {
    return each_changed(sheet, which, [lies](Laying& laying) { laying.lies = lies; });
}

}  // namespace battwright::app
