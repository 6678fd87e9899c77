// Inside this room: what each view lays on the table.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "strip/table_paint.hpp"

namespace battwright::strip {

// What lies there after one pass. Yarn gets the scene it is drawn from once the picture's scale is known.
struct TableItem {
    TableSize size;
    std::vector<Laid> pieces;
    std::string words;  // "batt face, 560 by 203 mm"
};
// The batt and what is made of it for spinning. Precondition: the view is none of the yarn's.
TableItem batt_laid(const forecast::Forecast& forecast, const forecast::Batt& batt, const carding::Pass& pass,
                    TableView view, const TableCanvas& units);
// The yarn of such a scene. Precondition: the view is one of the yarn's, and there is yarn.
TableItem yarn_laid(const YarnScene& scene, const TableSettings& ask, measure::LengthUnit unit);
// Between which shares of its yarn's length a piece is seen; `from` over `to`: it is not.
struct Stretch {
    double from = 1.0, to = 0.0;
};
Stretch stretch_shown(const Laid& piece, const TableFrame& frame);

}  // namespace battwright::strip
