#include "carding/unresolved.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "carding/box_cells.hpp"
#include "carding/dice.hpp"
#include "carding/habits.hpp"
#include "text/believe.hpp"

namespace battwright::carding {
namespace {

double opens(const recipe::Carder& carder, const Portion& portion) {
    const double slick = portion.slipperiness - habits::middling_slip;
    const double licker_in =
        recipe::is_flat(carder) ? 1.0 : carder.licker_in_ratio / recipe::usual_licker_in_ratio;
    return std::sqrt(carder.teeth_per_square_inch / habits::all_round_teeth * licker_in *
                     (portion.diameter_um / habits::middling_um)) *
           (1.0 - habits::slick_opens_less * slick);
}

// What one pass leaves of the variance among tufts and of their mass. Two cloths of equal collecting power
// that work against each other part a tuft in two, half to each. Drawn over a board it is parted once: 1 / 2.
// On hand cards it is parted stroke after stroke, and half of what is got hold of goes over each time: what
// goes over at the n-th is 2^-n of the fibre in tufts 2^-n as heavy, so by mass sum 4^-n = 1 / 3.
Opening opening_on(ToolKind tool) {
    switch (tool) {
        case ToolKind::board:
            return {habits::board_kept, habits::board_kept};
        case ToolKind::hand_cards:
            return {habits::cards_kept, habits::cards_kept};
        case ToolKind::drum:
            break;
    }
    return {habits::variance_kept, habits::tuft_kept};
}

double cube(double x) {
    return x * x * x;
}

// The logarithm of a gamma variate of the given shape and scale 1 (Marsaglia & Tsang 2000; under 1 by their
// boost, which alone would be nought in a double for a small shape).
double log_gamma_draw(double shape, const Dice& dice) {
    double boost = 0.0;
    if (shape < 1.0) {
        boost = std::log(1.0 - dice.uniform(0)) / shape;
        shape += 1.0;
    }
    const double d = shape - 1.0 / 3.0, c = 1.0 / std::sqrt(9.0 * d);
    for (std::uint64_t n = 1; n < 64; ++n) {
        const double x = dice.with(n).normal(0), v = cube(1.0 + c * x);
        if (v <= 0.0) continue;
        if (std::log(1.0 - dice.with(n).uniform(8)) < 0.5 * x * x + d - d * v + d * std::log(v))
            return boost + std::log(d * v);
    }
    return boost + std::log(shape);
}

}  // namespace

Opening opening_of(const recipe::Carder& carder, std::span<const Portion> portions, double batt_grams,
                   bool fed_thin, double mixing) {
    double grams = 0.0;
    for (const Portion& portion : portions) grams += portion.grams;
    double sum = 0.0, weights = 0.0;
    for (const Portion& portion : portions) {
        const double share = grams > 0.0 ? portion.grams / grams : 0.0;
        const double weight = share * (1.0 - share) + 1e-12;
        sum += weight * opens(carder, portion);
        weights += weight;
    }
    double times = weights > 0.0 ? sum / weights : 1.0;
    if (fed_thin && !recipe::is_flat(carder)) times *= habits::thin_feed_opens;
    if (carder.load_high_grams > 0.0 && batt_grams > carder.load_high_grams)
        times *= carder.load_high_grams / batt_grams;
    Opening opening = opened_more(opening_on(carder.kind), times);
    opening.cut = std::clamp(opening.cut * mixing, 1e-6, 1.0);
    return opening;
}

Opening opened_more(const Opening& opening, double times) {
    return {std::pow(opening.cut, times), std::pow(opening.shrink, times)};
}

std::vector<double> squares_of(const Field& field) {
    std::vector<double> squares(field.block_size(), 0.0);
    for (std::size_t p = 0; p < field.portions; ++p) {
        const auto block = field.block(p);
        for (std::size_t i = 0; i < block.size(); ++i) squares[i] += block[i] * block[i];
    }
    return squares;
}

void settle(Field& field, std::vector<double> second, std::vector<double> clumps, const Opening& opening,
            std::span<const double> opened) {
    const auto squares = squares_of(field);
    for (std::size_t i = 0; i < squares.size(); ++i) {
        const double part = opened.empty() ? 1.0 : std::clamp(opened[i], 0.0, 1.0);
        const double cut = 1.0 - part * (1.0 - opening.cut);
        const double shrink = 1.0 - part * (1.0 - opening.shrink);
        second[i] = cut * std::max(0.0, second[i] - squares[i]);
        clumps[i] = cut * shrink * std::max(0.0, clumps[i] - squares[i]);
    }
    field.unresolved = std::move(second);
    field.clumped = std::move(clumps);
}

double sampled_variance(double unresolved, double clumped, double sample_mg) {
    if (!(unresolved > 0.0)) return 0.0;
    const double tuft = habits::tuft_mg * clumped / unresolved;
    return unresolved * tuft / (tuft + sample_mg);
}

double intensity_in(const Field& field, const Box& box, std::span<const double> shares, double sample_mg) {
    if (field.unresolved.empty()) return 0.0;
    double most = 1.0;
    for (const double share : shares) most -= share * share;
    if (most < 1e-9) return 0.0;
    const BoxCells cells(field.grid, box);
    const double variance =
        sampled_variance(cells.mean(field.unresolved), cells.mean(field.clumped), sample_mg);
    return std::clamp(variance / most, 0.0, 1.0);
}

void draw_place(std::span<double> shares, double intensity, std::uint64_t seed, std::uint64_t number) {
    if (intensity < 1e-6) return;
    const double whole = std::max(1.0 / intensity - 1.0, 1e-9);
    const Dice dice = Dice(seed).with(9).with(number);
    double most = -std::numeric_limits<double>::infinity();
    for (std::size_t p = 0; p < shares.size(); ++p) {
        shares[p] = shares[p] > 1e-9 ? log_gamma_draw(whole * shares[p], dice.with(p))
                                     : -std::numeric_limits<double>::infinity();
        most = std::max(most, shares[p]);
    }
    BATTWRIGHT_BELIEVE(std::isfinite(most));
    double sum = 0.0;
    for (double& share : shares) sum += share = std::exp(share - most);
    for (double& share : shares) share /= sum;
}

}  // namespace battwright::carding
