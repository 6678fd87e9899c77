#include "carding/findings.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include "carding/findings_shared.hpp"
#include "carding/habits.hpp"
#include "carding/layings.hpp"
#include "carding/loss.hpp"
#include "measure/units.hpp"

namespace battwright::carding {
namespace {

using staple::Finding;
using staple::Severity;

void add_lost(const recipe::Carding& carding, std::size_t portions, std::vector<Finding>& findings) {
    if (carding.passes < 2 || portions < 2) return;
    const recipe::MannerRow& feed = measure::row_of(recipe::manners, carding.feed);
    const bool stripes = !feed.fades;
    const recipe::Places places = feed.places;
    const bool across = places == recipe::Places::across, round = places == recipe::Places::round;
    const auto& second = measure::row_of(recipe::refeeds, recipe::refeed_for(carding, 2));
    if (!round && (!across || second.keeps_across)) return;
    const std::string what = stripes ? "stripes" : "gradient";
    const std::string why = round ? "on pass 2 the batt goes in end first while the drum turns many times, "
                                    "so what lay round the drum "
                                    "becomes layers one on another"
                                  : "on pass 2 the batt goes back " + std::string(second.label) +
                                        ", so what lay across the drum is spread through it";
    const std::string remedy =
        round ? "Card it once only, or feed the colours side by side across the drum and keep the strips in "
                "their places."
              : "Feed the strips back each in its place across the drum, or card it once.";
    findings.push_back(finding_of(stripes ? "stripes-lost" : "gradient-lost", Severity::warning,
                                  "The " + what + (stripes ? " are" : " is") + " lost: " + why + ".",
                                  remedy));
}

void add_apart(const recipe::Carding& carding, std::size_t portions, std::vector<Finding>& findings) {
    const recipe::MannerRow& feed = measure::row_of(recipe::manners, carding.feed);
    if (feed.places != recipe::Places::across || feed.fades || portions < 2) return;
    if (carding.overlap_pct >= 100.0 * habits::overlap_holds) return;
    findings.push_back(finding_of(
        "stripes-apart", Severity::warning,
        "Stripes laid edge to edge have no fibre across their borders: they come off the drum as " +
            std::to_string(portions) + " narrow batts.",
        "Lay each over half of its neighbour: it holds, and the joins come heathered."));
}

void add_licker_in(const recipe::Recipe& recipe, std::span<const Portion> portions,
                   std::vector<Finding>& findings) {
    std::set<std::size_t> components;
    double most = 0.0;
    bool short_ones = false;
    for (const Portion& portion : portions) {
        const double share = licker_in_share(portion);
        if (!(share > 0.0)) continue;
        components.insert(portion.component);
        most = std::max(most, share);
        short_ones = short_ones || portion.staple_mm < habits::licker_in_mm;
    }
    if (components.empty()) return;
    const bool later = recipe.carding.passes > 1;
    std::string text = "The licker-in keeps fibre that is ";
    text += short_ones ? "very short" : "slick and very fine";
    text += ": of what comes to it by the tray about " + measure::print_percent(std::round(100.0 * most)) +
            " stays there, and winds on";
    text += later ? "; some more of it on every pass after the first." : ".";
    Finding finding = finding_of(
        "licker-in", short_ones ? Severity::warning : Severity::advice, std::move(text),
        (recipe.carding.layings.empty()
             ? "The steps lay it straight onto the drum between layers of wool: turn the drum slowly, "
             : "Lay it straight onto the drum between layers of wool, the drum turning slowly, ") +
            std::string("and clean the licker-in between batts."));
    finding.components.assign(components.begin(), components.end());
    findings.push_back(std::move(finding));
}

// Much-carded fibre is lofty: less of it fits each pass.
void add_holds_less(const recipe::Carding& carding, const recipe::Carder& carder, double batt_grams,
                    std::vector<Finding>& findings) {
    if (carding.passes < 2 || batt_grams > carder.load_high_grams * (1.0 + habits::slack)) return;
    const double holds = carder.load_high_grams * std::pow(habits::load_a_pass, carding.passes - 1);
    if (batt_grams <= holds) return;
    int full = 2;
    while (batt_grams <= carder.load_high_grams * std::pow(habits::load_a_pass, full - 1)) ++full;
    findings.push_back(finding_of("holds-less", Severity::advice,
                                  "Each pass makes the fibre loftier, so that less of it fits: by pass " +
                                      std::to_string(carding.passes) + " this drum holds about " +
                                      staple::weighed(holds) + " of the batt's " +
                                      staple::weighed(batt_grams) + ".",
                                  "From pass " + std::to_string(full) +
                                      " on feed slower and pat the fibre down, or card it as two batts."));
}

// Without those that a list of layings lays straight onto the drum, wherever it lays them.
std::vector<Portion> by_tray(const recipe::Recipe& recipe, std::span<const recipe::Strand> strands,
                             std::span<const Portion> portions, const recipe::Carder& carder) {
    std::vector<Portion> left(portions.begin(), portions.end());
    const Layings layings = layings_of(recipe, strands, portions, carder);
    if (layings.lays.empty()) return left;
    std::vector<bool> on_tray(portions.size(), false);
    const auto look = [&](const std::vector<Lay>& lays) {
        for (const Lay& lay : lays)
            if (lay.blend == no_blend && !lay.on_drum) on_tray[lay.portion] = true;
    };
    look(layings.lays);
    for (const Small& small : layings.blends) look(small.lays);
    for (std::size_t p = left.size(); p-- > 0;)
        if (!on_tray[p]) left.erase(left.begin() + static_cast<std::ptrdiff_t>(p));
    return left;
}

// Where what was laid by hand has a place of its own, and a later pass takes it away.
void add_places_lost(const Feed& feed, int passes, std::span<const Lay> lays,
                     std::vector<Finding>& findings) {
    for (int pass = 2; pass <= passes; ++pass) {
        const Placed placed = placed_before(lays, pass);
        const bool across =
            placed.across && !measure::row_of(recipe::refeeds, feed.refeed_on(pass)).keeps_across;
        if (!across && !placed.round) continue;
        const std::string number = std::to_string(pass);
        findings.push_back(finding_of(
            "places-lost", Severity::advice,
            "What was given a place on the drum loses it on pass " + number +
                (across ? ": the batt does not go back as it lay, so what lay apart is spread through it."
                        : ": the drum turns many times while the batt goes in, so what lay round it is "
                          "drawn out."),
            std::string("Lay it on the last pass") +
                (across ? ", or feed the strips back each in its place, which keeps what lies across the "
                          "drum."
                        : ".")));
        return;
    }
}

// Laid edge to edge with nothing across the border, a batt comes off in pieces.
void add_laid_apart(std::span<const Lay> lays, int passes, std::vector<Finding>& findings) {
    std::size_t pieces = 1;
    for (const Lay& edge : lays) {
        const double at = edge.across.to;
        if (edge.pass != passes || at >= 1.0 - 1e-9) continue;
        bool crossed = false, beyond = false;
        for (const Lay& lay : lays) {
            const double from = lay.across.from - lay.across.over_from - lay.across.soft;
            const double to = lay.across.to + lay.across.over_to + lay.across.soft;
            crossed = crossed || (from < at - 1e-6 && to > at + 1e-6) || lay.pass < passes;
            beyond = beyond || lay.across.to > at + 1e-6;
        }
        pieces += !crossed && beyond ? 1 : 0;
    }
    if (pieces < 2) return;
    findings.push_back(
        finding_of("stripes-apart", Severity::warning,
                   "Nothing is laid across the borders between these places: they come off the drum as " +
                       std::to_string(pieces) + " narrow batts.",
                   "Lay each a little over its neighbour, or a thin base over the full width first."));
}

// A lay nobody could do by hand.
void add_fiddly(std::span<const Lay> lays, double batt_share, std::vector<Finding>& findings) {
    std::size_t tiny = 0;
    for (const Lay& lay : lays) tiny += lay.grams * batt_share < habits::least_laid_grams ? 1 : 0;
    if (lays.size() <= habits::most_lays && tiny <= habits::most_tiny_lays) return;
    findings.push_back(finding_of("fiddly", Severity::advice,
                                  "This lay has " + std::to_string(lays.size()) + " layings a batt, " +
                                      std::to_string(tiny) + " of them under " +
                                      measure::print_mass(habits::least_laid_grams, measure::MassUnit::gram) +
                                      ": nobody weighs and lays that by hand as it is written.",
                                  "Join layings that lie alike, or lay more at a time."));
}

void add_laid_findings(const recipe::Recipe& recipe, std::span<const Lay> lays, double batt_share,
                       std::vector<Finding>& findings) {
    add_places_lost(feed_of(recipe.carding), recipe.carding.passes, lays, findings);
    add_laid_apart(lays, recipe.carding.passes, findings);
    add_fiddly(lays, batt_share, findings);
}

}  // namespace

Finding finding_of(std::string code, Severity severity, std::string text, std::string remedy) {
    Finding finding;
    finding.code = std::move(code);
    finding.severity = severity;
    finding.text = std::move(text);
    finding.remedy = std::move(remedy);
    staple::settle_words(finding);
    return finding;
}

Placed placed_before(std::span<const Lay> lays, int pass) {
    Placed placed;
    for (const Lay& lay : lays) {
        if (lay.pass >= pass) continue;
        placed.across = placed.across || !lay.across.whole();
        placed.round = placed.round || !lay.round.whole();
    }
    return placed;
}

std::vector<Finding> feeding_findings(const recipe::Recipe& recipe, std::span<const recipe::Strand> strands,
                                      const recipe::Carder& carder, double batt_grams) {
    std::vector<Finding> findings;
    const auto portions = portions_of(recipe, strands);
    std::size_t first = 0;
    for (const Portion& portion : portions) first += portion.pass == 1 && portion.grams > 0.0 ? 1 : 0;
    if (recipe::is_flat(carder)) {
        add_flat_findings(recipe, layings_of(recipe, strands, portions, carder).lays, first, findings);
        return findings;
    }
    if (recipe.carding.layings.empty()) {
        add_lost(recipe.carding, first, findings);
        add_apart(recipe.carding, first, findings);
    } else {
        double grams = 0.0;
        for (const Portion& portion : portions) grams += portion.grams;
        add_laid_findings(recipe, layings_of(recipe, strands, portions, carder).lays, batt_grams / grams,
                          findings);
    }
    add_licker_in(recipe, by_tray(recipe, strands, portions, carder), findings);
    add_holds_less(recipe.carding, carder, batt_grams, findings);
    return findings;
}

}  // namespace battwright::carding
