// Leaving the window while a form is half filled.
#pragma once

namespace battwright::window {

struct Shell;

// Leaves when nothing is half typed. Else says so where it stands, and leaves when asked once more with
// nothing changed; a recipe in no file is asked about after that.
void close_window(Shell& shell);

}  // namespace battwright::window
