#include "card/label.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "card/label_parts.hpp"
#include "measure/choices.hpp"
#include "measure/units.hpp"
#include "text/words.hpp"

namespace battwright::card {
namespace {

void sort_most_first(std::vector<Share>& shares) {
    std::stable_sort(shares.begin(), shares.end(),
                     [](const Share& a, const Share& b) { return a.percent > b.percent; });
}

// Gives every line at least 1 %, taking it from the largest.
void lift_from_zero(std::vector<Entry>& entries) {
    for (Entry& entry : entries) {
        if (entry.percent > 0) continue;
        const auto largest =
            std::max_element(entries.begin(), entries.end(),
                             [](const Entry& a, const Entry& b) { return a.percent < b.percent; });
        if (largest->percent < 2) return;
        --largest->percent;
        entry.percent = 1;
    }
}

std::vector<Entry> rounded(const std::vector<Share>& shares) {
    std::vector<double> percents;
    percents.reserve(shares.size());
    for (const Share& share : shares) percents.push_back(share.percent);
    const std::vector<double> whole = measure::round_to_step(percents, 1.0);
    std::vector<Entry> entries;
    for (std::size_t i = 0; i < shares.size(); ++i)
        entries.push_back({static_cast<int>(std::lround(whole[i])), shares[i].name});
    return entries;
}

}  // namespace

std::vector<Share> merged(std::span<const Share> shares) {
    std::vector<Share> result;
    for (const Share& share : shares) {
        if (!(share.percent > 0.0)) continue;
        const auto same = std::find_if(result.begin(), result.end(), [&](const Share& other) {
            return text::lower(other.name) == text::lower(share.name) && other.decorative == share.decorative;
        });
        if (same == result.end())
            result.push_back(share);
        else
            same->percent += share.percent;
    }
    rescale(result);
    sort_most_first(result);
    return result;
}

double sum_of(const std::vector<Share>& shares, bool (*pick)(const Share&)) {
    double sum = 0.0;
    for (const Share& share : shares)
        if (pick(share)) sum += share.percent;
    return sum;
}

void rescale(std::vector<Share>& shares) {
    const double sum = sum_of(shares, [](const Share&) { return true; });
    for (Share& share : shares) share.percent *= 100.0 / sum;
}

std::vector<Entry> whole_percents(const std::vector<Share>& shares, const std::string& together) {
    std::vector<Entry> entries = rounded(shares);
    const auto none = [](const Entry& entry) { return entry.percent == 0; };
    if (std::count_if(entries.begin(), entries.end(), none) > 1) {
        std::vector<Share> kept;
        Share rest{together, 0.0};
        for (std::size_t i = 0; i < shares.size(); ++i) {
            if (none(entries[i]) || shares[i].name == together)
                rest.percent += shares[i].percent;
            else
                kept.push_back(shares[i]);
        }
        kept.push_back(rest);
        entries = rounded(kept);
    }
    lift_from_zero(entries);
    return entries;
}

std::string in_words(const std::string& name, const LabelOptions& options) {
    const auto word = options.words.find(name);
    return word == options.words.end() ? name : word->second;
}

Label label(std::span<const Share> shares, Market market, const LabelOptions& options) {
    return market == Market::us ? label_us(shares, options) : label_eu(shares, options);
}

std::vector<Share> shares_of(const forecast::Forecast& forecast, Market market) {
    std::vector<Share> shares;
    for (const recipe::Strand& strand : forecast.strands) {
        const fibre::Kind& kind = *strand.kind;
        Share share;
        share.name = market == Market::us ? kind.label_us : kind.label_eu;
        share.percent = 100.0 * strand.mass_share;
        share.decorative = kind.family == fibre::Family::sparkle;
        share.known = share.name != "other fibres" && share.name != "undetermined fibers";
        shares.push_back(share);
    }
    return merged(shares);
}

bool listed_in_annex_1(std::string_view name) {
    // Regulation (EU) No 1007/2011, Annex I, tables 1 and 2 (from memory, with the words that may stand for a
    // name beside it).
    static constexpr std::array<std::string_view, 61> names{"wool",
                                                            "alpaca",
                                                            "llama",
                                                            "camel",
                                                            "cashmere",
                                                            "mohair",
                                                            "angora",
                                                            "vicuna",
                                                            "yak",
                                                            "guanaco",
                                                            "cashgora",
                                                            "beaver",
                                                            "otter",
                                                            "hair",
                                                            "animal hair",
                                                            "horsehair",
                                                            "silk",
                                                            "cotton",
                                                            "kapok",
                                                            "flax",
                                                            "linen",
                                                            "true hemp",
                                                            "hemp",
                                                            "jute",
                                                            "abaca",
                                                            "alfa",
                                                            "coir",
                                                            "broom",
                                                            "ramie",
                                                            "sisal",
                                                            "sunn",
                                                            "henequen",
                                                            "maguey",
                                                            "acetate",
                                                            "alginate",
                                                            "cupro",
                                                            "modal",
                                                            "protein",
                                                            "triacetate",
                                                            "viscose",
                                                            "acrylic",
                                                            "chlorofibre",
                                                            "fluorofibre",
                                                            "modacrylic",
                                                            "polyamide",
                                                            "nylon",
                                                            "aramid",
                                                            "polyimide",
                                                            "lyocell",
                                                            "polyester",
                                                            "polyethylene",
                                                            "polypropylene",
                                                            "polyurea",
                                                            "polyurethane",
                                                            "vinylal",
                                                            "trivinyl",
                                                            "elastodiene",
                                                            "elastane",
                                                            "polylactide",
                                                            "glass fibre",
                                                            "metallised fibre"};
    const std::string low = text::lower(name);
    return std::find(names.begin(), names.end(), low) != names.end() || low == "virgin wool" ||
           low == "metal fibre" || low == "metallic fibre" || low == "paper";
}

bool is_wool_in_us_law(std::string_view name) {
    std::string word = text::lower(name);
    for (const std::string_view before : {"recycled ", "virgin ", "new ", "baby ", "kid "})
        if (word.starts_with(before)) word.erase(0, before.size());
    static constexpr std::array<std::string_view, 12> names{
        "wool",        "mohair", "cashmere",   "camel",  "camel hair",  "alpaca",
        "alpaca hair", "llama",  "llama hair", "vicuna", "vicuna hair", "lamb's wool"};
    return std::find(names.begin(), names.end(), word) != names.end();
}

std::string_view word_for(Market market) {
    constexpr std::array<measure::Word<Market>, 2> markets{
        {{Market::eu_uk, "EU and UK"}, {Market::us, "US"}}};
    static_assert(measure::one_row_each(markets));
    return measure::row_of(markets, market).word;
}

}  // namespace battwright::card
