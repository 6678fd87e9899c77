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

Complaint at(const char* option, Complaint complaint) {
    complaint.where = option;
    return complaint;
}

Expected<Asked> stock_of_stash(const SolveArguments& args, const Desk& desk) {
    const auto stash = open_stash(args.common, desk, Opening::reading);
    if (!stash) return tl::unexpected(stash.error());
    const auto shelf = stash->shelf();
    if (!shelf) return tl::unexpected(shelf.error());
    const auto currency = stash->currency();
    if (!currency) return tl::unexpected(currency.error());
    const auto learnt = stash->hands();
    if (!learnt) return tl::unexpected(learnt.error());
    std::vector<shelving::PricedLot> lots;
    for (const auto& lot : (*shelf)->lots) {
        const auto movements = stash->movements(lot->lot.mark);
        if (!movements) return tl::unexpected(movements.error());
        lots.push_back({lot, shelving::cost_per_gram(*lot, *movements, *currency)});
    }
    Asked asked;
    asked.stock = shelving::stock_of(lots, *stash::parse_date(stash::today()));
    asked.currency = *currency;
    asked.hands = learnt->hands;
    asked.shelf = *shelf;
    return asked;
}

Expected<Asked> stock_of_recipe(const SolveArguments& args, const Desk& desk) {
    const auto taught = taught_from({}, desk.catalogue, desk.s);
    if (!taught) return tl::unexpected(taught.error());
    Asked asked;
    asked.shelf = taught->shelf;
    const auto recipe = recipe_in(args.from, desk.catalogue, shelving::lots_of(asked.shelf));
    if (!recipe) return tl::unexpected(recipe.error());
    auto stock = shelving::stock_of(*recipe);
    if (!stock) return tl::unexpected(at("--from", stock.error()));
    asked.stock = std::move(*stock);
    return asked;
}

// A lot by the id it has here, its mark in any way it may be written, or its name.
Expected<std::string> lot_named(const std::string& word, const shelving::Stock& stock, const char* option) {
    const auto mark = stash::parse_mark(word);
    std::vector<std::string> ids;
    for (const auto& lot : stock.lots) {
        if (lot.id == word || lot.name == word || (mark && lot.id == *mark)) return lot.id;
        ids.push_back(lot.id);
    }
    const std::string question = measure::did_you_mean(word, ids);
    return tl::unexpected(
        Complaint{"no lot is called " + measure::quoted(word),
                  question.empty() ? "use a lot's mark, or the number of a component" : question, option});
}

