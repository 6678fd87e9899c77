#include "forecast/alike.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>
#include <random>

#include "forecast/blend.hpp"
#include "text/numbers.hpp"

namespace battwright::forecast {
namespace {

constexpr int makings = 160;
constexpr std::size_t most_batts = 24;  // of which colours are compared; more say no more

using Strands = std::vector<double>;  // grams of each strand in a batt

struct Spreads {
    double typical = 0.0, farthest = 0.0;
    std::vector<double> share_squares;
};

// A log-normal value of so much CV, which is small: never below nothing.
double about_one(std::mt19937_64& dice, double cv) {
    if (!(cv > 0.0)) return 1.0;
    // Box & Muller 1958; the library's own distribution differs from one library to another.
    const double u = 1.0 - static_cast<double>(dice() >> 11u) * 0x1.0p-53;
    const double v = static_cast<double>(dice() >> 11u) * 0x1.0p-53;
    return std::exp(cv * std::sqrt(-2.0 * std::log(u)) * std::cos(2.0 * std::numbers::pi * v));
}

double any_within(std::mt19937_64& dice, double half) {
    return half * (2.0 * static_cast<double>(dice() >> 11u) * 0x1.0p-53 - 1.0);
}

struct Making {
    const Forecast& f;
    const Handling& handling;
    std::size_t batts;
    std::vector<std::size_t> first_fed;  // strands, which the cloth keeps some of
    std::vector<bool> late;              // strands that are fed after the batts were recombined
    std::vector<Strands> strips;         // of the first pass, over their mean; empty: all alike

    Strands drawn_batt(std::mt19937_64& dice, bool is_first) const {
        Strands grams(f.strands.size(), 0.0);
        const double share = 1.0 / static_cast<double>(f.plan.batts);
        for (std::size_t c = 0; c < f.components.size(); ++c) {
            const double meant = f.components[c].grams * share;
            double got = meant + any_within(dice, 0.5 * handling.scale_step_grams);
            got = std::max(0.0, got) * about_one(dice, handling.dropped_cv);
            double drawn = 0.0;
            for (std::size_t s = 0; s < f.strands.size(); ++s) {
                if (f.strands[s].component != c) continue;
                const bool several = f.recipe.components[c].palette.size() > 1;
                grams[s] =
                    f.strands[s].grams * share * (several ? about_one(dice, handling.divided_cv) : 1.0);
                drawn += grams[s];
            }
            for (std::size_t s = 0; s < f.strands.size(); ++s)
                if (f.strands[s].component == c && drawn > 0.0) grams[s] *= got / drawn;
        }
        if (is_first) keep_in_cloth(grams);
        return grams;
    }

    void keep_in_cloth(Strands& grams) const {
        double first = 0.0;
        for (const std::size_t s : first_fed) first += grams[s];
        if (!(first > 0.0)) return;
        const double whole = std::accumulate(grams.begin(), grams.end(), 0.0);
        const double left = std::max(0.0, 1.0 - handling.drum_keeps * whole / first);
        for (const std::size_t s : first_fed) grams[s] *= left;
    }

    // One strip of each batt into every new one; which strip of a batt comes to which is chance.
    std::vector<Strands> recombined(const std::vector<Strands>& old, std::mt19937_64& dice) const {
        std::vector<Strands> next(old.size(), Strands(f.strands.size(), 0.0));
        for (const Strands& batt : old) {
            std::vector<std::size_t> order(old.size());
            std::iota(order.begin(), order.end(), std::size_t{0});
            for (std::size_t i = order.size(); i > 1; --i) std::swap(order[i - 1], order[dice() % i]);
            std::vector<double> weights;
            for (std::size_t j = 0; j < old.size(); ++j)
                weights.push_back(about_one(dice, handling.pieces_cv));
            const double sum = std::accumulate(weights.begin(), weights.end(), 0.0);
            for (std::size_t j = 0; j < old.size(); ++j) {
                for (std::size_t s = 0; s < batt.size(); ++s) {
                    const double apart = strips.empty() ? 1.0 : strips[order[j] % strips.size()][s];
                    next[j][s] += batt[s] * apart * weights[j] / sum;
                }
            }
        }
        for (std::size_t j = 0; j < old.size(); ++j)
            for (std::size_t s = 0; s < late.size(); ++s)
                if (late[s]) next[j][s] = old[j][s];
        return next;
    }

    colour::Lab lab_of(const Strands& grams) const {
        return colour::lab_under(blend_of_strands(f, grams, f.optics), f.light);
    }

