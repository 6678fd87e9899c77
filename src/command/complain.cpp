#include "command/complain.hpp"

#include <ostream>

namespace battwright::command {

int complain(const measure::Complaint& complaint, const Surroundings& s) {
    *s.err << measure::to_line(complaint) << "\n";
    return exit_bad_input;
}

}  // namespace battwright::command
