#include "command/complain.hpp"

#include <cerrno>
#include <ostream>
#include <sstream>
#include <system_error>

#include "measure/printable.hpp"

namespace battwright::command {

int complain(const measure::Complaint& complaint, const Surroundings& s) {
    *s.err << measure::to_line(complaint) << "\n";
    return exit_bad_input;
}

int with_words_told(const Surroundings& s, const std::function<int(const Surroundings&)>& work) {
    std::ostringstream out, err;
    const auto tell = [&] {
        *s.err << measure::printable(err.str(), measure::Lines::many) << std::flush;
        errno = 0;
        *s.out << measure::printable(out.str(), measure::Lines::many) << std::flush;
        err.str({});
        out.str({});
    };
    Surroundings gathered{{}, &out, &err};
    if (s.open_window)
        gathered.open_window = [&](const std::string& recipe, const fibre::Catalogue& catalogue) {
            tell();
            return s.open_window(recipe, catalogue);
        };
    const int code = work(gathered);
    tell();
    if (*s.out) return code;
    const std::string reason = errno != 0 ? ": " + std::generic_category().message(errno) : "";
    return complain({"cannot be written" + reason, "free some space, or send it elsewhere", "the output"}, s);
}

}  // namespace battwright::command
