// Independent jobs on a few threads.
#pragma once

#include <cstddef>
#include <functional>

namespace battwright::jobs {

// As many as the machine has, at least 1.
std::size_t hardware_threads();

// Runs job(0) .. job(count - 1), each once, on at most `threads` threads (0 and below: as many as the machine
// has), the caller's among them, and returns when all are done. Jobs must not touch each other's results;
// then nothing depends on the number of threads. What a job throws is thrown here, the first of several;
// jobs not begun by then are left out.
void run(std::size_t count, int threads, const std::function<void(std::size_t)>& job);

}  // namespace battwright::jobs
