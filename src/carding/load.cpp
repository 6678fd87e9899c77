#include "carding/load.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "carding/habits.hpp"
#include "measure/units.hpp"
#include "text/words.hpp"

namespace battwright::carding {
namespace {

using measure::Complaint;
using measure::Expected;

constexpr double most_batts = 1000.0;

std::string grams(double value) {
    return measure::print_mass(value, measure::MassUnit::gram);
}

std::size_t fewest(double total, double load) {
    return static_cast<std::size_t>(std::max(1.0, std::ceil(total / load - habits::slack)));
}

// Hands out each component's steps one batt after another, going on where the last component stopped, so that
// neither a component nor a whole batt differs by more than a step.
void deal_equally(WeighOut& out, double step) {
    std::size_t next = 0;
    for (std::size_t c = 0; c < out.components; ++c) {
        const auto steps = static_cast<std::size_t>(std::llround(out.component_grams[c] / step));
        const std::size_t each = steps / out.batts, rest = steps % out.batts;
        for (std::size_t b = 0; b < out.batts; ++b) {
            const bool extra = (b + out.batts - next) % out.batts < rest;
            out.grams[b * out.components + c] = static_cast<double>(each + (extra ? 1 : 0)) * step;
        }
        next = (next + rest) % out.batts;
    }
}

// Full batts take their share of each component; the last has what remains.
void deal_full_first(WeighOut& out, double total, double load, double step) {
    std::vector<double> left = out.component_grams;
    for (std::size_t b = 0; b + 1 < out.batts; ++b) {
        const double done = static_cast<double>(b + 1) * load / total;
        for (std::size_t c = 0; c < out.components; ++c) {
            const double by_now = std::round(out.component_grams[c] * done / step) * step;
            const double before = out.component_grams[c] - left[c];
            const double now = std::clamp(std::round((by_now - before) / step) * step, 0.0, left[c]);
            out.grams[b * out.components + c] = now;
            left[c] -= now;
        }
    }
    for (std::size_t c = 0; c < out.components; ++c)
        out.grams[(out.batts - 1) * out.components + c] = std::round(left[c] / step) * step;
}

void add_words(WeighOut& out, double total, const Tool& tool) {
    const double each = total / static_cast<double>(out.batts);
    const auto& words = measure::row_of(recipe::tool_rows, tool.kind);
    const std::string loads = text::counted(static_cast<std::int64_t>(out.batts), std::string(words.load),
                                            std::string(words.loads));
    const std::string over =
        "over the " + staple::weighed(tool.load_high_grams) + " that fills the " + tool.name;
    if (out.over_full)
        out.words_with_quantities.push_back(
            loads + " of about " + staple::weighed(each) + ", a little " + over +
            (tool.kind == ToolKind::drum
                 ? ": feed slowly, pat the fibre down, stop if it rides on the tips of the teeth"
                 : ": lay it thin and press it well in, stop if it rides on the tips of the teeth"));
    if (out.last_small)
        out.words_with_quantities.push_back("the last " + std::string(words.load) + " is only " +
                                            staple::weighed(out.batt_grams.back()) +
                                            ": split equally, or card it with the next making");
    if (out.thin && !out.last_small)
        out.words_with_quantities.push_back(
            "about " + staple::weighed(each) + " a " + std::string(words.load) + " is under the " +
            staple::weighed(tool.load_low_grams) + " of an easy load: " +
            (tool.kind == ToolKind::hand_cards ? "the rolag will be thin"
                                               : "lift it off with care, or roll it off on a dowel"));
    if (out.batts > 1 && !out.last_small && !out.over_full)
        out.words_with_quantities.push_back(loads + " of about " + staple::weighed(each) +
                                            ": weigh all of them before carding the first");
    for (const auto& line : out.words_with_quantities) out.words.push_back(staple::words_in(line, {}));
}

Expected<double> total_of(std::span<const double> component_grams, const Tool& tool,
                          const Allowance& allowance) {
    const auto complain = [](std::string what, std::string mend, std::string where) {
        return tl::unexpected(Complaint{std::move(what), std::move(mend), std::move(where)});
    };
    if (!(tool.load_high_grams > 0.0) || !(allowance.scale_step_grams > 0.0))
        return complain("the load and the scale's step must be above zero",
                        "write a load as in \"40-80 g\" and a step such as 0.1 g", "weigh-out");
    double total = 0.0;
    for (const double weight : component_grams) {
        if (!(weight >= 0.0) || !std::isfinite(weight))
            return complain("a component's weight is not a weight", "write a weight of zero or more",
                            "weigh-out");
        total += weight;
    }
    if (!(total > 0.0)) return complain("nothing to weigh out", "write a weight above zero", "weigh-out");
    if (total / tool.load_high_grams > most_batts)
        return complain(grams(total) + " would take more than 1,000 loads of the " + tool.name,
                        "write a smaller total or a larger load", "weigh-out");
    return total;
}

}  // namespace

const std::vector<Tool>& hand_tools() {
    const auto named = [](std::string_view id, std::string name) {
        Tool tool = tool_of(*recipe::find_carder(id));
        tool.name = std::move(name);
        return tool;
    };
    static const std::vector<Tool> tools{named("hand-cards", "pair of hand cards"),
                                         named("blending-board", "blending board")};
    return tools;
}

Tool tool_of(const recipe::Carder& carder) {
    return {carder.id, carder.name.empty() ? "carder" : carder.name, carder.kind, carder.load_low_grams,
            carder.load_high_grams};
}

Expected<WeighOut> weigh_out(std::span<const double> component_grams, const Tool& tool,
                             const Allowance& allowance) {
    const auto checked = total_of(component_grams, tool, allowance);
    if (!checked) return tl::unexpected(checked.error());
    const double total = *checked, high = tool.load_high_grams;
    WeighOut out;
    out.components = component_grams.size();
    out.component_grams = measure::round_to_step(component_grams, allowance.scale_step_grams);
    out.batts = fewest(total, high);
    if (allowance.splitting == Splitting::automatic)
        out.batts = fewest(total, high * (1.0 + allowance.over_full_share));
    out.grams.assign(out.batts * out.components, 0.0);
    if (allowance.splitting == Splitting::full_first) {
        deal_full_first(out, total, high, allowance.scale_step_grams);
    } else {
        deal_equally(out, allowance.scale_step_grams);
    }
    for (std::size_t b = 0; b < out.batts; ++b) {
        const auto first = out.grams.begin() + static_cast<std::ptrdiff_t>(b * out.components);
        out.batt_grams.push_back(
            std::accumulate(first, first + static_cast<std::ptrdiff_t>(out.components), 0.0));
    }
    out.over_full = total / static_cast<double>(out.batts) > high * (1.0 + habits::slack);
    out.thin = out.batt_grams.back() < tool.load_low_grams;
    out.last_small = allowance.splitting == Splitting::full_first && out.batts > 1 && out.thin;
    add_words(out, total, tool);
    return out;
}

}  // namespace battwright::carding
