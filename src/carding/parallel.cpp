#include "carding/parallel.hpp"

#include <algorithm>
#include <atomic>
#include <thread>
#include <vector>

namespace battwright::carding {

void run_jobs(std::size_t count, int threads, const std::function<void(std::size_t)>& job) {
    const std::size_t wanted =
        threads > 0 ? static_cast<std::size_t>(threads) : std::max(1u, std::thread::hardware_concurrency());
    std::atomic<std::size_t> next{0};
    const auto work = [&] {
        for (std::size_t i = next++; i < count; i = next++) job(i);
    };
    std::vector<std::jthread> others;
    for (std::size_t i = 1; i < std::min(wanted, count); ++i) others.emplace_back(work);
    work();
}

}  // namespace battwright::carding
