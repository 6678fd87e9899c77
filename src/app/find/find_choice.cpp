#include "app/find/find_choice.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "app/shelf/shelf_choice.hpp"
#include "measure/unit_tables.hpp"
#include "shelving/wishes.hpp"
#include "text/words.hpp"

namespace battwright::app {
namespace {

using measure::Complaint;
using measure::Expected;
using solve::BoundKind;

std::string searched_text(const solve::Lot& lot, const fibre::Catalogue& catalogue) {
    std::string text = lot.id + '\n' + lot.name;
    for (const auto& content : lot.content) {
        text += '\n' + content.fibre;
        if (const fibre::Kind* kind = catalogue.find(content.fibre))
            text.append("\n").append(kind->name).append("\n").append(fibre::word_for(kind->family));
    }
    return text::lower(text);
}

tl::unexpected<Complaint> in_field(Complaint complaint, std::string field) {
    complaint.where = std::move(field);
    return tl::make_unexpected(std::move(complaint));
}

Expected<double> percent_of(const std::string& typed, const std::string& field) {
    const auto percent = parse_share(typed);
    if (!percent) return in_field(percent.error(), field);
    if (!(*percent >= 0.0 && *percent <= 100.0))
        return in_field({"a share of " + measure::print_percent(*percent), "type 0 to 100"}, field);
    return *percent;
}

Expected<std::optional<double>> number_of(const std::string& typed, const char* field, const char* example) {
    if (text::is_blank(typed)) return std::optional<double>{};
    const auto quantity = measure::parse_quantity(typed, field, example);
    if (!quantity) return in_field(quantity.error(), field);
    return std::optional<double>{quantity->value};
}

std::string with_unit(const std::string& typed, measure::MassUnit unit) {
    const auto is_letter = [](char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); };
    if (std::any_of(typed.begin(), typed.end(), is_letter)) return typed;
    return typed + " " + std::string(measure::word_for(unit));
}

Expected<void> read_weights(const FindChoice& choice, measure::MassUnit unit, solve::Goal& goal) {
    if (!text::is_blank(choice.total)) {
        const auto total = shelving::parse_total(with_unit(choice.total, unit));
        if (!total) return in_field(total.error(), "total");
        goal.total = *total;
    }
    goal.scale_step_grams = measure::usual_scale_grams(unit);
    if (text::is_blank(choice.step)) return {};
    const auto step = measure::parse_mass(with_unit(choice.step, unit));
    if (!step) return in_field(step.error(), "step");
    goal.scale_step_grams = step->grams;
    return {};
}

Expected<void> read_figures(const FindChoice& choice, solve::Bounds& bounds) {
    const auto cost = number_of(choice.most_cost, "cost", "12.50");
    if (!cost) return tl::make_unexpected(cost.error());
    const auto spread = number_of(choice.staple_spread, "staple spread", "1.5");
    if (!spread) return tl::make_unexpected(spread.error());
    bounds.most_cost = *cost;
    bounds.staple_spread = *spread;
    if (!text::is_blank(choice.keep_back)) {
        const auto kept = percent_of(choice.keep_back, "keep back");
        if (!kept) return tl::make_unexpected(kept.error());
        bounds.keep_back_pct = *kept;
    }
    if (choice.most_lots > 0) bounds.most_lots = static_cast<std::size_t>(choice.most_lots);
    return {};
}

Expected<std::optional<solve::ShareBound>> read_row(const BoundRow& row, const std::string& field,
                                                    const FindProblem& problem,
                                                    const fibre::Catalogue& catalogue) {
    if (text::is_blank(row.least) && text::is_blank(row.most)) return std::optional<solve::ShareBound>{};
    const auto named = shelving::named(row.what, catalogue, problem.stock.lots);
    if (!named) return in_field(named.error(), field);
    solve::ShareBound bound{named->of, named->what};
    if (!text::is_blank(row.least)) {
        const auto least = percent_of(row.least, field);
        if (!least) return tl::make_unexpected(least.error());
        bound.least_pct = *least;
    }
    if (!text::is_blank(row.most)) {
        const auto most = percent_of(row.most, field);
        if (!most) return tl::make_unexpected(most.error());
        bound.most_pct = *most;
    }
    if (bound.least_pct > bound.most_pct)
        return in_field({"the least is more than the most", "swap the two"}, field);
    return std::optional(bound);
}

Expected<void> read_rows(const FindChoice& choice, const fibre::Catalogue& catalogue, FindProblem& problem) {
    for (std::size_t i = 0; i < choice.bounds.size(); ++i) {
        std::string field("bound ");
        field += std::to_string(i + 1);
        const auto bound = read_row(choice.bounds[i], field, problem, catalogue);
        if (!bound) return tl::make_unexpected(bound.error());
        if (!*bound) continue;
        problem.problem.goal.bounds.shares.push_back(**bound);
        problem.bound_rows.push_back(i);
    }
    return {};
}

Expected<void> set_use_up(const FindChoice& choice, FindProblem& problem) {
    if (choice.use_up == UseUpWhat::nothing) return {};
    solve::UseUp use_up = solve::use_up_scraps(problem.stock.lots, choice.by);
    if (choice.use_up == UseUpWhat::all) {
        use_up.lots.clear();
        for (const auto& lot : problem.stock.lots) use_up.lots.push_back(lot.id);
    }
    if (use_up.lots.empty())
        return in_field({"none of these lots is a scrap", "choose to use up all of them, or nothing"},
                        "use up");
    problem.problem.goal.use_up = std::move(use_up);
    return {};
}

solve::Target aimed_at(const WantedColour& wanted) {
    return wanted.reflectance ? solve::target_of(*wanted.reflectance) : solve::target_of(wanted.colour);
}

Expected<void> set_colour(const FindChoice& choice, FindProblem& problem) {
    if (choice.colour == FindColour::any) {
        if (choice.use_up == UseUpWhat::nothing)
            return in_field({"nothing is asked for", "choose a colour, or what to use up"}, "goal");
        return {};
    }
    const solve::Target target = aimed_at(choice.target);
    problem.problem.goal.target = target;
    if (choice.colour == FindColour::gradient)
        problem.targets =
            solve::between(target.lab, aimed_at(choice.far_end).lab, static_cast<std::size_t>(choice.steps));
    return {};
}

void set_batts(const FindChoice& choice, const recipe::Carder& carder, solve::Batts& batts) {
    if (choice.within_load) {
        batts.least_grams = carder.load_low_grams;
        batts.most_grams = carder.load_high_grams;
    }
    // A gradient is one batt a colour.
    batts.count = choice.colour == FindColour::gradient ? 1 : static_cast<std::size_t>(choice.batts);
}

void change_total(FindChoice& choice, const solve::Total& before, const solve::Change& change,
                  measure::MassUnit unit) {
    solve::Total total = before;
    auto& end = change.bound.kind == BoundKind::total_least ? total.least_grams : total.most_grams;
    end = change.drop ? std::nullopt : std::optional(change.to);
    if (total.least_grams && total.most_grams && *total.least_grams > *total.most_grams) end.reset();
    choice.total = shelving::print_total(total, unit);
}

void change_row(FindChoice& choice, const FindProblem& problem, const solve::Change& change) {
    if (change.bound.index >= problem.bound_rows.size()) return;
    BoundRow& row = choice.bounds[problem.bound_rows[change.bound.index]];
    std::string& text = change.bound.kind == BoundKind::share_least ? row.least : row.most;
    text = change.drop ? "" : measure::print_number(change.to, 4);
}

std::string figure(const solve::Change& change) {
    return change.drop ? "" : measure::print_number(change.to, 4);
}

std::string step_in_words(double grams, measure::MassUnit unit) {
    const auto& row = measure::row_of(measure::mass_units, unit);
    return measure::print_number(grams / row.size, 4) + " " + std::string(row.word);
}

void make_change(FindChoice& choice, const FindProblem& problem, const solve::Change& change,
                 measure::MassUnit unit) {
    switch (change.bound.kind) {
        case BoundKind::total_least:
        case BoundKind::total_most:
            return change_total(choice, problem.problem.goal.total, change, unit);
        case BoundKind::share_least:
        case BoundKind::share_most:
            return change_row(choice, problem, change);
        case BoundKind::batt_least:
        case BoundKind::batt_most:
            // The load is the carder's: all one can do is not to keep to it.
            choice.within_load = false;
            choice.batts = std::max(choice.batts, 1);
            return;
        case BoundKind::cost:
            choice.most_cost = figure(change);
            return;
        case BoundKind::staple_spread:
            choice.staple_spread = figure(change);
            return;
        case BoundKind::most_lots:
            choice.most_lots = change.drop ? 0 : static_cast<int>(std::lround(change.to));
            return;
        case BoundKind::keep_back:
            choice.keep_back = figure(change);
            return;
        case BoundKind::scale_step:
            choice.step = change.drop ? "0.001 g" : step_in_words(change.to, unit);
            return;
        case BoundKind::least_used:
            choice.least_used_grams = change.drop ? 0.0 : change.to;
            return;
        case BoundKind::cost_per_100_g:
        case BoundKind::staple_least:
        case BoundKind::staple_most:
        case BoundKind::lot_least:
        case BoundKind::lot_most:
        case BoundKind::lot_keep_back:
            return;  // not asked for here
    }
}

}  // namespace

