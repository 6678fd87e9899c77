// Regulation (EU) No 1007/2011, as kept in UK law.
#include <algorithm>
#include <cmath>

#include "card/label_parts.hpp"

namespace battwright::card {
namespace {

constexpr double most_decorative_pct = 7.0;    // Article 10(1)
constexpr double most_one_other_pct = 5.0;     // Article 9(2)(a)
constexpr double most_other_pct = 15.0;        // Article 9(2)(b), taken together
constexpr double least_new_wool_pct = 25.0;    // Article 8(2)(b)
constexpr double closing = 1e-9;               // of sums of shares
constexpr const char* other = "other fibres";  // Article 9(2)
constexpr const char* mixed = "mixed fibres";  // Article 9(4)

bool is_decorative(const Share& share) {
    return share.decorative;
}
bool is_unknown(const Share& share) {
    return !share.known;
}

std::string whole(double percent) {
    return percent < 0.5 ? "under 1 %" : std::to_string(std::lround(percent)) + " %";
}

// Article 10(1): what is only there for its looks need not be stated up to 7 % of the product.
void leave_out_decoration(std::vector<Share>& shares, Label& label, const LabelOptions& options) {
    const double decorative = sum_of(shares, is_decorative);
    if (decorative <= 0.0 || options.count_decorative) return;
    if (decorative > most_decorative_pct + closing) {
        label.rules.emplace_back("Article 10(1): decorative fibre over 7 % of the product is stated");
        return;
    }
    if (decorative >= 100.0 - closing) return;
    std::erase_if(shares, is_decorative);
    rescale(shares);
    label.rules.emplace_back("Article 10(1): decorative fibre up to 7 % of the product is not counted");
    label.notes.push_back("left out as decoration: " + whole(decorative) +
                          " of the product; it must be visible and able to be picked out");
}

// Article 9(2): what cannot easily be named, together up to 15 %, last of the list. Returns false when there
// is more of it than that.
bool gather_unknown(std::vector<Share>& shares, Label& label) {
    const double unknown = sum_of(shares, is_unknown);
    if (unknown <= 0.0) return true;
    if (unknown > most_other_pct + closing) return false;
    if (unknown > most_one_other_pct + closing)
        label.notes.emplace_back("'other fibres' over 5 % must be more than one fibre, none over 5 %");
    std::erase_if(shares, is_unknown);
    shares.push_back({other, unknown, false, false});
    label.rules.emplace_back(
        "Article 9(2): a fibre up to 5 %, or several together up to 15 %, that cannot easily be named");
    return true;
}

// Article 8: "virgin wool" where the maker vouches for it. A carded mixture may hold one other fibre only.
void name_new_wool(std::vector<Share>& shares, Label& label, const LabelOptions& options) {
    const auto wool =
        std::find_if(shares.begin(), shares.end(), [](const Share& s) { return s.name == "wool"; });
    if (!options.new_wool || wool == shares.end()) return;
    if (shares.size() > 2 || wool->percent < least_new_wool_pct - closing) {
        label.notes.emplace_back(
            "not called virgin wool: in a carded mixture that needs at least 25 % wool and one other fibre "
            "only "
            "(Article 8(2))");
        return;
    }
    wool->name = "virgin wool";
    label.rules.emplace_back(shares.size() == 1
                                 ? "Article 8(1): all of it new wool"
                                 : "Article 8(2): new wool, 25 % or more, with one other fibre");
}

void write_text(Label& label, const LabelOptions& options) {
    for (Entry& entry : label.entries) {
        if (!listed_in_annex_1(entry.name) && entry.name != other)
            label.notes.push_back("'" + entry.name + "' is no name of Annex I");
        entry.name = in_words(entry.name, options);
        label.text += (label.text.empty() ? "" : ", ") + std::to_string(entry.percent) + " % " + entry.name;
    }
}

void add_general_notes(Label& label) {
    label.notes.emplace_back("in the language of the country of sale (Article 16(3)); English in the UK");
    label.notes.emplace_back(
        "shares are of the mass with each fibre's agreed moisture (Article 19, Annex IX)");
}

}  // namespace

Label label_eu(std::span<const Share> stated, const LabelOptions& options) {
    Label label;
    label.market = Market::eu_uk;
    std::vector<Share> shares = merged(stated);
    if (shares.empty()) return label;
    leave_out_decoration(shares, label, options);
    if (!gather_unknown(shares, label)) {
        label.entries = {{100, in_words(mixed, options)}};
        label.text = label.entries.front().name;
        label.rules.emplace_back(
            "Article 9(4): the composition is hard to state, more than 15 % is not known");
        add_general_notes(label);
        return label;
    }
    name_new_wool(shares, label, options);
    for (Share& share : shares) share.decorative = false;
    label.entries = whole_percents(shares, other);
    label.rules.emplace_back(label.entries.size() == 1
                                 ? "Article 7(1): 100 % of one fibre"
                                 : "Article 9(1): every fibre with its percentage, most first");
    write_text(label, options);
    add_general_notes(label);
    return label;
}

}  // namespace battwright::card
