// Inside this room: what the verbs of `stash` share.
#pragma once

#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <string>

#include "command/complain.hpp"
#include "command/report.hpp"
#include "command/stash.hpp"
#include "measure/units.hpp"
#include "stash/stash.hpp"
#include "text/words.hpp"

namespace battwright::command {

// The units of a verb's answer and of its complaints.
struct ShownUnits {
    measure::MassUnit mass = measure::MassUnit::gram;
    measure::LengthUnit length = measure::LengthUnit::millimetre;
    measure::YarnLengthUnit yarn = measure::YarnLengthUnit::metre;
};

// Options of every verb.
struct Common {
    std::string file;  // --stash
    bool json = false;
    std::string weights = "g", lengths = "mm", yarn_lengths = "m";
    Command app;
    ShownUnits units;  // what the options above say

    std::string mass(double grams) const { return measure::print_mass(grams, units.mass); }
    std::string yarn(double metres) const { return measure::print_yarn_length(metres, units.yarn); }
    // In the unit of the weight that was typed, unless another was asked for.
    std::string mass_as(const std::string& typed, double grams) const;
    bool given(const char* option) const { return app.given(option); }
    // A text that was given, "" too, takes the place of what was there.
    void take(const char* option, const std::string& text, std::string& to) const {
        if (given(option)) to = text;
    }
};

void add_unit_options(Command& app, Common& common);
// Does the verb's work; what it complains of is told in the units that the options name.
Answer in_own_units(Common& common, const std::function<Answer()>& work);

// Adds the verb to the list: its options are kept alive by the work. `add` gives the app and the options,
// `work` takes the context and the options.
template <class Options, class Add, class Work>
void add_verb(StashCommands& commands, const char* name, const char* about, const Add& add,
              const Work& work) {
    const auto options = std::make_shared<Options>();
    Command app = commands.stash.add_subcommand(name, about);
    options->app = app;
    app.add_option("--stash", options->file, "another stash than the usual one");
    app.add_flag("--json", options->json, "as JSON, units in the key names");
    add_unit_options(app, *options);
    add(app, *options);
    commands.verbs.push_back({app, [options, work](const Context& context) {
                                  return in_own_units(*options, [&] { return work(context, *options); });
                              }});
}

// The stash the options name, else the usual one.
std::filesystem::path stash_path(const Common& common);
enum class Opening { reading, writing, creating };
// Only `creating` makes a file that is not there.
stash::Stash open_stash(const Common& common, const Context& context, Opening opening);

// A text as a value; the fault names the option. An empty text is an empty optional.
template <class Parse>
auto given(const std::string& text, const char* option, const Parse& parse) {
    using Value = typename decltype(parse(text))::value_type;
    return text.empty() ? std::optional<Value>() : std::optional<Value>(value_of(parse(text), option));
}
// What was given takes the place of what was there.
template <class Value, class To>
void put(std::optional<Value> value, To& to) {
    if (value) to = std::move(*value);
}
// An option that was given several times, as one text.
std::string with_semicolons(const std::vector<std::string>& parts);

Expected<double> grams_of(const std::string& text);
Expected<double> millimetres_of(const std::string& text);
// A weight that has to be there; zero passes.
double weight_of(const std::string& text, const char* option);
std::optional<std::int64_t> whole_above_zero(const std::string& text);
std::int64_t id_of(const std::string& text, const char* option);
// "12.50 EUR", or "12.50" in the stash's own currency. The first currency named becomes the stash's own.
stash::Money money_of(const std::string& text, stash::Stash& stash);
// The kind that a word for a fibre means, or a complaint that asks what was meant.
const fibre::Kind& kind_named(const std::string& word, const fibre::Catalogue& catalogue, const char* option);
std::optional<recipe::Preparation> preparation_given(const std::string& word);

// Lines for a person.
// "#2f5d50 60 %, #b08d3c 40 %"
std::string palette_text(const std::vector<recipe::Tint>& palette);
std::string money_text(const stash::Money& money);
std::string cost_text(const stash::Cost& cost, const Common& common);
using text::counted;

}  // namespace battwright::command
