// The names of fibres in the two laws.
#include <algorithm>
#include <array>

#include "card/label_parts.hpp"
#include "measure/choices.hpp"
#include "text/words.hpp"

namespace battwright::card {

bool listed_in_annex_1(std::string_view name) {
    // Regulation (EU) No 1007/2011, Annex I, tables 1 and 2: natural fibres checked in the forerunner's annex
    // (Directive 2008/121/EC, legislation.gov.uk); polyacrylate was added by Delegated Regulation (EU)
    // 2018/122; the other man-made names and the UK's English names are from memory. A name that only
    // stands inside another ("hemp", "linen", "hair" by itself) is none.
    static constexpr std::array<std::string_view, 60> names{
        "wool",       "virgin wool",  "alpaca",        "llama",       "camel",        "cashmere",
        "kashmir",    "mohair",       "angora",        "vicuna",      "yak",          "guanaco",
        "cashgora",   "beaver",       "otter",         "animal hair", "horsehair",    "silk",
        "cotton",     "kapok",        "flax",          "true hemp",   "jute",         "abaca",
        "alfa",       "coir",         "broom",         "ramie",       "sisal",        "sunn",
        "henequen",   "maguey",       "acetate",       "alginate",    "cupro",        "modal",
        "protein",    "triacetate",   "viscose",       "acrylic",     "chlorofibre",  "fluorofibre",
        "modacrylic", "polyamide",    "nylon",         "aramid",      "polyimide",    "lyocell",
        "polyester",  "polyethylene", "polypropylene", "polyurea",    "polyurethane", "vinylal",
        "trivinyl",   "elastodiene",  "elastane",      "glass fibre", "polylactide",  "polyacrylate",
    };
    static constexpr std::array<std::string_view, 7> others{
        "elastomultiester", "elastolefin", "melamine",        "bicomponent polypropylene/polyamide",
        "metal fibre",      "paper",       "metallised fibre"};
    const std::string low = text::lower(name);
    const auto is = [&](std::string_view one) { return one == low; };
    return std::any_of(names.begin(), names.end(), is) || std::any_of(others.begin(), others.end(), is);
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

std::string unknown_name(Market market) {
    return market == Market::us ? "unknown fiber" : "other fibres";
}

std::string_view word_for(Market market) {
    constexpr std::array<measure::Word<Market>, 2> markets{
        {{Market::eu_uk, "EU and UK"}, {Market::us, "US"}}};
    static_assert(measure::one_row_each(markets));
    return measure::row_of(markets, market).word;
}

}  // namespace battwright::card
