// The batt on the table: one large view of it, of what is made of it and of its yarn.
#pragma once

#include <memory>

#include "app/derived.hpp"
#include "app/table/table_session.hpp"
#include "window/gl/texture.hpp"
#include "window/kit/ui.hpp"
#include "window/kit/widgets.hpp"

namespace battwright::window {

struct TableState {
    TableChoice choice;  // as it is being changed; the session's own at the beginning of a frame
    Texture page;
    Derived<std::shared_ptr<const TableMade>, bool> page_of;  // what `page` shows
};
// Before it is drawn: the picture on show as a texture.
void follow_table(TableState& state, const TableSession& session);
void view_table(const Ui& ui, const PanelHead& head, TableState& state, const TableSubject& subject);
void report_table(const TableSession& session, bool open, Probe& probe);

// A piece of it: the picture with what lies over it, moved and enlarged by hand and by keys.
void view_table_picture(const Ui& ui, TableState& state, ImVec2 low, ImVec2 high);

}  // namespace battwright::window
