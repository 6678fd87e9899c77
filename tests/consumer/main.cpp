// What a recipe weighs, its colour and the yarn's length, by the installed engine.
#include <battwright/engine.hpp>
#include <cstdio>

using namespace battwright;

int main(int argc, char** argv) {
    if (argc < 2) return 2;
    const fibre::Catalogue& catalogue = fibre::Catalogue::builtin();
    const auto recipe = recipe::read_file(argv[1], catalogue);
    forecast::Bench bench;
    bench.catalogue = &catalogue;
    const auto told = recipe ? forecast::forecast(*recipe, bench) : tl::make_unexpected(recipe.error());
    if (!told) {
        std::fprintf(stderr, "%s\n", measure::to_line(told.error()).c_str());
        return 2;
    }
    std::printf("%.17g %s %.17g\n", told->total_grams, colour::hex(told->colour.srgb).c_str(),
                told->yarn.length_m);
}
