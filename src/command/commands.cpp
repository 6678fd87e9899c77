#include "command/commands.hpp"

#include "command/recipe_in.hpp"
#include "shelving/lots.hpp"
#include "shelving/photo.hpp"

namespace battwright::command {

using measure::Expected;

std::optional<int> Commands::run(const Desk& desk) const {
    for (const One& one : all_)
        if (one.command.chosen()) return one.work(desk);
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

Expected<Place> place_of(const Foretelling& of, const Desk& desk) {
    const auto named = [](measure::Complaint complaint, const char* option) {
        complaint.where = option;
        return tl::make_unexpected(std::move(complaint));
    };
    Place place;
    forecast::Bench& bench = place.bench;
    bench.catalogue = &desk.catalogue;
    const Expected<Taught> taught = of.learns ? taught_from(of.stash, desk.catalogue, desk.s) : Taught{};
    if (!taught) return tl::make_unexpected(taught.error());
    const auto light = colour::parse_light(of.light);
    if (!light) return named(light.error(), "--light");
    const auto optics = colour::parse_optics(of.optics);
    if (!optics) return named(optics.error(), "--optics");
    bench.light = *light;
    bench.optics.optics = *optics;
    bench.calibration = taught->calibration;
    shelving::lay_on(taught->hands, bench);
    place.shelf = taught->shelf;
    if (of.finished_yarn.empty()) return place;
    const auto mass = measure::parse_mass(of.finished_yarn);
    if (!mass) return named(mass.error(), "--finished-yarn");
    bench.yarn_grams = mass->grams;
    return place;
}

Expected<forecast::Forecast> forecast_of(const std::string& recipe, const Place& place) {
    auto read = recipe_in(recipe, *place.bench.catalogue, shelving::lots_of(place.shelf));
    if (!read) return tl::make_unexpected(read.error());
    auto result = forecast::forecast(*read, place.bench);
    if (result && place.shelf) shelving::add_lot_findings(*result, *place.shelf);
    if (!result && result.error().line == 0) {
        std::string& where = result.error().where;
        where = recipe + (where.empty() ? "" : ": " + where);
    }
    return result;
}

Expected<forecast::Forecast> forecast_of(const std::string& recipe, const Foretelling& of, const Desk& desk) {
    return place_of(of, desk).and_then([&](const Place& place) { return forecast_of(recipe, place); });
}

}  // namespace battwright::command
