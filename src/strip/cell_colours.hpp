// Inside this room: the colours of one cell of a field, of its blend and of its single fibres.
#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <vector>

#include "colour/optics.hpp"
#include "forecast/forecast.hpp"

namespace battwright::strip {

// FNV-1a (Fowler, Noll, Vo), 32 bits: the recipe's name decides where its fibres lie.
std::uint32_t seed_of(const std::string& name);

// Blends of a forecast's strands by mass share, under its light. The forecast must outlive it.
class Blender {
  public:
    explicit Blender(const forecast::Forecast& forecast) : forecast_(&forecast) {}

    // Precondition: one share a strand, not all nought.
    colour::LinearRgb blend(std::span<const double> shares);

  private:
    const forecast::Forecast* forecast_;
    std::vector<colour::Portion> portions_;
    std::vector<double> last_shares_;
    colour::LinearRgb last_;
};

// Mean of the strands' own colours, by mass share. Precondition: one share a strand.
colour::LinearRgb cell_average(const forecast::Forecast& forecast, std::span<const double> shares);
// The strand's own hue carried over to the blend: averaged by share it is the blend's colour, channel by
// channel. `contrast`: 0 the blend's colour .. 1 the strand's.
colour::LinearRgb fibre_colour(const colour::LinearRgb& strand, const colour::LinearRgb& blend,
                               const colour::LinearRgb& average, double contrast);
// An RGBA row of a table.
void append_row(std::vector<float>& table, const colour::LinearRgb& colour, double last);

}  // namespace battwright::strip