    void add(const std::vector<Strands>& all, Spreads& spreads) const {
        std::vector<colour::Lab> labs;
        labs.reserve(all.size());
        for (const Strands& batt : all) labs.push_back(lab_of(batt));
        double sum = 0.0, most = 0.0;
        int pairs = 0;
        for (std::size_t a = 0; a < labs.size(); ++a)
            for (std::size_t b = 0; b < a; ++b, ++pairs) {
                const double apart = colour::ciede2000(labs[a], labs[b]);
                sum += apart;
                most = std::max(most, apart);
            }
        spreads.typical += sum / std::max(1, pairs) / makings;
        spreads.farthest += most / makings;
        spreads.share_squares.resize(f.components.size(), 0.0);
        for (std::size_t c = 0; c < f.components.size(); ++c) {
            std::vector<double> shares;
            for (const Strands& batt : all) {
                double own = 0.0;
                for (std::size_t s = 0; s < batt.size(); ++s)
                    own += f.strands[s].component == c ? batt[s] : 0.0;
                shares.push_back(own / std::accumulate(batt.begin(), batt.end(), 0.0));
            }
            const double mean =
                std::accumulate(shares.begin(), shares.end(), 0.0) / static_cast<double>(shares.size());
            double squares = 0.0;
            for (const double share : shares) squares += (share - mean) * (share - mean);
            spreads.share_squares[c] += squares / static_cast<double>(shares.size() - 1) / makings;
        }
    }
};

Apart apart_of(const Spreads& spreads) {
    Apart apart{spreads.typical, spreads.farthest, 0.0, 0};
    const auto most = std::max_element(spreads.share_squares.begin(), spreads.share_squares.end());
    apart.share_pct = 100.0 * std::sqrt(*most);
    apart.component = static_cast<std::size_t>(most - spreads.share_squares.begin());
    return apart;
}

std::pair<Apart, Apart> drawn(const Making& making, std::uint64_t seed) {
    Spreads plain, mixed;
    std::mt19937_64 dice(seed);
    for (int m = 0; m < makings; ++m) {
        std::vector<Strands> batts;
        for (std::size_t b = 0; b < making.batts; ++b) batts.push_back(making.drawn_batt(dice, b == 0));
        making.add(batts, plain);
        making.add(making.recombined(batts, dice), mixed);
    }
    return {apart_of(plain), apart_of(mixed)};
}

// What is fed first of the components: a small blend that is laid before them is passed over.
std::vector<std::size_t> first_fed_of(const Forecast& f, const std::vector<carding::Portion>& portions) {
    for (const carding::Step& step : f.plan.steps)
        if (step.kind == carding::StepKind::feed && step.portion < portions.size() && step.blend.empty())
            return portions[step.portion].strands;
    return {};
}

// Strips of the first-pass batt as shares over the batt's, strand by strand.
std::vector<Strands> strips_of(const Forecast& f, const std::vector<carding::Portion>& portions,
                               const carding::Field& field, std::size_t count) {
    std::vector<Strands> strips;
    const auto mean = carding::box_mean(field, {});
    for (std::size_t i = 0; i < count; ++i) {
        carding::Box box;
        box.across_from = static_cast<double>(i) / static_cast<double>(count);
        box.across_to = static_cast<double>(i + 1) / static_cast<double>(count);
        const auto own = carding::box_mean(field, box);
        Strands over(f.strands.size(), 1.0);
        for (std::size_t p = 0; p < portions.size(); ++p)
            for (const std::size_t s : portions[p].strands) over[s] = mean[p] > 0.0 ? own[p] / mean[p] : 1.0;
        strips.push_back(std::move(over));
    }
    return strips;
}

double typical_with(Making making, const Handling& only, std::uint64_t seed) {
    const Making own{making.f, only, making.batts, making.first_fed, making.late, {}};
    return drawn(own, seed).first.typical_de00;
}

}  // namespace

std::optional<Alike> alike(const Forecast& f, const Handling& handling, const carding::Pass* first_pass,
                           std::uint64_t seed) {
    if (f.plan.batts < 2) return std::nullopt;
    const auto portions = carding::portions_of(f.recipe, f.strands);
    Making making{f,
                  handling,
                  std::min(f.plan.batts, most_batts),
                  first_fed_of(f, portions),
                  std::vector<bool>(f.strands.size(), false),
                  {}};
    for (const carding::Portion& portion : portions)
        for (const std::size_t s : portion.strands) making.late[s] = portion.pass > 1;
    if (first_pass != nullptr && first_pass->field.portions == portions.size())
        making.strips = strips_of(f, portions, first_pass->field, making.batts);
    Alike result;
    result.batts = f.plan.batts;
    std::tie(result.as_carded, result.recombined) = drawn(making, seed);
    Handling none{0.0, 0.0, 0.0, 0.0, 0.0};
    Handling scale = none, hands = none, order = none;
    scale.scale_step_grams = handling.scale_step_grams;
    hands.dropped_cv = handling.dropped_cv;
    hands.divided_cv = handling.divided_cv;
    order.drum_keeps = handling.drum_keeps;
    result.by_scale_de00 = typical_with(making, scale, seed);
    result.by_handling_de00 = typical_with(making, hands, seed);
    result.by_order_de00 = typical_with(making, order, seed);
    return result;
}

std::string alike_words(const Forecast& f, const Alike& a) {
    using text::number;
    const auto& tool = recipe::words_of(f.carder);
    std::string words = "Two of the " + std::to_string(a.batts) + ' ' + std::string(tool.loads) +
                        " will be about " + number(a.as_carded.typical_de00, 1) +
                        " apart in colour, the two farthest " + number(a.as_carded.farthest_de00, 1) +
                        " (about 1 is just seen side by side): the scale " + number(a.by_scale_de00, 2) +
                        ", hands " + number(a.by_handling_de00, 2) + ", what the cloth keeps of the first " +
                        std::string(tool.load) + " " + number(a.by_order_de00, 2) + "; " +
                        f.components[a.as_carded.component].label + " strays most, by " +
                        number(a.as_carded.share_pct, 1) + " points.";
    const std::string cure =
        number(a.recombined.typical_de00, 1) + " and " + number(a.recombined.farthest_de00, 1) + ".";
    if (f.carder.kind == recipe::ToolKind::hand_cards) return words;  // nothing is recombined there
    if (f.plan.feed.recombine) return words + " With a strip of every batt in each: " + cure;
    if (a.recombined.typical_de00 >= a.as_carded.typical_de00)
        return words +
               " They are as alike as hands make them: parting and recombining them would bring no more.";
    return words +
           (recipe::is_flat(f.carder) ? " Splitting every first-pass batt into as many strips as there are "
                                        "boards and laying one of each "
                                      : " Splitting every first-pass batt into as many strips as there are "
                                        "batts and feeding one of each ") +
           "into every second-pass batt (recombine = true) brings that to " + cure;
}

}  // namespace battwright::forecast
