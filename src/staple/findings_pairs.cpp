// Two fibres that will not travel together: in length, in thickness, in grip.
#include <algorithm>
#include <cmath>

#include "staple/batch.hpp"
#include "staple/limits.hpp"
#include "staple/mixture.hpp"

namespace battwright::staple {
namespace {

// `more` is the longer, the coarser or the slicker of the two.
struct Pair {
    const Body* more = nullptr;
    const Body* less = nullptr;
    double gap = 0.0;
};

using Gap = std::function<double(const Body& more, const Body& less)>;

bool drafts(const Body& body) {
    return !body.among;
}

// All ordered pairs with a gap of `least` or more, widest first.
std::vector<Pair> pairs_with(const Batch& batch, double least_share, double least, const Gap& gap) {
    std::vector<Pair> pairs;
    for (const Body& more : batch.bodies) {
        for (const Body& less : batch.bodies) {
            if (&more == &less || !drafts(more) || !drafts(less)) continue;
            if (std::min(more.mass_share, less.mass_share) < least_share - limits::slack) continue;
            const double size = gap(more, less);
            if (size >= least - limits::slack) pairs.push_back({&more, &less, size});
        }
    }
    std::stable_sort(pairs.begin(), pairs.end(), [](const Pair& a, const Pair& b) { return a.gap > b.gap; });
    return pairs;
}

std::vector<std::size_t> components_of_pair(const Pair& pair) {
    const Body both[] = {*pair.more, *pair.less};
    return components_of(both);
}

// " The same goes for ..." with up to two more pairs.
std::string others(const std::vector<Pair>& pairs) {
    std::vector<std::string> named;
    for (std::size_t i = 1; i < pairs.size() && i < 3; ++i)
        named.push_back(pairs[i].more->kind->name + " with " + pairs[i].less->kind->name);
    if (named.empty()) return "";
    const std::size_t left = pairs.size() - 1 - named.size();
    if (left > 0) named.push_back(counted(static_cast<int>(left), "pair more", "pairs more"));
    return " The same goes for " + listed(named) + ".";
}

Severity length_severity(const Pair& pair) {
    const double rarer = std::min(pair.more->mass_share, pair.less->mass_share);
    if (pair.gap >= limits::length_factor_spoils && pair.more->staple_mm > longest_carded_mm &&
        rarer >= limits::length_spoils_least_share)
        return Severity::spoils;
    return pair.gap >= limits::length_factor_warning ? Severity::warning : Severity::advice;
}

std::string length_remedy(const Body& longer, const Body& shorter) {
    // Nobody cuts a good fleece down to a cotton's length.
    if (longer.kind == shorter.kind)
        return "Pick out what is short, second cuts above all, or keep the two lots in separate yarns and "
               "ply them.";
    const std::string first = shorter.staple_mm >= limits::worth_cutting_to_mm
                                  ? "Cut " + longer.kind->name + " to about " +
                                        millimetres(limits::length_after_cutting * shorter.staple_mm) +
                                        " before carding"
                                  : "Swap " + shorter.kind->name + " for something longer";
    return first +
           ", or keep the two in separate yarns and ply them. If they must share a batt, draft with your "
           "hands " +
           millimetres(longer.staple_mm) + " apart.";
}

void add_length_mismatch(const Batch& batch, Findings& findings) {
    auto pairs = pairs_with(batch, limits::pair_least_share, limits::length_factor_advice,
                            [](const Body& more, const Body& less) { return more.fibre_mm / less.fibre_mm; });
    if (pairs.empty()) return;
    // The gravest leads; among equals the widest.
    std::stable_sort(pairs.begin(), pairs.end(),
                     [](const Pair& a, const Pair& b) { return length_severity(a) > length_severity(b); });
    const Pair& worst = pairs.front();
    const Body &longer = *worst.more, &shorter = *worst.less;
    Finding finding;
    finding.code = "length-mismatch";
    finding.severity = length_severity(worst);
    const bool same = longer.kind == shorter.kind;
    finding.text = (same ? "The longer " : "") + longer.kind->name + " (fibres of " +
                   millimetres(longer.fibre_mm) + ", " + percent(longer.mass_share) + ") is " +
                   number(worst.gap, 1) + " times as long as " +
                   (same ? "the rest of it" : shorter.kind->name) + " (" + millimetres(shorter.fibre_mm) +
                   ", " + percent(shorter.mass_share) +
                   "). When you draft, the long fibres slide out first and leave the short ones behind in "
                   "lumps." +
                   others(pairs);
    finding.remedy = length_remedy(longer, shorter);
    finding.components = components_of_pair(worst);
    findings.push_back(std::move(finding));
}

// Silk, cotton and cut fibre are fine without being bought for a soft hand beside wool.
bool is_soft_kind(const Body& body) {
    using fibre::Family;
    const Family family = body.kind->family;
    return family == Family::wool || family == Family::hair || family == Family::unknown;
}

void add_diameter_mismatch(const Batch& batch, Findings& findings) {
    const auto pairs =
        pairs_with(batch, limits::diameter_least_share, limits::diameter_factor_advice,
                   [](const Body& more, const Body& less) {
                       const bool stiff = more.diameter_um >= limits::diameter_stiff_um;
                       return stiff && is_soft_kind(less) ? more.diameter_um / less.diameter_um : 0.0;
                   });
    if (pairs.empty()) return;
    const Pair& worst = pairs.front();
    Finding finding;
    finding.code = "diameter-mismatch";
    finding.severity = worst.gap >= limits::diameter_factor_warning ? Severity::warning : Severity::advice;
    // Bending stiffness of a round rod goes with the fourth power of its diameter (beam theory).
    finding.text = worst.more->kind->name + " (" + micrometres(worst.more->diameter_um) + ") is " +
                   number(worst.gap, 1) + " times as thick as " + worst.less->kind->name + " (" +
                   micrometres(worst.less->diameter_um) + "), so one of its fibres is about " +
                   number(std::pow(worst.gap, 4.0)) +
                   " times as stiff. Stiff fibres work their way to the outside of the yarn, and their ends "
                   "hide the soft hand of the fine ones." +
                   others(pairs);
    finding.remedy = "Let the coarser one go into its own yarn, for wear rather than for skin, or swap " +
                     worst.less->kind->name + " for something nearer to " +
                     micrometres(worst.more->diameter_um / limits::diameter_factor_advice) + ".";
    finding.components = components_of_pair(worst);
    findings.push_back(std::move(finding));
}

// Slick beside grippy is an everyday blend; it runs ahead in the draft when it is long as well.
void add_slick_with_grippy(const Batch& batch, Findings& findings) {
    const auto pairs = pairs_with(
        batch, limits::slip_least_share, limits::slip_difference, [](const Body& more, const Body& less) {
            const bool longer = more.fibre_mm >= limits::length_factor_advice * less.fibre_mm;
            return longer ? more.kind->slipperiness - less.kind->slipperiness : 0.0;
        });
    if (pairs.empty()) return;
    const Pair& worst = pairs.front();
    Finding finding;
    finding.code = "slick-with-grippy";
    finding.text = worst.more->kind->name + " is slick and " +
                   number(worst.more->fibre_mm / worst.less->fibre_mm, 1) + " times as long as " +
                   worst.less->kind->name +
                   ", which grips: in the draft the slick one runs ahead and nothing slows it down.";
    finding.remedy =
        "Open the slick fibre out and feed it in thin wisps between layers of the other, never "
        "as a thick strip. Spin with short, slow drafts.";
    finding.components = components_of_pair(worst);
    findings.push_back(std::move(finding));
}

bool is_shrink_proofed(const fibre::Kind& kind) {
    return std::find(kind.also.begin(), kind.also.end(), "superwash") != kind.also.end();
}

void add_felts_apart(const Batch& batch, Findings& findings) {
    const auto treated =
        bodies_where(batch, [](const Body& body) { return drafts(body) && is_shrink_proofed(*body.kind); });
    const auto plain = bodies_where(batch, [](const Body& body) {
        return drafts(body) && body.kind->family == fibre::Family::wool && !is_shrink_proofed(*body.kind);
    });
    const auto share = [](const std::vector<Body>& bodies) {
        double sum = 0.0;
        for (const Body& body : bodies) sum += body.mass_share;
        return sum;
    };
    if (std::min(share(treated), share(plain)) < limits::felting_least_share - limits::slack) return;
    Finding finding;
    finding.code = "felts-apart";
    finding.text =
        percent(share(treated)) + " of the batt (" + names_of(treated) + ") will not felt and " +
        names_of(plain) +
        " will: in a warm wash the one shrinks round the other, and the yarn turns uneven or bubbles.";
    finding.remedy = "Wash it cool and without rubbing, for good; or use one sort only.";
    auto both = treated;
    both.insert(both.end(), plain.begin(), plain.end());
    finding.components = components_of(both);
    findings.push_back(std::move(finding));
}

}  // namespace

void add_pair_findings(const Batch& batch, Findings& findings) {
    add_length_mismatch(batch, findings);
    add_diameter_mismatch(batch, findings);
    add_slick_with_grippy(batch, findings);
    add_felts_apart(batch, findings);
}

}  // namespace battwright::staple
