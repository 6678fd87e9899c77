#include "command/command.hpp"

#include <filesystem>
#include <optional>
#include <ostream>

#include "carding/layings.hpp"
#include "command/arguments.hpp"
#include "command/cards.hpp"
#include "command/complain.hpp"
#include "command/examples.hpp"
#include "command/manual.hpp"
#include "command/plans.hpp"
#include "command/recipe_in.hpp"
#include "command/report.hpp"
#include "command/saving.hpp"
#include "command/schemas.hpp"
#include "command/solve.hpp"
#include "command/stash.hpp"
#include "command/strip.hpp"
#include "command/units.hpp"
#include "command/version.hpp"
#include "command/wheel.hpp"
#include "recipe/file.hpp"
#include "recipe/file_name.hpp"
#include "shelving/photo.hpp"
#include "text/words.hpp"

namespace battwright::command {
namespace {

using forecast::Forecast;
using measure::Complaint;
using measure::Expected;

// Everything the options can say; one value filled by the parser, read once.
struct Arguments {
    std::string recipe;
    bool json = false;
    bool layings = false;
    std::string light = "D65";
    std::string optics = "stearns-noechel";
    std::string weights = "g";
    std::string lengths = "mm";
    bool replace = false;
    StripArguments strip;
    CardArguments cards;
    WheelArguments wheel;
    SolveArguments solve;
    PlanArguments plans;
    std::string stash;
    std::string finished_yarn;  // weighed in place of the fibre
    std::string example;
    std::string schema;
    bool version = false;
    bool manual = false;
    bool completion = false;
    Taught taught;  // what the skeins and batts in it teach
};

Expected<Forecast> forecast_of(const Arguments& args, const fibre::Catalogue& catalogue) {
    forecast::Bench bench;
    bench.catalogue = &catalogue;
    auto light = colour::parse_light(args.light);
    if (!light) {
        light.error().where = "--light";
        return tl::unexpected(light.error());
    }
    auto optics = colour::parse_optics(args.optics);
    if (!optics) {
        optics.error().where = "--optics";
        return tl::unexpected(optics.error());
    }
    bench.light = *light;
    bench.optics.optics = *optics;
    bench.calibration = args.taught.calibration;
    shelving::lay_on(args.taught.hands, bench);
    if (!args.finished_yarn.empty()) {
        auto mass = measure::parse_mass(args.finished_yarn);
        if (!mass) {
            mass.error().where = "--finished-yarn";
            return tl::unexpected(mass.error());
        }
        bench.yarn_grams = mass->grams;
    }
    auto recipe = recipe_in(args.recipe, catalogue);
    if (!recipe) return tl::unexpected(recipe.error());
    auto result = forecast::forecast(*recipe, bench);
    if (!result && result.error().line == 0) {
        result.error().where =
            args.recipe + (result.error().where.empty() ? "" : ": " + result.error().where);
    }
    return result;
}

int run_forecast(const Arguments& args, const fibre::Catalogue& catalogue, const Surroundings& s) {
    auto units = parse_units(args.weights, args.lengths);
    if (!units) return complain(units.error(), s);
    if (args.layings && args.json)
        return complain(
            {"a recipe with its layings is no JSON", "leave out --json or --layings", "--layings"}, s);
    auto forecast = forecast_of(args, catalogue);
    if (!forecast) return complain(forecast.error(), s);
    if (args.layings) {
        *s.out << recipe::write_text(carding::written_out(forecast->recipe, forecast->strands));
        return exit_well;
    }
    const forecast::Batt batt = forecast::batt_of(*forecast);
    *s.out << (args.json ? forecast_json(*forecast, batt) : forecast_text(*forecast, batt, *units));
    return exit_well;
}

int run_check(const Arguments& args, const fibre::Catalogue& catalogue, const Surroundings& s) {
    auto units = parse_units(args.weights, args.lengths);
    if (!units) return complain(units.error(), s);
    auto forecast = forecast_of(args, catalogue);
    if (!forecast) return complain(forecast.error(), s);
    *s.out << recipe::title_of(forecast->recipe) << "\n" << findings_text(*forecast, *units);
    for (const auto& finding : forecast->findings)
        if (finding.severity == staple::Severity::spoils) return exit_spoils;
    return exit_well;
}

int run_strip(const Arguments& args, const fibre::Catalogue& catalogue, const Surroundings& s) {
    StripArguments strip = args.strip;
    strip.recipe = args.recipe;
    const auto asked = strip_asked(strip);
    if (!asked) return complain(asked.error(), s);
    auto forecast = forecast_of(args, catalogue);
    if (!forecast) return complain(forecast.error(), s);
    return write_strip(*forecast, strip, *asked, s);
}

// No display: what the window would have shown, as text and as files.
int run_without_window(Arguments args, const fibre::Catalogue& catalogue, const Surroundings& s) {
    if (args.recipe.empty())
        return complain({"there is no display to open the window on",
                         "name a recipe file to print its forecast, or see battwright --help", "battwright"},
                        s);
    auto forecast = forecast_of(args, catalogue);
    if (!forecast) return complain(forecast.error(), s);
    *s.out << forecast_text(*forecast, forecast::batt_of(*forecast), Units{});
    const std::string stem = text::file_stem(recipe::title_of(forecast->recipe), "batt");
    args.strip.recipe = args.recipe;
    args.strip.replace = args.replace;
    args.strip.output = stem + "-strip.png";
    const auto asked = strip_asked(args.strip);
    if (!asked) return complain(asked.error(), s);
    if (const int code = write_strip(*forecast, args.strip, *asked, s); code != exit_well) return code;
    const std::string card = stem + "-card.pdf";
    const auto saving = saving_of(args.replace, {args.recipe});
    if (auto written = write_usual_card(*forecast, card, saving); !written)
        return complain(written.error(), s);
    *s.out << "\nNo display: wrote the recipe card to " << card << " and the picture of the strip to "
           << args.strip.output << "\n";
    return exit_well;
}

int open_or_print(const Arguments& args, const fibre::Catalogue& catalogue, const Surroundings& s) {
    if (s.open_window) return s.open_window(args.recipe, catalogue);
    return run_without_window(args, catalogue, s);
}

void add_light_options(Command& app, Arguments& args) {
    app.add_option("--light", args.light, "D65 (daylight), A (lamp) or F2 (shop light)");
    app.add_option("--optics", args.optics, "stearns-noechel, friele or kubelka-munk");
}

void add_recipe(Command& app, Arguments& args) {
    app.add_option("RECIPE", args.recipe, "a recipe file (.toml), or the photo of a printed card").required();
}

struct Commands {
    Command forecast;
    Command check;
    Command strip;
    CardCommands cards;
    WheelCommands wheel;
    SolveCommands solve;
    PlanCommands plans;
    StashCommands stash;
};

Commands add_commands(Command& app, Arguments& args) {
    Commands commands;
    commands.forecast = app.add_subcommand("forecast", "print what the batt will be");
    add_recipe(commands.forecast, args);
    add_light_options(commands.forecast, args);
    commands.forecast.add_flag("--json", args.json, "as JSON, units in the key names");
    commands.forecast.add_flag("--layings", args.layings,
                               "print the recipe instead, its manner of feeding written out as layings");

    commands.check = app.add_subcommand("check", "print the findings; exit 1 when one would spoil the batt");
    add_recipe(commands.check, args);
    for (Command* command : {&commands.forecast, &commands.check}) {
        command->add_option("--weights", args.weights, "g, oz or lb");
        command->add_option("--lengths", args.lengths, "mm, cm or in");
    }

    commands.strip = app.add_subcommand("strip", "draw a strip of the batt as a PNG");
    add_recipe(commands.strip, args);
    add_light_options(commands.strip, args);
    add_strip_options(commands.strip, args.strip);
    commands.cards = add_card_commands(app, args.cards);
    commands.wheel = add_wheel_commands(app, args.wheel);
    commands.solve = add_solve_commands(app, args.solve);
    commands.plans = add_plan_commands(app, args.plans);
    commands.stash = add_stash_commands(app);
    for (Command foretelling :
         {commands.forecast, commands.cards.card, commands.wheel.project, commands.wheel.yarn})
        add_stash_option(foretelling, args.stash);
    for (Command weighed : {commands.forecast, commands.wheel.project})
        weighed.add_option("--finished-yarn", args.finished_yarn,
                           "the yarn's own weight, as in \"92 g\", when that is known and not the fibre's");
    return commands;
}

void add_program_options(Command& app, Arguments& args) {
    app.add_option("RECIPE", args.recipe, "a recipe file (.toml) to open");
    app.add_option(
        "--example", args.example,
        "copy an example to NAME.batt.toml in this folder, never over a file, and open the copy: " +
            example_names());
    app.add_option(
        "--schema", args.schema,
        "print the JSON Schema of what a command says with --json, as in forecast or \"stash list\"");
    app.add_flag("--version", args.version, "print the version");
    app.add_flag("--manual", args.manual, "print all of this as a manual page");
    app.add_flag("--completion", args.completion, "print a script that completes all of this in bash");
}

// What needs no catalogue and no recipe; nothing when something else was asked.
std::optional<int> run_about(const Arguments& args, const CommandLine& line, const Surroundings& s) {
    if (args.version)
        *s.out << "Battwright " << version() << "\n";
    else if (args.manual)
        *s.out << manual_page(line.describe());
    else if (args.completion)
        *s.out << bash_completion(line.describe());
    else if (!args.schema.empty()) {
        const auto schema = schema_of(args.schema);
        if (!schema) return complain(schema.error(), s);
        *s.out << *schema;
    } else
        return std::nullopt;
    return exit_well;
}

Expected<void> take_example(Arguments& args, const Surroundings& s) {
    if (!args.recipe.empty())
        return tl::unexpected(
            Complaint{"both an example and a recipe are named", "name one of them", "--example"});
    const auto copy = copy_example(args.example, {});
    if (!copy) return tl::unexpected(copy.error());
    args.recipe = copy->string();
    *s.out << "Copied the example to " << args.recipe << "\n";
    return {};
}

int dispatch(const Commands& commands, Arguments args, const Surroundings& s) {
    auto catalogue = fibre::catalogue_for_user();
    if (!catalogue) return complain(catalogue.error(), s);
    if (commands.stash.stash.chosen()) return run_stash(commands.stash, *catalogue, s);
    if (commands.forecast.chosen() || commands.cards.card.chosen() || commands.wheel.project.chosen() ||
        commands.wheel.yarn.chosen()) {
        auto learnt = taught_from(args.stash, *catalogue, s);
        if (!learnt) return complain(learnt.error(), s);
        args.taught = *learnt;
    }
    if (commands.forecast.chosen()) return run_forecast(args, *catalogue, s);
    if (commands.check.chosen()) return run_check(args, *catalogue, s);
    if (commands.strip.chosen()) return run_strip(args, *catalogue, s);
    const Forecaster forecaster = [&](const std::string& path) {
        Arguments one = args;
        one.recipe = path;
        return forecast_of(one, *catalogue);
    };
    if (commands.cards.card.chosen()) return run_cards(args.cards, forecaster, s);
    if (commands.cards.tag.chosen()) return run_tags(args.cards, forecaster, s);
    if (commands.cards.label.chosen()) return run_labels(args.cards, forecaster, s);
    if (commands.wheel.yarn.chosen())
        return run_yarn(args.wheel, commands.wheel, *catalogue, args.taught.calibration, s);
    if (commands.wheel.project.chosen()) {
        const auto forecast = forecaster(args.wheel.recipe);
        return forecast ? run_project(args.wheel, *forecast, s) : complain(forecast.error(), s);
    }
    if (commands.plans.sample.chosen() || commands.plans.series.chosen()) {
        const auto forecast = forecaster(args.plans.recipe);
        if (!forecast) return complain(forecast.error(), s);
        forecast::Bench bench;
        bench.catalogue = &*catalogue;
        return commands.plans.sample.chosen() ? run_sample(args.plans, *forecast, bench, s)
                                              : run_series(args.plans, *forecast, s);
    }
    if (commands.solve.scraps.chosen()) return run_scraps(args.solve, *catalogue, s);
    if (commands.solve.match.chosen()) return run_match(args.solve, *catalogue, s);
    return open_or_print(args, *catalogue, s);
}

}  // namespace

namespace {

int run_line(int argc, const char* const* argv, const Surroundings& s) {
    Arguments args;
    CommandLine line(
        "Designs batts for hand spinners with a drum carder, a blending board or hand cards.\n"
        "Without a command: opens the window, on RECIPE if one is named.",
        "battwright");
    Command app = line.root();
    app.require_subcommand(0, 1);
    const Commands commands = add_commands(app, args);
    add_program_options(app, args);
    add_replace_option(app, args.replace);
    line.closing_words(closing_words());
    const auto taken = line.parse(argc, argv, *s.out);
    if (!taken) return complain(taken.error(), s);
    if (!*taken) return exit_well;
    if (const auto done = run_about(args, line, s)) return *done;
    if (line.root().given("--example")) {
        if (const auto copied = take_example(args, s); !copied) return complain(copied.error(), s);
    }
    const bool alone = !args.recipe.empty() && line.root().given("RECIPE");
    if (alone && !could_be_file(args.recipe)) return complain(line.no_command(args.recipe), s);
    return dispatch(commands, std::move(args), s);
}

}  // namespace

int run(int argc, const char* const* argv, const Surroundings& s) {
    return with_words_told(s, [&](const Surroundings& gathered) { return run_line(argc, argv, gathered); });
}

}  // namespace battwright::command
