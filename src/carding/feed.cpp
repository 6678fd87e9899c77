#include "carding/feed.hpp"

#include <algorithm>

#include "carding/habits.hpp"

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
    if (lays.size() < 2 || std::none_of(lays.begin(), lays.end(), is_grippy)) return;
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

}  // namespace

std::vector<Portion> portions_of(const recipe::Recipe& recipe, std::span<const recipe::Strand> strands) {
    std::vector<Portion> portions;
    for (std::size_t c = 0; c < recipe.components.size(); ++c) {
        const auto first = portions.size();
        const int pass = recipe.components[c].add_on_pass;
        for (std::size_t i = 0; i < strands.size(); ++i) {
            if (strands[i].component != c) continue;
            const auto same = std::find_if(
                portions.begin() + static_cast<std::ptrdiff_t>(first), portions.end(),
                [&](const Portion& p) { return strands[p.strands.front()].colour == strands[i].colour; });
            Portion fresh;
            fresh.component = c;
            fresh.pass = pass == recipe::last_pass ? recipe.carding.passes
                                                   : std::clamp(pass, 1, std::max(1, recipe.carding.passes));
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
    if (manner == Manner::layers) close_ends(lays, portions);
    if (manner == Manner::sandwich) wrap(lays, portions);
    return lays;
}

}  // namespace battwright::carding
