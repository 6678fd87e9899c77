#include "recipe/layout.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "recipe/checking.hpp"
#include "recipe/fault.hpp"
#include "recipe/laying_fault.hpp"
#include "text/believe.hpp"
#include "text/words.hpp"

namespace battwright::recipe {

// As loosely as the components must close.
double closing_slack(double whole_grams) {
    return std::max(closing_grams, closing_share * whole_grams);
}

namespace {

// One laying on its way to a weight.
struct Entry {
    const Laying* laying = nullptr;
    Laid* laid = nullptr;
    std::string field;
};
using Entries = std::vector<Entry>;

// What is divided among its layings: a component with its colours, or a small blend.
struct Heap {
    std::string name;
    std::vector<double> grams;  // per colour
    std::vector<std::optional<colour::Srgb>> colours;
};

std::string amount_field(const Entry& entry) {
    if (std::holds_alternative<measure::Mass>(entry.laying->amount)) return entry.field + " weight";
    return entry.field + " share";
}

std::vector<std::string> fields_of(const Entries& entries) {
    std::vector<std::string> fields;
    for (const Entry& entry : entries) fields.push_back(amount_field(entry));
    std::rotate(fields.begin(), fields.end() - 1, fields.end());  // the last one is the one too many
    return fields;
}

bool takes(const Entry& entry, const Heap& heap, std::size_t colour) {
    return !entry.laying->colour || heap.colours[colour] == entry.laying->colour;
}

void take_fixed(const Entry& entry, const Heap& heap) {
    double whole = 0.0;
    for (std::size_t t = 0; t < heap.grams.size(); ++t) whole += takes(entry, heap, t) ? heap.grams[t] : 0.0;
    double grams = 0.0;
    if (const auto* mass = std::get_if<measure::Mass>(&entry.laying->amount)) grams = mass->grams;
    if (const auto* percent = std::get_if<Percent>(&entry.laying->amount))
        grams = percent->value / 100.0 * whole;
    entry.laid->grams.assign(heap.grams.size(), 0.0);
    for (std::size_t t = 0; t < heap.grams.size(); ++t)
        if (takes(entry, heap, t) && whole > 0.0) entry.laid->grams[t] = grams * heap.grams[t] / whole;
}

std::string printed(double grams) {
    return measure::print_mass(grams, measure::MassUnit::gram);
}

// Divides a heap among its layings: weights and shares first, then the rest. With `spare` it need not close.
Suspicion divide(const Heap& heap, const Entries& entries, std::vector<double>* spare) {
    std::vector<double> left = heap.grams;
    const bool rest_wanted = std::any_of(entries.begin(), entries.end(), [](const Entry& e) {
        return std::holds_alternative<Rest>(e.laying->amount);
    });
    for (const Entry& entry : entries) {
        if (std::holds_alternative<Rest>(entry.laying->amount)) continue;
        take_fixed(entry, heap);
        for (std::size_t t = 0; t < left.size(); ++t) left[t] -= entry.laid->grams[t];
    }
    const double whole = std::accumulate(heap.grams.begin(), heap.grams.end(), 0.0);
    const double slack = closing_slack(whole);
    for (const double grams : left) {
        if (grams >= -slack || spare != nullptr) continue;
        return Fault{printed(whole - std::accumulate(left.begin(), left.end(), 0.0)) + " of " + heap.name +
                         " is laid, and there is " + printed(whole),
                     "lay less of it, or weigh out more", fields_of(entries)};
    }
    // What nearly closes is made to close.
    for (std::size_t t = 0; t < left.size(); ++t) {
        const double used = heap.grams[t] - left[t];
        if (used <= 0.0 || std::abs(left[t]) > (rest_wanted ? 1e-9 : slack)) continue;
        for (const Entry& entry : entries)
            if (!entry.laid->grams.empty()) entry.laid->grams[t] *= heap.grams[t] / used;
        left[t] = 0.0;
    }
    for (const Entry& entry : entries) {
        if (!std::holds_alternative<Rest>(entry.laying->amount)) continue;
        entry.laid->grams.assign(left.size(), 0.0);
        double got = 0.0;
        for (std::size_t t = 0; t < left.size(); ++t) {
            if (!takes(entry, heap, t)) continue;
            got += entry.laid->grams[t] = std::max(0.0, left[t]);
            left[t] = std::min(0.0, left[t]);
        }
        if (got <= slack && spare == nullptr)
            return Fault{"nothing is left of " + heap.name + " for the rest",
                         "lay less of it elsewhere, or take this laying out",
                         {entry.field}};
    }
    if (spare != nullptr) {
        *spare = std::move(left);
        return std::nullopt;
    }
    const double over = std::accumulate(left.begin(), left.end(), 0.0);
    if (over <= slack) return std::nullopt;
    return Fault{printed(over) + " of " + heap.name + " is left over: no laying takes it",
                 "lay more of it, or write share = \"the rest\" in one of its layings", fields_of(entries)};
}

Heap heap_of(const Recipe& recipe, std::size_t component, double grams) {
    Heap heap{measure::quoted(reference_to(recipe, component)), {}, {}};
    const auto& palette = recipe.components[component].palette;
    if (palette.empty()) return {heap.name, {grams}, {std::nullopt}};
    double sum = 0.0;
    for (const Tint& tint : palette) sum += tint.share_pct;
    for (const Tint& tint : palette) {
        heap.grams.push_back(grams * tint.share_pct / sum);
        heap.colours.emplace_back(tint.colour);
    }
    return heap;
}

Suspicion bad_name(const Recipe& recipe, const Entry& entry) {
    const std::string& what = entry.laying->what;
    std::vector<std::string> known;
    std::size_t same = 0;
    for (std::size_t i = 0; i < recipe.components.size(); ++i) {
        known.push_back(reference_to(recipe, i));
        same += recipe.components[i].name == what ? 1 : 0;
    }
    for (const SmallBlend& blend : recipe.carding.blends) {
        known.push_back(blend.name);
        same += blend.name == what ? 1 : 0;
    }
    if (same > 1)
        return Fault{"more than one thing is called " + measure::quoted(what),
                     "give each a name of its own",
                     {entry.field + " what"}};
    std::string mend = measure::did_you_mean(what, known);
    if (mend.empty()) mend = "lay one of " + text::listed(known, "or");
    return Fault{"nothing here is called " + measure::quoted(what), mend, {entry.field + " what"}};
}

Suspicion bad_tint(const Recipe& recipe, const Entry& entry) {
    if (!entry.laying->colour) return std::nullopt;
    const std::string field = entry.field + " colour";
    if (entry.laid->what.is_blend)
        return Fault{"a small blend is laid as a whole, not by a colour", "leave the colour out", {field}};
    for (const Tint& tint : recipe.components[entry.laid->what.index].palette)
        if (tint.colour == *entry.laying->colour) return std::nullopt;
    return Fault{measure::quoted(entry.laying->what) + " has no such colour",
                 "write one of its colours just as the component has it",
                 {field}};
}

struct Making {
    const Recipe& recipe;
    Layout layout;
    Entries entries;                 // of the batt, then of each blend
    LooseLayout* loosely = nullptr;  // it need not close

