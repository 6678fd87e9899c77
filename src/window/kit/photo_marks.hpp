// Saying on a photo where the fibre lies and what is white.
#pragma once

#include <optional>
#include <string>

#include "app/shelf/lot_photo.hpp"
#include "window/gl/photo.hpp"
#include "window/kit/ui.hpp"

namespace battwright::window {

enum class MarkTool { fibre, white };
struct PhotoMarking {
    MarkTool tool = MarkTool::fibre;
    app::PhotoMarks marks;
    std::optional<colour::Point> drag_from;
    bool by_keys = false;                 // the frame is drawn by them: it ends where Enter is pressed again
    std::optional<colour::Point> cursor;  // where the keys are on the photo
};

// The last item is the photo, as a button: where on it Enter or Space was pressed, in its pixels. While it
// has the keys the arrows move `cursor`, by a fortieth of the photo or with Shift by one pixel, and a cross
// is drawn there. `scale`: window pixels a pixel of the photo, whose corner is `at`.
std::optional<colour::Point> pressed_by_keys(const Ui& ui, bool pressed, const Photo& photo, ImVec2 at,
                                             float scale, std::optional<colour::Point>& cursor);
// The keys and not the mouse point there now.
bool keys_point();

// The photo as large as there is room: dragging, or Enter at two corners, marks the fibre, a press marks the
// white. True when a mark is done, and what is read by it is to be read anew.
bool view_photo_marks(const Ui& ui, const char* label, const Photo& photo, PhotoMarking& marking,
                      ImVec2 room);
// Which of the two is being marked, and how it is done.
void view_mark_tools(const Ui& ui, const char* name, PhotoMarking& marking);

}  // namespace battwright::window
