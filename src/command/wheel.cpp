#include "command/wheel.hpp"

#include <optional>
#include <ostream>

#include "command/complain.hpp"
#include "command/json_value.hpp"
#include "command/layout.hpp"
#include "command/stash.hpp"
#include "measure/nearest.hpp"
#include "yarn/finish.hpp"
#include "yarn/project.hpp"
#include "yarn/unknown.hpp"

namespace battwright::command {
namespace {

using measure::Complaint;
using measure::Expected;
// A text option as a number, or nothing when it was not given; a fault names the option.
template <class Parse>
Expected<std::optional<double>> given(const std::string& text, const char* option, const Parse& parse) {
    if (text.empty()) return std::optional<double>{};
    auto value = parse(text);
    if (value) return std::optional<double>{*value};
    Complaint complaint = value.error();
    complaint.where = option;
    return tl::unexpected(complaint);
}

Expected<double> grams_of(const std::string& text) {
    auto mass = measure::parse_mass(text);
    if (!mass) return tl::unexpected(mass.error());
    return mass->grams;
}

Expected<double> density_of(const std::string& fibre, const fibre::Catalogue& catalogue) {
    if (fibre.empty()) return yarn::wool_density_g_cm3;
    if (const fibre::Kind* kind = catalogue.find(fibre)) return kind->density_g_cm3;
    const std::string question = measure::did_you_mean(fibre, catalogue.ids());
    return tl::unexpected(Complaint{"unknown fibre " + measure::quoted(fibre),
                                    question.empty() ? "use a fibre of the catalogue" : question, "--fibre"});
}

Expected<yarn::Skein> skein_of(const WheelArguments& args, const WheelCommands& commands,
                               const fibre::Catalogue& catalogue) {
    yarn::Skein skein;
    const auto grams = given(args.weight, "--weight", grams_of);
    const auto round = given(args.circumference, "--circumference", measure::parse_yarn_length_metres);
    const auto sample = given(args.sample_length, "--sample-length", measure::parse_yarn_length_metres);
    const auto sample_grams = given(args.sample_weight, "--sample-weight", grams_of);
    const auto density = density_of(args.fibre, catalogue);
    for (const auto* value : {&grams, &round, &sample, &sample_grams})
        if (!*value) return tl::unexpected(value->error());
    if (!density) return tl::unexpected(density.error());
    skein.grams = *grams;
    skein.circumference_m = *round;
    skein.sample_m = *sample;
    skein.sample_grams = *sample_grams;
    skein.density_g_cm3 = *density;
    if (commands.yarn.given("--turns")) skein.turns = args.turns;
    if (commands.yarn.given("--wpi")) skein.wpi = args.wpi;
    skein.plies = args.plies;
    return skein;
}

std::string label_json(const yarn::SkeinLabel& label) {
    Json root{{"length_m", label.length_m},      {"tex", label.tex}, {"tex_low", label.tex_low},
              {"tex_high", label.tex_high},      {"wpi", label.wpi}, {"class", label.class_name},
              {"twist_per_m", label.turns_per_m}};
    if (label.check)
        root.set("check", {{"disagrees", label.check->disagrees},
                           {"packing", label.check->packing},
                           {"z", label.check->z},
                           {"text", label.check->text}});
    return printed(root);
}

std::string label_text(const yarn::SkeinLabel& label) {
    std::string text = wrapped(label.class_name + ", about " + number(label.wpi, 0) + " wraps per inch" +
                                   (label.wpi_from_tex ? " (worked out from the grist)" : ""),
                               0);
    std::string grist = number(label.tex, 0) + " tex";
    if (label.tex_from_wraps)
        grist += " at a guess from the wraps (four in five between " + number(label.tex_low, 0) + " and " +
                 number(label.tex_high, 0) + ")";
    text += wrapped(grist, 0);
    if (label.length_m > 0.0)
        text += wrapped(measure::print_yarn_length(label.length_m, measure::YarnLengthUnit::metre) + ", " +
                            measure::print_yarn_length(label.length_m, measure::YarnLengthUnit::yard),
                        0);
    text += wrapped("a medium twist would be " + number(label.turns_per_m, 0) + " turns a metre (" +
                        number(label.turns_per_inch, 1) + " an inch)",
                    0);
    if (label.check && label.check->disagrees) text += wrapped(label.check->text, 0);
    return text + wrapped(yarn::measure_when, 0);
}

// One row of the project table.
std::string project_row(const yarn::Project& project, const yarn::YarnForecast& y,
                        measure::YarnLengthUnit unit) {
    const yarn::Enough enough = yarn::enough_for(project, y);
    const yarn::CardSoMuch card = yarn::card_for(project, y);
    const auto length = [&](double metres) { return measure::print_yarn_length(metres, unit); };
    return "  " + left(std::string(project.thing) + ", " + std::string(project.size), 28) +
           right(length(enough.need.low_m), 9) + " to " + left(length(enough.need.high_m), 9) +
           left(std::string(yarn::word_for(enough.verdict)), 10) +
           right(enough.more_grams > 0.0 ? measure::print_mass(enough.more_grams, measure::MassUnit::gram)
                                         : "-",
                 12) +
           right(measure::print_mass(card.sure_grams, measure::MassUnit::gram), 14) + "\n";
}

}  // namespace

WheelCommands add_wheel_commands(Command& app, WheelArguments& args) {
    WheelCommands commands;
    Command yarn = app.add_subcommand("yarn", "say what an unlabelled skein is");
    yarn.add_option("--weight", args.weight, "of the whole skein, as in \"100 g\"");
    yarn.add_option("--turns", args.turns, "counted round the niddy-noddy or skein winder");
    yarn.add_option("--circumference", args.circumference, "one turn of it, as in \"1.5 m\"");
    yarn.add_option("--sample-length", args.sample_length, "of a piece cut off, as in \"10 m\"");
    yarn.add_option("--sample-weight", args.sample_weight, "of that piece, as in \"4.2 g\"");
    yarn.add_option("--wpi", args.wpi, "wraps per inch, laid on without pulling");
    yarn.add_option("--plies", args.plies, "strands plied together");
    yarn.add_option("--fibre", args.fibre, "a fibre of the catalogue; wool when left out");
    yarn.add_flag("--json", args.json, "as JSON, units in the key names");
    commands.yarn = yarn;
    commands.project = app.add_subcommand("project", "say what a batt's yarn is enough for");
    commands.project.add_option("RECIPE", args.recipe, "a recipe file (.toml)").required();
    commands.project.add_option("--thing", args.thing, "only this: hat, cowl, mitts, socks, scarf ...");
    commands.project.add_option("--yarn-lengths", args.lengths, "m or yd");
    return commands;
}

int run_yarn(const WheelArguments& args, const WheelCommands& commands, const fibre::Catalogue& catalogue,
             const Surroundings& s) {
    const auto skein = skein_of(args, commands, catalogue);
    if (!skein) return complain(skein.error(), s);
    const auto label = yarn::label_of(*skein);
    if (!label) return complain(label.error(), s);
    *s.out << (args.json ? label_json(*label) : label_text(*label));
    return exit_well;
}

int run_project(const WheelArguments& args, const forecast::Forecast& forecast, const Surroundings& s) {
    if (args.lengths != "m" && args.lengths != "yd")
        return complain({"no yarn length unit '" + args.lengths + "'", "use m or yd", "--yarn-lengths"}, s);
    const auto unit = args.lengths == "yd" ? measure::YarnLengthUnit::yard : measure::YarnLengthUnit::metre;
    const auto& y = forecast.yarn;
    std::string rows;
    std::vector<std::string> things;
    for (const yarn::Project& project : yarn::projects()) {
        if (things.empty() || things.back() != project.thing) things.emplace_back(project.thing);
        if (args.thing.empty() || args.thing == project.thing) rows += project_row(project, y, unit);
    }
    if (rows.empty()) {
        const std::string question = measure::did_you_mean(args.thing, things);
        return complain({"no project " + measure::quoted(args.thing) + " in the table",
                         question.empty() ? "leave --thing out to see them all" : question, "--thing"},
                        s);
    }
    *s.out << forecast.recipe.name << ": " << measure::print_yarn_length(y.length_low_m, unit) << " to "
           << measure::print_yarn_length(y.length_high_m, unit) << " of " << y.class_name << " yarn\n"
           << (y.skeins_logged > 0 ? "  the yardage " + skeins_words(y.skeins_logged) + "\n" : "") << "  "
           << left("project", 28) << left("        takes about", 22) << left("yarn is", 10)
           << right("card more", 12) << right("card, safely", 14) << "\n"
           << rows << "  needs and sizes are common practice, no source: swatch first\n";
    return exit_well;
}

}  // namespace battwright::command
