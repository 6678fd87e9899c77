// A broken belief ends the program where beliefs are held to, and is not even looked at elsewhere. Ended by
// SIGABRT (POSIX), which a child of ours shows.
#include "text/believe.hpp"

#include <doctest/doctest.h>
#include <sys/wait.h>
#include <unistd.h>

#include <csignal>
#include <cstdio>

namespace {

// How a child that believes `condition` ends: 0, or the signal.
int end_of_child(bool condition) {
    std::fflush(nullptr);
    const pid_t child = ::fork();
    if (child == 0) {
        std::freopen("/dev/null", "w", stderr);
        std::signal(SIGABRT, SIG_DFL);
        BATTWRIGHT_BELIEVE(condition);
        ::_exit(0);
    }
    int status = 0;
    ::waitpid(child, &status, 0);
    return WIFSIGNALED(status) ? WTERMSIG(status) : WEXITSTATUS(status);
}

}  // namespace

TEST_CASE("a belief that holds costs nothing, one that does not ends a checked build") {
#if !defined(NDEBUG) || defined(BATTWRIGHT_CHECKED)
    constexpr int wanted = SIGABRT;
#else
    constexpr int wanted = 0;
#endif
    CHECK(end_of_child(true) == 0);
    CHECK(end_of_child(false) == wanted);
}
