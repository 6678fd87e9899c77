// Colours picked off a photo.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "app/photo/picks.hpp"
#include "window/gl/photo.hpp"
#include "window/kit/ui.hpp"
#include "window/kit/widgets.hpp"

namespace battwright::window {

struct PicksState {
    Photo photo;
    std::string path;
    std::string trouble;  // why there is no photo
    Picks picks;
    bool pointing_at_white = false;
    std::size_t first = 0;                // who is given the first colour
    std::optional<colour::Point> cursor;  // where the keys are on the photo
    std::string let_go_asked;             // what was picked when leaving it was last asked about
    bool asks = false;                    // it is being asked
};
// The photo that was asked for, or why there is none.
void take_picks_photo(PicksState& state, measure::Expected<Photo> photo, const std::filesystem::path& path);

// The panel: several colours for the fibres on the bench and for lots of the shelf, in one go.
void view_picks(const Ui& ui, const PanelHead& head, PicksState& state);
void report_picks(const PicksState& state, Probe& probe);
// The same for one colour, as a card that is begun by ImGui::OpenPopup("photo card"); the colour, once it is
// taken.
std::optional<colour::Srgb> view_one_pick(const Ui& ui, PicksState& state, PhotoOf of);
// The same for up to `most` colours of one thing.
struct PicksCard {
    std::string title = "A colour from a photo";
    std::size_t most = 1;
};
std::optional<std::vector<colour::Srgb>> view_some_picks(const Ui& ui, PicksState& state, PhotoOf of,
                                                         const PicksCard& card);

}  // namespace battwright::window
