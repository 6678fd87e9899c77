#include "stash/lot.hpp"

#include <cmath>

#include "colour/spaces.hpp"
#include "measure/printable.hpp"
#include "measure/units.hpp"
#include "stash/date.hpp"
#include "stash/lots.hpp"
#include "stash/millionths.hpp"

namespace battwright::stash {
namespace {

constexpr double shares_within_pct = 0.05;
constexpr fibre::Range practice_yield_pct{50.0, 80.0};

// Light adds up; code values do not.
struct LightSum {
    colour::LinearRgb sum;
    double share = 0.0;

    void add(const colour::Srgb& colour, double more) {
        const colour::LinearRgb light = colour::linear(colour::clipped(colour));
        sum.r += more * light.r;
        sum.g += more * light.g;
        sum.b += more * light.b;
        share += more;
    }
    std::optional<colour::Lab> lab() const {
        if (!(share > 0.0)) return std::nullopt;
        const colour::LinearRgb mean{sum.r / share, sum.g / share, sum.b / share};
        return colour::lab(colour::xyz_from(mean), colour::srgb_white());
    }
};

std::string percent(double value) {
    return measure::print_percent(value);
}

void check_share(double share_pct, const char* field) {
    if (share_pct > 0.0 && share_pct <= 100.0) return;  // not a number fails both
    fail("a share of " + percent(share_pct) + " is none", "write a share above 0 and up to 100 %", field);
}

void check_sum(double sum_pct, const char* noun, const char* field) {
    if (std::abs(sum_pct - 100.0) <= shares_within_pct) return;
    fail(std::string("the shares of the ") + noun + " come to " + percent(sum_pct), "make them come to 100 %",
         field);
}

void check_content(const Lot& lot, const fibre::Catalogue& catalogue) {
    if (lot.content.empty())
        fail("the lot is of no kind of fibre", "name a kind from the catalogue", "fibre");
    double sum = 0.0;
    for (const recipe::Content& content : lot.content) {
        if (catalogue.find(content.fibre) == nullptr) {
            const measure::Complaint unknown = fibre::unknown_kind(content.fibre, catalogue);
            fail(unknown.what, unknown.mend, "fibre");
        }
        check_share(content.share_pct, "fibre");
        sum += content.share_pct;
    }
    check_sum(sum, "kinds", "fibre");
}

void check_figures(const Lot& lot) {
    if (!(lot.yield_pct >= 1.0 && lot.yield_pct <= 100.0))
        fail("a yield of " + percent(lot.yield_pct) + " is none",
             "write what scouring leaves, 1 to 100 % of the raw weight", "yield");
    if (!lot.raw && lot.yield_pct != 100.0)
        fail("the lot has a yield but is not raw", "mark it raw, or leave the yield out", "yield");
    for (const auto& [figure, field] : {std::pair(lot.staple_mm, "staple"), {lot.diameter_um, "diameter"}}) {
        if (figure && !(*figure > 0.0 && *figure < 10'000.0))
            fail(std::string("the ") + field + " is not above zero",
                 "write the tag's figure, or leave it out", field);
    }
    if (lot.cost && !(lot.cost->amount >= 0.0 && lot.cost->amount <= most_amount))
        fail("the cost is not a sum of money", "write what the whole lot cost, or leave it out", "cost");
}

void check_words(const Lot& lot) {
    if (lot.name.find_first_not_of(' ') == std::string::npos)
        fail("the lot has no name", "give it one, as in name = \"Harbour fog\"", "name");
    check_text(lot.name, "name");
    check_text(lot.maker, "maker");
    check_text(lot.place, "place");
    check_text(lot.photo, "photo");
    check_text(lot.notes, "notes", true);
    if (lot.cost) check_text(lot.cost->currency, "currency");
    if (!lot.got_on.empty()) value_of(parse_date(lot.got_on));
    if (!lot.mark.empty()) value_of(parse_mark(lot.mark));
}

}  // namespace

void check_text(std::string_view text, const char* field, bool many_lines, std::size_t most) {
    if (text.size() > most)
        fail("the text is " + std::to_string(text.size()) + " bytes long",
             "keep it under " + std::to_string(most), field);
    if (measure::first_not_utf8(text) != std::string_view::npos)
        fail("the text " + measure::quoted(text) + " is not UTF-8", "save it as UTF-8", field);
    if (measure::has_control(text, many_lines ? measure::Lines::many : measure::Lines::one))
        fail("the text " + measure::quoted(text) + " has a control character in it",
             many_lines ? "take it out" : "keep it on one line", field);
}

void check_palette(const std::vector<recipe::Tint>& palette) {
    double sum = 0.0;
    for (const recipe::Tint& tint : palette) {
        check_share(tint.share_pct, "colours");
        sum += tint.share_pct;
        const colour::Srgb& c = tint.colour;
        if (!std::isfinite(c.r + c.g + c.b)) fail("a colour is none", "write it as in #2f5d50", "colours");
    }
    if (!palette.empty()) check_sum(sum, "colours", "colours");
}

bool is_scrap(const Shelved& shelved, double threshold_grams) {
    return shelved.grams > 0.0 && shelved.grams < threshold_grams;
}

std::optional<colour::Lab> mean_colour(const Lot& lot, const fibre::Catalogue& catalogue) {
    LightSum light;
    for (const recipe::Tint& tint : lot.palette) light.add(tint.colour, tint.share_pct);
    if (!lot.palette.empty()) return light.lab();
    for (const recipe::Content& content : lot.content) {
        const fibre::Kind* kind = catalogue.find(content.fibre);
        if (kind == nullptr || kind->natural_colours.empty()) continue;
        if (const auto colour = colour::parse_hex(kind->natural_colours.front()))
            light.add(*colour, content.share_pct);
    }
    return light.lab();
}

std::optional<measure::Complaint> fault_in(const Lot& lot, const fibre::Catalogue& catalogue) {
    const auto checked = guarded([&] {
        check_words(lot);
        check_content(lot, catalogue);
        check_palette(lot.palette);
        check_figures(lot);
    });
    if (checked) return std::nullopt;
    return checked.error();
}

UsualYield usual_yield(const std::vector<recipe::Content>& content, const fibre::Catalogue& catalogue) {
    UsualYield yield;
    double shares = 0.0;
    for (const recipe::Content& part : content) {
        const fibre::Kind* kind = catalogue.find(part.fibre);
        fibre::Range range = practice_yield_pct;
        if (kind != nullptr && kind->published.contains("yield"))
            range = kind->published.at("yield");
        else
            yield.published = false;
        shares += part.share_pct;
        yield.low_pct += (range.low - yield.low_pct) * part.share_pct / shares;
        yield.high_pct += (range.high - yield.high_pct) * part.share_pct / shares;
    }
    return shares > 0.0 ? yield : UsualYield{practice_yield_pct.low, practice_yield_pct.high, false};
}

std::string yield_words(const UsualYield& usual) {
    const std::string low = measure::print_number(usual.low_pct, 1);
    const std::string range =
        usual.low_pct < usual.high_pct ? low + " to " + measure::print_percent(usual.high_pct) : low + " %";
    return usual.published ? range + " is published of such fleece."
                           : range + " is usual; not all of it has a published figure.";
}

}  // namespace battwright::stash