    void gather() {
        layout.lays.resize(recipe.carding.layings.size());
        for (std::size_t i = 0; i < layout.lays.size(); ++i)
            entries.push_back({&recipe.carding.layings[i], &layout.lays[i], laying_field(i)});
        layout.blends.resize(recipe.carding.blends.size());
        for (std::size_t b = 0; b < layout.blends.size(); ++b) {
            const auto& layings = recipe.carding.blends[b].layings;
            layout.blends[b].resize(layings.size());
            for (std::size_t i = 0; i < layings.size(); ++i)
                entries.push_back(
                    {&layings[i], &layout.blends[b][i], blend_field(b, laying_field(i, false))});
        }
    }

    Suspicion name() {
        for (const Entry& entry : entries) {
            const auto found = named(recipe, entry.laying->what);
            if (!found) return bad_name(recipe, entry);
            entry.laid->what = *found;
            if (auto fault = bad_tint(recipe, entry)) return fault;
        }
        return std::nullopt;
    }

    // Depth first; `open` are those on the way down.
    Suspicion visit(std::size_t blend, std::vector<std::size_t>& open) {
        if (std::find(layout.order.begin(), layout.order.end(), blend) != layout.order.end())
            return std::nullopt;
        open.push_back(blend);
        for (std::size_t i = 0; i < layout.blends[blend].size(); ++i) {
            const Laid& laid = layout.blends[blend][i];
            if (!laid.what.is_blend) continue;
            if (std::find(open.begin(), open.end(), laid.what.index) != open.end())
                return Fault{"the small blend " +
                                 measure::quoted(recipe.carding.blends[laid.what.index].name) +
                                 " contains itself",
                             "make it of components, or of blends that are made without it",
                             {blend_field(blend, laying_field(i, false)) + " what"}};
            if (auto fault = visit(laid.what.index, open)) return fault;
        }
        open.pop_back();
        layout.order.push_back(blend);
        return std::nullopt;
    }

