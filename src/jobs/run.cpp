#include "jobs/run.hpp"

#include <algorithm>
#include <atomic>
#include <exception>
#include <mutex>
#include <thread>
#include <vector>

namespace battwright::jobs {
namespace {

class Work {
  public:
    Work(std::size_t count, const std::function<void(std::size_t)>& job) : count_(count), job_(job) {}

    void do_some() {
        try {
            for (std::size_t i = next_++; i < count_; i = next_++) job_(i);
        } catch (...) {
            next_ = count_;
            const std::lock_guard lock(mutex_);
            if (!failure_) failure_ = std::current_exception();
        }
    }
    void rethrow() const {
        if (failure_) std::rethrow_exception(failure_);
    }

  private:
    std::size_t count_;
    const std::function<void(std::size_t)>& job_;
    std::atomic<std::size_t> next_{0};
    std::mutex mutex_;
    std::exception_ptr failure_;
};

// std::jthread is not in every standard library.
struct Joined {
    std::vector<std::thread> threads;
    ~Joined() {
        for (std::thread& thread : threads) thread.join();
    }
};

}  // namespace

std::size_t hardware_threads() {
#if defined(__EMSCRIPTEN__) && !defined(__EMSCRIPTEN_PTHREADS__)
    return 1;
#else
    return std::max(1u, std::thread::hardware_concurrency());
#endif
}

void run(std::size_t count, int threads, const std::function<void(std::size_t)>& job) {
    const std::size_t wanted = threads > 0 ? static_cast<std::size_t>(threads) : hardware_threads();
    Work work(count, job);
    {
        Joined others;
        for (std::size_t i = 1; i < std::min(wanted, count); ++i)
            others.threads.emplace_back([&work] { work.do_some(); });
        work.do_some();
    }
    work.rethrow();
}

}  // namespace battwright::jobs
