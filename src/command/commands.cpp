#include "command/commands.hpp"

#include "command/complain.hpp"
#include "command/recipe_in.hpp"
#include "shelving/lots.hpp"
#include "shelving/photo.hpp"

namespace battwright::command {

std::optional<int> Commands::run(const Context& context) const {
    for (const One& one : all_)
        if (one.command.chosen()) return one.work(context);
    return std::nullopt;
}

void add_light_options(Command& app, Foretelling& of) {
    app.add_option("--light", of.light, "D65 (daylight), A (lamp) or F2 (shop light)");
    app.add_option("--optics", of.optics, "stearns-noechel, friele or kubelka-munk");
}

void add_stash_option(Command& app, Foretelling& of) {
    of.learns = true;
    app.add_option(
        "--stash", of.stash,
        "the stash whose skeins and batts the forecast learns from, and whose lots the recipe names");
}

void add_finished_yarn_option(Command& app, Foretelling& of) {
    app.add_option("--finished-yarn", of.finished_yarn,
                   "the yarn's own weight, as in \"92 g\", when that is known and not the fibre's");
}

Place place_of(const Foretelling& of, const Context& context) {
    Place place;
    forecast::Bench& bench = place.bench;
    bench.catalogue = &context.catalogue;
    const Taught taught = of.learns ? taught_from(of.stash, context.catalogue, context.s) : Taught{};
    bench.light = value_of(colour::parse_light(of.light), "--light");
    bench.optics.optics = value_of(colour::parse_optics(of.optics), "--optics");
    bench.calibration = taught.calibration;
    shelving::lay_on(taught.hands, bench);
    place.shelf = taught.shelf;
    if (!of.finished_yarn.empty())
        bench.yarn_grams = value_of(measure::parse_mass(of.finished_yarn), "--finished-yarn").grams;
    return place;
}

forecast::Forecast forecast_of(const std::string& recipe, const Place& place) {
    const auto read = recipe_in(recipe, *place.bench.catalogue, shelving::lots_of(place.shelf));
    auto result = forecast::forecast(read, place.bench);
    if (result && place.shelf) shelving::add_lot_findings(*result, *place.shelf);
    if (!result && result.error().line == 0) {
        std::string& where = result.error().where;
        where = recipe + (where.empty() ? "" : ": " + where);
    }
    return value_of(std::move(result));
}

forecast::Forecast forecast_of(const std::string& recipe, const Foretelling& of, const Context& context) {
    return forecast_of(recipe, place_of(of, context));
}

}  // namespace battwright::command
