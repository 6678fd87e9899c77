// A program told to end: it hears of it, and ends by itself.
#include "app/end_signals.hpp"

#include <doctest/doctest.h>
#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <thread>

#include "app/bench/recovery.hpp"
#include "app/state.hpp"
#include "folder.hpp"

using namespace battwright;

namespace {

// A process that has unsaved work, is told to end, and ends with 0 when it heard of it.
[[noreturn]] void work_until_told(const std::filesystem::path& folder) {
    std::atomic<bool> woken = false;
    const app::EndSignals signals([&woken] { woken = true; });
    app::State state;
    state.catalogue = &fibre::Catalogue::builtin();
    state.recovery = std::make_unique<app::Recovery>(folder / "state");
    app::apply(state, app::StartExample{});
    app::Sheet sheet = state.document.sheet();
    sheet.recipe.notes = "half a tide's work";
    app::apply(state, app::Edit{std::move(sheet), "write a note"});
    std::filesystem::create_directories(folder / "ready");
    for (int i = 0; i < 3000 && !woken; ++i) std::this_thread::sleep_for(std::chrono::milliseconds(10));
    if (!signals.asked()) ::_exit(3);
    app::keep_copy(state);
    ::_exit(0);
}

}  // namespace

TEST_CASE("SIGTERM, SIGINT and SIGHUP end nothing at once, and unsaved work is copied before the end") {
    for (const int signal : {SIGTERM, SIGINT, SIGHUP}) {
        CAPTURE(signal);
        const testing::Folder folder("told-to-end");
        const pid_t child = ::fork();
        if (child == 0) work_until_told(folder.path);
        for (int i = 0; i < 2000 && !std::filesystem::exists(folder.path / "ready"); ++i)
            std::this_thread::sleep_for(std::chrono::milliseconds(10));
        ::kill(child, signal);
        int status = 0;
        ::waitpid(child, &status, 0);
        REQUIRE(WIFEXITED(status));
        CHECK(WEXITSTATUS(status) == 0);
        const auto left = app::Recovery::left_behind(folder.path / "state");
        REQUIRE(left.size() == 1);
        CHECK(left[0].text.find("half a tide's work") != std::string::npos);
    }
}

TEST_CASE("nothing is asked until a signal comes, and afterwards signals are as they were") {
    sigset_t before, during, after;
    ::pthread_sigmask(SIG_SETMASK, nullptr, &before);
    {
        const app::EndSignals signals([] {});
        CHECK_FALSE(signals.asked());
        ::pthread_sigmask(SIG_SETMASK, nullptr, &during);
        CHECK(sigismember(&during, SIGTERM) == 1);
    }
    ::pthread_sigmask(SIG_SETMASK, nullptr, &after);
    CHECK(sigismember(&after, SIGTERM) == sigismember(&before, SIGTERM));
    CHECK(sigismember(&after, SIGINT) == sigismember(&before, SIGINT));
}
