// Regulation (EU) No 1007/2011, as kept in UK law. Articles 5, 9, 16(3) and 17 are from memory; 7(1), 8,
// 10(1), 19(2), 20 and Annex VII were looked up.
#include <algorithm>
#include <cmath>

#include "card/label_parts.hpp"

namespace battwright::card {
namespace {

constexpr double most_decorative_pct = 7.0;    // Article 10(1), Annex VII
constexpr double most_one_other_pct = 5.0;     // Article 9(2)
constexpr double most_other_pct = 15.0;        // Article 9(2), taken together
constexpr double least_new_wool_pct = 25.0;    // Article 8(2)(b)
constexpr const char* other = "other fibres";  // Article 9(2)
constexpr const char* mixed = "mixed fibres";  // Article 9(4)

std::string whole(double percent) {
    return percent < 0.5 ? "under 1 %" : std::to_string(std::lround(percent)) + " %";
}

// Article 10(1): what is only there for its looks need not be stated up to 7 % of the product. Returns
// whether something was left out.
bool leave_out_decoration(std::vector<Share>& shares, Label& label, const LabelOptions& options) {
    const double decorative = sum_of(shares, is_decorative);
    if (decorative <= 0.0 || options.count_decorative) return false;
    if (decorative > most_decorative_pct + closing_pct) {
        label.rules.emplace_back("Article 10(1): decorative fibre over 7 % of the product is stated");
        return false;
    }
    std::erase_if(shares, is_decorative);
    rescale(shares);
    label.rules.emplace_back("Article 10(1): decorative fibre up to 7 % of the product is not counted");
    label.notes.push_back("left out as decoration: " + whole(decorative) +
                          " of the product; it must be visible and able to be picked out");
    return true;
}

// Article 9(2): what cannot easily be named, together up to 15 %, last of the list. Returns false when there
// is more of it than that.
bool gather_unknown(std::vector<Share>& shares, Label& label) {
    const double unknown = sum_of(shares, is_unknown);
    if (unknown <= 0.0) return true;
    if (unknown > most_other_pct + closing_pct) return false;
    if (unknown > most_one_other_pct + closing_pct)
        label.notes.emplace_back("'other fibres' over 5 % must be more than one fibre: one alone is named");
    std::erase_if(shares, is_unknown);
    shares.push_back({other, unknown, false, false});
    label.rules.emplace_back(
        "Article 9(2): a fibre up to 5 %, or several together up to 15 %, that cannot easily be named");
    return true;
}

void refuse_new_wool(Label& label, std::string why, std::string mend) {
    label.refused.push_back({"not called virgin wool: " + std::move(why), std::move(mend), ""});
}

// Article 8: "virgin wool" where the maker vouches for it. A carded mixture may hold one other fibre only,
// and states all it is made of.
void name_new_wool(std::vector<Share>& shares, Label& label, const LabelOptions& options, bool left_out) {
    const auto wool =
        std::find_if(shares.begin(), shares.end(), [](const Share& s) { return s.name == "wool"; });
    if (!options.new_wool || wool == shares.end()) return;
    if (may_be_reclaimed(*wool))
        return refuse_new_wool(
            label, brought_by(*wool) + " holds wool that was spun before, or may have been (Article 8(1))",
            "leave it out, or state in the recipe that it never was: reclaimed = \"never\"");
    if (sum_of(shares, is_unknown) > 0.0)
        return refuse_new_wool(label,
                               "some of the fibre is not known, and the whole mixture must be stated "
                               "(Article 8(2))",
                               "find out what it is, or leave it out");
    if (shares.size() > 2)
        return refuse_new_wool(label, "a carded mixture may hold one other fibre only (Article 8(2)(c))",
                               "card it with one other fibre, or call it wool");
    if (wool->percent < least_new_wool_pct - closing_pct)
        return refuse_new_wool(label, "that needs at least 25 % wool (Article 8(2)(b))", "call it wool");
    wool->name = "virgin wool";
    label.rules.emplace_back(shares.size() == 1
                                 ? "Article 8(1): all of it new wool"
                                 : "Article 8(2): new wool, 25 % or more, with one other fibre");
    if (left_out)
        label.rules.emplace_back("Article 19(2) and Annex VII: the decoration is no part of that mixture");
}

void write_text(Label& label, const LabelOptions& options) {
    for (Entry& entry : label.entries) {
        if (!listed_in_annex_1(entry.name) && entry.name != other)
            label.notes.push_back("'" + entry.name + "' is no name of Annex I");
        entry.name = in_words(entry.name, options);
        label.text += (label.text.empty() ? "" : ", ") + percent_text(entry.percent) + " % " + entry.name;
    }
}

void add_general_notes(Label& label) {
    label.notes.emplace_back("in the language of the country of sale (Article 16(3)); English in the UK");
    label.notes.emplace_back(
        "worked from the weights as they were typed; the law means dry mass with each fibre's agreed "
        "moisture "
        "(Article 19, Annex IX), and a damp or a dry room moves wool by several percent");
}

void warn_of_pets(const std::vector<Share>& shares, Label& label) {
    for (const Share& share : shares)
        if (share.pet)
            label.notes.push_back(brought_by(share) +
                                  ": Regulation (EC) No 1523/2007 bars the sale of fur of cats and dogs; ask "
                                  "before you sell spun dog or cat hair");
}

void name_what_is_known(std::vector<Share>& shares, Label& label, const LabelOptions& options,
                        bool left_out) {
    name_new_wool(shares, label, options, left_out);
    for (Share& share : shares) share.decorative = false;
    const bool all_known = sum_of(shares, is_unknown) <= 0.0;
    label.entries = rounded_percents(shares);
    if (label.entries.size() > 1)
        label.rules.emplace_back("Article 9(1): every fibre with its percentage, most first");
    else if (all_known)
        label.rules.emplace_back("Article 7(1): 100 % of one fibre");
    write_text(label, options);
}

}  // namespace

Label label_eu(std::span<const Share> stated, const LabelOptions& options) {
    Label label;
    label.market = Market::eu_uk;
    std::vector<Share> shares = merged(stated);
    if (shares.empty()) return label;
    warn_of_pets(shares, label);
    const bool left_out = leave_out_decoration(shares, label, options);
    if (gather_unknown(shares, label)) {
        name_what_is_known(shares, label, options, left_out);
    } else {
        if (options.new_wool)
            refuse_new_wool(label, "more than 15 % of the fibre is not known (Article 8(2))",
                            "find out what it is, or leave it out");
        label.entries = {{100, in_words(mixed, options)}};
        label.text = label.entries.front().name;
        label.rules.emplace_back(
            "Article 9(4): the composition is hard to state, more than 15 % is not known");
    }
    add_general_notes(label);
    return label;
}

}  // namespace battwright::card
