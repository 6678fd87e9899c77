// `battwright forecast RECIPE --json` with the engine alone, for a second compiler and standard library.
#include <cstdio>

#include "command/report.hpp"
#include "recipe/file.hpp"

using namespace battwright;

namespace {

int fail(const measure::Complaint& complaint) {
    std::fprintf(stderr, "%s\n", measure::to_line(complaint).c_str());
    return 2;
}

}  // namespace

int main(int count, char** arguments) {
    if (count != 2) return fail({"no recipe is named", "name one file"});
    const auto& catalogue = fibre::Catalogue::builtin();
    const auto recipe = recipe::read_file(arguments[1], catalogue);
    if (!recipe) return fail(recipe.error());
    forecast::Bench bench;
    bench.catalogue = &catalogue;
    const auto made = forecast::forecast(*recipe, bench);
    if (!made) return fail(made.error());
    std::fputs(command::forecast_json(*made, forecast::batt_of(*made, {})).c_str(), stdout);
    return 0;
}
