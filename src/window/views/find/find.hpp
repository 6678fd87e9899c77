// What can be made of these bits, and how to get that colour: the card over the bench that looks for blends.
#pragma once

#include <deque>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "app/bench/outcome.hpp"
#include "app/derived.hpp"
#include "app/find/find_session.hpp"
#include "window/gl/texture.hpp"
#include "window/kit/ui.hpp"
#include "window/kit/widgets.hpp"
#include "window/views/photo/picks.hpp"

namespace battwright::window {

// In a window too narrow for all of it beside each other.
enum class FindPage { wanted, blends, gamut };

struct FindState {
    FindChoice choice;  // as it is being changed; the session's own at the beginning of a frame
    // The strips of what was found.
    Derived<std::shared_ptr<const FoundBlends>, std::deque<Texture>> strips;
    bool pricing = false;  // a long shelf is being looked through
    FindPage page = FindPage::blends;
    bool far_end = false;  // the colour being picked is the gradient's other end
    PicksState picks;
};

// What lies on the bench.
struct FindSubject {
    const Sheet& sheet;
    const Outcome& outcome;
};

// Before it is drawn: the pictures of what was found.
void follow_find(FindState& state, const FindSession& session);
void view_find(const Ui& ui, const PanelHead& head, FindState& state, const FindSubject& subject);
void report_find(const FindSession& session, bool open, Probe& probe);

// Near, CIEDE2000 to a tenth, "\u0394E 3.2"; further off in whole units of the scale of large differences,
// "23 away" (of CIEDE2000 where that scale was not asked).
std::string difference_words(double de00, std::optional<double> large);

// Pieces of it.
void view_find_lots(const Ui& ui, FindState& state);
void view_find_goal(const Ui& ui, FindState& state, const FindSubject& subject);
void view_find_bounds(const Ui& ui, FindState& state);
void view_find_blends(const Ui& ui, FindState& state, const FindSubject& subject);
void view_find_gamut(const Ui& ui);

// A label with room for what stands beside it.
void find_row(const Ui& ui, std::string_view words);
inline constexpr float find_row_width = 92.0f;  // design pixels
// Where the search cannot begin because of this field ("total", "bound 2"): says so at the item just drawn.
void find_trouble(const Ui& ui, std::string_view field);
// A rectangle of one colour.
void swatch(const Ui& ui, const colour::Srgb& colour, ImVec2 low, ImVec2 high);

}  // namespace battwright::window
