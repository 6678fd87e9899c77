// Inside this room: how the program's commands register, and where their forecasts take place.
#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "command/stash.hpp"
#include "forecast/forecast.hpp"

namespace battwright::command {

// Each command is one add(): its options, which live as long as its work, and the work that reads them.
class Commands {
  public:
    explicit Commands(Command app) : app_(app) {}

    // `declare` takes the command and its options; `work` takes the options and the context and gives the
    // exit code.
    template <class Options, class Declare, class Work>
    void add(const char* name, const char* about, const Declare& declare, const Work& work) {
        const auto options = std::make_shared<Options>();
        Command command = app_.add_subcommand(name, about);
        declare(command, *options);
        all_.push_back(
            {command, [options, work](const Context& context) { return work(*options, context); }});
    }
    // Does the one that was named; nothing when none was.
    std::optional<int> run(const Context& context) const;

  private:
    struct One {
        Command command;
        std::function<int(const Context&)> work;
    };
    Command app_;
    std::vector<One> all_;
};

// In the order of --help.
void add_forecast_commands(Commands& commands);  // forecast, check, strip
void add_card_commands(Commands& commands);      // card, tag, label
void add_wheel_commands(Commands& commands);     // yarn, project
void add_solve_commands(Commands& commands);     // scraps, match
void add_plan_commands(Commands& commands);      // sample, series
void add_stash_commands(Commands& commands);     // stash

// What the options of a command say of where its forecast takes place.
struct Foretelling {
    std::string light = "D65", optics = "stearns-noechel";
    std::string stash;          // whose skeins and batts teach; "" the usual one
    bool learns = false;        // from that
    std::string finished_yarn;  // weighed in place of the fibre
};
void add_light_options(Command& app, Foretelling& of);
void add_stash_option(Command& app, Foretelling& of);
void add_finished_yarn_option(Command& app, Foretelling& of);
struct Place {
    forecast::Bench bench;
    std::shared_ptr<const stash::Shelf> shelf;  // the lots recipes name; null without a stash
};
// A complaint names the option.
Place place_of(const Foretelling& of, const Context& context);
forecast::Forecast forecast_of(const std::string& recipe, const Place& place);
forecast::Forecast forecast_of(const std::string& recipe, const Foretelling& of, const Context& context);

// No display: what the window would have shown, as text and as files.
int run_without_window(const std::string& recipe, bool replace, const Context& context);

}  // namespace battwright::command
