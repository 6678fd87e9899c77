// "Card it": the weigh-out of the batt on the bench, taken from the shelf at once or not at all.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "app/bench/outcome.hpp"
#include "app/shelf/shelf_weigh_out.hpp"
#include "window/kit/ui.hpp"
#include "window/kit/widgets.hpp"

namespace battwright::window {

struct CardItState {
    CardingWords words;
    std::string let_go_asked;  // what was typed when leaving was last asked for
    // What the stash said to the last try.
    std::string complaint;
    std::vector<stash::Shortfall> short_lines;
    struct Taken {
        std::int64_t batt = 0;
        std::string words;  // "60 g of “Slack Water” were taken from 3 lots"
    };
    std::optional<Taken> asked;                       // until the stash has answered
    std::optional<Taken> taken;                       // can be taken back
    std::vector<WeighLine> asked_lines, taken_lines;  // shown as they were until it is opened again
    std::string said;                                 // after it was
};

// The button of the drum's panel, at its upper right corner; says on hover why it cannot be pressed.
void view_card_it_button(const Ui& ui, const Outcome& outcome, ImVec2 corner);
// Before it is opened: as many batts as planned, today.
void prepare_card_it(CardItState& state, const Outcome& outcome);
void view_card_it(const Ui& ui, const PanelHead& head, CardItState& state, const Outcome& outcome);
void report_card_it(const CardItState& state, Probe& probe);

}  // namespace battwright::window
