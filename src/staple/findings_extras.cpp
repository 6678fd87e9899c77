// Slick fibre, sparkle, neps and locks, dust.
#include <algorithm>

#include "staple/batch.hpp"
#include "staple/limits.hpp"
#include "staple/mixture.hpp"
#include "staple/sparkle.hpp"

namespace battwright::staple {
namespace {

std::string falling_to(const Excess& excess, const std::string& otherwise) {
    if (excess.action != Remedy::lower_share) return otherwise;
    return "Bring it down to " + percent_to_the_tenth(excess.action_value) + " of the batt";
}

Finding finding_from(const Excess& excess, std::string code) {
    Finding finding;
    finding.code = std::move(code);
    finding.components = excess.components;
    finding.action = excess.action;
    finding.action_value = excess.action_value;
    return finding;
}

bool is_slick(const fibre::Kind& kind) {
    return kind.form == fibre::Form::fibre && kind.slipperiness >= limits::slick_from;
}

void add_too_much_slick(const Batch& batch, Findings& findings) {
    const auto excess = excess_over(limits::slick_share, batch, [](const recipe::Strand& strand) {
        return Measured{strand.grams, is_slick(*strand.kind) ? strand.grams : 0.0};
    });
    if (!excess) return;
    Finding finding = finding_from(*excess, "too-much-slick");
    finding.severity = Severity::warning;
    const auto slick = bodies_where(batch, [](const Body& body) { return is_slick(*body.kind); });
    finding.text = percent(excess->share) + " of the batt is slick fibre (" + names_of(slick) +
                   "), more than the " + percent(limits::slick_share) +
                   " that the rest can grip. Slick fibre slides off the teeth, the web has no cling, and the "
                   "yarn wants to come apart until it is tightly twisted.";
    finding.remedy =
        falling_to(*excess, "Blend in a wool with some crimp") +
        "; or card it slowly with a fine mist of water against the static, and put in more twist.";
    findings.push_back(std::move(finding));
}

bool is_sparkle(const fibre::Kind& kind) {
    return kind.family == fibre::Family::sparkle;
}

void add_sparkle(const Batch& batch, Findings& findings) {
    const auto excess = excess_over(most_sparkle_share, batch, [](const recipe::Strand& strand) {
        return Measured{strand.grams, is_sparkle(*strand.kind) ? strand.grams : 0.0};
    });
    if (!excess) return;
    Finding finding = finding_from(*excess, "sparkle-over-limit");
    finding.severity = excess->share > limits::sparkle_share_warning ? Severity::warning : Severity::advice;
    finding.text =
        percent(excess->share) + " of the batt is sparkle; about " + percent(most_sparkle_share) +
        " is what the fibre around it can hold. More of it slides out in the draft, scratches, and "
        "stops looking like glints.";
    finding.remedy = falling_to(*excess, "Card it into a plain fibre") + ": a little shows for a lot.";
    findings.push_back(std::move(finding));
}

bool rides_along(const Body& body) {
    return body.among;
}

bool sheds(const Body& body) {
    return rides_along(body) && body.kind->retention < limits::retention_least;
}

// Fibre that lumps can ride in, as a share of the batt by weight.
double carrying_share(const Batch& batch) {
    return 1.0 - mass_share_where(batch, rides_along);
}

void add_falling_out(const Batch& batch, Findings& findings) {
    if (carrying_share(batch) <= limits::slack) return;  // said by nothing-to-carry-it
    const auto shedding = bodies_where(batch, sheds);
    double put_in = 0.0, stays = 0.0;
    for (const Body& body : shedding) {
        put_in += body.grams;
        stays += body.grams * body.kind->retention;
    }
    if (put_in < (limits::inclusion_least_share - limits::slack) * batch.total_grams || put_in <= 0.0) return;
    const double lost_share = (put_in - stays) / batch.total_grams;
    Finding finding;
    finding.code = "inclusions-fall-out";
    finding.severity = lost_share > limits::lost_share_warning ? Severity::warning : Severity::advice;
    finding.text = "Of " + grams(put_in) + " of " + names_of(shedding) + ", expect about " + grams(stays) +
                   " (" + percent(stays / put_in) +
                   ") to stay in batt and yarn; the rest ends on the floor and on your lap. They have few "
                   "fibre ends to hold on by.";
    finding.remedy = "Sandwich them between two thin layers, and weigh out " +
                     grams(put_in * put_in / stays) + " if " + grams(put_in) +
                     " is what you want to see in the yarn.";
    finding.components = components_of(shedding);
    findings.push_back(std::move(finding));
}

// Neps that were bought carded into a fibre cannot be kept back: only what is mostly extras counts.
bool is_mostly_extras(const Batch& batch, std::size_t component) {
    double extras = 0.0, whole = 0.0;
    for (const recipe::Strand& strand : batch.strands) {
        if (strand.component != component) continue;
        whole += strand.grams;
        const fibre::Form form = strand.kind->form;
        if (form != fibre::Form::fibre) extras += strand.grams;
    }
    return extras > 0.5 * whole;
}

// Where locks are most of the batt they are what is carded: there is no wool to keep them back from.
bool is_kept_whole(const Batch& batch, const Body& body) {
    const auto is_lock = [](const Body& one) { return one.kind->form == fibre::Form::lock; };
    return body.kind->form != fibre::Form::fibre &&
           !(is_lock(body) && mass_share_where(batch, is_lock) > limits::locks_are_the_batt);
}

void add_too_early(const Batch& batch, Findings& findings) {
    if (carrying_share(batch) <= limits::slack) return;
    const auto goes_early = [&](std::size_t component) {
        return !goes_on_last(batch, component) && is_mostly_extras(batch, component);
    };
    const auto bodies = bodies_where(batch, [&](const Body& body) {
        return is_kept_whole(batch, body) &&
               std::any_of(body.components.begin(), body.components.end(), goes_early);
    });
    std::vector<std::size_t> early;
    for (const std::size_t component : components_of(bodies))
        if (goes_early(component)) early.push_back(component);
    if (early.empty()) return;
    const bool lumps = std::any_of(bodies.begin(), bodies.end(),
                                   [](const Body& body) { return body.kind->form != fibre::Form::film; });
    int first = batch.passes;
    for (const std::size_t component : early) first = std::min(first, pass_of(batch, component));
    Finding finding;
    finding.code = "inclusions-too-early";
    finding.severity = lumps ? Severity::warning : Severity::advice;
    finding.text = names_of(bodies) + " would go in on pass " + std::to_string(first) + " of " +
                   std::to_string(batch.passes) + " and be carded " +
                   counted(batch.passes - first + 1, "time", "times") + ". " +
                   (lumps ? "Each pass pulls lumps open and grinds them in, until they are neither a speck "
                            "nor a fibre."
                          : "Each pass creases and breaks the film, and what breaks falls out.");
    finding.remedy = "Add them on the last pass only, sandwiched between layers.";
    finding.components = early;
    finding.action = Remedy::add_on_last_pass;
    findings.push_back(std::move(finding));
}

// Short stalk and boll fibre, and noils of any plant or silk, float.
bool is_dusty(const Body& body) {
    using fibre::Family;
    const Family family = body.kind->family;
    const bool plant = family == Family::bast || family == Family::cotton;
    const bool noil = family == Family::silk && body.staple_mm < 2.0 * short_fibre_mm;
    return plant || noil;
}

void add_dust(const Batch& batch, Findings& findings) {
    double dusty_grams = 0.0;
    for (const Body& body : batch.bodies)
        if (is_dusty(body))
            dusty_grams += body.grams * LengthLaw(body.fibre_mm, body.staple_cv).under(short_fibre_mm, 1);
    const double share = batch.total_grams > 0.0 ? dusty_grams / batch.total_grams : 0.0;
    if (share < limits::dust_least_share) return;
    const auto dusty = bodies_where(batch, is_dusty);
    Finding finding;
    finding.code = "dust";
    finding.text = percent(share) + " of the batt is " + names_of(dusty) + " shorter than " +
                   millimetres(short_fibre_mm) +
                   ". Some of that leaves the drum as dust, and plant and noil dust is not kind to lungs.";
    finding.remedy =
        "Wear a dust mask, card by an open window or out of doors, and brush the carder out afterwards "
        "rather "
        "than blowing it.";
    finding.components = components_of(dusty);
    findings.push_back(std::move(finding));
}

void add_lumps(const Batch& batch, Findings& findings) {
    const double share = mass_share_where(batch, rides_along);
    if (share <= limits::lumps_warning + limits::slack) return;
    const auto lumps = bodies_where(batch, rides_along);
    Finding finding;
    finding.code = "nothing-to-carry-it";
    finding.severity = share > limits::lumps_spoils ? Severity::spoils : Severity::warning;
    finding.text =
        percent(share) + " of the batt is " + names_of(lumps) + ", which has no ends to draft by: " +
        (share >= 1.0 - limits::slack ? "there is no fibre to carry it, and it will not make a web or a yarn."
                                      : "the fibre round it is too little to carry it, and the web will "
                                        "fall apart where it lies thick.");
    finding.remedy = "Let it ride in a longer fibre that makes up two thirds of the batt.";
    finding.components = components_of(lumps);
    findings.push_back(std::move(finding));
}

}  // namespace

void add_extra_findings(const Batch& batch, Findings& findings) {
    add_too_much_slick(batch, findings);
    add_sparkle(batch, findings);
    add_falling_out(batch, findings);
    add_too_early(batch, findings);
    add_dust(batch, findings);
    add_lumps(batch, findings);
}

}  // namespace battwright::staple
