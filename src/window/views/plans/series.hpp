// The page of a series: what it steps to, and the table to weigh it by.
#pragma once

#include "app/plans/plans_session.hpp"
#include "app/plans/series_edits.hpp"
#include "window/kit/ui.hpp"

namespace battwright::window {

// Precondition: the sheet has a component.
void view_series(const Ui& ui, const app::PlansMade& made, const Sheet& sheet);
// At the foot of it.
void view_series_buttons(const Ui& ui, const app::PlansMade& made, const Sheet& sheet);

}  // namespace battwright::window
