#include "carding/photo.hpp"

#include <algorithm>
#include <cmath>

#include "carding/habits.hpp"
#include "carding/seen.hpp"
#include "colour/sighting.hpp"
#include "colour/spaces.hpp"

namespace battwright::carding {
namespace {

// A section of the patch, in tex: its mass over its length.
std::vector<double> by_chance(const Field& field, const BattObserver& observer, double mg) {
    return fibre_parts(observer, field.portions, 1000.0 * mg / patch_length_mm(field));
}

Photographed edge_of(const Field& field, const BattObserver& observer) {
    const Field patches = patches_of(field);
    const double mg = patch_mg(field, observer.batt_grams);
    const auto seen = seen_patches(Blends(observer), patches, unresolved_intensity(field, patches, mg),
                                   by_chance(field, observer, mg));
    return {
        colour::lab(mean_light(seen), colour::white(observer.light)), variation_of(seen, observer), {}, 0.0};
}

Photographed face_of(const Field& field, const BattObserver& observer) {
    const Grid across = patches_of(field).grid;
    const auto layers = static_cast<std::size_t>(std::round(1.0 / habits::seen_depth_share));
    const Field patches = resampled(field, {across.round, across.across, layers});
    const double deep =
        patch_mg(field, observer.batt_grams) / habits::draw_depth_share * habits::seen_depth_share;
    const auto seen = seen_patches(Blends(observer), patches, unresolved_intensity(field, patches, deep),
                                   by_chance(field, observer, deep));
    const std::size_t plane = patches.plane_size();
    const std::span<const Seen> all(seen);
    const auto inner = all.first(plane), outer = all.last(plane);
    const colour::Xyz white = colour::white(observer.light);
    const colour::Lab a = colour::lab(mean_light(inner), white), b = colour::lab(mean_light(outer), white);
    const double va = std::max(variation_of(inner, observer), 1e-6),
                 vb = std::max(variation_of(outer, observer), 1e-6);
    const colour::Lab off = colour::minus(b, a);
    return {{0.5 * (a.l + b.l), 0.5 * (a.a + b.a), 0.5 * (a.b + b.b)},
            std::sqrt(va * vb),
            {0.5 * off.l, 0.5 * off.a, 0.5 * off.b},
            0.5 * std::abs(std::log(vb / va))};
}

}  // namespace

Photographed photographed(const Pass& batt, const BattObserver& observer, Side side) {
    switch (side) {
        case Side::face:
            return face_of(batt.field, observer);
        case Side::edge:
            break;
    }
    return edge_of(batt.field, observer);
}

PhotoPatch photo_patch() {
    return {habits::draw_across_mm, habits::draw_round_mm, habits::draw_depth_share};
}

}  // namespace battwright::carding
