#include "staple/batch.hpp"

#include <algorithm>
#include <cmath>
#include <tuple>

#include "recipe/layout.hpp"
#include "staple/limits.hpp"

namespace battwright::staple {
namespace {

auto body_key(const recipe::Strand& s) {
    return std::tie(s.kind->id, s.staple_mm, s.fibre_mm, s.staple_cv, s.diameter_um, s.diameter_cv, s.opened);
}

bool same_body(const Body& b, const recipe::Strand& s) {
    return std::tie(b.kind->id, b.staple_mm, b.fibre_mm, b.staple_cv, b.diameter_um, b.diameter_cv,
                    b.opened) == body_key(s);
}

void join(std::vector<std::size_t>& components, std::size_t component) {
    const auto place = std::lower_bound(components.begin(), components.end(), component);
    if (place == components.end() || *place != component) components.insert(place, component);
}

// Sums over these strands come out the same to the last bit however the recipe lists its components.
std::vector<recipe::Strand> in_own_order(std::span<const recipe::Strand> strands) {
    std::vector<recipe::Strand> sorted;
    for (const recipe::Strand& strand : strands)
        if (strand.kind != nullptr && strand.grams > 0.0 && strand.tex > 0.0 && strand.fibre_mm > 0.0 &&
            strand.diameter_um > 0.0)
            sorted.push_back(strand);
    std::stable_sort(sorted.begin(), sorted.end(), [](const recipe::Strand& a, const recipe::Strand& b) {
        return body_key(a) < body_key(b) || (body_key(a) == body_key(b) && a.grams < b.grams);
    });
    return sorted;
}

Body body_like(const recipe::Strand& strand) {
    Body body;
    body.kind = strand.kind.get();
    body.staple_mm = strand.staple_mm;
    body.fibre_mm = strand.fibre_mm;
    body.staple_cv = strand.staple_cv;
    body.diameter_um = strand.diameter_um;
    body.diameter_cv = strand.diameter_cv;
    body.opened = strand.opened;
    body.among = recipe::lies_among(strand);
    return body;
}

// One component's part of an average.
struct Slice {
    double grams = 0.0;
    Measured sum;

    void add(double more_grams, const Measured& more) {
        grams += more_grams;
        sum.weight += more.weight;
        sum.held += more.held;
    }
    double share() const { return sum.weight > 0.0 ? sum.held / sum.weight : 0.0; }
    double weight_per_gram() const { return grams > 0.0 ? sum.weight / grams : 0.0; }
};

// The mass share of `over` at which the whole is at the limit, the rest growing to fill up.
double mass_share_at(double limit, const Slice& over, const Slice& rest) {
    const double by_weight = (limit - rest.share()) / (over.share() - rest.share());
    const double mass_over = by_weight / over.weight_per_gram();
    const double mass_rest = (1.0 - by_weight) / rest.weight_per_gram();
    return mass_over / (mass_over + mass_rest);
}

void set_action(Excess& excess, double limit, const Slice& over, const Slice& rest) {
    if (rest.sum.weight <= 0.0) return;
    // Rounded down to a tenth, so that doing as told does clear the finding.
    const double tenths = std::floor(1000.0 * mass_share_at(limit, over, rest) + 1e-6);
    excess.action = tenths >= 5.0 ? Remedy::lower_share : Remedy::remove_component;
    if (excess.action == Remedy::lower_share) excess.action_value = tenths / 10.0;
}

}  // namespace

Batch batch_of(const recipe::Recipe& recipe, std::span<const recipe::Strand> strands,
               const recipe::Carder& carder) {
    Batch batch;
    batch.recipe = &recipe;
    batch.carder = &carder;
    batch.passes = std::max(1, recipe.carding.passes);
    batch.strands = in_own_order(strands);
    for (const recipe::Strand& strand : batch.strands) {
        if (batch.bodies.empty() || !same_body(batch.bodies.back(), strand))
            batch.bodies.push_back(body_like(strand));
        batch.bodies.back().grams += strand.grams;
        join(batch.bodies.back().components, strand.component);
        batch.total_grams += strand.grams;
    }
    for (Body& body : batch.bodies) body.mass_share = body.grams / batch.total_grams;
    return batch;
}

int pass_of(const Batch& batch, std::size_t component) {
    if (component >= batch.recipe->components.size()) return 1;
    return recipe::first_pass_of(*batch.recipe, component);
}

bool goes_on_last(const Batch& batch, std::size_t component) {
    return pass_of(batch, component) == batch.passes;
}

double mass_share_where(const Batch& batch, const BodyTest& holds) {
    double share = 0.0;
    for (const Body& body : batch.bodies)
        if (holds(body)) share += body.mass_share;
    return share;
}

std::vector<Body> bodies_where(const Batch& batch, const BodyTest& holds) {
    std::vector<Body> bodies;
    for (const Body& body : batch.bodies)
        if (holds(body)) bodies.push_back(body);
    return bodies;
}

std::vector<std::size_t> components_of(std::span<const Body> bodies) {
    std::vector<std::size_t> components;
    for (const Body& body : bodies)
        for (const std::size_t component : body.components) join(components, component);
    return components;
}

std::optional<Excess> excess_over(double limit, const Batch& batch,
                                  const std::function<Measured(const recipe::Strand&)>& measured) {
    std::vector<Slice> slices(batch.recipe->components.size());
    Slice whole;
    for (const recipe::Strand& strand : batch.strands) {
        if (strand.component >= slices.size()) slices.resize(strand.component + 1);
        const Measured value = measured(strand);
        slices[strand.component].add(strand.grams, value);
        whole.add(strand.grams, value);
    }
    if (whole.share() <= limit + limits::slack) return std::nullopt;
    Excess excess;
    excess.share = whole.share();
    Slice over, rest;
    for (std::size_t i = 0; i < slices.size(); ++i) {
        const bool is_over = slices[i].share() > limit + limits::slack;
        (is_over ? over : rest).add(slices[i].grams, slices[i].sum);
        if (is_over) excess.components.push_back(i);
    }
    set_action(excess, limit, over, rest);
    return excess;
}

}  // namespace battwright::staple
