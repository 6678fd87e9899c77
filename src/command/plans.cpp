// From the command line: a sample before the batt, and the batts of a series.
#include <algorithm>
#include <ostream>

#include "command/commands.hpp"
#include "command/complain.hpp"
#include "command/json_value.hpp"
#include "command/layout.hpp"
#include "command/saving.hpp"
#include "command/units.hpp"
#include "forecast/sample.hpp"
#include "forecast/series.hpp"
#include "measure/replace.hpp"
#include "recipe/file.hpp"
#include "recipe/file_name.hpp"

namespace battwright::command {
namespace {

struct PlanArguments {
    std::string recipe, output;
    std::string weights = "g", lengths = "mm", step = "0.1 g";
    bool json = false, replace = false;
    Foretelling foretelling;
};

double scale_step(const PlanArguments& args) {
    const double grams = value_of(measure::parse_mass(args.step), "--scale-step").grams;
    if (!(grams > 0.0))
        fail("the scale's step is not above zero", "write it, as in \"0.1 g\"", "--scale-step");
    return grams;
}

Json sample_json(const forecast::Forecast& f, const forecast::Sample& sample) {
    Json components = Json::array(), passes = Json::array();
    for (std::size_t c = 0; c < f.components.size(); ++c)
        components.push_back({{"name", f.components[c].label}, {"mass_g", sample.component_grams[c]}});
    for (const auto& pass : sample.passes)
        passes.push_back({{"pass", pass.number},
                          {"whole_de00", pass.whole_de00},
                          {"sample_de00", pass.sample_de00},
                          {"whole_word", carding::word_for(pass.whole)},
                          {"sample_word", carding::word_for(pass.sample)}});
    return {
        {"name", sample.recipe.name}, {"mass_g", sample.grams},   {"width_mm", sample.width_mm},
        {"components", components},   {"set_by", sample.set_by},  {"colour_off_de00", sample.colour_off_de00},
        {"passes", passes},           {"differs", sample.differs}};
}

Json series_json(const forecast::Forecast& f, const forecast::SeriesPlan& plan) {
    Json batts = Json::array(), together = Json::array();
    for (const auto& batt : plan.batts)
        batts.push_back({{"towards", batt.towards},
                         {"mass_g", batt.grams},
                         {"colour_srgb", colour::hex(batt.srgb)},
                         {"step_de00", batt.step_de00}});
    for (std::size_t c = 0; c < f.components.size(); ++c)
        together.push_back({{"name", f.components[c].label}, {"mass_g", plan.grams[c]}});
    return {{"name", recipe::title_of(f.recipe)},
            {"what", plan.rolags ? "rolags" : "batts"},
            {"series", batts},
            {"components", together},
            {"total_g", plan.total_grams}};
}

std::string series_text(const forecast::Forecast& f, const forecast::SeriesPlan& plan, const Units& units) {
    const auto mass = [&](double grams) { return measure::print_mass(grams, units.mass); };
    std::string text = recipe::title_of(f.recipe) + ": " + std::to_string(plan.batts.size()) +
                       (plan.rolags ? " rolags" : " batts") + " in steps\n\n" + left("", 5);
    std::vector<std::size_t> widths;
    for (const auto& line : f.components) {
        widths.push_back(std::max<std::size_t>(10, width_of(line.label) + 2));
        text += right(line.label, widths.back());
    }
    text += right("colour", 10) + right("step", 7) + "\n";
    for (std::size_t i = 0; i < plan.batts.size(); ++i) {
        text += right(std::to_string(i + 1), 5);
        for (std::size_t c = 0; c < widths.size(); ++c)
            text += right(mass(plan.batts[i].grams[c]), widths[c]);
        text += right(colour::hex(plan.batts[i].srgb), 10) +
                right(i > 0 ? number(plan.batts[i].step_de00, 1) : "", 7) + "\n";
    }
    text += left("all", 5);
    for (std::size_t c = 0; c < widths.size(); ++c) text += right(mass(plan.grams[c]), widths[c]);
    return text + "\n\n" +
           wrapped(
               "Weigh out " + mass(plan.total_grams) +
                   " together. A step is the difference in colour from the one before, in CIEDE2000: about 1 "
                   "is just seen side by side.",
               0);
}

void declare_series(Command& app, PlanArguments& args) {
    app.add_option("RECIPE", args.recipe, "a recipe file (.toml)").required();
    app.add_flag("--json", args.json, "as JSON, units in the key names");
    app.add_option("--weights", args.weights, mass_units_printed());
    app.add_option("--scale-step", args.step, "what the scale can tell, as in \"0.1 g\"");
    add_stash_option(app, args.foretelling);
}

void declare_sample(Command& app, PlanArguments& args) {
    declare_series(app, args);
    app.add_option("--lengths", args.lengths, length_units_printed());
    app.add_option("-o,--output", args.output, "also write the sample as a recipe (.toml)");
    add_replace_option(app, args.replace);
}

// The sample's card; with --output also its recipe as a file.
int run_sample(const PlanArguments& args, const Context& context) {
    const Surroundings& s = context.s;
    const auto place = place_of(args.foretelling, context);
    const auto f = forecast_of(args.recipe, place);
    const auto units = parse_units(args.weights, args.lengths);
    const auto step = scale_step(args);
    forecast::Bench own = place.bench;
    own.scale_step_grams = step;
    const auto sample = value_of(forecast::sample_of(f, own));
    if (!args.output.empty()) {
        const auto saving = saving_of(args.replace, {args.recipe});
        value_of(measure::save_as(measure::FileKind::recipe, args.output, recipe::write_text(sample.recipe),
                                  saving));
    }
    *s.out << (args.json ? printed(sample_json(f, sample))
                         : forecast::sample_card(f, sample, units.mass, units.length));
    return exit_well;
}

// One table to weigh by.
int run_series(const PlanArguments& args, const Context& context) {
    const Surroundings& s = context.s;
    const auto f = forecast_of(args.recipe, args.foretelling, context);
    const auto units = parse_units(args.weights, args.lengths);
    const auto step = scale_step(args);
    auto planned = forecast::series_of(f, step);
    if (!planned && planned.error().where.empty()) planned.error().where = args.recipe;
    const auto plan = value_of(std::move(planned));
    *s.out << (args.json ? printed(series_json(f, plan)) : series_text(f, plan, units));
    return exit_well;
}

}  // namespace

void add_plan_commands(Commands& commands) {
    commands.add<PlanArguments>("sample", "the smallest sample that mixes as the batt will, with its card",
                                declare_sample, run_sample);
    commands.add<PlanArguments>("series", "what to weigh out for each batt of a recipe's series",
                                declare_series, run_series);
}

}  // namespace battwright::command
