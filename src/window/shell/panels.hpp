// The panels that open over the bench: one row each.
#pragma once

#include <array>
#include <cstddef>

#include "window/kit/probe.hpp"
#include "window/kit/ui.hpp"
#include "window/kit/widgets.hpp"

namespace battwright::window {

struct Shell;

struct Panel {
    Command command{};  // opens it; its key is in the table of commands
    PanelHead head;     // id and title
    // What is null is not needed.
    void (*prepare)(Shell& shell) = nullptr;  // before it opens
    void (*follow)(Shell& shell) = nullptr;   // each frame it is open, before it is drawn
    void (*draw)(const Ui& ui, Shell& shell, const PanelHead& head) = nullptr;
    void (*shut)(Shell& shell) = nullptr;            // once it is no longer open
    bool (*has_news)(const Shell& shell) = nullptr;  // a thread has made something that is not on show yet
    void (*report)(const Shell& shell, bool open, Probe& probe) = nullptr;
};
inline constexpr std::size_t panel_count = 14;
const std::array<Panel, panel_count>& panels();

// Prepares the panel of that command and opens it in the next frame.
void open_panel(Shell& shell, Command command);
bool panel_is_open(const Shell& shell, Command command);
// Opens what is to be opened and draws what is open.
void draw_panels(Shell& shell, const Ui& ui);
bool panels_have_news(const Shell& shell);
void report_panels(const Shell& shell, Probe& probe);

}  // namespace battwright::window
