// What each laying of a recipe weighs, once "the rest" and the shares are worked out.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "recipe/composition.hpp"
#include "recipe/recipe.hpp"

namespace battwright::recipe {

// What a laying lays: a component or a small blend, by its index in the recipe.
struct Named {
    bool is_blend = false;
    std::size_t index = 0;
    bool operator==(const Named&) const = default;
};
// By its name; a component also by its only fibre, when no other has that, or as "component 2". Nothing when
// nothing or more than one thing is called so.
std::optional<Named> named(const Recipe& recipe, std::string_view what);
// What to write in a laying to mean a component.
std::string reference_to(const Recipe& recipe, std::size_t component);

struct Laid {
    Named what;
    // Of a component, grams per colour of its palette (one when it has none); of a small blend, one.
    std::vector<double> grams;
    double total() const;
};
// All weights are of the whole making.
struct Layout {
    std::vector<Laid> lays;                 // one for each of the recipe's layings
    std::vector<std::vector<Laid>> blends;  // the same of each small blend
    std::vector<std::size_t> order;         // of the blends: each after those it is made of
};
// A complaint when more is laid than weighed, something is left over or never laid, nothing is left for the
// rest, a name means nothing or two things, or a blend contains itself. Precondition: the recipe has layings.
measure::Expected<Layout> layout_of(const Recipe& recipe, const Masses& masses);

// The same of a list that need not close, such as one that is being made.
struct LooseLayout {
    Layout layout;
    // Grams per colour of each component, and of each small blend, that no laying takes; below nought: so
    // much is laid that is not there. None of a component that goes in on a later pass without a laying.
    std::vector<std::vector<double>> spare, spare_of_blends;
};
// A complaint only when a name means nothing or two things, or a blend contains itself.
measure::Expected<LooseLayout> loose_layout_of(const Recipe& recipe, const Masses& masses);
// A sum of so much fibre that is off by no more than this closes, in grams.
double closing_slack(double whole_grams);

// After an edit of the components: a component renamed keeps its layings, one removed takes them with it (and
// small blends that are left with nothing), and one that is new is laid whole after the others. The mixture a
// series ends at follows likewise.
void follow_layings(const Recipe& before, Recipe& after);

// A pass as written, `last_pass` among them, as one of 1 .. passes.
int within_passes(int pass, int passes);
// The pass (1 .. passes) on which a component is first fed: by its layings, else its own.
int first_pass_of(const Recipe& recipe, std::size_t component);
// The pass of one laying, 1 .. passes.
int pass_of(const Recipe& recipe, const Laying& laying);

}  // namespace battwright::recipe
