#include "app/end_signals.hpp"

#include <poll.h>
#include <sys/eventfd.h>
#include <sys/signalfd.h>
#include <unistd.h>

#include <array>
#include <cstdint>
#include <utility>

namespace battwright::app {

EndSignals::EndSignals(std::function<void()> wake) : wake_(std::move(wake)) {
    sigset_t ends;
    sigemptyset(&ends);
    for (const int signal : {SIGTERM, SIGINT, SIGHUP}) sigaddset(&ends, signal);
    stop_ = ::eventfd(0, EFD_CLOEXEC);
    signals_ = ::signalfd(-1, &ends, SFD_CLOEXEC);
    // Without the two the signals end the program, as ever.
    if (stop_ < 0 || signals_ < 0) ends = {};
    ::pthread_sigmask(SIG_BLOCK, &ends, &before_);
    if (stop_ >= 0 && signals_ >= 0) thread_ = std::jthread([this] { listen(); });
}

EndSignals::~EndSignals() {
    if (thread_.joinable()) {
        ::eventfd_write(stop_, 1);
        thread_.join();
    }
    if (signals_ >= 0) ::close(signals_);
    if (stop_ >= 0) ::close(stop_);
    ::pthread_sigmask(SIG_SETMASK, &before_, nullptr);
}

void EndSignals::listen() {
    std::array<pollfd, 2> ends{{{signals_, POLLIN, 0}, {stop_, POLLIN, 0}}};
    while (true) {
        if (::poll(ends.data(), ends.size(), -1) < 0) continue;
        if (ends[1].revents != 0) return;
        signalfd_siginfo which{};
        if (::read(signals_, &which, sizeof which) != static_cast<ssize_t>(sizeof which)) continue;
        asked_ = true;
        wake_();
    }
}

}  // namespace battwright::app
