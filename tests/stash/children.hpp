// Work done in a process of its own: another user's rights, limits that cannot be lifted again, sudden ends.
#pragma once

#include <doctest/doctest.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <csignal>
#include <functional>

namespace children {

inline constexpr unsigned nobody = 65534;  // by custom the user who owns nothing

// Forks; the child runs the work and ends with its answer (0..100), without unwinding doctest.
inline pid_t started(const std::function<int()>& work) {
    const pid_t child = ::fork();
    REQUIRE(child >= 0);
    if (child == 0) {
        int answer = 101;
        try {
            answer = work();
        } catch (...) {
            answer = 102;
        }
        ::_exit(answer);
    }
    return child;
}

// Its answer, or minus the signal that ended it.
inline int ended(pid_t child) {
    int status = 0;
    REQUIRE(::waitpid(child, &status, 0) == child);
    return WIFEXITED(status) ? WEXITSTATUS(status) : -WTERMSIG(status);
}

inline int answer_of(const std::function<int()>& work) {
    return ended(started(work));
}

// The superuser may write anywhere; as anybody else, read-only means it.
inline int answer_as_nobody(const std::function<int()>& work) {
    return answer_of([&] {
        if (::geteuid() == 0 && (::setegid(nobody) != 0 || ::seteuid(nobody) != 0)) return 103;
        return work();
    });
}

// No file may grow beyond so many bytes, which looks to a program as a full disk does.
inline void limit_file_size(rlim_t bytes) {
    ::signal(SIGXFSZ, SIG_IGN);
    const rlimit limit{bytes, bytes};
    ::setrlimit(RLIMIT_FSIZE, &limit);
}

}  // namespace children