WantedColour wanted_of(const colour::Spectrum& reflectance) {
    return {colour::clipped(colour::srgb_under(reflectance, colour::Light::d65)), reflectance};
}

std::vector<std::size_t> listed(const FindChoice& choice, const shelving::Stock& stock,
                                const fibre::Catalogue& catalogue) {
    const std::vector<std::string> words = text::split(text::lower(choice.words));
    const bool of_shelf = choice.from == FindFrom::shelf;
    std::vector<std::size_t> result;
    for (std::size_t i = 0; i < stock.lots.size(); ++i) {
        if (of_shelf && choice.scraps_only && !stock.lots[i].scrap) continue;
        const std::string text = words.empty() ? "" : searched_text(stock.lots[i], catalogue);
        const bool fits = !of_shelf || std::all_of(words.begin(), words.end(), [&](const std::string& word) {
            return text.find(word) != std::string::npos;
        });
        if (fits) result.push_back(i);
    }
    return result;
}

std::vector<std::string> bounded_words(const shelving::Stock& stock, const fibre::Catalogue& catalogue) {
    std::map<std::string, int> families, kinds;
    for (const auto& lot : stock.lots) {
        for (const auto& content : lot.content) {
            const fibre::Kind* kind = catalogue.find(content.fibre);
            if (kind == nullptr) continue;
            ++families[std::string(fibre::word_for(kind->family))];
            ++kinds[kind->id];
        }
    }
    std::vector<std::string> words;
    for (const auto* counted : {&families, &kinds}) {
        std::vector<std::pair<std::string, int>> sorted(counted->begin(), counted->end());
        std::stable_sort(sorted.begin(), sorted.end(),
                         [](const auto& a, const auto& b) { return a.second > b.second; });
        for (auto& [word, count] : sorted) {
            if (std::find(words.begin(), words.end(), word) == words.end()) words.push_back(word);
        }
    }
    return words;
}

