#include <doctest/doctest.h>

#include <atomic>
#include <numeric>
#include <stdexcept>
#include <vector>

#include "jobs/latest.hpp"
#include "jobs/run.hpp"

using namespace battwright;

TEST_CASE("every job runs once, on any number of threads") {
    for (const int threads : {0, 1, 2, 7}) {
        std::vector<int> runs(100, 0);
        jobs::run(runs.size(), threads, [&](std::size_t i) { ++runs[i]; });
        CHECK(runs == std::vector<int>(100, 1));
    }
    jobs::run(0, 4, [](std::size_t) { FAIL("there is no job"); });
}

TEST_CASE("what a job throws comes out, and the rest is left") {
    for (const int threads : {1, 3}) {
        std::atomic<int> begun{0};
        const auto job = [&](std::size_t i) {
            ++begun;
            if (i == 3) throw std::runtime_error("job 3");
        };
        CHECK_THROWS_WITH(jobs::run(100000, threads, job), "job 3");
        CHECK(begun < 100000);
    }
}

namespace {

using Doubler = jobs::Latest<int, int>;

// Waits until there is nothing more to answer.
template <class Worker>
typename Worker::State settled(const Worker& worker) {
    for (;;) {
        const auto state = worker.state();
        if (!state.busy) return state;
        std::this_thread::yield();
    }
}

}  // namespace

TEST_CASE("an answer comes with the number of its request") {
    std::atomic<int> ready{0};
    Doubler worker(
        [](const int& asked, const Doubler::Turn& turn) { turn.publish(std::make_shared<int>(2 * asked)); },
        [&] { ++ready; });
    CHECK(worker.state().latest == nullptr);
    const unsigned long number = worker.ask(21);
    const auto state = settled(worker);
    REQUIRE(state.latest != nullptr);
    CHECK(*state.latest == 42);
    CHECK(state.number == number);
}

TEST_CASE("of many requests the last is answered, one under way is told, those between are dropped") {
    std::atomic<bool> begun{false};
    std::atomic<int> made{0};
    Doubler worker([&](const int& asked, const Doubler::Turn& turn) {
        ++made;
        begun = true;
        if (asked == 0) {
            while (!turn.outdated()) std::this_thread::yield();
            turn.publish(std::make_shared<int>(-1));  // nobody wants it now
            return;
        }
        turn.publish(std::make_shared<int>(asked));
    });
    worker.ask(0);
    while (!begun) std::this_thread::yield();
    {
        // While the first is still on its way the others replace each other.
        for (int i = 1; i <= 50; ++i) worker.ask(i);
    }
    const auto state = settled(worker);
    REQUIRE(state.latest != nullptr);
    CHECK(*state.latest == 50);
    CHECK(state.number == 51);
    CHECK(made <= 51);
}

TEST_CASE("cancelled, it keeps what it may show late, and takes the next request") {
    std::atomic<bool> begun{false};
    Doubler worker([&](const int& asked, const Doubler::Turn& turn) {
        begun = true;
        if (asked == 0) {
            while (turn.rest(std::chrono::milliseconds(1000))) continue;
            turn.publish(std::make_shared<int>(7), jobs::Late::unless_newer);
            return;
        }
        turn.publish(std::make_shared<int>(asked));
    });
    worker.ask(0);
    while (!begun) std::this_thread::yield();
    worker.cancel();
    CHECK_FALSE(worker.state().busy);  // at once, whatever the thread still does
    while (worker.state().latest == nullptr) std::this_thread::yield();
    CHECK(*worker.state().latest == 7);
    worker.ask(5);
    CHECK(*settled(worker).latest == 5);
    // Of a request that a newer one takes the place of, nothing is shown.
    begun = false;
    worker.ask(0);
    while (!begun) std::this_thread::yield();
    worker.ask(6);
    CHECK(*settled(worker).latest == 6);
}

TEST_CASE("going away stops the answer under way") {
    std::atomic<bool> begun{false}, stopped{false};
    {
        Doubler worker([&](const int&, const Doubler::Turn& turn) {
            begun = true;
            while (!turn.outdated()) std::this_thread::yield();
            stopped = true;
        });
        worker.ask(1);
        while (!begun) std::this_thread::yield();
    }
    CHECK(stopped);
}
