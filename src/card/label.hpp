// The fibre content as a seller's label states it: a draft by the rules of a market, and which rules those
// are.
#pragma once

#include <map>
#include <optional>
#include <set>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "fibre/catalogue.hpp"
#include "measure/complaint.hpp"

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
    fibre::Past past = fibre::Past::fleece;
    std::string from{};        // the component that brings it, for complaints; "" when nobody asks
    double diameter_um = 0.0;  // mean by number, and its CV as a fraction; 0 when nobody has told
    double diameter_cv = 0.0;
    bool pet = false;         // hair of dog or cat
    bool cross_goat = false;  // cashgora
};

struct LabelOptions {
    bool new_wool = false;          // the maker vouches that all the wool is new, never reclaimed
    bool count_decorative = false;  // EU: state decorative fibre even where it may be left out
    // US: the sparkle forms a visible pattern or design, and so is ornamentation (16 CFR 300.1).
    bool visible_pattern = false;
    // US: fibres that do a job in the yarn even under 5 %, and so may be named.
    std::set<std::string> functional{};
    std::string origin;  // the country of origin as it is to stand on a US label: "Made in ..."
    // The maker's own language: English name -> word to print. Names not in here stay English.
    std::map<std::string, std::string> words{};
};

// In whole percents, or in tenths where several traces would else be lost or blown up.
struct Entry {
    double percent = 0.0;
    std::string name;
};
struct Label {
    Market market = Market::eu_uk;
    std::vector<Entry> entries;      // as printed, in order; the percents sum to 100
    std::string text;                // "60 % wool, 40 % silk"; "" when no label may be given
    std::vector<std::string> rules;  // "Article 9(1): ..."
    std::vector<std::string> notes;  // what else a label there needs, and what is doubtful
    // What was asked of the label and may not be said, or why there can be none. The text is what may be
    // said instead.
    std::vector<measure::Complaint> refused;
};

// Printed with every label: the tool is no lawyer.
inline constexpr std::string_view label_draft = "Draft: check the rules where you sell.";
// Shares need not sum to 100 (they are scaled) nor be merged or sorted. No shares above zero: an empty label.
Label label(std::span<const Share> shares, Market market, const LabelOptions& options = {});

// Whether Annex I of the EU regulation lists the name (every name this catalogue knows, and the rest of it).
bool listed_in_annex_1(std::string_view name);
// Whether US law calls it wool: fleece of sheep, hair of Angora or Cashmere goat, camel, alpaca, llama,
// vicuna (15 USC 68(b)).
bool is_wool_in_us_law(std::string_view name);

std::string_view word_for(Market market);  // "EU and UK", "US"

}  // namespace battwright::card
