// The fibre content as a seller's label states it: a draft by the rules of a market, and which rules those
// are.
#pragma once

#include <map>
#include <set>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "forecast/forecast.hpp"

namespace battwright::card {

// Regulation (EU) No 1007/2011 (kept in UK law), or the Wool Products Labeling Act and the Textile Fiber
// Products Identification Act of the United States with 16 CFR 300 and 303.
enum class Market { eu_uk, us };

// One fibre of the product by the generic name of the market, in percent of conditioned mass.
struct Share {
    std::string name;
    double percent = 0.0;
    bool decorative = false;  // visible, can be told apart, there for its looks only
    bool known = true;        // false: nobody can say what it is
};

struct LabelOptions {
    bool new_wool = false;          // the maker vouches that all the wool is new, never reclaimed
    bool count_decorative = false;  // state decorative fibre even where it may be left out
    // US: fibres that do a job in the yarn even under 5 %, and so may be named.
    std::set<std::string> functional{};
    // The maker's own language: English name -> word to print. Names not in here stay English.
    std::map<std::string, std::string> words{};
};

struct Entry {
    int percent = 0;
    std::string name;
};
struct Label {
    Market market = Market::eu_uk;
    std::vector<Entry> entries;      // as printed, in order; the percents sum to 100
    std::string text;                // "60 % wool, 40 % silk"
    std::vector<std::string> rules;  // "Article 9(1): ..."
    std::vector<std::string> notes;  // what else a label there needs, and what is doubtful
};

// Printed with every label: the tool is no lawyer.
inline constexpr std::string_view label_draft = "Draft: check the rules where you sell.";
// What a declared share may be off by, in percent of the total, under both sets of rules (Regulation (EU) No
// 1007/2011 Article 20(3); 16 CFR 303.43(a)).
inline constexpr double label_tolerance_pct = 3.0;

// Shares need not sum to 100 (they are scaled) nor be merged or sorted. No shares above zero: an empty label.
Label label(std::span<const Share> shares, Market market, const LabelOptions& options = {});
// The batt's fibres by the names of the market. Sparkle counts as decorative, fibre without a name as
// unknown.
std::vector<Share> shares_of(const forecast::Forecast& forecast, Market market);

// Whether Annex I of the EU regulation lists the name (every name this catalogue knows, and the rest of it).
bool listed_in_annex_1(std::string_view name);
// Whether US law calls it wool: fleece of sheep, hair of Angora or Cashmere goat, camel, alpaca, llama,
// vicuna.
bool is_wool_in_us_law(std::string_view name);

std::string_view word_for(Market market);  // "EU and UK", "US"

}  // namespace battwright::card
