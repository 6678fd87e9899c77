// The order in which Tab goes: everything that can be pressed or typed into, as it is drawn, through every
// panel; within a card over the bench while there is one.
#pragma once

#include <string>
#include <vector>

namespace battwright::window {

struct TabStops {
    std::vector<std::string> order;   // of this frame so far
    std::vector<std::string> before;  // of the last frame
    std::string focused;              // where the keys go; "" for nowhere
    std::string wanted;               // is to have them once it is drawn
    bool on_field = false;            // what has the keys is a field, typed into or not yet
    unsigned opening = 0;             // the field (its ImGuiID) that letters were typed at before it was open
    int waited = 0;                   // frames since
    std::vector<unsigned> letters;    // those: it gets them once it is open
    bool first_of_card = false;       // a card has just opened: the thing to do on it is to have them
};

// Once a frame, before anything is drawn: Tab and Shift+Tab move on from what has the keys.
void begin_tab_stops(TabStops& stops);
// The last item is such a thing, of that name.
void tab_stop(TabStops& stops, const std::string& label);

// The last item has the keys: 1 when Right was pressed, -1 when Left was; they lead to no neighbour then.
int along_by_keys();

}  // namespace battwright::window
