// SIGTERM, SIGINT and SIGHUP as something that can be looked at.
#pragma once

#include <atomic>
#include <csignal>
#include <functional>
#include <thread>

namespace battwright::app {

// While it lives these signals end nothing; they are noted, and `wake` is called on a thread of its own. To
// be made before any other thread, which would be ended by them else.
class EndSignals {
  public:
    explicit EndSignals(std::function<void()> wake);
    ~EndSignals();
    EndSignals(const EndSignals&) = delete;
    EndSignals& operator=(const EndSignals&) = delete;

    // One has come.
    bool asked() const { return asked_; }

  private:
    void listen();

    std::function<void()> wake_;
    std::atomic<bool> asked_ = false;
    sigset_t before_{};
    int signals_ = -1, stop_ = -1;
    std::jthread thread_;
};

}  // namespace battwright::app