Expected<std::vector<std::string>> lots_named(const std::vector<std::string>& words,
                                              const shelving::Stock& stock, const char* option) {
    std::vector<std::string> ids;
    for (const std::string& word : words) {
        const auto id = lot_named(word, stock, option);
        if (!id) return tl::unexpected(id.error());
        if (std::find(ids.begin(), ids.end(), *id) == ids.end()) ids.push_back(*id);
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

Expected<void> choose_lots(shelving::Stock& stock, const SolveArguments& args,
                           const fibre::Catalogue& catalogue) {
    if (!args.lots.empty()) {
        const auto ids = lots_named(args.lots, stock, "--lot");
        if (!ids) return tl::unexpected(ids.error());
        keep_lots(stock, [&](const solve::Lot& lot) {
            return std::find(ids->begin(), ids->end(), lot.id) != ids->end();
        });
    }
    std::vector<shelving::Named> kinds;
    for (const std::string& word : args.kinds) {
        const auto kind = shelving::named(word, catalogue, {});
        if (!kind) return tl::unexpected(at("--kind", kind.error()));
        kinds.push_back(*kind);
    }
    if (!kinds.empty())
        keep_lots(stock, [&](const solve::Lot& lot) {
            return std::any_of(kinds.begin(), kinds.end(),
                               [&](const auto& kind) { return holds(lot, kind, catalogue); });
        });
    if (args.scraps_only) keep_lots(stock, [](const solve::Lot& lot) { return lot.scrap; });
    return {};
}

// The carder named, else the recipe's own, which for a stash is the usual one.
Expected<recipe::Carder> carder_of(const SolveArguments& args, const shelving::Stock& stock) {
    if (args.carder.empty() && stock.frame.carding.own) return *stock.frame.carding.own;
    const std::string& id = args.carder.empty() ? stock.frame.carding.carder : args.carder;
    if (const recipe::Carder* carder = recipe::find_carder(id)) return *carder;
    std::vector<std::string> ids;
    for (const auto& preset : recipe::carder_presets()) ids.push_back(preset.id);
    const std::string question = measure::did_you_mean(id, ids);
    return tl::unexpected(Complaint{"no carder is called " + measure::quoted(id),
                                    question.empty() ? measure::ask_for(ids) : question, "--carder"});
}

Expected<void> ask_batts(Asked& asked, const SolveArguments& args) {
    const auto carder = carder_of(args, asked.stock);
    if (!carder) return tl::unexpected(carder.error());
    if (!args.carder.empty()) {
        asked.stock.frame.carding.own.reset();
        asked.stock.frame.carding.carder = carder->id;
        asked.stock.frame.carding_written = true;
    }
    solve::Batts& batts = asked.problem.goal.batts;
    const bool automatic = args.batts.empty() ? !args.carder.empty() : args.batts == "auto";
    if (automatic || !args.carder.empty()) {
        batts.least_grams = carder->load_low_grams;
        batts.most_grams = carder->load_high_grams;
    }
    if (automatic) batts.count = 0;
    if (automatic || args.batts.empty()) return {};
    const auto count = id_of(args.batts, "--batts");
    if (!count || *count > 24)
        return tl::unexpected(Complaint{measure::quoted(args.batts) + " is no number of batts",
                                        "give 1 to 24, or auto", "--batts"});
    batts.count = static_cast<std::size_t>(*count);
    return {};
}

Expected<double> number_of(const std::string& text) {
    const auto quantity = measure::parse_quantity(text, "number", "1.5");
    if (!quantity) return tl::unexpected(quantity.error());
    if (!quantity->unit.empty())
        return tl::unexpected(
            Complaint{"the number has " + measure::quoted(quantity->unit) + " behind it", "leave that out"});
    return quantity->value;
}

Expected<void> ask_keep_back(Asked& asked, const std::string& text) {
    if (text.find('%') != std::string::npos) {
        const auto percent = measure::parse_percent(text);
        if (!percent) return tl::unexpected(at("--keep-back", percent.error()));
        asked.problem.goal.bounds.keep_back_pct = *percent;
        return {};
    }
    const auto grams = given(text, "--keep-back", grams_of);
    if (!grams) return tl::unexpected(grams.error());
    for (auto& lot : asked.stock.lots) lot.keep_back_grams = grams->value_or(0.0);
    return {};
}

Expected<void> ask_figures(Asked& asked, const SolveArguments& args) {
    solve::Bounds& bounds = asked.problem.goal.bounds;
    const auto cost = given(args.most_cost, "--most-cost", number_of);
    const auto spread = given(args.staple_spread, "--staple-spread", number_of);
    const auto staple = given(args.least_staple, "--least-staple", millimetres_of);
    const auto used = given(args.least_used, "--least-used", grams_of);
    const auto step = given(args.step, "--step", grams_of);
    for (const auto* figure : {&cost, &spread, &staple, &used, &step})
        if (!*figure) return tl::unexpected(figure->error());
    bounds.most_cost = *cost;
    bounds.staple_spread = *spread;
    bounds.least_staple_mm = *staple;
    bounds.least_used_grams = used->value_or(shelving::least_used_grams);
    asked.problem.goal.scale_step_grams = step->value_or(0.1);
    if (args.most_lots < 0)
        return tl::unexpected(Complaint{"fewer lots than none", "give 1 or more", "--most-lots"});
    if (args.most_lots > 0) bounds.most_lots = static_cast<std::size_t>(args.most_lots);
    return {};
}

// A recipe has room for so many components.
void keep_within_a_recipe(Asked& asked) {
    auto& most = asked.problem.goal.bounds.most_lots;
    if (asked.stock.lots.size() > shelving::most_lots_of_a_batt)
        most = std::min(most.value_or(shelving::most_lots_of_a_batt), shelving::most_lots_of_a_batt);
}

struct Pointed {
    solve::Target target;
    std::string name;
};
Expected<Pointed> target_named(const std::string& text, const char* option, const Asked& asked,
                               const Desk& desk) {
    if (auto target = shelving::parse_target(text)) {
        if (!*target) return tl::unexpected(at(option, target->error()));
        return Pointed{**target, text};
    }
    const auto recipe = recipe_in(text, desk.catalogue, shelving::lots_of(asked.shelf));
    if (!recipe) return tl::unexpected(recipe.error());
    forecast::Bench bench;
    bench.catalogue = &desk.catalogue;
    shelving::lay_on(asked.hands, bench);
    const auto forecast = forecast::forecast(*recipe, bench);
    if (!forecast) return tl::unexpected(forecast.error());
    return Pointed{solve::target_of(forecast->colour.reflectance),
                   recipe->name.empty() ? text : recipe->name};
}

}  // namespace

Expected<Asked> stock_asked(const SolveArguments& args, const Desk& desk) {
    if (!args.from.empty() && !args.common.file.empty())
        return tl::unexpected(Complaint{"a recipe and a stash at once", "give one of the two", "--from"});
    auto asked = args.from.empty() ? stock_of_stash(args, desk) : stock_of_recipe(args, desk);
    if (!asked) return asked;
    if (asked->stock.lots.empty())
        return tl::unexpected(Complaint{"the shelf is empty", "add lots with battwright stash add", {}});
    if (auto chosen = choose_lots(asked->stock, args, desk.catalogue); !chosen)
        return tl::unexpected(chosen.error());
    if (asked->stock.lots.empty())
        return tl::unexpected(Complaint{"no lot is left to choose from",
                                        "ask for other lots, or for more of them",
                                        args.scraps_only ? "--scraps" : "--kind"});
    return asked;
}

Expected<void> ask_bounds(Asked& asked, const SolveArguments& args, const Desk& desk) {
    solve::Goal& goal = asked.problem.goal;
    if (!args.total.empty()) {
        const auto total = shelving::parse_total(args.total);
        if (!total) return tl::unexpected(at("--total", total.error()));
        goal.total = *total;
    }
    if (auto done = ask_batts(asked, args); !done) return done;
    if (auto done = ask_figures(asked, args); !done) return done;
    if (!args.keep_back.empty())
        if (auto done = ask_keep_back(asked, args.keep_back); !done) return done;
    for (const std::string& text : args.bounds) {
        const auto bound = shelving::parse_share_bound(text, desk.catalogue, asked.stock.lots);
        if (!bound) return tl::unexpected(at("--bound", bound.error()));
        goal.bounds.shares.push_back(*bound);
    }
    const auto light = colour::parse_light(args.light2);
    if (!light) return tl::unexpected(at("--light2", light.error()));
    goal.second_light = *light;
    keep_within_a_recipe(asked);
    asked.problem.lots = asked.stock.lots;
    return {};
}

Expected<void> ask_use_up(Asked& asked, const SolveArguments& args, bool named_only) {
    if (args.oldest && args.smallest)
        return tl::unexpected(
            Complaint{"oldest and smallest first at once", "ask for one of the two", "--oldest"});
    const auto by = args.oldest     ? solve::UseUpBy::oldest
                    : args.smallest ? solve::UseUpBy::smallest_first
                                    : solve::UseUpBy::weight;
    if (named_only && args.use_up.empty()) return {};
    solve::UseUp use_up = solve::use_up_scraps(asked.stock.lots, by);
    if (!args.use_up.empty()) {
        const auto ids = lots_named(args.use_up, asked.stock, "--use-up");
        if (!ids) return tl::unexpected(ids.error());
        use_up.lots = *ids;
    }
    if (use_up.lots.empty())
        return tl::unexpected(
            Complaint{"there are no scraps among these lots",
                      "name the lots to use up, as in --use-up " + asked.stock.lots.front().id, "--use-up"});
    asked.problem.goal.use_up = std::move(use_up);
    return {};
}

Expected<void> ask_target(Asked& asked, const SolveArguments& args, const Desk& desk) {
    if (args.target.empty() == args.photo.photo.empty())
        return tl::unexpected(
            Complaint{args.photo.photo.empty() ? "no colour to match" : "two colours to match",
                      "give a colour, a recipe or --photo FILE", "TARGET"});
    Pointed first;
    if (!args.photo.photo.empty()) {
        const auto palette = palette_from(args.photo);  // the largest first
        if (!palette) return tl::unexpected(palette.error());
        const colour::Srgb colour = palette->front().colour;
        first = {solve::target_of(colour), colour::hex(colour) + " of the photo"};
    } else {
        auto named = target_named(args.target, "TARGET", asked, desk);
        if (!named) return tl::unexpected(named.error());
        first = std::move(*named);
    }
    asked.title = "Match for " + first.name;
    asked.problem.goal.target = first.target;
    if (args.to.empty()) return {};
    const auto last = target_named(args.to, "--to", asked, desk);
    if (!last) return tl::unexpected(last.error());
    if (args.steps < 2 || args.steps > 24)
        return tl::unexpected(
            Complaint{std::to_string(args.steps) + " steps", "give 2 to 24, both ends counted", "--steps"});
    asked.targets = solve::between(first.target.lab, last->target.lab, static_cast<std::size_t>(args.steps));
    asked.title = "From " + first.name + " to " + last->name;
    return {};
}

}  // namespace battwright::command
