#include "carding/feed.hpp"

#include <algorithm>

#include "carding/habits.hpp"
#include "recipe/layout.hpp"

namespace battwright::carding {
namespace {

double lump_grams_of(const fibre::Kind& kind) {
    if (kind.form == fibre::Form::nep) return habits::nep_grams;
    return kind.form == fibre::Form::lock ? habits::lock_grams : 0.0;
}

void add_strand(Portion& portion, const recipe::Strand& strand, std::size_t index) {
    const double grams = portion.grams + strand.grams;
    const double weight = grams > 0.0 ? strand.grams / grams : 1.0;
    const auto blended = [weight](double& mean, double value) { mean += weight * (value - mean); };
    blended(portion.slipperiness, strand.kind->slipperiness);
    blended(portion.staple_mm, strand.staple_mm);
    blended(portion.diameter_um, strand.diameter_um);
    // Fibres count by mass over tex: 1 / T = sum w_i / T_i (Klein, The Rieter Manual of Spinning, vol. 1).
    const double before = portion.tex > 0.0 ? (1.0 - weight) / portion.tex : 0.0;
    if (strand.tex > 0.0) portion.tex = 1.0 / (before + weight / strand.tex);
    blended(portion.retention, strand.kind->retention);
    portion.lump_grams = std::max(portion.lump_grams, lump_grams_of(*strand.kind));
    portion.grams = grams;
    portion.strands.push_back(index);
}

bool slick(const Portion& portion) {
    return portion.slipperiness >= habits::slick_from;
}

// Moves a slick lay inwards past the nearest grippy one.
void close_ends(std::vector<Lay>& lays, std::span<const Portion> portions) {
    const auto is_grippy = [&](const Lay& lay) { return !slick(portions[lay.portion]); };
    if (std::none_of(lays.begin(), lays.end(), is_grippy)) return;
    if (!is_grippy(lays.front())) {
        const auto grippy = std::find_if(lays.begin(), lays.end(), is_grippy);
        std::rotate(lays.begin(), grippy, grippy + 1);
    }
    if (is_grippy(lays.back())) return;
    const auto last = std::find_if(lays.rbegin(), lays.rend(), is_grippy);
    if (last + 1 != lays.rend()) {
        const auto position = (last + 1).base();
        std::rotate(position, position + 1, lays.end());
        return;
    }
    lays.front().grams *= 0.5;
    lays.push_back(lays.front());
}

void wrap(std::vector<Lay>& lays, std::span<const Portion> portions) {
    if (lays.size() < 2) return;
    const auto better = [&](const Lay& a, const Lay& b) {
        const bool slick_a = slick(portions[a.portion]), slick_b = slick(portions[b.portion]);
        return slick_a != slick_b ? slick_a : a.grams < b.grams;
    };
    const auto bread = std::max_element(lays.begin(), lays.end(), better);
    std::rotate(lays.begin(), bread, bread + 1);
    lays.front().grams *= 0.5;
    lays.push_back(lays.front());
}

// Side by side in order, each as wide as its share.
void set_beside(std::vector<Lay>& lays, const Feed& feed) {
    const recipe::MannerRow& row = measure::row_of(recipe::manners, feed.manner);
    const bool round = row.places == recipe::Places::round;
    const double soft = row.fades ? habits::gradient_overlap / static_cast<double>(lays.size()) : 0.0;
    double total = 0.0;
    for (const Lay& lay : lays) total += lay.grams;
    double from = 0.0;
    for (Lay& lay : lays) {
        Span& span = round ? lay.round : lay.across;
        span = {from, from + lay.grams / total, soft};
        from = span.to;
        lay.on_drum = round;
    }
    if (round || row.fades) return;
    // Each border becomes a strip in which both neighbours lie, as wide as `overlap` of the narrower.
    for (std::size_t i = 1; i < lays.size(); ++i) {
        Span &left = lays[i - 1].across, &right = lays[i].across;
        left.over_to = right.over_from =
            0.5 * feed.overlap * std::min(left.to - left.from, right.to - right.from);
    }
}

// Thin layers of each in turn, so many times.
std::vector<Lay> in_turn(const std::vector<Lay>& lays, int repeats) {
    std::vector<Lay> thin;
    for (int i = 0; i < std::max(1, repeats); ++i) {
        for (Lay lay : lays) {
            lay.grams /= std::max(1, repeats);
            thin.push_back(lay);
        }
    }
    return thin;
}

void set_in_dabs(std::vector<Lay>& lays) {
    const auto largest = std::max_element(lays.begin(), lays.end(),
                                          [](const Lay& a, const Lay& b) { return a.grams < b.grams; });
    for (auto lay = lays.begin(); lay != lays.end(); ++lay) {
        if (lay == largest) continue;
        lay->on_drum = true;
        lay->how = recipe::Spreading::dabs;
        lay->dab_mm = habits::dab_mm;
    }
}

}  // namespace

double loft_mm(double g_m2) {
    return g_m2 / (wool_density_g_m3 * habits::batt_packing) * 1e3;
}

Refeed Feed::refeed_on(int pass) const {
    const auto at = static_cast<std::size_t>(std::max(0, pass - 2));
    return at < refeeds.size() ? refeeds[at] : refeed;
}

bool shares_out(const Feed& feed, std::size_t batts, int pass, int first) {
    return feed.recombine && batts > 1 && pass == first + 1;
}

Feed feed_of(const recipe::Carding& carding) {
    return {carding.feed,
            carding.refeed,
            carding.repeats,
            carding.overlap_pct / 100.0,
            carding.refeeds,
            !carding.layings.empty(),
            carding.recombine,
            recipe::carder_of(carding).kind,
            recipe::makes_rolags(carding) ? recipe::pieces_spun(carding) : 0};
}

std::vector<Lay> lays_of(std::span<const Portion> portions, const Feed& feed) {
    std::vector<Lay> lays = first_lays(portions, feed.manner);
    switch (feed.manner) {
        case Manner::stripes_across:
        case Manner::gradient_across:
        case Manner::gradient_round:
            set_beside(lays, feed);
            break;
        case Manner::dabs:
            if (!lays.empty()) set_in_dabs(lays);
            break;
        case Manner::alternating:
            return in_turn(lays, feed.repeats);
        case Manner::layers:
        case Manner::sandwich:
            break;
    }
    return lays;
}

std::vector<Portion> portions_of(const recipe::Recipe& recipe, std::span<const recipe::Strand> strands) {
    std::vector<Portion> portions;
    for (std::size_t c = 0; c < recipe.components.size(); ++c) {
        const auto first = portions.size();
        const int pass = recipe::first_pass_of(recipe, c);
        for (std::size_t i = 0; i < strands.size(); ++i) {
            if (strands[i].component != c) continue;
            const auto same = std::find_if(
                portions.begin() + static_cast<std::ptrdiff_t>(first), portions.end(),
                [&](const Portion& p) { return strands[p.strands.front()].colour == strands[i].colour; });
            Portion fresh;
            fresh.component = c;
            fresh.pass = pass;
            Portion& portion = same == portions.end() ? portions.emplace_back(fresh) : *same;
            add_strand(portion, strands[i], i);
        }
    }
    return portions;
}

std::vector<double> strand_shares(std::span<const Portion> portions, std::span<const recipe::Strand> strands,
                                  std::span<const double> of_portions) {
    std::vector<double> shares(strands.size(), 0.0);
    for (std::size_t p = 0; p < portions.size(); ++p) {
        if (!(portions[p].grams > 0.0)) continue;
        for (const std::size_t s : portions[p].strands)
            shares[s] = of_portions[p] * strands[s].grams / portions[p].grams;
    }
    return shares;
}

std::vector<Lay> first_lays(std::span<const Portion> portions, Manner manner) {
    std::vector<Lay> lays;
    for (std::size_t i = 0; i < portions.size(); ++i) {
        if (portions[i].pass <= 1 && portions[i].grams > 0.0) lays.push_back({i, portions[i].grams});
    }
    if (manner == Manner::layers || manner == Manner::alternating) close_ends(lays, portions);
    if (manner == Manner::sandwich) wrap(lays, portions);
    return lays;
}

}  // namespace battwright::carding
