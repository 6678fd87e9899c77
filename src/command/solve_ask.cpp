#include "command/solve_ask.hpp"

#include <algorithm>
#include <chrono>

#include "command/recipe_in.hpp"
#include "measure/nearest.hpp"
#include "shelving/lots.hpp"
#include "shelving/photo.hpp"
#include "shelving/wishes.hpp"
#include "stash/date.hpp"

namespace battwright::command {
namespace {

SolveRequest stock_of_stash(const SolveArguments& args, const Context& context) {
    const auto stash = open_stash(args.common, context, Opening::reading);
    const auto shelf = value_of(stash.shelf());
    const auto currency = value_of(stash.currency());
    const auto learnt = value_of(stash.hands());
    std::vector<shelving::PricedLot> lots;
    for (const auto& lot : shelf->lots) {
        const auto movements = value_of(stash.movements(lot->lot.mark));
        lots.push_back({lot, shelving::cost_per_gram(*lot, movements, currency)});
    }
    SolveRequest asked;
    asked.stock = shelving::stock_of(lots, *stash::parse_date(stash::today()));
    asked.currency = currency;
    asked.hands = learnt.hands;
    asked.shelf = shelf;
    return asked;
}

SolveRequest stock_of_recipe(const SolveArguments& args, const Context& context) {
    const auto taught = taught_from({}, context.catalogue, context.s);
    SolveRequest asked;
    asked.shelf = taught.shelf;
    const auto recipe = recipe_in(args.from, context.catalogue, shelving::lots_of(asked.shelf));
    asked.stock = value_of(shelving::stock_of(recipe), "--from");
    return asked;
}

// A lot by the id it has here, its mark in any way it may be written, or its name.
std::string lot_named(const std::string& word, const shelving::Stock& stock, const char* option) {
    const auto mark = stash::parse_mark(word);
    std::vector<std::string> ids;
    for (const auto& lot : stock.lots) {
        if (lot.id == word || lot.name == word || (mark && lot.id == *mark)) return lot.id;
        ids.push_back(lot.id);
    }
    const std::string question = measure::did_you_mean(word, ids);
    fail("no lot is called " + measure::quoted(word),
         question.empty() ? "use a lot's mark, or the number of a component" : question, option);
}

std::vector<std::string> lots_named(const std::vector<std::string>& words, const shelving::Stock& stock,
                                    const char* option) {
    std::vector<std::string> ids;
    for (const std::string& word : words) {
        const auto id = lot_named(word, stock, option);
        if (std::find(ids.begin(), ids.end(), id) == ids.end()) ids.push_back(id);
    }
    return ids;
}

bool holds(const solve::Lot& lot, const shelving::Named& wanted, const fibre::Catalogue& catalogue) {
    return std::any_of(lot.content.begin(), lot.content.end(), [&](const recipe::Content& content) {
        const fibre::Kind* kind = catalogue.find(content.fibre);
        if (kind == nullptr) return false;
        if (wanted.of == solve::ShareOf::family) return fibre::word_for(kind->family) == wanted.what;
        return wanted.of == solve::ShareOf::label ? kind->label_eu == wanted.what : kind->id == wanted.what;
    });
}

template <class Keep>
void keep_lots(shelving::Stock& stock, const Keep& keep) {
    std::vector<bool> kept;
    for (const auto& lot : stock.lots) kept.push_back(keep(lot));
    stock = shelving::part_of(stock, kept);
}

void choose_lots(shelving::Stock& stock, const SolveArguments& args, const fibre::Catalogue& catalogue) {
    if (!args.lots.empty()) {
        const auto ids = lots_named(args.lots, stock, "--lot");
        keep_lots(stock, [&](const solve::Lot& lot) {
            return std::find(ids.begin(), ids.end(), lot.id) != ids.end();
        });
    }
    std::vector<shelving::Named> kinds;
    for (const std::string& word : args.kinds)
        kinds.push_back(value_of(shelving::named(word, catalogue, {}), "--kind"));
    if (!kinds.empty())
        keep_lots(stock, [&](const solve::Lot& lot) {
            return std::any_of(kinds.begin(), kinds.end(),
                               [&](const auto& kind) { return holds(lot, kind, catalogue); });
        });
    if (args.scraps_only) keep_lots(stock, [](const solve::Lot& lot) { return lot.scrap; });
}

// The carder named, else the recipe's own, which for a stash is the usual one.
recipe::Carder carder_of(const SolveArguments& args, const shelving::Stock& stock) {
    if (args.carder.empty() && stock.frame.carding.own) return *stock.frame.carding.own;
    const std::string& id = args.carder.empty() ? stock.frame.carding.carder : args.carder;
    if (const recipe::Carder* carder = recipe::find_carder(id)) return *carder;
    std::vector<std::string> ids;
    for (const auto& preset : recipe::carder_presets()) ids.push_back(preset.id);
    const std::string question = measure::did_you_mean(id, ids);
    fail("no carder is called " + measure::quoted(id), question.empty() ? measure::ask_for(ids) : question,
         "--carder");
}

void ask_batts(SolveRequest& asked, const SolveArguments& args) {
    const auto carder = carder_of(args, asked.stock);
    if (!args.carder.empty()) {
        asked.stock.frame.carding.own.reset();
        asked.stock.frame.carding.carder = carder.id;
        asked.stock.frame.carding_written = true;
    }
    solve::Batts& batts = asked.problem.goal.batts;
    const bool automatic = args.batts.empty() ? !args.carder.empty() : args.batts == "auto";
    if (automatic || !args.carder.empty()) {
        batts.least_grams = carder.load_low_grams;
        batts.most_grams = carder.load_high_grams;
    }
    if (automatic) batts.count = 0;
    if (automatic || args.batts.empty()) return;
    const auto count = whole_above_zero(args.batts);
    if (!count || *count > 24)
        fail(measure::quoted(args.batts) + " is no number of batts", "give 1 to 24, or auto", "--batts");
    batts.count = static_cast<std::size_t>(*count);
}

Expected<double> number_of(const std::string& text) {
    const auto quantity = measure::parse_quantity(text, "number", "1.5");
    if (quantity && !quantity->unit.empty())
        return tl::unexpected(
            Complaint{"the number has " + measure::quoted(quantity->unit) + " behind it", "leave that out"});
    return quantity.map([](const measure::Quantity& number) { return number.value; });
}

void ask_keep_back(SolveRequest& asked, const std::string& text) {
    if (text.find('%') != std::string::npos) {
        asked.problem.goal.bounds.keep_back_pct = value_of(measure::parse_percent(text), "--keep-back");
        return;
    }
    const auto grams = given(text, "--keep-back", grams_of);
    for (auto& lot : asked.stock.lots) lot.keep_back_grams = grams.value_or(0.0);
}

void ask_figures(SolveRequest& asked, const SolveArguments& args) {
    solve::Bounds& bounds = asked.problem.goal.bounds;
    bounds.most_cost = given(args.most_cost, "--most-cost", number_of);
    bounds.staple_spread = given(args.staple_spread, "--staple-spread", number_of);
    bounds.least_staple_mm = given(args.least_staple, "--least-staple", millimetres_of);
    bounds.least_used_grams =
        given(args.least_used, "--least-used", grams_of).value_or(shelving::least_used_grams);
    asked.problem.goal.scale_step_grams = given(args.step, "--step", grams_of).value_or(0.1);
    if (args.most_lots < 0) fail("fewer lots than none", "give 1 or more", "--most-lots");
    if (args.most_lots > 0) bounds.most_lots = static_cast<std::size_t>(args.most_lots);
}

// A recipe has room for so many components.
void keep_within_a_recipe(SolveRequest& asked) {
    auto& most = asked.problem.goal.bounds.most_lots;
    if (asked.stock.lots.size() > shelving::most_lots_of_a_batt)
        most = std::min(most.value_or(shelving::most_lots_of_a_batt), shelving::most_lots_of_a_batt);
}

struct NamedTarget {
    solve::Target target;
    std::string name;
};
NamedTarget target_named(const std::string& text, const char* option, const SolveRequest& asked,
                         const Context& context) {
    if (const auto target = shelving::parse_target(text)) return {value_of(*target, option), text};
    const auto recipe = recipe_in(text, context.catalogue, shelving::lots_of(asked.shelf));
    forecast::Bench bench;
    bench.catalogue = &context.catalogue;
    shelving::lay_on(asked.hands, bench);
    const auto forecast = value_of(forecast::forecast(recipe, bench));
    return NamedTarget{solve::target_of(forecast.colour.reflectance),
                       recipe.name.empty() ? text : recipe.name};
}

}  // namespace

SolveRequest stock_asked(const SolveArguments& args, const Context& context) {
    if (!args.from.empty() && !args.common.file.empty())
        fail("a recipe and a stash at once", "give one of the two", "--from");
    auto asked = args.from.empty() ? stock_of_stash(args, context) : stock_of_recipe(args, context);
    if (asked.stock.lots.empty()) fail("the shelf is empty", "add lots with battwright stash add");
    choose_lots(asked.stock, args, context.catalogue);
    if (asked.stock.lots.empty())
        fail("no lot is left to choose from", "ask for other lots, or for more of them",
             args.scraps_only ? "--scraps" : "--kind");
    return asked;
}

void ask_bounds(SolveRequest& asked, const SolveArguments& args, const Context& context) {
    solve::Goal& goal = asked.problem.goal;
    if (!args.total.empty()) goal.total = value_of(shelving::parse_total(args.total), "--total");
    ask_batts(asked, args);
    ask_figures(asked, args);
    if (!args.keep_back.empty()) ask_keep_back(asked, args.keep_back);
    for (const std::string& text : args.bounds)
        goal.bounds.shares.push_back(
            value_of(shelving::parse_share_bound(text, context.catalogue, asked.stock.lots), "--bound"));
    goal.second_light = value_of(colour::parse_light(args.light2), "--light2");
    keep_within_a_recipe(asked);
    asked.problem.lots = asked.stock.lots;
}

void ask_use_up(SolveRequest& asked, const SolveArguments& args, bool named_only) {
    if (args.oldest && args.smallest)
        fail("oldest and smallest first at once", "ask for one of the two", "--oldest");
    const auto by = args.oldest     ? solve::UseUpBy::oldest
                    : args.smallest ? solve::UseUpBy::smallest_first
                                    : solve::UseUpBy::weight;
    if (named_only && args.use_up.empty()) return;
    solve::UseUp use_up = solve::use_up_scraps(asked.stock.lots, by);
    if (!args.use_up.empty()) use_up.lots = lots_named(args.use_up, asked.stock, "--use-up");
    if (use_up.lots.empty())
        fail("there are no scraps among these lots",
             "name the lots to use up, as in --use-up " + asked.stock.lots.front().id, "--use-up");
    asked.problem.goal.use_up = std::move(use_up);
}

void ask_target(SolveRequest& asked, const SolveArguments& args, const Context& context) {
    if (args.target.empty() == args.photo.photo.empty())
        fail(args.photo.photo.empty() ? "no colour to match" : "two colours to match",
             "give a colour, a recipe or --photo FILE", "TARGET");
    NamedTarget first;
    if (!args.photo.photo.empty()) {
        const colour::Srgb colour = palette_from(args.photo).front().colour;  // the largest first
        first = {solve::target_of(colour), colour::hex(colour) + " of the photo"};
    } else {
        first = target_named(args.target, "TARGET", asked, context);
    }
    asked.title = "Match for " + first.name;
    asked.problem.goal.target = first.target;
    if (args.to.empty()) return;
    const auto last = target_named(args.to, "--to", asked, context);
    if (args.steps < 2 || args.steps > 24)
        fail(std::to_string(args.steps) + " steps", "give 2 to 24, both ends counted", "--steps");
    asked.targets = solve::between(first.target.lab, last.target.lab, static_cast<std::size_t>(args.steps));
    asked.title = "From " + first.name + " to " + last.name;
}

}  // namespace battwright::command
