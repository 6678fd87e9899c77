// The lots a recipe names, looked up on the shelf.
#pragma once

#include <memory>

#include "forecast/forecast.hpp"
#include "recipe/lots.hpp"
#include "stash/shelf.hpp"

namespace battwright::shelving {

// A lot as a component: its mark, name, content, colours and figures; the amount does not count.
recipe::Component component_of(const stash::Lot& lot);

// For reading recipes: the shelf's lots by mark, written in any way stash::parse_mark() takes. No shelf: no
// lots.
recipe::LotOf lots_of(std::shared_ptr<const stash::Shelf> shelf);

// Adds to the findings what the shelf knows of the lots the recipe names: that there is no such lot, or that
// it is raw. A shelf without lots says nothing. Common practice, no source.
void add_lot_findings(forecast::Forecast& forecast, const stash::Shelf& shelf);

}  // namespace battwright::shelving
