#include <iostream>

#include "command/command.hpp"
#ifdef BATTWRIGHT_WITH_WINDOW
#include "window/shell/window.hpp"
#endif

int main(int argc, char** argv) {
    battwright::command::Surroundings surroundings;
    surroundings.out = &std::cout;
    surroundings.err = &std::cerr;
#ifdef BATTWRIGHT_WITH_WINDOW
    namespace window = battwright::window;
    if (window::display_available()) {
        surroundings.open_window = [](const std::string& recipe,
                                      const battwright::fibre::Catalogue& catalogue) {
            window::Options options;
            if (!recipe.empty()) options.recipe = recipe;
            options.catalogue = &catalogue;
            return window::run(options);
        };
    }
#endif
    return battwright::command::run(argc, argv, surroundings);
}
