#include "colour/palette.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <string>

#include "colour/clusters.hpp"
#include "colour/sampling.hpp"
#include "colour/spaces.hpp"

namespace battwright::colour {
namespace {

using Eigen::Vector3d;
using measure::Complaint;

constexpr std::size_t most_samples = 12'000;
constexpr int grain_px = 5;
constexpr int restarts = 4;
// Below this mean distance (Lab, L* halved) all is one colour and more of them would only sort the noise of
// 8 bits.
constexpr double one_colour = 0.5;

Vector3d place_of(const Srgb& colour) {
    const Lab c = lab(colour);
    return {0.5 * c.l, c.a, c.b};
}

bool close_enough(const Clusters& clusters, std::size_t points) {
    return clusters.squares <= one_colour * one_colour * static_cast<double>(points);
}

Clusters chosen(const std::vector<Vector3d>& points, int up_to) {
    Clusters best = clustered(points, 1, 1);
    double before = best.squares;
    for (int count = 2; count <= up_to && !close_enough(best, points.size()); ++count) {
        Clusters more = clustered(points, count, restarts);
        const bool earns = before - more.squares >= least_gain * before;
        before = more.squares;
        if (earns || least_gap_between(points, more) >= least_gap) best = std::move(more);
    }
    return best;
}

// A colour while it is put together; sums over its pixels.
struct Heap {
    std::vector<std::size_t> members;
    LinearRgb light;

    double count() const { return static_cast<double>(members.size()); }
    Srgb colour() const {
        return clipped(encoded({light.r / count(), light.g / count(), light.b / count()}));
    }
};

void pour(Heap& into, const Heap& from) {
    into.members.insert(into.members.end(), from.members.begin(), from.members.end());
    into.light = {into.light.r + from.light.r, into.light.g + from.light.g, into.light.b + from.light.b};
}

std::vector<Heap> heaps_of(const std::vector<Srgb>& colours, const Clusters& clusters) {
    std::vector<Heap> heaps(clusters.centres.size());
    for (std::size_t i = 0; i < colours.size(); ++i) {
        Heap& heap = heaps[clusters.of[i]];
        const LinearRgb light = linear(colours[i]);
        heap.members.push_back(i);
        heap.light = {heap.light.r + light.r, heap.light.g + light.g, heap.light.b + light.b};
    }
    std::erase_if(heaps, [](const Heap& heap) { return heap.members.empty(); });
    return heaps;
}

double textile_distance(const Heap& a, const Heap& b) {
    return ciede2000(lab(a.colour()), lab(b.colour()), 2.0);
}

struct Pair {
    std::size_t first = 0, second = 0;
    double distance = std::numeric_limits<double>::infinity();
};

// Of all pairs, or of those with heap `only`.
Pair nearest_pair(const std::vector<Heap>& heaps, std::optional<std::size_t> only = {}) {
    Pair best;
    for (std::size_t a = 0; a < heaps.size(); ++a)
        for (std::size_t b = a + 1; b < heaps.size(); ++b) {
            if (only && a != *only && b != *only) continue;
            const double distance = textile_distance(heaps[a], heaps[b]);
            if (distance < best.distance) best = {a, b, distance};
        }
    return best;
}

void merge(std::vector<Heap>& heaps, const Pair& pair) {
    pour(heaps[pair.first], heaps[pair.second]);
    heaps.erase(heaps.begin() + static_cast<std::ptrdiff_t>(pair.second));
}

// Nearest first, then the smallest first.
void merge_what_is_one(std::vector<Heap>& heaps, double pixels) {
    while (heaps.size() > 1) {
        const Pair pair = nearest_pair(heaps);
        if (pair.distance >= merge_de00) break;
        merge(heaps, pair);
    }
    while (heaps.size() > 1) {
        const auto smallest = std::min_element(heaps.begin(), heaps.end(), [](const Heap& a, const Heap& b) {
            return a.members.size() < b.members.size();
        });
        if (100.0 * smallest->count() / pixels >= least_share_pct) break;
        merge(heaps, nearest_pair(heaps, static_cast<std::size_t>(smallest - heaps.begin())));
    }
}

Shade shade_of(const Heap& heap, const std::vector<Srgb>& colours) {
    Shade shade{heap.colour(), 100.0 * heap.count() / static_cast<double>(colours.size()), 0.0};
    const Lab mean = lab(shade.colour);
    for (const std::size_t member : heap.members)
        shade.spread_de00 += ciede2000(mean, lab(colours[member])) / heap.count();
    return shade;
}

std::optional<Complaint> fault_in_wish(const PaletteOptions& wish) {
    const auto outside = [](int count, int least) { return count < least || count > most_colours; };
    if (outside(wish.colours, 0) || outside(wish.up_to, 1))
        return Complaint{
            std::to_string(outside(wish.colours, 0) ? wish.colours : wish.up_to) + " colours of a photo",
            "ask for 1 to " + std::to_string(most_colours), "colours"};
    return {};
}

}  // namespace

measure::Expected<Palette> palette_of(const Pixels& photo, const Area& area, const PaletteOptions& wish) {
    if (auto fault = fault_in(photo, area)) return tl::make_unexpected(*fault);
    if (auto fault = fault_in_wish(wish)) return tl::make_unexpected(*fault);
    std::vector<Srgb> colours = sampled(photo, area, most_samples, grain_px);
    if (colours.empty())
        return tl::make_unexpected(
            Complaint{"the area holds no pixel of the photo", "mark an area inside the picture", "area"});
    std::vector<Vector3d> points;
    points.reserve(colours.size());
    for (Srgb& colour : colours) {
        colour = clipped(balanced(colour, wish.balance));
        points.push_back(place_of(colour));
    }
    const Clusters clusters =
        wish.colours > 0 ? clustered(points, wish.colours, restarts) : chosen(points, wish.up_to);
    std::vector<Heap> heaps = heaps_of(colours, clusters);
    merge_what_is_one(heaps, static_cast<double>(colours.size()));
    Palette palette;
    palette.pixels_seen = colours.size();
    for (const Heap& heap : heaps) palette.shades.push_back(shade_of(heap, colours));
    std::stable_sort(palette.shades.begin(), palette.shades.end(),
                     [](const Shade& a, const Shade& b) { return a.share_pct > b.share_pct; });
    return palette;
}

}  // namespace battwright::colour
