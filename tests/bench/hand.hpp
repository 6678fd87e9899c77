// A hand at the real window, at a person's pace.
#pragma once

#include <string>

namespace bench {

// Prints the process's CPU seconds for each second of the hand's work, and pictures painted meanwhile are
// part of it. `work`: still, ground, border. Gives the program's exit code; mostly it ends by SIGTERM, as
// somebody ends a window from outside.
int time_hand(const std::string& work, const std::string& recipe, double moves_a_second);

}  // namespace bench
