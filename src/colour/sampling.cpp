#include "colour/sampling.hpp"

#include <algorithm>
#include <cmath>
#include <random>
#include <string>
#include <utility>

#include "colour/spaces.hpp"

namespace battwright::colour {
namespace {

// From x to before x, whole pixels.
struct Run {
    int from = 0, to = 0;
};

int first_centre_from(double x, int width) {
    return static_cast<int>(std::ceil(std::clamp(x, 0.0, static_cast<double>(width)) - 0.5));
}

// Where the row of pixel centres at height `y` crosses the polygon, left to right, in pairs.
std::vector<Run> runs_at(const Area& area, double y, int width) {
    std::vector<double> crossings;
    for (std::size_t i = 0; i < area.size(); ++i) {
        const Point& a = area[i];
        const Point& b = area[(i + 1) % area.size()];
        if ((a.y <= y) == (b.y <= y)) continue;
        crossings.push_back(a.x + (y - a.y) / (b.y - a.y) * (b.x - a.x));
    }
    std::sort(crossings.begin(), crossings.end());
    std::vector<Run> runs;
    for (std::size_t i = 0; i + 1 < crossings.size(); i += 2) {
        const Run run{first_centre_from(crossings[i], width), first_centre_from(crossings[i + 1], width)};
        if (run.to > run.from) runs.push_back(run);
    }
    return runs;
}

// Rows of pixels the polygon may touch.
Run rows_of(const Area& area, int height) {
    double low = height, high = 0.0;
    for (const Point& corner : area) {
        low = std::min(low, corner.y);
        high = std::max(high, corner.y);
    }
    return {first_centre_from(low, height), first_centre_from(high, height)};
}

std::size_t pixels_in(const Pixels& photo, const Area& area) {
    std::size_t count = 0;
    const Run rows = rows_of(area, photo.height);
    for (int row = rows.from; row < rows.to; ++row)
        for (const Run& run : runs_at(area, row + 0.5, photo.width))
            count += static_cast<std::size_t>(run.to - run.from);
    return count;
}

Srgb pixel(const Pixels& photo, int x, int y) {
    const auto at = 3 * (static_cast<std::size_t>(y) * static_cast<std::size_t>(photo.width) +
                         static_cast<std::size_t>(x));
    return {photo.rgb[at] / 255.0, photo.rgb[at + 1] / 255.0, photo.rgb[at + 2] / 255.0};
}

Srgb mean_of(const Pixels& photo, int from, int to, int row) {
    if (to - from == 1) return pixel(photo, from, row);
    LinearRgb sum;
    for (int x = from; x < to; ++x) {
        const LinearRgb light = linear(pixel(photo, x, row));
        sum = {sum.r + light.r, sum.g + light.g, sum.b + light.b};
    }
    const double count = to - from;
    return encoded({sum.r / count, sum.g / count, sum.b / count});
}

// Random place below `stride`; without std::uniform_int_distribution, which each library draws its own way.
int below(int stride, std::mt19937& random) {
    return static_cast<int>(random() % static_cast<std::uint32_t>(stride));
}

}  // namespace

Area rectangle(double x, double y, double width, double height) {
    return {{x, y}, {x + width, y}, {x + width, y + height}, {x, y + height}};
}

std::optional<measure::Complaint> fault_in(const Pixels& photo, const Area& area) {
    if (photo.width < 1 || photo.height < 1)
        return measure::Complaint{"the photo has no pixels", "choose another picture", "photo"};
    const auto wanted = 3 * static_cast<std::size_t>(photo.width) * static_cast<std::size_t>(photo.height);
    if (photo.rgb.size() < wanted)
        return measure::Complaint{"the photo has fewer pixels than it says", "choose another picture",
                                  "photo"};
    for (const Point& corner : area)
        if (!std::isfinite(corner.x) || !std::isfinite(corner.y))
            return measure::Complaint{"a corner of the area is no number", "mark the area again", "area"};
    return {};
}

std::vector<PixelRun> runs_in(const Pixels& photo, const Area& area) {
    std::vector<PixelRun> all;
    const Run rows = rows_of(area, photo.height);
    for (int row = rows.from; row < rows.to; ++row)
        for (const Run& run : runs_at(area, row + 0.5, photo.width)) all.push_back({row, run.from, run.to});
    return all;
}

std::vector<Srgb> sampled(const Pixels& photo, const Area& wanted, std::size_t most, int grain) {
    const Area area = wanted.empty() ? rectangle(0.0, 0.0, photo.width, photo.height) : wanted;
    const double each = static_cast<double>(pixels_in(photo, area)) / static_cast<double>(most);
    const int stride = each > 1.0 ? static_cast<int>(std::ceil(std::sqrt(each))) : 1;
    // A small part of the cell only, else too many would lie across the edge of two colours.
    const int width = std::clamp(stride / 4, 1, grain);
    std::mt19937 random(20'011);
    std::vector<Srgb> samples;
    const Run rows = rows_of(area, photo.height);
    for (int top = rows.from; top < rows.to; top += stride) {
        const int row = std::min(top + below(stride, random), rows.to - 1);
        for (const Run& run : runs_at(area, row + 0.5, photo.width))
            for (int cell = run.from; cell < run.to; cell += stride) {
                const int from = std::min(cell + below(stride, random), run.to - 1);
                samples.push_back(mean_of(photo, from, std::min(from + width, run.to), row));
            }
    }
    return samples;
}

}  // namespace battwright::colour
