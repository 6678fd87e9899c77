// The wheel from the command line: a skein nobody labelled, and what a batt's yarn is enough for.
#include <optional>
#include <ostream>

#include "command/commands.hpp"
#include "command/complain.hpp"
#include "command/json_value.hpp"
#include "command/layout.hpp"
#include "command/recipe_in.hpp"
#include "command/stash_common.hpp"
#include "command/units.hpp"
#include "measure/nearest.hpp"
#include "recipe/file.hpp"
#include "recipe/file_name.hpp"
#include "shelving/lots.hpp"
#include "yarn/finish.hpp"
#include "yarn/forecast.hpp"
#include "yarn/project.hpp"
#include "yarn/unknown.hpp"

namespace battwright::command {
namespace {

// What the options of `yarn` and `project` say; empty texts were not given.
struct YarnArguments {
    std::string weight, circumference, sample_length, sample_weight, fibre, preparation;
    double turns = 0.0, wpi = 0.0;
    int plies = 2;  // as most handspun
    bool before_wash = false;
    bool json = false;
    std::string recipe;
    Foretelling foretelling;
    Command app;
};
struct ProjectArguments {
    std::string recipe, thing;
    std::string lengths = "m", weights = "g";
    Foretelling foretelling;
};

// Strands of what it was spun from: the recipe's, one kind of the catalogue, or none.
std::vector<recipe::Strand> strands_from(const YarnArguments& args, const fibre::Catalogue& catalogue,
                                         const recipe::LotOf& lot_of, std::optional<recipe::Recipe>& recipe) {
    if (!args.recipe.empty() && !args.fibre.empty())
        fail("a recipe says its fibres already", "leave --fibre or --recipe out", "--fibre");
    if (!args.recipe.empty()) {
        recipe = recipe_in(args.recipe, catalogue, lot_of);
        return recipe::strands_of(*recipe, value_of(recipe::masses_of(*recipe)), catalogue);
    }
    if (args.fibre.empty()) return {};
    const fibre::Kind& kind = kind_named(args.fibre, catalogue, "--fibre");
    recipe::Strand strand;
    strand.kind = catalogue.share(kind.id);
    strand.grams = strand.mass_share = 1.0;
    strand.diameter_um = kind.diameter_um;
    return {strand};
}

// What it was spun from and how: the options, else the recipe, else as most handspun.
void tell_making(const YarnArguments& args, const fibre::Catalogue& catalogue, const recipe::LotOf& lot_of,
                 yarn::Skein& skein) {
    std::optional<recipe::Recipe> recipe;
    const auto strands = strands_from(args, catalogue, lot_of, recipe);
    int plies = args.plies;
    if (recipe && !args.app.given("--plies"))
        plies = yarn::strands_in(recipe->spinning.plying, recipe->spinning.plies);
    if (recipe) skein.preparation = recipe::preparation_of(*recipe);
    if (const auto preparation = preparation_given(args.preparation)) skein.preparation = *preparation;
    skein.makeup = yarn::makeup_of(plies, strands);
    skein.unknown_share = yarn::unknown_share_of(strands);
    if (args.before_wash) skein.shrink_pct = yarn::wash_of(strands).shrink_pct;
}

yarn::Skein skein_of(const YarnArguments& args, const fibre::Catalogue& catalogue,
                     const recipe::LotOf& lot_of) {
    yarn::Skein skein;
    skein.grams = given(args.weight, "--weight", grams_of);
    skein.circumference_m = given(args.circumference, "--circumference", measure::parse_yarn_length_metres);
    skein.sample_m = given(args.sample_length, "--sample-length", measure::parse_yarn_length_metres);
    skein.sample_grams = given(args.sample_weight, "--sample-weight", grams_of);
    if (args.app.given("--turns")) skein.turns = args.turns;
    if (args.app.given("--wpi")) skein.wpi = args.wpi;
    tell_making(args, catalogue, lot_of, skein);
    return skein;
}

std::string label_json(const yarn::SkeinLabel& label) {
    Json root{{"length_m", label.length_m},
              {"length_low_m", label.length_low_m},
              {"length_high_m", label.length_high_m},
              {"tex", label.tex},
              {"tex_low", label.tex_low},
              {"tex_high", label.tex_high},
              {"wpi", label.wpi},
              {"wpi_low", label.wpi_low},
              {"wpi_high", label.wpi_high},
              {"class", label.class_name},
              {"class_words", label.thickness_words},
              {"skeins_logged", label.skeins_logged},
              {"twist_per_m", label.turns_per_m}};
    if (label.check)
        root.set("check", {{"disagrees", label.check->disagrees},
                           {"loft", label.check->loft},
                           {"z", label.check->z},
                           {"text", label.check->text}});
    return printed(root);
}

std::string length_words(const yarn::SkeinLabel& label) {
    using measure::YarnLengthUnit;
    const auto both = [](double metres) {
        return measure::print_yarn_length(metres, YarnLengthUnit::metre) + " (" +
               measure::print_yarn_length(metres, YarnLengthUnit::yard) + ")";
    };
    std::string text = both(label.length_m);
    if (label.length_high_m > label.length_low_m)
        text = "about " + text + "; four skeins in five between " + both(label.length_low_m) + " and " +
               both(label.length_high_m);
    if (label.skeins_logged > 0) text += "; this " + skeins_words(label.skeins_logged);
    return text;
}

std::string label_text(const yarn::SkeinLabel& label) {
    const std::string wraps = label.wpi_from_tex
                                  ? number(label.wpi_low, 0) + " to " + number(label.wpi_high, 0) +
                                        " wraps per inch (worked out from the grist)"
                                  : "about " + number(label.wpi, 0) + " wraps per inch";
    std::string text = wrapped(label.thickness_words + ", " + wraps, 0);
    std::string grist = number(label.tex, 0) + " tex";
    if (label.tex_from_wraps)
        grist += " at a guess from the wraps (four in five between " + number(label.tex_low, 0) + " and " +
                 number(label.tex_high, 0) + ")";
    text += wrapped(grist, 0);
    if (label.length_m > 0.0) text += wrapped(length_words(label), 0);
    text += wrapped("a medium twist would be " + number(label.turns_per_m, 0) + " turns a metre (" +
                        number(label.turns_per_inch, 1) + " an inch)",
                    0);
    if (label.check && label.check->disagrees) text += wrapped(label.check->text, 0);
    return text + wrapped(yarn::measure_when, 0);
}

// One row of the project table.
std::string project_row(const yarn::Project& project, const yarn::YarnForecast& y,
                        measure::YarnLengthUnit unit, measure::MassUnit mass_unit) {
    const yarn::Enough enough = yarn::enough_for(project, y);
    const yarn::CardSoMuch card = yarn::card_for(project, y);
    const auto length = [&](double metres) { return measure::print_yarn_length(metres, unit); };
    const auto mass = [&](double grams) { return measure::print_mass(grams, mass_unit); };
    return "  " + left(std::string(project.thing) + ", " + std::string(project.size), 28) +
           right(length(enough.need.low_m), 9) + " to " + left(length(enough.need.high_m), 9) +
           left(std::string(yarn::word_for(enough.verdict)), 14) +
           right(enough.more_grams > 0.0 ? mass(enough.more_grams) : "-", 12) +
           right(mass(card.sure_grams), 14) + "\n";
}

void declare_yarn(Command& app, YarnArguments& args) {
    args.app = app;
    app.add_option("--weight", args.weight, "of the whole skein, as in \"100 g\"");
    app.add_option("--turns", args.turns, "counted round the niddy-noddy or skein winder");
    app.add_option("--circumference", args.circumference, "one turn of it, as in \"1.5 m\"");
    app.add_option("--sample-length", args.sample_length, "of a piece cut off, as in \"10 m\"");
    app.add_option("--sample-weight", args.sample_weight, "of that piece, as in \"4.2 g\"");
    app.add_option("--wpi", args.wpi, "wraps per inch, laid on without pulling");
    app.add_option("--plies", args.plies, "strands plied together; the recipe's, or 2, when left out");
    app.add_option("--fibre", args.fibre, "a fibre of the catalogue; middling wool when left out");
    app.add_option("--recipe", args.recipe, "the recipe it was spun from, instead of --fibre");
    app.add_option("--preparation", args.preparation, "woollen, semi-woollen or worsted");
    app.add_flag("--before-wash", args.before_wash, "turns or sample were measured before the wash");
    app.add_flag("--json", args.json, "as JSON, units in the key names");
    add_stash_option(app, args.foretelling);
}

void declare_project(Command& app, ProjectArguments& args) {
    app.add_option("RECIPE", args.recipe, "a recipe file (.toml)").required();
    app.add_option("--thing", args.thing, "only this: hat, cowl, mitts, socks, scarf ...");
    app.add_option("--lengths,--yarn-lengths", args.lengths, yarn_length_units_printed());
    app.add_option("--weights", args.weights, mass_units_printed());
    add_stash_option(app, args.foretelling);
    add_finished_yarn_option(app, args.foretelling);
}

// Grist, class, length with its range and twist of a skein in hand; a line when wraps, weight and length
// disagree.
int run_yarn(const YarnArguments& args, const Context& context) {
    const auto taught = taught_from(args.foretelling.stash, context.catalogue, context.s);
    const auto skein = skein_of(args, context.catalogue, shelving::lots_of(taught.shelf));
    const auto label = value_of(yarn::label_of(skein, taught.calibration));
    *context.s.out << (args.json ? label_json(label) : label_text(label));
    return exit_well;
}

// The project table held against the recipe's yarn: enough or short, and how much to card.
int run_project(const ProjectArguments& args, const Context& context) {
    const Surroundings& s = context.s;
    const auto forecast = forecast_of(args.recipe, args.foretelling, context);
    const auto unit = yarn_length_unit(args.lengths);
    const auto units = parse_units(args.weights, "mm");
    const auto& y = forecast.yarn;
    std::string rows;
    std::vector<std::string> things;
    for (const yarn::Project& project : yarn::projects()) {
        if (things.empty() || things.back() != project.thing) things.emplace_back(project.thing);
        if (args.thing.empty() || args.thing == project.thing)
            rows += project_row(project, y, unit, units.mass);
    }
    if (rows.empty()) {
        const std::string question = measure::did_you_mean(args.thing, things);
        fail("no project " + measure::quoted(args.thing) + " in the table",
             question.empty() ? "leave --thing out to see them all" : question, "--thing");
    }
    *s.out << recipe::title_of(forecast.recipe) << ": " << measure::print_yarn_length(y.length_low_m, unit)
           << " to " << measure::print_yarn_length(y.length_high_m, unit) << " of " << y.class_name
           << " yarn\n"
           << (y.skeins_logged > 0 ? "  the yardage " + skeins_words(y.skeins_logged) + "\n" : "") << "  "
           << left("project", 28) << left("        takes about", 22) << left("yarn is", 14)
           << right("card more", 12) << right("card, safely", 14) << "\n"
           << rows << "  needs and sizes are common practice, no source: swatch first\n";
    return exit_well;
}

}  // namespace

void add_wheel_commands(Commands& commands) {
    commands.add<YarnArguments>("yarn", "say what a skein in hand is, and how long", declare_yarn, run_yarn);
    commands.add<ProjectArguments>("project", "say what a batt's yarn is enough for", declare_project,
                                   run_project);
}

}  // namespace battwright::command
