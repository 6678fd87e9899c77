#include "strip/cell_colours.hpp"

#include <algorithm>
#include <cmath>

#include "text/believe.hpp"

namespace battwright::strip {
namespace {

using colour::LinearRgb;

bool is_the_batt(const forecast::Forecast& forecast, std::span<const double> shares) {
    for (std::size_t i = 0; i < forecast.strands.size(); ++i)
        if (std::abs(shares[i] - forecast.strands[i].mass_share) > 1e-6) return false;
    return true;
}

// Index of a strand that has the cell to itself, or npos.
std::size_t alone(std::span<const double> shares) {
    for (std::size_t i = 0; i < shares.size(); ++i)
        if (shares[i] > 1.0 - 1e-6) return i;
    return std::string::npos;
}

// The floor keeps a channel that hardly any strand has from running away.
double fibre_channel(double strand, double blend, double average, double contrast) {
    constexpr double floor = 0.004;
    return blend * (1.0 + contrast * ((strand + floor) / (average + floor) - 1.0));
}

}  // namespace

std::uint32_t seed_of(const std::string& name) {
    std::uint32_t hash = 2166136261u;
    for (const char c : name) hash = (hash ^ static_cast<unsigned char>(c)) * 16777619u;
    return hash;
}

LinearRgb Blender::blend(std::span<const double> shares) {
    BATTWRIGHT_BELIEVE(shares.size() == forecast_->strands.size());
    BATTWRIGHT_BELIEVE(std::ranges::any_of(shares, [](double share) { return share > 0.0; }));
    if (std::ranges::equal(last_shares_, shares)) return last_;
    last_shares_.assign(shares.begin(), shares.end());
    const std::size_t only = alone(shares);
    if (is_the_batt(*forecast_, shares)) return last_ = colour::linear(forecast_->colour.srgb);
    if (only != std::string::npos) return last_ = forecast_->strand_colours[only];
    if (portions_.empty())
        for (const auto& reflectance : forecast_->strand_reflectances)
            portions_.push_back({0.0, reflectance});
    for (std::size_t i = 0; i < shares.size(); ++i) portions_[i].share = shares[i];
    return last_ = forecast::seen(colour::blend(portions_, forecast_->optics), forecast_->light);
}

LinearRgb cell_average(const forecast::Forecast& forecast, std::span<const double> shares) {
    BATTWRIGHT_BELIEVE(shares.size() == forecast.strands.size());
    LinearRgb sum;
    for (std::size_t i = 0; i < forecast.strands.size(); ++i) {
        sum.r += shares[i] * forecast.strand_colours[i].r;
        sum.g += shares[i] * forecast.strand_colours[i].g;
        sum.b += shares[i] * forecast.strand_colours[i].b;
    }
    return sum;
}

LinearRgb fibre_colour(const LinearRgb& strand, const LinearRgb& blend, const LinearRgb& average,
                       double contrast) {
    return {fibre_channel(strand.r, blend.r, average.r, contrast),
            fibre_channel(strand.g, blend.g, average.g, contrast),
            fibre_channel(strand.b, blend.b, average.b, contrast)};
}

void append_row(std::vector<float>& table, const LinearRgb& colour, double last) {
    for (const double value : {colour.r, colour.g, colour.b, last})
        table.push_back(static_cast<float>(value));
}

}  // namespace battwright::strip