    Entries of(const Named& what) const {
        Entries found;
        for (const Entry& entry : entries)
            if (entry.laid->what == what) found.push_back(entry);
        return found;
    }

    Suspicion divide_components(const Masses& masses) {
        for (std::size_t c = 0; c < recipe.components.size(); ++c) {
            const Entries mine = of({false, c});
            const Heap heap = heap_of(recipe, c, masses.grams[c]);
            std::vector<double>* spare = nullptr;
            if (loosely != nullptr) {
                spare = &loosely->spare.emplace_back(heap.grams.size(), 0.0);
                if (mine.empty() && recipe.components[c].add_on_pass == 1) *spare = heap.grams;
            } else if (mine.empty() && recipe.components[c].add_on_pass == 1)
                return Fault{heap.name + " is weighed out and never laid",
                             "add a [[carding.lay]] of it, or take it out",
                             {component_field(c)}};
            if (mine.empty()) continue;
            if (auto fault = divide(heap, mine, spare)) return fault;
        }
        return std::nullopt;
    }

    Suspicion divide_blends() {
        for (const std::size_t b : layout.order) {
            const SmallBlend& blend = recipe.carding.blends[b];
            double grams = 0.0;
            for (const Laid& laid : layout.blends[b]) grams += laid.total();
            const Entries mine = of({true, b});
            std::vector<double>* spare = nullptr;
            if (loosely != nullptr) {
                spare = &loosely->spare_of_blends[b];
                *spare = {grams};
            } else if (mine.empty())
                return Fault{"the small blend " + measure::quoted(blend.name) + " is never laid",
                             "add a [[carding.lay]] of it, or take it out",
                             {blend_field(b)}};
            if (mine.empty()) continue;
            if (auto fault = divide({measure::quoted(blend.name), {grams}, {std::nullopt}}, mine, spare))
                return fault;
        }
        return std::nullopt;
    }
};

}  // namespace

double Laid::total() const {
    return std::accumulate(grams.begin(), grams.end(), 0.0);
}

std::optional<Named> named(const Recipe& recipe, std::string_view what) {
    std::vector<Named> found;
    for (std::size_t i = 0; i < recipe.components.size(); ++i)
        if (recipe.components[i].name == what) found.push_back({false, i});
    for (std::size_t i = 0; i < recipe.carding.blends.size(); ++i)
        if (recipe.carding.blends[i].name == what) found.push_back({true, i});
    if (found.size() == 1) return found.front();
    if (!found.empty()) return std::nullopt;
    for (std::size_t i = 0; i < recipe.components.size(); ++i) {
        const Component& component = recipe.components[i];
        if (component_field(i) == what) return Named{false, i};
        if (component.name.empty() && component.content.size() == 1 &&
            component.content.front().fibre == what)
            found.push_back({false, i});
    }
    return found.size() == 1 ? std::optional(found.front()) : std::nullopt;
}

std::string reference_to(const Recipe& recipe, std::size_t component) {
    const Component& own = recipe.components[component];
    const Named meant{false, component};
    if (!own.name.empty() && named(recipe, own.name) == meant) return own.name;
    if (own.content.size() == 1 && named(recipe, own.content.front().fibre) == meant)
        return own.content.front().fibre;
    return component_field(component);
}

namespace {

tl::expected<Layout, Fault> laid_out_by(const Recipe& recipe, const Masses& masses, LooseLayout* loosely) {
    Making making{recipe, {}, {}, loosely};
    making.gather();
    if (auto fault = making.name()) return tl::make_unexpected(*fault);
    for (std::size_t b = 0; b < recipe.carding.blends.size(); ++b) {
        std::vector<std::size_t> open;
        if (auto fault = making.visit(b, open)) return tl::make_unexpected(*fault);
    }
    if (auto fault = making.divide_components(masses)) return tl::make_unexpected(*fault);
    if (auto fault = making.divide_blends()) return tl::make_unexpected(*fault);
    return std::move(making.layout);
}

}  // namespace

tl::expected<Layout, Fault> lay_out(const Recipe& recipe, const Masses& masses) {
    return laid_out_by(recipe, masses, nullptr);
}

measure::Expected<LooseLayout> loose_layout_of(const Recipe& recipe, const Masses& masses) {
    LooseLayout loose;
    loose.spare_of_blends.resize(recipe.carding.blends.size());
    auto layout = laid_out_by(recipe, masses, &loose);
    if (!layout) return tl::make_unexpected(without_lines(layout.error()));
    loose.layout = std::move(*layout);
    return loose;
}

measure::Expected<Layout> layout_of(const Recipe& recipe, const Masses& masses) {
    BATTWRIGHT_BELIEVE(!recipe.carding.layings.empty());
    auto layout = lay_out(recipe, masses);
    if (!layout) return tl::make_unexpected(without_lines(layout.error()));
    return std::move(*layout);
}

namespace {

std::vector<std::vector<Laying>*> lists_of(Carding& carding) {
    std::vector<std::vector<Laying>*> lists{&carding.layings};
    for (SmallBlend& blend : carding.blends) lists.push_back(&blend.layings);
    return lists;
}

void rename_laid(const Recipe& before, Recipe& after) {
    if (before.components.size() != after.components.size()) return;
    for (std::vector<Laying>* list : lists_of(after.carding))
        for (Laying& laying : *list) {
            const auto meant = named(before, laying.what);
            if (meant && !meant->is_blend && !named(after, laying.what))
                laying.what = reference_to(after, meant->index);
        }
}

void drop_unknown(Recipe& recipe) {
    for (bool dropped = true; dropped;) {
        dropped = false;
        for (std::vector<Laying>* list : lists_of(recipe.carding))
            dropped =
                std::erase_if(*list, [&](const Laying& l) { return !named(recipe, l.what); }) > 0 || dropped;
        dropped = std::erase_if(recipe.carding.blends,
                                [](const SmallBlend& blend) { return blend.layings.empty(); }) > 0 ||
                  dropped;
    }
}

// The mixture a series ends at loses what is no longer there; the others keep their proportions.
void follow_series(const Recipe& before, Recipe& after) {
    if (!after.series) return;
    const bool renamed = before.components.size() == after.components.size();
    double sum = 0.0;
    std::erase_if(after.series->to, [&](SeriesPart& part) {
        const auto meant = named(before, part.what);
        if (!named(after, part.what) && renamed && meant) part.what = reference_to(after, meant->index);
        if (!named(after, part.what)) return true;
        sum += part.share_pct;
        return false;
    });
    if (!(sum > 0.0)) return after.series.reset();
    for (SeriesPart& part : after.series->to)
        if (std::abs(sum - 100.0) > closing_percent) part.share_pct *= 100.0 / sum;
}

}  // namespace

void follow_layings(const Recipe& before, Recipe& after) {
    follow_series(before, after);
    if (after.carding.layings.empty()) return;
    rename_laid(before, after);
    drop_unknown(after);
    for (std::size_t i = 0; i < after.components.size(); ++i) {
        bool laid = after.components[i].add_on_pass != 1;
        for (const std::vector<Laying>* list : lists_of(after.carding))
            for (const Laying& laying : *list) laid = laid || named(after, laying.what) == Named{false, i};
        if (laid) continue;
        Laying rest;
        rest.what = reference_to(after, i);
        after.carding.layings.push_back(std::move(rest));
    }
}

int within_passes(int pass, int passes) {
    const int last = std::max(1, passes);
    return pass == last_pass ? last : std::clamp(pass, 1, last);
}

int pass_of(const Recipe& recipe, const Laying& laying) {
    int pass = 1;
    if (laying.pass) {
        pass = *laying.pass;
    } else if (const auto what = named(recipe, laying.what); what && !what->is_blend) {
        pass = recipe.components[what->index].add_on_pass;
    }
    return within_passes(pass, recipe.carding.passes);
}

namespace {

// The earliest pass on which something is laid, in the batt or by way of a small blend.
void earliest(const Recipe& recipe, const Named& what, std::size_t deep, std::optional<int>& first) {
    for (const Laying& laying : recipe.carding.layings)
        if (named(recipe, laying.what) == what)
            first = std::min(first.value_or(recipe.carding.passes), pass_of(recipe, laying));
    if (deep > recipe.carding.blends.size()) return;
    for (std::size_t b = 0; b < recipe.carding.blends.size(); ++b)
        for (const Laying& laying : recipe.carding.blends[b].layings)
            if (named(recipe, laying.what) == what) earliest(recipe, {true, b}, deep + 1, first);
}

}  // namespace

int first_pass_of(const Recipe& recipe, std::size_t component) {
    std::optional<int> first;
    if (!recipe.carding.layings.empty()) earliest(recipe, {false, component}, 0, first);
    if (first) return *first;
    return within_passes(recipe.components[component].add_on_pass, recipe.carding.passes);
}

}  // namespace battwright::recipe
