#pragma once

namespace battwright::command {

// The version of this program, "MAJOR.MINOR.PATCH", as CMakeLists.txt has it.
const char* version();

}  // namespace battwright::command
