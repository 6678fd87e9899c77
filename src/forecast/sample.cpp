#include "forecast/sample.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "forecast/blend.hpp"
#include "recipe/file_name.hpp"
#include "text/numbers.hpp"
#include "text/words.hpp"

namespace battwright::forecast {
namespace {

constexpr double narrowest_mm = 40.0, wider_by_mm = 5.0;
constexpr double least_steps = 3.0, most_off_de00 = 0.5, least_lumps = 12.0;
constexpr double as_good_de00 = 0.5;  // no more than another pass would have to change to show

// Each component's weight in the sample, on the scale's step.
std::vector<double> weights_at(const Forecast& f, double grams, double step) {
    std::vector<double> weights;
    for (const ComponentLine& line : f.components) weights.push_back(line.grams / f.total_grams * grams);
    return measure::round_to_step(weights, step);
}

double off_colour(const Forecast& f, const std::vector<double>& weights) {
    return colour::ciede2000(colour::lab_under(blend_of_components(f, weights), f.light), f.colour.lab);
}

// What is wrong with a sample of these weights, for staple::words_in; empty when nothing is.
std::string too_small_for(const Forecast& f, const std::vector<double>& weights, double step) {
    for (std::size_t c = 0; c < weights.size(); ++c)
        if (weights[c] < (least_steps - 1e-9) * step)
            return "the scale: less of " + f.components[c].label + " would be under three of its steps";
    if (off_colour(f, weights) > most_off_de00) return "the colour, which the scale's steps put off";
    for (const auto& portion : carding::portions_of(f.recipe, f.strands)) {
        const double share = weights[portion.component] / f.components[portion.component].grams;
        if (portion.lump_grams > 0.0 && portion.grams * share < least_lumps * portion.lump_grams)
            return "what is counted in " + f.components[portion.component].label;
    }
    return "";
}

void scale_extent(double& from, double& to, std::optional<measure::LengthUnit>& unit, double whole_mm) {
    if (!unit) return;
    from *= 100.0 / whole_mm;
    to *= 100.0 / whole_mm;
    unit.reset();
}

// Places across in mm, and the edges of places, become shares; weights follow the sample's.
void narrow_layings(std::vector<recipe::Laying>& layings, const recipe::Carder& carder, double factor) {
    for (recipe::Laying& laying : layings) {
        const double along_mm = recipe::edge_length_mm(laying, carder);
        scale_extent(laying.across.from, laying.across.to, laying.across.unit, carder.width_mm);
        double unused = 0.0;
        for (auto* edge : {&laying.fade, &laying.overlap})
            if (*edge) scale_extent((*edge)->value, unused, (*edge)->unit, along_mm);
        if (auto* mass = std::get_if<measure::Mass>(&laying.amount)) mass->grams *= factor;
    }
}

// A load is a rule of thumb; at least what a scale shows.
double to_the_tenth(double grams) {
    return std::max(0.1, std::round(grams * 10.0) / 10.0);
}

recipe::Recipe narrowed(const Forecast& f, const std::vector<double>& weights, double width_mm) {
    recipe::Recipe recipe = f.recipe;
    recipe.name = "Sample of " + recipe::title_of(f.recipe);
    recipe.total.reset();
    recipe.series.reset();
    recipe.carding.recombine = false;
    double grams = 0.0;
    for (std::size_t c = 0; c < weights.size(); ++c) {
        recipe.components[c].amount = measure::Mass{weights[c], measure::MassUnit::gram};
        grams += weights[c];
    }
    recipe::Carder carder = f.carder;
    const double part = width_mm / carder.width_mm;
    carder.id.clear();
    carder.name = "a strip of " + (f.carder.name.empty() ? std::string("the drum") : f.carder.name);
    carder.width_mm = width_mm;
    carder.load_low_grams = to_the_tenth(carder.load_low_grams * part);
    carder.load_high_grams =
        std::max(to_the_tenth(carder.load_high_grams * part), std::ceil(grams * 10.0 - 1e-6) / 10.0);
    recipe.carding.own = carder;
    recipe.carding.carder.clear();
    recipe.carding_written = true;
    const double factor = grams / f.total_grams;
    narrow_layings(recipe.carding.layings, f.carder, factor);
    for (recipe::SmallBlend& blend : recipe.carding.blends) narrow_layings(blend.layings, f.carder, factor);
    return recipe;
}

std::string differs_words(const Sample& sample, double whole_width_mm) {
    double most = 0.0;
    int pass = 0;
    bool coarser = false;
    for (const auto& p : sample.passes) {
        const double apart = std::abs(p.sample_de00 - p.whole_de00);
        if (apart <= most) continue;
        most = apart;
        pass = p.number;
        coarser = p.sample_de00 > p.whole_de00;
    }
    if (sample.width_mm >= whole_width_mm - 1e-9)
        return "It is the whole batt: nothing smaller mixes as it will.";
    if (most < as_good_de00)
        return "It mixes as the whole will, pass by pass within half of what the eye just tells.";
    return "It mixes " + std::string(coarser ? "less" : "more") + " evenly than the whole, most after pass " +
           std::to_string(pass) + " (by " + text::number(most, 1) +
           " in colour): on a narrow strip handfuls and what the card spreads sideways are wide beside it. "
           "Judge "
           "by the last pass.";
}

}  // namespace

measure::Expected<Sample> sample_of(const Forecast& f, const Bench& bench) {
    const double batt_grams = f.total_grams / static_cast<double>(f.plan.batts);
    Sample sample;
    sample.set_by_with_quantities =
        "the strip, which takes {mm " + text::number(narrowest_mm, 0) + "} to card on";
    for (double width = narrowest_mm;; width += wider_by_mm) {
        width = std::min(width, f.carder.width_mm);
        const double grams = batt_grams * width / f.carder.width_mm;
        sample.width_mm = width;
        sample.component_grams = weights_at(f, grams, bench.scale_step_grams);
        const std::string wrong = too_small_for(f, sample.component_grams, bench.scale_step_grams);
        if (wrong.empty() || width >= f.carder.width_mm) break;
        sample.set_by_with_quantities = wrong;
    }
    sample.set_by = staple::words_in(sample.set_by_with_quantities, {});
    sample.grams = std::accumulate(sample.component_grams.begin(), sample.component_grams.end(), 0.0);
    for (std::size_t c = 0; c < sample.component_grams.size(); ++c)
        if (!(sample.component_grams[c] > 0.0))
            return tl::unexpected(
                measure::Complaint{"the scale does not tell " + f.components[c].label + " at all",
                                   "weigh on a finer scale, or make a larger batt"});
    sample.colour_off_de00 = off_colour(f, sample.component_grams);
    sample.recipe = narrowed(f, sample.component_grams, sample.width_mm);
    const auto own = forecast(sample.recipe, bench);
    if (!own) return tl::unexpected(own.error());
    sample.steps = own->plan.steps;
    const Batt whole = batt_of(f), small = batt_of(*own);
    for (std::size_t i = 0; i < std::min(whole.measures.size(), small.measures.size()); ++i)
        sample.passes.push_back({whole.measures[i].pass, whole.measures[i].strip_variation_de00,
                                 small.measures[i].strip_variation_de00, whole.measures[i].look,
                                 small.measures[i].look});
    sample.differs = differs_words(sample, f.carder.width_mm);
    return sample;
}

std::string sample_card(const Forecast& f, const Sample& sample, measure::MassUnit mass,
                        measure::LengthUnit length) {
    using text::number;
    const staple::Units units{length, mass};
    const auto grams_in = [mass](double grams) { return measure::print_mass(grams, mass); };
    const auto mm_in = [length](double value) { return measure::print_length(value, length); };
    std::string text = sample.recipe.name + "\n\nWeigh out " + grams_in(sample.grams) + " and card it on " +
                       mm_in(sample.width_mm) + " of the " + std::string(recipe::words_of(f.carder).surface) +
                       (f.carder.kind == recipe::ToolKind::hand_cards ? "' " : "'s ") +
                       mm_in(f.carder.width_mm) + ": as much on the same area as the whole batt has.\n";
    for (std::size_t c = 0; c < f.components.size(); ++c)
        text += "  " + grams_in(sample.component_grams[c]) + "  " + f.components[c].label + "\n";
    text += "It could not be smaller because of " + staple::words_in(sample.set_by_with_quantities, units) +
            ". " + sample.differs + "\n\n";
    for (const carding::Step& step : sample.steps)
        text += std::to_string(step.order) + ". " + staple::words_in(step.text_with_quantities, units) + "\n";
    text += "\nForetold, after each pass (from its mean colour; about 1 is just seen):\n";
    for (const Sample::Pass& pass : sample.passes)
        text += "  " + std::string(recipe::words_of(f.carder).pass) + " " + std::to_string(pass.number) +
                ": sample " + number(pass.sample_de00, 1) + ", " +
                std::string(carding::word_for(pass.sample)) + "; the whole " + number(pass.whole_de00, 1) +
                ", " + std::string(carding::word_for(pass.whole)) + "\n";
    text += "\nWhat came of it\n";
    std::string looks;
    for (const carding::LookRow& row : carding::looks)
        looks += (looks.empty() ? "looks (" : ", ") + std::string(row.word);
    for (const std::string& line :
         {std::string("date and carder"), std::string("passes carded"), looks + ")",
          std::string("colour beside the forecast"), std::string("neps or lumps"),
          std::string("spun to (wraps, weight, length)"), std::string("changed for the whole")})
        text += "  " + line + ": ______________________\n";
    return text;
}

}  // namespace battwright::forecast
