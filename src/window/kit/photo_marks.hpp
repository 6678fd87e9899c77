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
};

// The photo as large as there is room: dragging marks the fibre, a press marks the white. True when a mark is
// done, and what is read by it is to be read anew.
bool view_photo_marks(const Ui& ui, const char* label, const Photo& photo, PhotoMarking& marking,
                      ImVec2 room);
// Which of the two is being marked, and how it is done.
void view_mark_tools(const Ui& ui, const char* name, PhotoMarking& marking);

}  // namespace battwright::window
