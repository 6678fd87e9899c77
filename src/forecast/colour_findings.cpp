#include "forecast/colour_findings.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <optional>

#include "colour/metamerism.hpp"

namespace battwright::forecast {
namespace {

using staple::Finding;
using staple::Remedy;

constexpr double grey_kept = 0.375, grey_least_chroma = 25.0, grey_least_hue_degrees = 100.0;
constexpr double pair_least_share = 0.10;
constexpr double dark_most_share = 0.25, dark_below_l = 35.0, dark_drop_l = 20.0, dark_allowed_drop_l = 12.0;
constexpr double streaks_least_de00 = 6.0;
constexpr double fleck_l = 60.0, fleck_most_share = 0.15;
constexpr int fleck_most_passes = 2;
constexpr double alike_de00 = 2.5;

// One component as a colour.
struct Hue {
    std::size_t component = 0;
    double share = 0.0;
    const colour::Spectrum* reflectance = nullptr;
    colour::Lab lab;
    double chroma() const { return std::hypot(lab.a, lab.b); }
};

std::string whole(double value) {
    return std::to_string(static_cast<int>(std::lround(value)));
}
std::string whole_percent(double share) {
    return whole(100.0 * share) + " %";
}

std::vector<Hue> hues_of(const Forecast& f) {
    std::vector<Hue> hues;
    for (std::size_t i = 0; i < f.components.size(); ++i) {
        const ComponentLine& line = f.components[i];
        if (line.grams > 0.0)
            hues.push_back({i, line.grams / f.total_grams, &line.reflectance,
                            colour::lab_under(line.reflectance, f.light)});
    }
    return hues;
}

double hue_apart_degrees(const Hue& a, const Hue& b) {
    const double apart =
        std::abs(std::atan2(a.lab.b, a.lab.a) - std::atan2(b.lab.b, b.lab.a)) * 180.0 / std::numbers::pi;
    return apart > 180.0 ? 360.0 - apart : apart;
}

std::vector<std::size_t> both(const Hue& a, const Hue& b) {
    return {std::min(a.component, b.component), std::max(a.component, b.component)};
}

// Two of one label are told apart by their colours.
std::string names(const Forecast& f, const std::vector<std::size_t>& components) {
    const ComponentLine &one = f.components[components.front()], &other = f.components[components.back()];
    if (one.label != other.label) return one.label + " and " + other.label;
    return one.label + " (" + colour::hex(one.srgb) + ") and " + other.label + " (" +
           colour::hex(other.srgb) + ")";
}

void add_greys(const Forecast& f, const std::vector<Hue>& hues, std::vector<Finding>& findings) {
    if (recipe::lays_apart(f.recipe.carding) || f.recipe.carding.passes < 2) return;
    double put_in = 0.0;
    for (const Hue& hue : hues) put_in += hue.share * hue.chroma();
    const double left = std::hypot(f.colour.lab.a, f.colour.lab.b);
    if (put_in < grey_least_chroma || left > grey_kept * put_in) return;
    // The pair that cancels most: much of both, strong, and across the wheel.
    const Hue *first = nullptr, *second = nullptr;
    double worst = 0.0;
    for (std::size_t i = 0; i < hues.size(); ++i)
        for (std::size_t j = i + 1; j < hues.size(); ++j) {
            const double apart = hue_apart_degrees(hues[i], hues[j]);
            const double least = std::min(hues[i].share, hues[j].share);
            const double weight = least * std::min(hues[i].chroma(), hues[j].chroma()) * apart;
            if (apart < grey_least_hue_degrees || least < pair_least_share || weight <= worst) continue;
            worst = weight;
            first = &hues[i];
            second = &hues[j];
        }
    if (first == nullptr) return;
    Finding finding;
    finding.code = "colour-greys";
    finding.components = both(*first, *second);
    finding.text = "Carded together the colours grey: of a chroma of " + whole(put_in) + " put in, " +
                   whole(left) + " is left. " + names(f, finding.components) + " lie " +
                   whole(hue_apart_degrees(*first, *second)) +
                   " degrees apart on the wheel and cancel each other.";
    finding.remedy =
        std::string("Lay them in stripes so that they stay side by side, ") +
        (f.recipe.carding.passes > 2 ? "stop a " + std::string(recipe::words_of(f.carder).pass) + " earlier, "
                                     : "") +
        "put in a colour that lies between the two for a bridge, or take less of one.";
    finding.action = Remedy::lay_stripes;
    findings.push_back(std::move(finding));
}

// The blend's lightness when the hue makes up `share` of it and the rest keeps its proportions.
double lightness_with(const Forecast& f, const std::vector<Hue>& hues, const Hue& dark, double share) {
    std::vector<colour::Portion> portions;
    for (const Hue& hue : hues) {
        const bool is_dark = &hue == &dark;
        portions.push_back(
            {is_dark ? share : hue.share * (1.0 - share) / (1.0 - dark.share), *hue.reflectance});
    }
    return colour::lab_under(colour::blend(portions, f.optics), f.light).l;
}

void add_dark(const Forecast& f, const std::vector<Hue>& hues, std::vector<Finding>& findings) {
    if (hues.size() < 2) return;
    for (const Hue& dark : hues) {
        if (dark.share > dark_most_share || dark.lab.l > dark_below_l) continue;
        const double without = lightness_with(f, hues, dark, 0.0);
        const double with = lightness_with(f, hues, dark, dark.share);
        if (without - with < dark_drop_l) continue;
        double low = 0.0, high = dark.share;
        for (int i = 0; i < 24; ++i) {
            const double middle = 0.5 * (low + high);
            (without - lightness_with(f, hues, dark, middle) > dark_allowed_drop_l ? high : low) = middle;
        }
        const double tenths = std::floor(1000.0 * low) / 10.0;
        const bool weighed = tenths >= 0.5;
        Finding finding;
        finding.code = "dark-swallows";
        finding.components = {dark.component};
        finding.text = whole_percent(dark.share) + " of " + f.components[dark.component].label +
                       " takes the lightness of the rest from " + whole(without) + " to " + whole(with) +
                       " (L*, of 100): dark fibre hides far more than its share.";
        finding.remedy = "Take " + (weighed ? whole(std::max(1.0, tenths)) + " % of it" : "a pinch of it") +
                         " if the others are to show, or keep it apart as a stripe.";
        finding.action = weighed ? Remedy::lower_share : Remedy::remove_component;
        if (weighed) finding.action_value = tenths;
        findings.push_back(std::move(finding));
        return;
    }
}

// The L* that a dyed hue must gain, or lose, to stand off the other; nothing where no such colour can be.
std::optional<double> step_off(const Forecast& f, const Hue& hue, const Hue& other) {
    if (f.recipe.components[hue.component].palette.empty()) return std::nullopt;
    const double way = hue.lab.l >= other.lab.l ? 1.0 : -1.0;
    for (colour::Lab moved = hue.lab; moved.l >= 0.0 && moved.l <= 100.0; moved.l += way)
        if (colour::ciede2000(moved, other.lab) > streaks_least_de00 + 1.0) return moved.l - hue.lab.l;
    return std::nullopt;
}

void add_no_streaks(const Forecast& f, const std::vector<Hue>& hues, std::vector<Finding>& findings) {
    if (hues.size() < 2 || !recipe::lays_apart(f.recipe.carding)) return;
    double widest = -1.0;
    const Hue *light = nullptr, *dark = nullptr;
    for (const Hue& a : hues)
        for (const Hue& b : hues) {
            const double apart = colour::ciede2000(a.lab, b.lab);
            if (&a == &b || a.lab.l < b.lab.l || apart <= widest) continue;
            widest = apart;
            light = &a;
            dark = &b;
        }
    if (widest >= streaks_least_de00) return;
    Finding finding;
    finding.code = "streaks-do-not-show";
    finding.text = "The colours are laid apart, and the two that differ most are only " + whole(widest) +
                   " apart (about 1 is just seen): the stripes will hardly show.";
    finding.remedy =
        "Make one of them lighter or darker than the other; a difference in value shows before one in hue.";
    const auto up = step_off(f, *light, *dark), down = step_off(f, *dark, *light);
    if (up || down) {
        finding.action = Remedy::lighten;
        finding.action_value = up ? *up : *down;
        finding.components.push_back(up ? light->component : dark->component);
    }
    for (const Hue& hue : hues)
        if (finding.components.empty() || hue.component != finding.components.front())
            finding.components.push_back(hue.component);
    findings.push_back(std::move(finding));
}

void add_fleck(const Forecast& f, const std::vector<Hue>& hues, std::vector<Finding>& findings) {
    if (hues.size() < 2 || recipe::lays_apart(f.recipe.carding) ||
        f.recipe.carding.passes > fleck_most_passes)
        return;
    for (const Hue& odd : hues) {
        if (odd.share > fleck_most_share) continue;
        const double rest = lightness_with(f, hues, odd, 0.0);
        if (std::abs(rest - odd.lab.l) < fleck_l) continue;
        const auto& words = recipe::words_of(f.carder);
        Finding finding;
        finding.code = "fleck-shows";
        finding.components = {odd.component};
        finding.text = f.components[odd.component].label + " is " + whole(std::abs(rest - odd.lab.l)) +
                       " L* " + (odd.lab.l > rest ? "lighter" : "darker") + " than the rest: after " +
                       (f.recipe.carding.passes == 1 ? "one " + std::string(words.pass)
                                                     : "two " + std::string(words.passes)) +
                       " it shows as fleck, not as a shade.";
        finding.remedy = "Leave it so for a tweedy yarn. For one shade card it once more.";
        finding.action = Remedy::more_passes;
        finding.action_value = fleck_most_passes + 1;
        findings.push_back(std::move(finding));
        return;
    }
}

void add_other_light(const Forecast& f, const std::vector<Hue>& hues, std::vector<Finding>& findings) {
    for (const auto& other : colour::all_lights) {
        if (other.value == f.light) continue;
        for (std::size_t i = 0; i < hues.size(); ++i)
            for (std::size_t j = i + 1; j < hues.size(); ++j) {
                const double here = colour::ciede2000(hues[i].lab, hues[j].lab);
                if (here > alike_de00) continue;
                const double there = colour::metamerism_index(*hues[i].reflectance, *hues[j].reflectance,
                                                              f.light, other.value);
                if (there < colour::metameric_from) continue;
                Finding finding;
                finding.code = "parts-in-other-light";
                finding.components = both(hues[i], hues[j]);
                finding.text = names(f, finding.components) + " look alike here and part in " +
                               std::string(other.phrase) + " (" + whole(there) +
                               " apart; about 1 is just seen, over 2 plainly).";
                finding.remedy =
                    "Look at both in the light the thing will be worn in before you card them together.";
                finding.action = Remedy::see_in_light;
                finding.action_value = static_cast<double>(other.value);
                findings.push_back(std::move(finding));
                return;
            }
    }
}

}  // namespace

std::vector<Finding> colour_findings(const Forecast& f) {
    std::vector<Finding> findings;
    const std::vector<Hue> hues = hues_of(f);
    add_greys(f, hues, findings);
    add_dark(f, hues, findings);
    add_no_streaks(f, hues, findings);
    add_fleck(f, hues, findings);
    add_other_light(f, hues, findings);
    for (Finding& finding : findings) staple::settle_words(finding);
    return findings;
}

}  // namespace battwright::forecast
