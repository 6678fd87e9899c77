#include "colour/batt_photo.hpp"

#include <Eigen/Dense>
#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include "colour/sampling.hpp"
#include "colour/spaces.hpp"

namespace battwright::colour {
namespace {

// The picture in cells of this size, or of a pixel where that is larger: finer than any streak, coarser than
// the grain.
constexpr double cell_mm = 1.0;
constexpr double cut_off_value = 254.0 / 255.0;
// Lab units, squared: less than this is no streak; and no streak is longer. Common practice, no source.
constexpr double nothing_varies = 0.02;
constexpr double longest_lag_mm = 80.0;

struct Cell {
    LinearRgb light;  // sum, then mean
    double count = 0.0;
    bool lies(double most) const { return count >= 0.5 * most; }
};
struct Cells {
    int columns = 0, rows = 0;
    double mm = cell_mm, pixels_each = 1.0;
    std::vector<Cell> all;
    std::size_t pixels = 0, cut_off = 0;
    const Cell& at(int x, int y) const {
        return all[static_cast<std::size_t>(y) * static_cast<std::size_t>(columns) +
                   static_cast<std::size_t>(x)];
    }
    bool lies(int x, int y) const { return at(x, y).lies(pixels_each); }
};

std::array<double, 256> decoded_levels() {
    std::array<double, 256> levels{};
    for (std::size_t i = 0; i < levels.size(); ++i)
        levels[i] = linear(Srgb{static_cast<double>(i) / 255.0, 0.0, 0.0}).r;
    return levels;
}

Cells cells_of(const Pixels& photo, const Area& area, double mm_per_pixel) {
    static const std::array<double, 256> levels = decoded_levels();
    const auto runs = runs_in(photo, area);
    Cells cells;
    if (runs.empty()) return cells;
    int left = photo.width, right = 0;
    for (const PixelRun& run : runs) {
        left = std::min(left, run.from);
        right = std::max(right, run.to);
    }
    const int top = runs.front().row;
    cells.mm = std::max(cell_mm, mm_per_pixel);
    const double each = cells.mm / mm_per_pixel;  // pixels to a side
    cells.pixels_each = each * each;
    cells.columns = static_cast<int>(std::ceil((right - left) / each));
    cells.rows = static_cast<int>(std::ceil((runs.back().row + 1 - top) / each));
    cells.all.resize(static_cast<std::size_t>(cells.columns) * static_cast<std::size_t>(cells.rows));
    for (const PixelRun& run : runs) {
        const auto row = static_cast<std::size_t>((run.row - top + 0.5) / each);
        for (int x = run.from; x < run.to; ++x) {
            const auto at = 3 * (static_cast<std::size_t>(run.row) * static_cast<std::size_t>(photo.width) +
                                 static_cast<std::size_t>(x));
            const std::uint8_t r = photo.rgb[at], g = photo.rgb[at + 1], b = photo.rgb[at + 2];
            Cell& cell = cells.all[row * static_cast<std::size_t>(cells.columns) +
                                   static_cast<std::size_t>((x - left + 0.5) / each)];
            cell.light = {cell.light.r + levels[r], cell.light.g + levels[g], cell.light.b + levels[b]};
            cell.count += 1.0;
            ++cells.pixels;
            if (std::max({r, g, b}) >= cut_off_value * 255.0) ++cells.cut_off;
        }
    }
    return cells;
}

Xyz daylit(const LinearRgb& light, const WhiteBalance& balance) {
    const Xyz seen = adapted(xyz_from(light), balance.white, srgb_white());
    return {seen.x * balance.gain, seen.y * balance.gain, seen.z * balance.gain};
}

// A place of the batt: where its middle is (-1 .. 1 over the area), and its light.
struct Patch {
    double x = 0.0, y = 0.0;
    Xyz light;
};

// Mean of the cells of a box that hold fibre; none when under half of it does.
std::optional<LinearRgb> box_light(const Cells& cells, int x0, int x1, int y0, int y1) {
    LinearRgb sum;
    double count = 0.0, whole = 0.0;
    for (int y = y0; y < y1; ++y)
        for (int x = x0; x < x1; ++x) {
            whole += cells.pixels_each;
            const Cell& cell = cells.at(x, y);
            sum = {sum.r + cell.light.r, sum.g + cell.light.g, sum.b + cell.light.b};
            count += cell.count;
        }
    if (!(count >= 0.5 * whole) || !(count > 0.0)) return std::nullopt;
    return LinearRgb{sum.r / count, sum.g / count, sum.b / count};
}

int pieces(int cells, double cell, double patch) {
    return std::max(1, static_cast<int>(std::round(cells * cell / patch)));
}

std::vector<Patch> photo_patches(const Cells& cells, const PhotoScale& scale, const WhiteBalance& balance) {
    const int across = pieces(cells.columns, cells.mm, scale.patch_wide_mm);
    const int down = pieces(cells.rows, cells.mm, scale.patch_high_mm);
    std::vector<Patch> patches;
    for (int j = 0; j < down; ++j)
        for (int i = 0; i < across; ++i) {
            const auto light = box_light(cells, i * cells.columns / across, (i + 1) * cells.columns / across,
                                         j * cells.rows / down, (j + 1) * cells.rows / down);
            if (light)
                patches.push_back(
                    {(2.0 * i + 1.0) / across - 1.0, (2.0 * j + 1.0) / down - 1.0, daylit(*light, balance)});
        }
    return patches;
}

// ln Y = level + x across + y down, by least squares: light that falls off evenly over the picture.
struct Slope {
    double x = 0.0, y = 0.0;
    double at(double px, double py) const { return std::exp(x * px + y * py); }
};

Slope slope_of(const std::vector<Patch>& patches) {
    Eigen::Matrix3d squares = Eigen::Matrix3d::Zero();
    Eigen::Vector3d sides = Eigen::Vector3d::Zero();
    for (const Patch& patch : patches) {
        const Eigen::Vector3d place(1.0, patch.x, patch.y);
        squares += place * place.transpose();
        sides += place * std::log(std::max(patch.light.y, 0.01));
    }
    const Eigen::Vector3d fit = squares.completeOrthogonalDecomposition().solve(sides);
    return {fit[1], fit[2]};
}

double photo_variation(const std::vector<Patch>& patches, const Slope& slope) {
    std::vector<Xyz> even;
    Xyz mean;
    for (const Patch& patch : patches) {
        const double by = slope.at(patch.x, patch.y);
        even.push_back({patch.light.x / by, patch.light.y / by, patch.light.z / by});
        mean = {mean.x + even.back().x, mean.y + even.back().y, mean.z + even.back().z};
    }
    const auto n = static_cast<double>(patches.size());
    const Lab middle = lab(Xyz{mean.x / n, mean.y / n, mean.z / n}, srgb_white());
    double sum = 0.0;
    for (const Xyz& light : even) sum += ciede2000(middle, lab(light, srgb_white()));
    return sum / n;
}

// Row by row, Lab of each cell less the mean; what holds no fibre is left out.
struct LabRows {
    std::vector<Eigen::Vector3d> values;
    std::vector<char> there;
};

LabRows lab_rows(const Cells& cells, const WhiteBalance& balance, const Slope& slope) {
    LabRows rows{std::vector<Eigen::Vector3d>(cells.all.size(), Eigen::Vector3d::Zero()),
                 std::vector<char>(cells.all.size(), 0)};
    Eigen::Vector3d sum = Eigen::Vector3d::Zero();
    double count = 0.0;
    for (int y = 0; y < cells.rows; ++y)
        for (int x = 0; x < cells.columns; ++x) {
            if (!cells.lies(x, y)) continue;
            const Cell& cell = cells.at(x, y);
            const double by = cell.count * slope.at((2.0 * x + 1.0) / cells.columns - 1.0,
                                                    (2.0 * y + 1.0) / cells.rows - 1.0);
            const Lab colour =
                lab(daylit({cell.light.r / by, cell.light.g / by, cell.light.b / by}, balance), srgb_white());
            const auto at = static_cast<std::size_t>(&cell - cells.all.data());
            rows.values[at] = {colour.l, colour.a, colour.b};
            rows.there[at] = 1;
            sum += rows.values[at];
            count += 1.0;
        }
    for (std::size_t i = 0; i < rows.values.size(); ++i)
        if (rows.there[i] != 0) rows.values[i] -= sum / std::max(count, 1.0);
    return rows;
}

double lag_covariance(const Cells& cells, const LabRows& rows, int lag) {
    double sum = 0.0, pairs = 0.0;
    for (int y = 0; y < cells.rows; ++y)
        for (int x = 0; x + lag < cells.columns; ++x) {
            const auto here = static_cast<std::size_t>(y) * static_cast<std::size_t>(cells.columns) +
                              static_cast<std::size_t>(x);
            const auto there = here + static_cast<std::size_t>(lag);
            if (rows.there[here] == 0 || rows.there[there] == 0) continue;
            sum += rows.values[here].dot(rows.values[there]);
            pairs += 1.0;
        }
    return pairs > 0.0 ? sum / pairs : 0.0;
}

// The camera's grain stands at lag nought alone, so the line through the next two lags tells what is left
// there without it.
std::optional<double> streak_scale_mm(const Cells& cells, const LabRows& rows) {
    const int most = std::min(cells.columns / 2, static_cast<int>(longest_lag_mm / cells.mm));
    if (most < 3) return std::nullopt;
    const double first = lag_covariance(cells, rows, 1), second = lag_covariance(cells, rows, 2);
    const double whole = std::min(lag_covariance(cells, rows, 0), 2.0 * first - second);
    if (!(whole > nothing_varies)) return std::nullopt;
    double length = 0.0, before = 1.0;
    for (int lag = 1; lag <= most; ++lag) {
        const double now = (lag == 1 ? first : lag_covariance(cells, rows, lag)) / whole;
        if (now <= 0.0) return (length + 0.5 * before * before / (before - now)) * cells.mm;
        length += 0.5 * (before + now);
        before = now;
    }
    return length * cells.mm;
}

Unfit unfitness(const Cells& cells, const std::optional<WhiteBalance>& white, double mm_per_pixel) {
    if (!white) return Unfit::no_white;
    const Lab paper = lab(white->white, srgb_white());
    if (paper.b > lamp_b) return Unfit::lamp_light;
    if (static_cast<double>(cells.cut_off) > most_cut_off_share * static_cast<double>(cells.pixels))
        return Unfit::overexposed;
    const double mm2 = static_cast<double>(cells.pixels) * mm_per_pixel * mm_per_pixel;
    return cells.pixels < least_fibre_pixels || mm2 < least_fibre_mm2 ? Unfit::too_small : Unfit::none;
}

Lab mean_lab(const Cells& cells, const WhiteBalance& balance) {
    LinearRgb sum;
    for (const Cell& cell : cells.all)
        sum = {sum.r + cell.light.r, sum.g + cell.light.g, sum.b + cell.light.b};
    const auto n = static_cast<double>(cells.pixels);
    return lab(daylit({sum.r / n, sum.g / n, sum.b / n}, balance), srgb_white());
}

bool lies_outside(const Pixels& photo, const Area& area) {
    constexpr double half_pixel = 0.5;
    return std::any_of(area.begin(), area.end(), [&](const Point& corner) {
        return corner.x < -half_pixel || corner.y < -half_pixel || corner.x > photo.width + half_pixel ||
               corner.y > photo.height + half_pixel;
    });
}

// Whether the two areas have a pixel in common.
bool share_a_pixel(const Pixels& photo, const Area& one, const Area& other) {
    const auto runs = runs_in(photo, one), others = runs_in(photo, other);
    return std::any_of(runs.begin(), runs.end(), [&](const PixelRun& a) {
        return std::any_of(others.begin(), others.end(), [&](const PixelRun& b) {
            return a.row == b.row && a.from < b.to && b.from < a.to;
        });
    });
}

}  // namespace

std::string_view word_for(Taken taken) {
    return measure::row_of(all_taken, taken).word;
}

measure::Expected<Taken> parse_taken(std::string_view word) {
    return measure::parse_word(all_taken, word, "way of taking a photo");
}

const UnfitRow& row_for(Unfit unfit) {
    return measure::row_of(all_unfit, unfit);
}

measure::Expected<Unfit> parse_unfit(std::string_view word) {
    if (word.empty()) return Unfit::none;
    return measure::parse_word(all_unfit, word, "fault of a photo");
}

measure::Expected<BattReading> read_batt(const Pixels& photo, const Area& wanted,
                                         const std::optional<WhiteBalance>& white, const PhotoScale& scale) {
    BATTWRIGHT_BELIEVE(scale.mm_per_pixel > 0.0 && scale.patch_wide_mm > 0.0 && scale.patch_high_mm > 0.0);
    if (auto fault = fault_in(photo, wanted)) return tl::make_unexpected(*fault);
    const Area area = wanted.empty() ? rectangle(0.0, 0.0, photo.width, photo.height) : wanted;
    if (lies_outside(photo, area))
        return tl::make_unexpected(measure::Complaint{"the area reaches beyond the photo, which is " +
                                                          std::to_string(photo.width) + " x " +
                                                          std::to_string(photo.height) + " pixels",
                                                      "mark an area inside the picture", "area"});
    const Cells cells = cells_of(photo, area, scale.mm_per_pixel);
    if (cells.pixels == 0)
        return tl::make_unexpected(measure::Complaint{"the area holds no pixel of the photo",
                                                      "mark an area inside the picture", "area"});
    const WhiteBalance balance = white.value_or(WhiteBalance{});
    BattReading reading;
    reading.mean = mean_lab(cells, balance);
    reading.unfit = unfitness(cells, white, scale.mm_per_pixel);
    const auto patches = photo_patches(cells, scale, balance);
    reading.patches = patches.size();
    if (patches.size() < least_patches) return reading;
    const Slope slope = slope_of(patches);
    reading.slope_pct = 100.0 * (std::exp(2.0 * std::hypot(slope.x, slope.y)) - 1.0);
    reading.variation_de00 = photo_variation(patches, slope);
    reading.streak_mm = streak_scale_mm(cells, lab_rows(cells, balance, slope));
    if (reading.unfit == Unfit::none && reading.slope_pct > most_slope_pct)
        reading.unfit = Unfit::uneven_light;
    return reading;
}

measure::Expected<BattReading> read_batt_beside(const Pixels& photo, const Area& wanted,
                                                const std::optional<WhiteReference>& white,
                                                const PhotoScale& scale) {
    if (!white) return read_batt(photo, wanted, {}, scale);
    if (auto fault = fault_in(photo, white->area)) return tl::make_unexpected(*fault);
    const Area area = wanted.empty() ? rectangle(0.0, 0.0, photo.width, photo.height) : wanted;
    if (runs_in(photo, white->area).empty())
        return tl::make_unexpected(
            measure::Complaint{"the white lies outside the photo", "point inside the picture", "white"});
    if (share_a_pixel(photo, area, white->area))
        return tl::make_unexpected(measure::Complaint{"the white thing lies within the area of the fibre",
                                                      "mark the fibre and nothing but the fibre", "area"});
    const auto balance = white_from(photo, white->area, white->reflects);
    if (balance) return read_batt(photo, area, *balance, scale);
    auto reading = read_batt(photo, area, {}, scale);
    if (reading) reading->unfit = Unfit::bad_white;
    return reading;
}

}  // namespace battwright::colour
