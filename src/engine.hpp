// The engine for other programs: everything that needs no display. See DEVELOPERS.md for what each room
// holds.
#pragma once

#include "card/output.hpp"
#include "card/recipe_card.hpp"
#include "card/tag.hpp"
#include "forecast/batt.hpp"
#include "forecast/forecast.hpp"
#include "measure/complaint.hpp"
#include "measure/count.hpp"
#include "measure/units.hpp"
#include "recipe/file.hpp"
#include "shelving/foretell.hpp"
#include "shelving/stock.hpp"
#include "shelving/suggestion.hpp"
#include "shelving/wishes.hpp"
#include "solve/solve.hpp"
#include "stash/stash.hpp"
#include "strip/picture.hpp"
#include "strip/simulated.hpp"
#include "strip/yarn_picture.hpp"
#include "yarn/project.hpp"
