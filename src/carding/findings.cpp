#include "carding/findings.hpp"

#include <cmath>
#include <set>

#include "carding/habits.hpp"
#include "carding/loss.hpp"
#include "measure/units.hpp"

namespace battwright::carding {
namespace {

using staple::Finding;
using staple::Severity;

Finding finding_of(std::string code, Severity severity, std::string text, std::string remedy) {
    Finding finding;
    finding.code = std::move(code);
    finding.severity = severity;
    finding.text = std::move(text);
    finding.remedy = std::move(remedy);
    return finding;
}

void add_lost(const recipe::Carding& carding, std::size_t portions, std::vector<Finding>& findings) {
    if (carding.passes < 2 || portions < 2) return;
    const bool stripes = carding.feed == Manner::stripes_across;
    const bool across = stripes || carding.feed == Manner::gradient_across;
    const bool round = carding.feed == Manner::gradient_round;
    if (!round && (!across || keeps_across(carding.refeed))) return;
    const std::string what = stripes ? "stripes" : "gradient";
    const std::string why = round ? "on pass 2 the batt goes in end first while the drum turns many times, "
                                    "so what lay round the drum "
                                    "becomes layers one on another"
                                  : "on pass 2 the batt does not go back as it lay (refeed \"" +
                                        std::string(word_for(carding.refeed)) +
                                        "\"), so what lay across the drum is spread through it";
    const std::string remedy =
        round ? "Card it once only, or feed the colours side by side across the drum and keep the strips in "
                "their places."
              : "Feed the strips back each at its own place across the drum (refeed = \"own-places\"), or "
                "card it "
                "once.";
    findings.push_back(finding_of(stripes ? "stripes-lost" : "gradient-lost", Severity::warning,
                                  "The " + what + (stripes ? " are" : " is") + " lost: " + why + ".",
                                  remedy));
}

void add_apart(const recipe::Carding& carding, std::size_t portions, std::vector<Finding>& findings) {
    if (carding.feed != Manner::stripes_across || portions < 2) return;
    if (carding.overlap_pct >= 100.0 * habits::overlap_holds) return;
    findings.push_back(finding_of(
        "stripes-apart", Severity::warning,
        "Stripes laid edge to edge have no fibre across their borders: they come off the drum as " +
            std::to_string(portions) + " narrow batts.",
        "Lay each over half of its neighbour (overlap = \"50 %\"): it holds, and the joins come heathered."));
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
    Finding finding =
        finding_of("licker-in", short_ones ? Severity::warning : Severity::advice, std::move(text),
                   "Lay it straight onto the drum between layers of wool, the drum turning slowly, "
                   "and clean the licker-in between batts.");
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
                                      measure::print_mass(holds, measure::MassUnit::gram) +
                                      " of the batt's " +
                                      measure::print_mass(batt_grams, measure::MassUnit::gram) + ".",
                                  "From pass " + std::to_string(full) +
                                      " on feed slower and pat the fibre down, or card it as two batts."));
}

}  // namespace

bool keeps_across(Refeed refeed) {
    return refeed == Refeed::own_places || refeed == Refeed::tear_and_fold;
}

std::vector<Finding> feeding_findings(const recipe::Recipe& recipe, std::span<const recipe::Strand> strands,
                                      const recipe::Carder& carder, double batt_grams) {
    std::vector<Finding> findings;
    const auto portions = portions_of(recipe, strands);
    std::size_t first = 0;
    for (const Portion& portion : portions) first += portion.pass == 1 && portion.grams > 0.0 ? 1 : 0;
    add_lost(recipe.carding, first, findings);
    add_apart(recipe.carding, first, findings);
    add_licker_in(recipe, portions, findings);
    add_holds_less(recipe.carding, carder, batt_grams, findings);
    return findings;
}

}  // namespace battwright::carding
