#include "strip/drum.hpp"

#include <algorithm>
#include <cmath>

#include "text/believe.hpp"

namespace battwright::strip {
namespace {

constexpr std::size_t flat_columns = 20;

// Round the drum, or across what lies flat, and through the depth, as a field the picture's own colours can
// be asked for.
Field cross_section(const forecast::Forecast& f, const forecast::Batt& batt, const carding::Pass& pass) {
    const carding::Grid& grid = pass.field.grid;
    const bool flat = pass.field.flat;
    const std::size_t round = flat ? flat_columns : carding::default_grid.round;  // alike all round: one cell
    Field field{
        static_cast<int>(round), static_cast<int>(grid.depth), static_cast<int>(f.strands.size()), {}};
    std::vector<double> portions(pass.field.portions);
    for (std::size_t z = 0; z < grid.depth; ++z) {
        for (std::size_t x = 0; x < round; ++x) {
            std::fill(portions.begin(), portions.end(), 0.0);
            for (std::size_t p = 0; p < portions.size(); ++p) {
                const auto take = [&](std::size_t round_at, std::size_t from, std::size_t to) {
                    for (std::size_t y = from; y < to; ++y)
                        portions[p] += pass.field.at(p, round_at, y, z) / static_cast<double>(to - from);
                };
                if (flat) {
                    for (std::size_t along = 0; along < grid.round; ++along)
                        take(along, x * grid.across / round, (x + 1) * grid.across / round);
                    portions[p] /= static_cast<double>(grid.round);
                } else {
                    take(x * grid.round / round, 0, grid.across);
                }
            }
            const auto cell = carding::strand_shares(batt.portions, f.strands, portions);
            field.shares.insert(field.shares.end(), cell.begin(), cell.end());
        }
    }
    return field;
}

}  // namespace

DrumPicture drum_picture(const forecast::Forecast& f, const forecast::Batt& batt, const carding::Pass& pass) {
    BATTWRIGHT_BELIEVE(forecast::is_of(f, batt, pass));
    const Field field = cross_section(f, batt, pass);
    DrumPicture drum;
    drum.round = static_cast<std::size_t>(field.columns);
    drum.depth = static_cast<std::size_t>(field.rows);
    drum.components = f.components.size();
    drum.flat = pass.field.flat;
    const std::size_t cells = drum.round * drum.depth, strands = f.strands.size();
    drum.shares.assign(cells * drum.components, 0.0f);
    for (std::size_t cell = 0; cell < cells; ++cell) {
        for (std::size_t s = 0; s < strands; ++s)
            drum.shares[cell * drum.components + f.strands[s].component] +=
                static_cast<float>(field.shares[cell * strands + s]);
    }
    const Scene scene = scene_of(f, field, pass.number);
    for (std::size_t cell = 0; cell < cells; ++cell) {
        const float* at = scene.cells.data() + 4 * cell;
        drum.colours.push_back(colour::encoded({double{at[0]}, double{at[1]}, double{at[2]}}));
    }
    return drum;
}

DrumPicture::Most DrumPicture::most_at(double turn, double at_depth) const {
    BATTWRIGHT_BELIEVE(!shares.empty() && at_depth >= 0.0 && at_depth < 1.0);
    const auto column =
        static_cast<std::size_t>((turn - std::floor(turn)) * static_cast<double>(round)) % round;
    const auto z = std::min(static_cast<std::size_t>(at_depth * static_cast<double>(depth)), depth - 1);
    const float* here = shares.data() + (z * round + column) * components;
    const float* most = std::max_element(here, here + components);
    return {static_cast<std::size_t>(most - here), double{*most}};
}

}  // namespace battwright::strip
