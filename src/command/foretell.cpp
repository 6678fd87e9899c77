// The commands that foretell a recipe: as text, as findings, as a picture.
#include <ostream>

#include "carding/layings.hpp"
#include "command/cards.hpp"
#include "command/commands.hpp"
#include "command/complain.hpp"
#include "command/report.hpp"
#include "command/saving.hpp"
#include "command/strip.hpp"
#include "command/units.hpp"
#include "recipe/file.hpp"
#include "recipe/file_name.hpp"
#include "text/words.hpp"

namespace battwright::command {
namespace {

using forecast::Forecast;

struct ForecastOptions {
    std::string recipe, weights = "g", lengths = "mm";
    bool json = false, layings = false;
    Foretelling foretelling;
};
struct StripOptions {
    StripArguments strip;
    Foretelling foretelling;
};

int run_forecast(const ForecastOptions& args, const Context& context) {
    const Surroundings& s = context.s;
    const auto units = parse_units(args.weights, args.lengths);
    if (args.layings && args.json)
        fail("a recipe with its layings is no JSON", "leave out --json or --layings", "--layings");
    const auto forecast = forecast_of(args.recipe, args.foretelling, context);
    if (args.layings) {
        *s.out << recipe::write_text(carding::written_out(forecast.recipe, forecast.strands));
        return exit_well;
    }
    const forecast::Batt batt = forecast::batt_of(forecast);
    *s.out << (args.json ? forecast_json(forecast, batt) : forecast_text(forecast, batt, units));
    return exit_well;
}

int run_check(const ForecastOptions& args, const Context& context) {
    const Surroundings& s = context.s;
    const auto units = parse_units(args.weights, args.lengths);
    const auto forecast = forecast_of(args.recipe, args.foretelling, context);
    *s.out << recipe::title_of(forecast.recipe) << "\n" << findings_text(forecast, units);
    for (const auto& finding : forecast.findings)
        if (finding.severity == staple::Severity::spoils) return exit_spoils;
    return exit_well;
}

int run_strip(const StripOptions& args, const Context& context) {
    const auto asked = strip_asked(args.strip);
    const auto forecast = forecast_of(args.strip.recipe, args.foretelling, context);
    write_strip(forecast, args.strip, asked, context.s);
    return exit_well;
}

void add_recipe(Command& app, std::string& recipe) {
    app.add_option("RECIPE", recipe, "a recipe file (.toml), or the photo of a printed card").required();
}

void add_units(Command& app, ForecastOptions& args) {
    app.add_option("--weights", args.weights, mass_units_printed());
    app.add_option("--lengths", args.lengths, length_units_printed());
}

void declare_forecast(Command& app, ForecastOptions& args) {
    add_recipe(app, args.recipe);
    add_light_options(app, args.foretelling);
    app.add_flag("--json", args.json, "as JSON, units in the key names");
    app.add_flag("--layings", args.layings,
                 "print the recipe instead, its manner of feeding written out as layings");
    add_units(app, args);
    add_stash_option(app, args.foretelling);
    add_finished_yarn_option(app, args.foretelling);
}

void declare_check(Command& app, ForecastOptions& args) {
    add_recipe(app, args.recipe);
    add_units(app, args);
    add_stash_option(app, args.foretelling);
}

void declare_strip(Command& app, StripOptions& args) {
    add_recipe(app, args.strip.recipe);
    add_light_options(app, args.foretelling);
    add_strip_options(app, args.strip);
    add_stash_option(app, args.foretelling);
}

}  // namespace

void add_forecast_commands(Commands& commands) {
    commands.add<ForecastOptions>("forecast", "print what the batt will be", declare_forecast, run_forecast);
    commands.add<ForecastOptions>("check", "print the findings; exit 1 when one would spoil the batt",
                                  declare_check, run_check);
    commands.add<StripOptions>("strip", "draw a strip of the batt as a PNG", declare_strip, run_strip);
}

int run_without_window(const std::string& recipe, bool replace, const Context& context) {
    const Surroundings& s = context.s;
    if (recipe.empty())
        fail("there is no display to open the window on",
             "name a recipe file to print its forecast, or see battwright --help", "battwright");
    const auto forecast = forecast_of(recipe, Foretelling{}, context);
    *s.out << forecast_text(forecast, forecast::batt_of(forecast), Units{});
    const std::string stem = text::file_stem(recipe::title_of(forecast.recipe), "batt");
    StripArguments strip;
    strip.recipe = recipe;
    strip.replace = replace;
    strip.output = stem + "-strip.png";
    write_strip(forecast, strip, strip_asked(strip), s);
    const std::string card = stem + "-card.pdf";
    write_usual_card(forecast, card, saving_of(replace, {recipe}));
    *s.out << "\nNo display: wrote the recipe card to " << card << " and the picture of the strip to "
           << strip.output << "\n";
    return exit_well;
}

}  // namespace battwright::command
