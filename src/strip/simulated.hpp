// The carded batt as a picture: the simulated field of a pass, laid out as the strip or as the batt's face.
#pragma once

#include "carding/pull.hpp"
#include "forecast/batt.hpp"
#include "strip/picture.hpp"

namespace battwright::strip {

// `edge`: the batt torn lengthwise into the recipe's number of strips, these laid end to end and seen from
// the torn side, so the picture's height is the batt's depth and its length the order of spinning. `face`:
// the batt flat on the table, round the drum from left to right, the outermost sixth of its depth.
enum class View { edge, face };

// The yarn's supply in the order it is spun when the batt is taken to the wheel that way: one row. Rolags are
// spun one after another, each from end to end, whatever way is asked for: so what lies across a board comes
// in order in each of them, and what lies along it from one to the next. The `edge` view has them end to end.
Field pulled_field(const forecast::Forecast& forecast, const forecast::Batt& batt, const carding::Pass& pass,
                   carding::Pull pull);
// The same of a part of the batt, pulled off as so many strips.
Field pulled_field(const forecast::Forecast& forecast, const forecast::Batt& batt,
                   const carding::Field& carded, carding::Pull pull, int strips);

// The view that shows what was fed: the face for what lies side by side, round the drum or in dabs, else the
// torn edge.
View suited_view(const forecast::Forecast& forecast);

// Precondition: the pass is one of the batt's, and the batt was made from this forecast.
// What the grid does not resolve is drawn at random, the same each time: tufts, drawn out along the row. In
// the `edge` view strips are joined as a hand joins them, one end laid over the next for about a staple.
Field simulated_field(const forecast::Forecast& forecast, const forecast::Batt& batt,
                      const carding::Pass& pass, View view);

// The scene after the recipe's passes, or after `passes` of them: carded here and now.
Scene carded_scene(const forecast::Forecast& forecast, int passes, View view = View::edge);
Scene pulled_scene(const forecast::Forecast& forecast, int passes, carding::Pull pull);

}  // namespace battwright::strip
