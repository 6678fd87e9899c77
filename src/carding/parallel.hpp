// Inside this room: independent jobs on a few threads.
#pragma once

#include <cstddef>
#include <functional>

namespace battwright::carding {

// Runs job(0) .. job(count - 1), each once, on at most `threads` threads (0: as many as the machine has).
// Jobs must not touch each other's results; then nothing depends on the number of threads.
void run_jobs(std::size_t count, int threads, const std::function<void(std::size_t)>& job);

}  // namespace battwright::carding
