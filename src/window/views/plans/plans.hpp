// Before the whole is carded: a sample of it, and a series of batts in steps.
#pragma once

#include "app/plans/plans_session.hpp"
#include "app/plans/series_edits.hpp"
#include "window/kit/ui.hpp"
#include "window/kit/widgets.hpp"

namespace battwright::window {

enum class PlansPage { sample, series };
struct PlansState {
    PlansPage page = PlansPage::sample;
};
void view_plans(const Ui& ui, const PanelHead& head, PlansState& state, const Sheet& sheet);
void report_plans(const PlansState& state, const app::PlansSession& plans, bool open, Probe& probe);

}  // namespace battwright::window
