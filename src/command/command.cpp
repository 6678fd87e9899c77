#include "command/command.hpp"

#include <CLI/CLI.hpp>
#include <algorithm>
#include <filesystem>
#include <ostream>

#include "command/cards.hpp"
#include "command/report.hpp"
#include "command/units.hpp"
#include "command/wheel.hpp"
#include "recipe/file.hpp"
#include "strip/picture.hpp"
#include "strip/simulated.hpp"

namespace battwright::command {
namespace {

using forecast::Forecast;
using measure::Complaint;
using measure::Expected;

// Everything the options can say; one value filled by the parser, read once.
struct Arguments {
    std::string recipe;
    bool json = false;
    std::string light = "D65";
    std::string optics = "stearns-noechel";
    std::string weights = "g";
    std::string lengths = "mm";
    std::string output;
    int width = 1920;
    int height = 160;
    int passes = 0;  // 0: as the recipe says
    std::string view = "edge";
    CardArguments cards;
    WheelArguments wheel;
};

int complain(const Complaint& complaint, const Surroundings& s) {
    *s.err << measure::to_line(complaint) << "\n";
    return exit_bad_input;
}

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
    auto recipe = recipe::read_file(args.recipe, catalogue);
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
    auto forecast = forecast_of(args, catalogue);
    if (!forecast) return complain(forecast.error(), s);
    const forecast::Batt batt = forecast::batt_of(*forecast);
    *s.out << (args.json ? forecast_json(*forecast, batt) : forecast_text(*forecast, batt, *units));
    return exit_well;
}

int run_check(const Arguments& args, const fibre::Catalogue& catalogue, const Surroundings& s) {
    auto forecast = forecast_of(args, catalogue);
    if (!forecast) return complain(forecast.error(), s);
    *s.out << forecast->recipe.name << "\n" << findings_text(*forecast);
    for (const auto& finding : forecast->findings)
        if (finding.severity == staple::Severity::spoils) return exit_spoils;
    return exit_well;
}

constexpr const char* views[] = {"edge", "face", "long-strip", "torn-lengthwise", "torn-across"};

// Precondition: the view is one of the above.
strip::Scene scene_for(const Forecast& forecast, int passes, const std::string& view) {
    if (view == "face") return strip::carded_scene(forecast, passes, strip::View::face);
    if (view == "long-strip") return strip::pulled_scene(forecast, passes, carding::Pull::long_strip);
    if (view == "torn-lengthwise")
        return strip::pulled_scene(forecast, passes, carding::Pull::torn_lengthwise);
    if (view == "torn-across") return strip::pulled_scene(forecast, passes, carding::Pull::torn_across);
    return strip::carded_scene(forecast, passes);
}

int write_strip(const Forecast& forecast, const Arguments& args, const Surroundings& s) {
    const int passes = args.passes > 0 ? args.passes : forecast.recipe.carding.passes;
    const strip::Scene scene = scene_for(forecast, passes, args.view);
    auto saved = strip::save_png(strip::draw(scene, args.width, args.height), args.output);
    if (!saved) return complain(saved.error(), s);
    return exit_well;
}

Expected<void> check_strip_arguments(const Arguments& args) {
    constexpr int widest = 16384;
    if (args.width < 1 || args.width > widest)
        return tl::unexpected(Complaint{"the width is " + std::to_string(args.width) + " pixels",
                                        "give 1 to " + std::to_string(widest), "--width"});
    if (args.height < 1 || args.height > widest)
        return tl::unexpected(Complaint{"the height is " + std::to_string(args.height) + " pixels",
                                        "give 1 to " + std::to_string(widest), "--height"});
    if (args.passes < 0 || args.passes > 10)
        return tl::unexpected(Complaint{std::to_string(args.passes) + " passes", "give 1 to 10", "--passes"});
    if (std::find(std::begin(views), std::end(views), args.view) == std::end(views))
        return tl::unexpected(Complaint{"no view '" + args.view + "'",
                                        "use edge, face, long-strip, torn-lengthwise or torn-across",
                                        "--view"});
    if (std::filesystem::path(args.output).extension() != ".png")
        return tl::unexpected(
            Complaint{"'" + args.output + "' is no PNG file name", "end the file name in .png", "--output"});
    return {};
}

int run_strip(const Arguments& args, const fibre::Catalogue& catalogue, const Surroundings& s) {
    if (auto checked = check_strip_arguments(args); !checked) return complain(checked.error(), s);
    auto forecast = forecast_of(args, catalogue);
    if (!forecast) return complain(forecast.error(), s);
    return write_strip(*forecast, args, s);
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
    const std::string stem = file_stem(forecast->recipe.name);
    args.output = stem + "-strip.png";
    if (const int code = write_strip(*forecast, args, s); code != exit_well) return code;
    const std::string card = stem + "-card.pdf";
    if (auto written = write_usual_card(*forecast, card); !written) return complain(written.error(), s);
    *s.out << "\nNo display: wrote the recipe card to " << card << " and the picture of the strip to "
           << args.output << "\n";
    return exit_well;
}

int open_or_print(const Arguments& args, const fibre::Catalogue& catalogue, const Surroundings& s) {
    if (s.open_window) return s.open_window(args.recipe, catalogue);
    return run_without_window(args, catalogue, s);
}

void add_light_options(CLI::App& app, Arguments& args) {
    app.add_option("--light", args.light, "D65 (daylight), A (lamp) or F2 (shop tube)");
    app.add_option("--optics", args.optics, "stearns-noechel, friele or kubelka-munk");
}

void add_recipe(CLI::App& app, Arguments& args) {
    app.add_option("RECIPE", args.recipe, "a recipe file (.toml)")->required();
}

struct Commands {
    CLI::App* forecast = nullptr;
    CLI::App* check = nullptr;
    CLI::App* strip = nullptr;
    CardCommands cards;
    WheelCommands wheel;
};

Commands add_commands(CLI::App& app, Arguments& args) {
    Commands commands;
    commands.forecast = app.add_subcommand("forecast", "print what the batt will be");
    add_recipe(*commands.forecast, args);
    add_light_options(*commands.forecast, args);
    commands.forecast->add_flag("--json", args.json, "as JSON, units in the key names");
    commands.forecast->add_option("--weights", args.weights, "g, oz or lb");
    commands.forecast->add_option("--lengths", args.lengths, "mm, cm or in");

    commands.check = app.add_subcommand("check", "print the findings; exit 1 when one would spoil the batt");
    add_recipe(*commands.check, args);

    commands.strip = app.add_subcommand("strip", "draw a strip of the batt as a PNG");
    add_recipe(*commands.strip, args);
    add_light_options(*commands.strip, args);
    commands.strip->add_option("-o,--output", args.output, "the PNG file to write")->required();
    commands.strip->add_option("--width", args.width, "pixels");
    commands.strip->add_option("--height", args.height, "pixels");
    commands.strip->add_option(
        "--view", args.view,
        "edge or face of the batt; or the order of spinning when it is pulled off as one "
        "long-strip, torn-lengthwise or torn-across");
    commands.strip->add_option("--passes", args.passes, "passes through the carder, 1 to 10");
    commands.cards = add_card_commands(app, args.cards);
    commands.wheel = add_wheel_commands(app, args.wheel);
    return commands;
}

int dispatch(const Commands& commands, const Arguments& args, const Surroundings& s) {
    auto catalogue = fibre::catalogue_for_user();
    if (!catalogue) return complain(catalogue.error(), s);
    if (*commands.forecast) return run_forecast(args, *catalogue, s);
    if (*commands.check) return run_check(args, *catalogue, s);
    if (*commands.strip) return run_strip(args, *catalogue, s);
    const Forecaster forecaster = [&](const std::string& path) {
        Arguments one = args;
        one.recipe = path;
        return forecast_of(one, *catalogue);
    };
    if (*commands.cards.card) return run_cards(args.cards, forecaster, s);
    if (*commands.cards.tag) return run_tags(args.cards, forecaster, s);
    if (*commands.cards.label) return run_labels(args.cards, forecaster, s);
    if (*commands.wheel.yarn) return run_yarn(args.wheel, commands.wheel, *catalogue, s);
    if (*commands.wheel.project) {
        const auto forecast = forecaster(args.wheel.recipe);
        return forecast ? run_project(args.wheel, *forecast, s) : complain(forecast.error(), s);
    }
    return open_or_print(args, *catalogue, s);
}

}  // namespace

int run(int argc, const char* const* argv, const Surroundings& s) {
    Arguments args;
    CLI::App app(
        "Designs batts for hand spinners who own a drum carder.\n"
        "Without a command: opens the window, on RECIPE if one is named.",
        "battwright");
    app.require_subcommand(0, 1);
    const Commands commands = add_commands(app, args);
    app.add_option("RECIPE", args.recipe, "a recipe file (.toml) to open");
    try {
        app.parse(argc, argv);
    } catch (const CLI::CallForHelp& help) {
        return app.exit(help, *s.out, *s.err);
    } catch (const CLI::ParseError& error) {
        std::string what = error.what();
        for (char& c : what)
            if (c == '\n') c = ' ';
        return complain({what, "see battwright --help", "battwright"}, s);
    }
    return dispatch(commands, args, s);
}

}  // namespace battwright::command
