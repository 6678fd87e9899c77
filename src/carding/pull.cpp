#include "carding/pull.hpp"

#include <algorithm>
#include <cmath>

#include "measure/parts.hpp"

namespace battwright::carding {
namespace {

// The part of the batt that one step takes: step `i` of `steps` in strip `strip` of `strips`.
Box box_of(Pull pull, double strip, double strips, double i, double steps) {
    const double from = i / steps, to = (i + 1.0) / steps;
    const double low = strip / strips, high = (strip + 1.0) / strips;
    if (pull == Pull::torn_across) return {low, high, from, to, 0.0, 1.0};
    return {from, to, low, high, 0.0, 1.0};
}

}  // namespace

std::string_view word_for(Pull pull) {
    return measure::row_of(pulls, pull).word;
}

Sequence sequence_of(const Field& field, Pull pull, int strips, double step_mm) {
    const double length = pull == Pull::torn_across ? field.width_mm : field.circumference_mm;
    const double count = std::max(1, strips);
    const double steps = std::max(1.0, std::ceil(length / step_mm - 1e-9));
    Sequence sequence{length / steps, field.portions, {}};
    const auto take = [&](const Box& box, double weight, std::span<double> into) {
        const auto means = box_mean(field, box);
        for (std::size_t p = 0; p < means.size(); ++p) into[p] += weight * means[p];
    };
    sequence.shares.assign(static_cast<std::size_t>(count * steps) * field.portions, 0.0);
    for (std::size_t n = 0; n < sequence.steps(); ++n) {
        const double strip = std::floor(static_cast<double>(n) / steps);
        const double i = static_cast<double>(n) - strip * steps;
        const auto into = std::span(sequence.shares).subspan(n * field.portions, field.portions);
        const Box here = box_of(pull, strip, count, i, steps);
        if (pull != Pull::long_strip) {
            take(here, 1.0, into);
            continue;
        }
        // The strip leans: within one turn it moves over by its own width, from half of the strip before to
        // half of the next; at the edges it is cut from what is there.
        const double lean = measure::middle_of(i, steps) - 0.5;
        Box leaning = here;
        leaning.across_from = std::clamp(here.across_from + lean / count, 0.0, 1.0 - 1.0 / count);
        leaning.across_to = leaning.across_from + 1.0 / count;
        take(leaning, 1.0, into);
    }
    return sequence;
}

}  // namespace battwright::carding
