// What a function believes of what it is given, said so that a program can hold it to that.
#pragma once

namespace battwright::text {

// Prints the belief that does not hold and where it stands, and ends the program.
[[noreturn]] void broken_belief(const char* belief, const char* file, int line);

}  // namespace battwright::text

// BATTWRIGHT_BELIEVE(condition): a precondition of ours. A caller that breaks it is a fault in the program,
// never bad input (that is a measure::Complaint). Held to in debug, sanitised and fuzz builds; in a release
// it is compiled and not run.
#if !defined(NDEBUG) || defined(BATTWRIGHT_CHECKED)
#define BATTWRIGHT_BELIEVE(condition) \
    ((condition) ? void() : ::battwright::text::broken_belief(#condition, __FILE__, __LINE__))
#else
#define BATTWRIGHT_BELIEVE(condition) (static_cast<void>(sizeof(!(condition))))
#endif
