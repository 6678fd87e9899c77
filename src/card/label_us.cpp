// The Wool Products Labeling Act (15 USC 68, 68b) and the Textile Fiber Products Identification Act, with 16
// CFR 300 and 303. Looked up: 15 USC 68 and 68b, 16 CFR 300.1, 300.16, 300.17, 300.19, 300.20, 300.28, 303.6,
// 303.42. From memory: 300.3, 300.8, 300.18, 303.3, 303.7, 303.9, 303.14, 303.16, 303.26, 303.27, 303.43.
#include <algorithm>
#include <cmath>

#include "card/label_parts.hpp"

namespace battwright::card {
namespace {

constexpr double least_named_pct = 5.0;      // 15 USC 68b(a)(2)(A); 16 CFR 303.3(a)
constexpr double most_ornament_pct = 5.0;    // 16 CFR 300.16, 303.26
constexpr double cashmere_most_um = 19.0;    // 16 CFR 300.19(a): the mean
constexpr double cashmere_coarse_um = 30.0;  // and how much may lie over this
constexpr double cashmere_coarse_pct = 3.0;
constexpr double cashmere_most_cv = 0.24;

bool has_wool(const std::vector<Share>& shares) {
    return std::any_of(shares.begin(), shares.end(),
                       [](const Share& share) { return is_wool_in_us_law(share.name); });
}

// Percent by mass of fibre coarser than `um`, for log-normal diameters: mass goes with the square of the
// diameter, which moves the logarithm's mean by two variances.
double coarser_pct(const Share& share, double um) {
    const double variance = std::log1p(share.diameter_cv * share.diameter_cv);
    if (variance <= 0.0) return 0.0;  // all as fine as the mean, which the law looks at first
    const double mean = std::log(share.diameter_um) + 1.5 * variance;
    return 50.0 * std::erfc((std::log(um) - mean) / std::sqrt(2.0 * variance));
}

bool is_cashmere_by_law(const Share& share) {
    return share.diameter_um <= 0.0 ||
           (share.diameter_um <= cashmere_most_um + closing_pct && share.diameter_cv <= cashmere_most_cv &&
            coarser_pct(share, cashmere_coarse_um) <= cashmere_coarse_pct);
}

// Before anything is merged: each lot by the name it may have. Undercoat too coarse for "cashmere" is wool,
// as the hair of the Cashmere goat is; wool reclaimed from what was woven, felted or worn is "recycled".
std::vector<Share> named(std::span<const Share> stated, Label& label) {
    std::vector<Share> shares(stated.begin(), stated.end());
    for (Share& share : shares) {
        if (share.percent <= 0.0) continue;
        if (share.name == "cashmere" && !is_cashmere_by_law(share)) {
            label.rules.push_back("16 CFR 300.19(a): " + brought_by(share) +
                                  " is too coarse or too uneven to be called cashmere, so it is wool");
            share.name = "wool";
        }
        if (share.past == fibre::Past::cloth && is_wool_in_us_law(share.name) &&
            !share.name.starts_with("recycled ")) {
            share.name = "recycled " + share.name;
            label.rules.emplace_back(
                "15 USC 68(c): wool from what was woven, felted or worn is recycled wool");
        }
        if (share.past == fibre::Past::unsure && is_wool_in_us_law(share.name))
            label.notes.push_back(
                brought_by(share) + ": if it comes from cloth or from something worn it is 'recycled " +
                share.name + "' (15 USC 68(c)); say which with reclaimed = \"never\", \"yarn\" or \"cloth\"");
    }
    return shares;
}

std::string ornament_words(const std::vector<Share>& ornaments, double percent) {
    if (percent < 0.5) return "exclusive of ornamentation";
    std::string name = ornaments.front().name;
    for (std::size_t i = 1; i < ornaments.size(); ++i) name += " and " + ornaments[i].name;
    return "exclusive of " + std::to_string(std::lround(percent)) + "% " + name + " ornamentation";
}

// Ornament that forms a visible pattern, up to 5 % of the product, is left out of the percentages, which must
// then say so. Its own percentage is of the weight of the other fibres. Returns the words to add.
std::string leave_out_ornament(std::vector<Share>& shares, Label& label, bool wool,
                               const LabelOptions& options) {
    const double ornament = sum_of(shares, is_decorative);
    if (ornament <= 0.0 || ornament >= 100.0 - closing_pct) return "";
    const std::string section = wool ? "16 CFR 300.16" : "16 CFR 303.26";
    if (!options.visible_pattern) {
        label.notes.emplace_back(
            "the sparkle is counted with the rest: it is ornamentation only where it forms a visible pattern "
            "or design (16 CFR 300.1); if it does, say so");
        return "";
    }
    if (ornament > most_ornament_pct + closing_pct) {
        label.rules.push_back(section + ": ornamentation over 5 % is counted with the rest");
        return "";
    }
    std::vector<Share> ornaments;
    std::copy_if(shares.begin(), shares.end(), std::back_inserter(ornaments), is_decorative);
    std::erase_if(shares, is_decorative);
    rescale(shares);
    label.rules.push_back(section + ": ornamentation up to 5 % is left out, and said so");
    return ornament_words(ornaments, 100.0 * ornament / (100.0 - ornament));
}

// Under 5 % a fibre is not named, wool apart, unless it does a job there.
void gather_small(std::vector<Share>& shares, Label& label, bool wool, const LabelOptions& options) {
    const auto small = [&](const Share& share) {
        return share.known && share.percent < least_named_pct - closing_pct &&
               !is_wool_in_us_law(share.name) && !options.functional.contains(share.name);
    };
    const auto count = std::count_if(shares.begin(), shares.end(), small);
    if (count == 0) return;
    Share rest{count == 1 ? "other fiber" : "other fibers", 0.0};
    for (const Share& share : shares)
        if (small(share)) rest.percent += share.percent;
    std::erase_if(shares, small);
    shares.push_back(rest);
    label.rules.emplace_back(
        wool ? "15 USC 68b(a)(2)(A): fibers other than wool under 5 % are stated together, as 'other fiber'"
             : "16 CFR 303.3(a): a fiber under 5 % is 'other fiber'");
}

// What nobody can name: reclaimed beside wool it may be stated so, last of the list; anything else may not be
// sold until it is known. Returns false when there can be no label.
bool name_unknown(std::vector<Share>& shares, Label& label, bool wool) {
    std::string fresh, unnamed;
    for (const Share& share : shares) {
        if (share.known) continue;
        if (share.past == fibre::Past::fleece || share.past == fibre::Past::unsure)
            fresh += (fresh.empty() ? "" : " and ") + brought_by(share);
    }
    const double unknown = sum_of(shares, is_unknown);
    if (unknown <= 0.0) return true;
    if (!fresh.empty() || !wool) {
        label.refused.push_back(
            {"it may not be sold in the US until it is known what " +
                 (fresh.empty() ? std::string("the unknown fibre") : fresh) + " is",
             "find out (a burn test tells plant, animal and man-made apart), name the fibre, or leave it out",
             ""});
        return false;
    }
    std::erase_if(shares, is_unknown);
    shares.push_back({"unknown reclaimed fibers", unknown, false, false});
    label.rules.emplace_back("16 CFR 300.28(b): unknown reclaimed fibers, not of wool, come last");
    label.notes.emplace_back("'unknown reclaimed fibers' must hold no wool");
    return true;
}

void name_new_wool_in_us_law(std::vector<Share>& shares, Label& label, const LabelOptions& options) {
    const auto wool =
        std::find_if(shares.begin(), shares.end(), [](const Share& s) { return s.name == "wool"; });
    if (!options.new_wool || wool == shares.end()) return;
    if (may_be_reclaimed(*wool)) {
        label.refused.push_back(
            {"not called virgin wool: " + brought_by(*wool) +
                 " holds wool that was spun before, or may have been (16 CFR 300.20)",
             "leave it out, or state in the recipe that it never was: reclaimed = \"never\"", ""});
        return;
    }
    wool->name = "virgin wool";
    label.rules.emplace_back("16 CFR 300.20: 'virgin' for wool never reclaimed");
}

void add_rules(Label& label, const std::vector<Share>& shares, bool wool) {
    const auto special = [](const Share& share) {
        return is_wool_in_us_law(share.name) && share.name != "wool" && share.name != "virgin wool" &&
               !share.name.ends_with("recycled wool");
    };
    if (std::any_of(shares.begin(), shares.end(), special))
        label.rules.emplace_back("16 CFR 300.18 and 300.19: the animal's name in place of 'wool'");
    if (label.entries.size() == 1)
        label.rules.emplace_back(wool ? "16 CFR 300.17: '100%' of one kind of fiber"
                                      : "16 CFR 303.27: '100%' of one fiber");
    else
        label.rules.emplace_back(
            wool ? "15 USC 68b(a)(2)(A), 16 CFR 300.3: wool in any amount, other fibers from 5 %"
                 : "16 CFR 303.16(a)(1): in order of weight, other fiber last");
}

void add_notes(Label& label, const std::vector<Share>& stated, bool wool, const LabelOptions& options) {
    if (options.origin.empty())
        label.notes.emplace_back(wool ? "the label must also name the country of origin (15 USC 68b(a)(2)(D))"
                                      : "the label must also name the country of origin");
    label.notes.emplace_back("the label must also name the maker, or give the registered number");
    if (wool)
        label.notes.emplace_back(
            "the Wool Act forgives only what could not be avoided with due care (15 USC 68b(a)(2)(A)); it "
            "names no "
            "3 %");
    for (const Share& share : stated) {
        if (share.name.ends_with("cashmere"))
            label.notes.emplace_back(
                "cashmere: dehaired undercoat of the Cashmere goat, 19 micron or finer, at most 3 % by "
                "weight "
                "over 30 micron (16 CFR 300.19(a)); these figures are of the catalogue or the tag, not "
                "measured");
        if (share.cross_goat)
            label.notes.emplace_back(
                "cashgora is doubtful: the Act names the Angora and the Cashmere goat, not "
                "their cross; ask before you call it wool");
        if (share.pet)
            label.notes.push_back(
                brought_by(share) +
                ": dog and cat fur may not be sold (19 USC 1308, from memory); ask before you "
                "sell their spun hair");
    }
}

}  // namespace

Label label_us(std::span<const Share> stated, const LabelOptions& options) {
    Label label;
    label.market = Market::us;
    std::vector<Share> shares = merged(named(stated, label));
    if (shares.empty()) return label;
    const bool wool = has_wool(shares);
    add_notes(label, shares, wool, options);
    if (!name_unknown(shares, label, wool)) return label;
    const std::string ornament = leave_out_ornament(shares, label, wool, options);
    gather_small(shares, label, wool, options);
    name_new_wool_in_us_law(shares, label, options);
    std::stable_partition(shares.begin(), shares.end(), [](const Share& share) { return share.known; });
    label.entries = rounded_percents(shares);
    add_rules(label, shares, wool);
    for (Entry& entry : label.entries) {
        entry.name = in_words(entry.name, options);
        label.text += (label.text.empty() ? "" : ", ") + percent_text(entry.percent) + "% " + entry.name;
    }
    if (!ornament.empty()) label.text += ", " + in_words(ornament, options);
    return label;
}

}  // namespace battwright::card
