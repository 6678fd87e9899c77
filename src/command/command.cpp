#include "command/command.hpp"

#include <optional>
#include <ostream>

#include "command/commands.hpp"
#include "command/complain.hpp"
#include "command/examples.hpp"
#include "command/manual.hpp"
#include "command/saving.hpp"
#include "command/schemas.hpp"
#include "command/version.hpp"

namespace battwright::command {
namespace {

using measure::Complaint;
using measure::Expected;

// What is said of the program itself and of its window.
struct Arguments {
    std::string recipe, example, schema;
    bool replace = false;
    bool version = false, manual = false, completion = false;
};

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

int open_or_print(const Arguments& args, const Desk& desk) {
    if (desk.s.open_window) return desk.s.open_window(args.recipe, desk.catalogue);
    return run_without_window(args.recipe, args.replace, desk);
}

int run_line(int argc, const char* const* argv, const Surroundings& s) {
    Arguments args;
    CommandLine line(
        "Designs batts for hand spinners who own a drum carder.\n"
        "Without a command: opens the window, on RECIPE if one is named.",
        "battwright");
    Command app = line.root();
    app.require_subcommand(0, 1);
    Commands commands(app);
    add_forecast_commands(commands);
    add_card_commands(commands);
    add_wheel_commands(commands);
    add_solve_commands(commands);
    add_plan_commands(commands);
    add_stash_commands(commands);
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
    const auto catalogue = fibre::catalogue_for_user();
    if (!catalogue) return complain(catalogue.error(), s);
    const Desk desk{*catalogue, s};
    const auto code = commands.run(desk);
    return code ? *code : open_or_print(args, desk);
}

}  // namespace

int run(int argc, const char* const* argv, const Surroundings& s) {
    return with_words_told(s, [&](const Surroundings& gathered) { return run_line(argc, argv, gathered); });
}

}  // namespace battwright::command
