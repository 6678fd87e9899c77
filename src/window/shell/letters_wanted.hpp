// Which letters the names on show want.
#pragma once

#include "window/shell/shell.hpp"

namespace battwright::window {

// Looks through what has changed since the last time: the recipe, the shelf, the record, files, and what is
// being typed.
void want_letters(Shell& shell);

}  // namespace battwright::window
