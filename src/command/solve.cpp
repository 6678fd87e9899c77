#include "command/solve.hpp"
#include "command/saving.hpp"

#include <filesystem>
#include <ostream>

#include "command/commands.hpp"
#include "command/complain.hpp"
#include "command/solve_report.hpp"
#include "command/units.hpp"
#include "recipe/file.hpp"
#include "shelving/answer.hpp"
#include "shelving/photo.hpp"

namespace battwright::command {
namespace {

void add_source_options(Command& app, SolveArguments& args) {
    app.add_option("--stash", args.common.file, "another stash than the usual one");
    app.add_option("--from", args.from, "a recipe: its own components, as much of each as it takes");
    app.add_option("--kind", args.kinds, "only lots with this fibre or family; may be repeated");
    app.add_option("--lot", args.lots, "only this lot; may be repeated");
    app.add_flag("--scraps", args.scraps_only, "only remainders");
}

void add_goal_options(Command& app, SolveArguments& args) {
    app.add_option("--total", args.total, "\"100 g\", \"80-120 g\" or \">= 80 g\"; of a gradient: each batt");
    app.add_option("--batts", args.batts, "equal batts, or auto: the fewest that the carder's load allows");
    app.add_option("--carder", args.carder, "a carder whose load each batt keeps to");
    app.add_option("--bound", args.bounds,
                   "\"wool >= 60 %\", \"silk 10-20 %\", \"sparkle <= 3 %\"; may be repeated");
    app.add_option("--most-cost", args.most_cost, "of all batts together");
    app.add_option("--staple-spread", args.staple_spread, "longest staple over shortest, as in 1.5");
    app.add_option("--least-staple", args.least_staple, "of every fibre, as in \"50 mm\"");
    app.add_option("--most-lots", args.most_lots, "lots to weigh out");
    app.add_option("--least-used", args.least_used,
                   "of a lot that is used at all, in each batt; 1 g unless said");
    app.add_option("--keep-back", args.keep_back, "of every lot, as in \"10 %\" or \"5 g\"");
    app.add_option("--step", args.step, "of the scale, as in \"1 g\"");
    app.add_option("--light2", args.light2, "the second light: A (lamp) or F2 (shop light)");
    app.add_option("--use-up", args.use_up, "lots one wants off the shelf");
    app.add_flag("--oldest", args.oldest, "use up the oldest first");
    app.add_flag("--smallest", args.smallest, "finish as many lots as possible, the smallest first");
}

void add_output_options(Command& app, SolveArguments& args) {
    app.add_flag("--json", args.common.json, "as JSON, units in the key names");
    app.add_option("--weights", args.common.weights, mass_units_printed());
    app.add_option("-o,--output", args.output, "write a proposal as a recipe, a .toml file");
    add_replace_option(app, args.replace);
    app.add_option("--take", args.take, "which proposal to write, 1 the best; of a gradient: which batt");
    app.add_option("--name", args.name, "what to call the batt");
}

void may_write_proposal(const SolveArguments& args) {
    const auto saving =
        saving_of(args.replace, {args.from, args.target, args.to, args.photo.photo, args.common.file});
    value_of(measure::may_write(args.output, measure::FileKind::recipe, saving.replace, saving.inputs));
}

void check_output(const SolveArguments& args) {
    if (args.take < 1) fail("no proposal " + std::to_string(args.take), "count from 1", "--take");
    if (args.output.empty()) return;
    if (std::filesystem::path(args.output).extension() == ".toml") return may_write_proposal(args);
    fail(measure::quoted(args.output) + " is no recipe's file name", "end the file name in .toml",
         "--output");
}

// The batts are named by the person, else by what was asked.
std::string name_of(const SolveArguments& args, const SolveRequest& asked) {
    return args.name.empty() ? asked.title : args.name;
}

void weigh_out(SolveResult& found, const SolveRequest& asked, const std::vector<solve::Proposal>& proposals,
               const std::string& name, const Context& context) {
    forecast::Bench bench;
    bench.catalogue = &context.catalogue;
    bench.light = colour::Light::d65;
    shelving::lay_on(asked.hands, bench);
    found.suggestions = value_of(shelving::suggestions_of(asked.stock, proposals, name, bench));
}

SolveResult find_gradient(const SolveRequest& asked, const std::string& name, const Context& context) {
    const solve::Setting setting{&context.catalogue, asked.hands.applied_to({})};
    auto series = value_of(shelving::series_for(asked.problem, asked.targets, setting));
    SolveResult found;
    found.conflict = std::move(series.conflict);
    found.conflict_at = series.conflict_at;
    if (!found.conflict) found.left_grams = std::move(series.left_grams);
    weigh_out(found, asked, series.batts, name, context);
    return found;
}

SolveResult find(const SolveRequest& asked, const std::string& name, const Context& context) {
    if (!asked.targets.empty()) return find_gradient(asked, name, context);
    const solve::Setting setting{&context.catalogue, asked.hands.applied_to({})};
    auto answer = value_of(shelving::answer_to(asked.problem, setting));
    SolveResult found;
    found.conflict = std::move(answer.conflict);
    weigh_out(found, asked, answer.proposals, name, context);
    shelving::spoilt_last(found.suggestions);
    if (!asked.problem.goal.target) return found;
    found.reach = value_of(solve::distance_to_gamut(asked.problem.lots, *asked.problem.goal.target, setting));
    solve::hold(*found.reach, answer.proposals);
    return found;
}

void write_taken(const SolveArguments& args, const SolveResult& found) {
    if (args.output.empty()) return;
    const auto index = static_cast<std::size_t>(args.take) - 1;
    if (index >= found.suggestions.size())
        fail("there are only " + std::to_string(found.suggestions.size()) + " proposals", "take one of these",
             "--take");
    recipe::Recipe recipe = found.suggestions[index].recipe();
    if (!args.name.empty()) recipe.name = args.name;
    // Again: the search may have taken long.
    may_write_proposal(args);
    value_of(recipe::write_file(recipe, args.output));
}

int answer_with(const SolveArguments& args, SolveRequest asked, const Context& context) {
    const auto units = parse_units(args.common.weights, "mm");
    if (!args.common.json) {  // whose words are in grams and millimetres, as its numbers are
        asked.problem.mass = units.mass;
        if (units.mass != measure::MassUnit::gram) asked.problem.length = measure::LengthUnit::inch;
    }
    const auto found = find(asked, name_of(args, asked), context);
    if (!found.conflict) write_taken(args, found);
    *context.s.out << (args.common.json ? found_json(asked, found) : found_text(asked, found, units.mass));
    return found.conflict ? exit_spoils : exit_well;
}

void declare_scraps(Command& app, SolveArguments& args) {
    add_source_options(app, args);
    add_goal_options(app, args);
    add_output_options(app, args);
}

void declare_match(Command& app, SolveArguments& args) {
    app.add_option("TARGET", args.target,
                   "\"dark blue\", #2f5d50, Lab as 50,10,-20, or a recipe whose colour");
    app.add_option("--photo", args.photo.photo, "instead: the largest colour in this picture");
    add_photo_options(app, args.photo);
    app.add_option("--to", args.to, "the far end of a gradient: a colour or a recipe");
    app.add_option("--steps", args.steps, "batts of the gradient, both ends counted");
    declare_scraps(app, args);
}

// Up to five proposals, or what stands in their way (exit_spoils).
int run_scraps(const SolveArguments& args, const Context& context) {
    check_output(args);
    auto asked = stock_asked(args, context);
    asked.title = "Scraps";
    ask_use_up(asked, args, false);
    ask_bounds(asked, args, context);
    return answer_with(args, asked, context);
}

// The same towards a colour, or a batt for each step from one colour to another.
int run_match(const SolveArguments& args, const Context& context) {
    check_output(args);
    auto asked = stock_asked(args, context);
    ask_target(asked, args, context);
    ask_use_up(asked, args, true);
    ask_bounds(asked, args, context);
    return answer_with(args, asked, context);
}

}  // namespace

void add_solve_commands(Commands& commands) {
    commands.add<SolveArguments>("scraps", "say what can be made of these bits", declare_scraps, run_scraps);
    commands.add<SolveArguments>("match", "say how to get that colour from what there is", declare_match,
                                 run_match);
}

}  // namespace battwright::command
