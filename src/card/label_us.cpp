// The Wool Products Labeling Act and the Textile Fiber Products Identification Act, with 16 CFR 300 and 303.
#include <algorithm>
#include <cmath>

#include "card/label_parts.hpp"

namespace battwright::card {
namespace {

constexpr double least_named_pct = 5.0;    // 16 CFR 303.3(a), 300.3(a)
constexpr double most_ornament_pct = 5.0;  // 16 CFR 300.16, 303.26
constexpr double share_slack = 1e-9;       // of sums of shares

bool is_ornament(const Share& share) {
    return share.decorative;
}

bool has_wool(const std::vector<Share>& shares) {
    return std::any_of(shares.begin(), shares.end(),
                       [](const Share& share) { return is_wool_in_us_law(share.name); });
}

std::string ornament_words(const std::vector<Share>& ornaments, double percent) {
    if (percent < 0.5) return "exclusive of ornamentation";
    std::string name = ornaments.front().name;
    for (std::size_t i = 1; i < ornaments.size(); ++i) name += " and " + ornaments[i].name;
    return "exclusive of " + std::to_string(std::lround(percent)) + "% " + name + " ornamentation";
}

// Ornament up to 5 % of the product is left out of the percentages, which must then say so. Its own
// percentage is of the weight of the other fibres. Returns the words to add.
std::string leave_out_ornament(std::vector<Share>& shares, Label& label, bool wool,
                               const LabelOptions& options) {
    const double ornament = sum_of(shares, is_ornament);
    if (ornament <= 0.0 || ornament >= 100.0 - share_slack || options.count_decorative) return "";
    const std::string section = wool ? "16 CFR 300.16" : "16 CFR 303.26";
    if (ornament > most_ornament_pct + share_slack) {
        label.rules.push_back(section + ": ornamentation over 5 % is counted with the rest");
        return "";
    }
    std::vector<Share> ornaments;
    std::copy_if(shares.begin(), shares.end(), std::back_inserter(ornaments), is_ornament);
    std::erase_if(shares, is_ornament);
    rescale(shares);
    label.rules.push_back(section + ": ornamentation up to 5 % is left out, and said so");
    return ornament_words(ornaments, 100.0 * ornament / (100.0 - ornament));
}

// Under 5 % a fibre is not named, wool apart, unless it does a job there.
void gather_small(std::vector<Share>& shares, Label& label, bool wool, const LabelOptions& options) {
    const auto small = [&](const Share& share) {
        return share.known && share.percent < least_named_pct - share_slack &&
               !is_wool_in_us_law(share.name) && !options.functional.contains(share.name);
    };
    const auto count = std::count_if(shares.begin(), shares.end(), small);
    if (count == 0) return;
    Share rest{count == 1 ? "other fiber" : "other fibers", 0.0};
    for (const Share& share : shares)
        if (small(share)) rest.percent += share.percent;
    std::erase_if(shares, small);
    shares.push_back(rest);
    label.rules.emplace_back(wool ? "16 CFR 300.3(a)(1): a fiber other than wool under 5 % is 'other fiber'"
                                  : "16 CFR 303.3(a): a fiber under 5 % is 'other fiber'");
}

// Fibre nobody can name goes last.
void name_unknown(std::vector<Share>& shares, Label& label, bool wool) {
    const auto unknown = [](const Share& share) { return !share.known; };
    Share rest{wool ? "undetermined fibers" : "unknown fiber content", 0.0, false, false};
    rest.percent = sum_of(shares, unknown);
    if (rest.percent <= 0.0) return;
    std::erase_if(shares, unknown);
    shares.push_back(rest);
    label.rules.emplace_back(wool ? "16 CFR 300.28(b): undetermined fibers come last"
                                  : "16 CFR 303.14: unknown fibers come last");
    label.notes.emplace_back("the rule on unknown fiber is written for reclaimed stock: find out what it is");
}

void name_new_wool_in_us_law(std::vector<Share>& shares, Label& label, const LabelOptions& options) {
    const auto wool =
        std::find_if(shares.begin(), shares.end(), [](const Share& s) { return s.name == "wool"; });
    if (!options.new_wool || wool == shares.end()) return;
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
        label.rules.emplace_back(wool ? "16 CFR 300.3(a)(1): all of one fiber"
                                      : "16 CFR 303.27: all of one fiber");
    else
        label.rules.emplace_back(wool ? "16 CFR 300.3(a)(1): wool in any amount, other fibers from 5 %"
                                      : "16 CFR 303.16(a)(1): in order of weight, other fiber last");
    label.notes.emplace_back("also needed on a US label: country of origin, and the maker's name or number");
    if (std::any_of(shares.begin(), shares.end(),
                    [](const Share& s) { return s.name.ends_with("cashmere"); }))
        label.notes.emplace_back("cashmere only if 19 micron or finer (16 CFR 300.19(a))");
}

}  // namespace

Label label_us(std::span<const Share> stated, const LabelOptions& options) {
    Label label;
    label.market = Market::us;
    std::vector<Share> shares = merged(stated);
    if (shares.empty()) return label;
    const bool wool = has_wool(shares);
    const std::string ornament = leave_out_ornament(shares, label, wool, options);
    gather_small(shares, label, wool, options);
    name_unknown(shares, label, wool);
    name_new_wool_in_us_law(shares, label, options);
    label.entries = whole_percents(shares, "other fibers");
    add_rules(label, shares, wool);
    for (Entry& entry : label.entries) {
        entry.name = in_words(entry.name, options);
        label.text += (label.text.empty() ? "" : ", ") + std::to_string(entry.percent) + "% " + entry.name;
    }
    if (!ornament.empty()) label.text += ", " + in_words(ornament, options);
    return label;
}

}  // namespace battwright::card
