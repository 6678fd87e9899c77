// From the shelf onto the drum, and back.
#include <algorithm>
#include <ostream>
#include <set>

#include "command/layout.hpp"
#include "command/recipe_in.hpp"
#include "command/stash_common.hpp"
#include "command/stash_json.hpp"
#include "command/stash_parts.hpp"
#include "forecast/forecast.hpp"
#include "recipe/file.hpp"
#include "recipe/file_name.hpp"
#include "shelving/lots.hpp"
#include "yarn/finish.hpp"

namespace battwright::command {
namespace {

struct CardOptions : Common {
    std::string recipe, date, note;
    int batts = 0;  // 0: all of them
};
struct BattOptions : Common {
    std::string batt, weight, date, note;
};

struct Written {
    std::string text, kept;  // as in RecipeKept
    forecast::Forecast forecast;
};

Written read_recipe(const CardOptions& o, const stash::Stash& stash, const Context& context) {
    const auto shelf = value_of(stash.shelf());
    auto read = recipe_kept(o.recipe, context.catalogue, shelving::lots_of(shelf));
    forecast::Bench bench;
    bench.catalogue = &context.catalogue;
    auto result = value_of(forecast::forecast(read.recipe, bench));
    return {std::move(read.text), std::move(read.kept), std::move(result)};
}

// What the first so many batts take of a component: as weighed out, or to the last bit where the scale shows
// nothing.
double grams_of_component(const forecast::Forecast& f, std::size_t component, std::size_t batts) {
    double grams = 0.0;
    for (std::size_t batt = 0; batt < batts; ++batt) grams += f.weigh_out.at(batt, component);
    if (grams > 0.0) return grams;
    return f.components[component].grams * static_cast<double>(batts) /
           static_cast<double>(f.weigh_out.batts);
}

std::vector<stash::Line> lines_of(const Written& written, const std::string& path, std::size_t batts) {
    const forecast::Forecast& f = written.forecast;
    std::vector<stash::Line> lines;
    for (std::size_t i = 0; i < f.components.size(); ++i) {
        const std::string& lot = f.recipe.components[i].lot;
        if (lot.empty())
            throw Failed{recipe::at_field(
                {"component " + std::to_string(i + 1) + " (" + f.components[i].label + ") points at no lot",
                 "add lot = \"MARK\" with the mark on its bag"},
                written.text, path, "component " + std::to_string(i + 1))};
        lines.push_back({lot, grams_of_component(f, i, batts)});
    }
    return lines;
}

std::set<std::string> kinds_in(const std::vector<recipe::Content>& content) {
    std::set<std::string> kinds;
    for (const recipe::Content& part : content) kinds.insert(part.fibre);
    return kinds;
}

// A component written as one fibre that takes from a lot of another is carded all the same, but said.
void note_other_kinds(const forecast::Forecast& f, const stash::Stash& stash, const Context& context) {
    for (const recipe::Component& component : f.recipe.components) {
        const auto shelved = stash.lot(component.lot);
        if (!shelved || kinds_in(shelved->lot.content) == kinds_in(component.content)) continue;
        *context.s.err << "note: lot " << shelved->lot.mark << " " << measure::quoted(shelved->lot.name)
                       << " is of another fibre than the recipe says for it\n";
    }
}

// The clean weight is what the recipe asks for; as it lies the lot gives more.
void note_raw(const forecast::Forecast& f, const stash::Stash& stash, const Context& context) {
    std::set<std::string> told;
    for (const recipe::Component& component : f.recipe.components) {
        const auto shelved = stash.lot(component.lot);
        if (!shelved || !shelved->lot.raw || !told.insert(shelved->lot.mark).second) continue;
        *context.s.err << "note: lot " << shelved->lot.mark << " " << measure::quoted(shelved->lot.name)
                       << " is raw: scour it before it is carded; the weights are of clean fibre, and "
                       << number(100.0 - shelved->lot.yield_pct, 0)
                       << " % more or less is lost in the bath\n";
    }
}

// A lot the shelf has not is told where the recipe names it.
void check_lots(const Written& written, const std::string& path, const stash::Stash& stash) {
    const auto& components = written.forecast.recipe.components;
    for (std::size_t i = 0; i < components.size(); ++i) {
        const auto shelved = stash.lot(components[i].lot);
        if (!shelved && shelved.error().where == "mark")
            throw Failed{recipe::at_field(shelved.error(), written.text, path,
                                          "component " + std::to_string(i + 1) + " lot")};
    }
}

std::size_t batt_count_of(const CardOptions& o, const forecast::Forecast& f) {
    const auto most = static_cast<int>(f.weigh_out.batts);
    if (!o.given("--batts")) return f.weigh_out.batts;
    if (o.batts >= 1 && o.batts <= most) return static_cast<std::size_t>(o.batts);
    fail("the recipe makes " + counted(most, "batt", "batts") + " on its carder, not " +
             std::to_string(o.batts),
         std::string(most == 1 ? "leave it out" : "give 1 to " + std::to_string(most)) +
             ", or raise the recipe's total",
         "--batts");
}

stash::Carding carding_of(const CardOptions& o, const Written& written) {
    const forecast::Forecast& f = written.forecast;
    const auto batts = batt_count_of(o, f);
    stash::Carding carding;
    carding.name = recipe::title_of(f.recipe);
    carding.date = o.date;
    carding.recipe = written.kept;
    carding.preparation = recipe::preparation_of(f.recipe);
    carding.batts = static_cast<int>(batts);
    carding.lines = lines_of(written, o.recipe, batts);
    carding.retained_share = yarn::retained_share(f.strands) * f.wear.kept_share;
    carding.colour = f.colour.lab;
    carding.notes = o.note;
    return carding;
}

std::string carded_text(const stash::Batt& batt, const Common& common) {
    std::string text = "batt " + std::to_string(batt.id) + ": " + batt.carding.name + ", " +
                       counted(batt.carding.batts, "batt", "batts") + "; taken from the shelf:\n";
    for (const stash::Line& line : batt.carding.lines)
        text += right(common.mass(line.grams), 10) + "  " + line.mark + "\n";
    return text + "Weigh what comes off the drum: battwright stash off-drum " + std::to_string(batt.id) +
           " WEIGHT\n";
}

Answer card(const Context& context, const CardOptions& o) {
    auto stash = open_stash(o, context, Opening::writing);
    const auto written = read_recipe(o, stash, context);
    const auto carding = carding_of(o, written);
    check_lots(written, o.recipe, stash);
    const auto batt = stash.card_it(carding);
    if (!batt) {
        const stash::Refusal& refusal = batt.error();
        if (!o.json || refusal.short_lines.empty()) throw Failed{refusal.complaint};
        *context.s.err << measure::to_line(refusal.complaint) << "\n";
        return Answer{printed({{"short", shortfalls_json(refusal.short_lines)}}), exit_bad_input};
    }
    note_other_kinds(written.forecast, stash, context);
    note_raw(written.forecast, stash, context);
    return Answer{o.json ? printed(batt_json(*batt)) : carded_text(*batt, o)};
}

Answer undo_card(const Context& context, const BattOptions& o) {
    const auto id = id_of(o.batt, "BATT");
    auto stash = open_stash(o, context, Opening::writing);
    value_of(stash.take_back(id, o.note, o.date));
    const auto batt = value_of(stash.batt(id));
    if (o.json) return Answer{printed(batt_json(batt))};
    return Answer{"batt " + o.batt + " is taken back; its fibre is on the shelf again\n"};
}

std::string off_drum_text(const stash::Batt& batt, const stash::CardingHabit& habit) {
    const auto preparation = batt.carding.preparation;
    const double fed = batt.fed_grams * batt.carding.retained_share;
    const yarn::Range range = habit.share_80_percent(preparation);
    const auto pct = [](double share) { return measure::print_percent(100.0 * share); };
    return "batt " + std::to_string(batt.id) + ": " + pct(*batt.off_drum_grams / fed) +
           " of what was fed came off the drum\n" +
           wrapped("From now on " + pct(habit.share(preparation)) +
                       " is expected (four batts in five between " + pct(range.low) + " and " +
                       pct(range.high) + "); that rests on " +
                       counted(habit.of(preparation).count, "batt", "batts") + " of yours.",
                   0);
}

Answer off_drum(const Context& context, const BattOptions& o) {
    const auto id = id_of(o.batt, "BATT");
    const auto grams = weight_of(o.weight, "WEIGHT");
    auto stash = open_stash(o, context, Opening::writing);
    value_of(stash.off_the_drum(id, grams, o.note, o.date));
    const auto batt = value_of(stash.batt(id));
    if (o.json) return Answer{printed(batt_json(batt))};
    const auto habit = value_of(stash.carding_habit());
    return Answer{off_drum_text(batt, habit)};
}

std::string batts_text(const std::vector<stash::Batt>& batts, measure::MassUnit unit) {
    if (batts.empty()) return "Nothing was carded from the shelf yet.\n";
    std::string text = right("batt", 7) + "  " + left("date", 12) + right("batts", 5) + right("fed", 10) +
                       right("off drum", 10) + "  name\n";
    for (const stash::Batt& batt : batts)
        text += right(std::to_string(batt.id), 7) + "  " + left(batt.carding.date, 12) +
                right(std::to_string(batt.carding.batts), 5) +
                right(measure::print_mass(batt.fed_grams, unit), 10) +
                right(batt.off_drum_grams ? measure::print_mass(*batt.off_drum_grams, unit) : "-", 10) +
                "  " + batt.carding.name +
                (batt.taken_back_on.empty() ? "" : " (taken back on " + batt.taken_back_on + ")") + "\n";
    return text;
}

Answer list_batts(const Context& context, const Common& o) {
    const auto stash = open_stash(o, context, Opening::reading);
    const auto batts = value_of(stash.batts());
    if (o.json) return Answer{printed({{"batts", list_json(batts, batt_json)}})};
    return Answer{batts_text(batts, o.units.mass)};
}

}  // namespace

void add_batt_verbs(StashCommands& commands) {
    add_verb<CardOptions>(
        commands, "card", "take a recipe's weigh-out from the shelf, all of it or nothing",
        [](Command& app, CardOptions& o) {
            app.add_option("RECIPE", o.recipe, "a recipe file whose components name their lots").required();
            app.add_option("--batts", o.batts, "so many of its batts; all unless given");
            app.add_option("--date", o.date, "today unless given, as in 2024-05-17");
            app.add_option("--note", o.note, "anything worth keeping");
        },
        card);
    const auto add_batt = [](Command& app, BattOptions& o) {
        app.add_option("BATT", o.batt, "its number, from stash batts").required();
        app.add_option("--date", o.date, "today unless given");
        app.add_option("--note", o.note, "anything worth keeping");
    };
    add_verb<BattOptions>(commands, "undo-card", "it was not carded after all: put the fibre back", add_batt,
                          undo_card);
    add_verb<BattOptions>(
        commands, "off-drum", "what came off the drum, all batts of the carding together",
        [add_batt](Command& app, BattOptions& o) {
            add_batt(app, o);
            app.add_option("WEIGHT", o.weight, "as in \"97 g\"").required();
        },
        off_drum);
    add_verb<Common>(
        commands, "batts", "what was carded from the shelf", [](Command&, Common&) {}, list_batts);
}

}  // namespace battwright::command