Expected<FindProblem> problem_of(const FindChoice& choice, const shelving::Stock& stock,
                                 const recipe::Carder& carder, const fibre::Catalogue& catalogue,
                                 measure::MassUnit unit) {
    std::vector<bool> keep(stock.lots.size(), false);
    for (const std::size_t i : listed(choice, stock, catalogue))
        keep[i] = !choice.left_out.contains(stock.lots[i].id);
    FindProblem problem;
    problem.stock = shelving::part_of(stock, keep);
    if (problem.stock.lots.empty())
        return in_field({"no lot is chosen", "tick some, or type other words"}, "lots");
    solve::Goal& goal = problem.problem.goal;
    if (auto done = set_use_up(choice, problem); !done) return tl::make_unexpected(done.error());
    if (auto done = set_colour(choice, problem); !done) return tl::make_unexpected(done.error());
    if (auto done = read_weights(choice, unit, goal); !done) return tl::make_unexpected(done.error());
    if (auto done = read_figures(choice, goal.bounds); !done) return tl::make_unexpected(done.error());
    if (auto done = read_rows(choice, catalogue, problem); !done) return tl::make_unexpected(done.error());
    set_batts(choice, carder, goal.batts);
    if (problem.stock.lots.size() > shelving::most_lots_of_a_batt)
        goal.bounds.most_lots = std::min(goal.bounds.most_lots.value_or(shelving::most_lots_of_a_batt),
                                         shelving::most_lots_of_a_batt);
    goal.bounds.least_used_grams = choice.least_used_grams;
    problem.problem.lots = problem.stock.lots;
    problem.problem.mass = unit;
    if (auto checked = solve::check(problem.problem, {&catalogue, {}}); !checked)
        return tl::make_unexpected(checked.error());
    return problem;
}

FindChoice with_changes(FindChoice choice, const FindProblem& problem,
                        const std::vector<solve::Change>& changes, measure::MassUnit unit) {
    FindProblem so_far = problem;
    for (const auto& change : changes) {
        make_change(choice, so_far, change, unit);
        so_far.problem = solve::changed(so_far.problem, change);
    }
    return choice;
}

Sheet take_to_bench(const Sheet& bench, const recipe::Recipe& found) {
    recipe::Recipe recipe = bench.recipe;
    recipe.components = found.components;
    recipe.total.reset();
    if (recipe.name.empty()) recipe.name = found.name;
    return sheet_of(std::move(recipe));
}

}  // namespace battwright::app
