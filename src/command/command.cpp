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
std::optional<int> run_about(const Arguments& args, const CommandLine& line, std::ostream& out) {
    if (args.version)
        out << "Battwright " << version() << "\n";
    else if (args.manual)
        out << manual_page(line.describe());
    else if (args.completion)
        out << bash_completion(line.describe());
    else if (!args.schema.empty())
        out << value_of(schema_of(args.schema));
    else
        return std::nullopt;
    return exit_well;
}

void take_example(Arguments& args, std::ostream& out) {
    if (!args.recipe.empty()) fail("both an example and a recipe are named", "name one of them", "--example");
    args.recipe = value_of(copy_example(args.example, {})).string();
    out << "Copied the example to " << args.recipe << "\n";
}

int open_or_print(const Arguments& args, const Context& context) {
    if (context.s.open_window) return context.s.open_window(args.recipe, context.catalogue);
    return run_without_window(args.recipe, args.replace, context);
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
    if (!value_of(line.parse(argc, argv, *s.out))) return exit_well;
    if (const auto done = run_about(args, line, *s.out)) return *done;
    if (line.root().given("--example")) take_example(args, *s.out);
    const bool alone = !args.recipe.empty() && line.root().given("RECIPE");
    if (alone && !could_be_file(args.recipe)) throw Failed{line.no_command(args.recipe)};
    const auto catalogue = value_of(fibre::catalogue_for_user());
    const Context context{catalogue, s};
    const auto code = commands.run(context);
    return code ? *code : open_or_print(args, context);
}

}  // namespace

int run(int argc, const char* const* argv, const Surroundings& s) {
    return with_words_told(s, [&](const Surroundings& gathered) {
        const auto code = guarded([&] { return run_line(argc, argv, gathered); });
        return code ? *code : complain(code.error(), gathered);
    });
}

}  // namespace battwright::command
