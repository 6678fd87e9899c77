// Processes that die or meet: all of a carding or none of it, and nothing that was answered for is lost.
#include <chrono>
#include <random>
#include <thread>

#include "children.hpp"
#include "shelves.hpp"

using namespace shelves;

namespace {

constexpr int cardings = 500;
constexpr double start_grams = 1000.0;

// Cards until all are done, and writes one byte for each that was answered for.
int card_all(const fs::path& path, const std::vector<std::string>& marks, int tell) {
    auto stash = stash::Stash::open(path);
    if (!stash) return 1;
    const auto batts = stash->batts();
    if (!batts) return 2;
    for (auto done = batts->size(); done < cardings; ++done) {
        if (!stash->card_it(carding({{marks[0], 0.5}, {marks[1], 0.75}, {marks[2], 1.0}, {marks[0], 0.25}})))
            return 3;
        if (::write(tell, "x", 1) != 1) return 4;
    }
    return 0;
}

// Waits for so many bytes, or for the end.
std::size_t bytes_of(int pipe, std::size_t most) {
    std::size_t count = 0;
    char byte = 0;
    while (count < most && ::read(pipe, &byte, 1) == 1) ++count;
    return count;
}

std::vector<std::string> three_lots(const fs::path& path) {
    stash::Stash stash = opened(path);
    std::vector<std::string> marks;
    for (const char* name : {"kelp", "brass", "rope"})
        marks.push_back(got(stash.add(wool(name), start_grams)).mark);
    return marks;
}

void check_whole(const fs::path& path, const std::vector<std::string>& marks, std::size_t batts) {
    const stash::Stash stash = opened(path);
    const auto made = got(stash.batts());
    CHECK(made.size() == batts);
    for (const auto& batt : made) CHECK(batt.carding.lines.size() == 4);
    const auto n = static_cast<double>(batts);
    CHECK(got(stash.lot(marks[0])).grams == start_grams - 0.75 * n);
    CHECK(got(stash.lot(marks[1])).grams == start_grams - 0.75 * n);
    CHECK(got(stash.lot(marks[2])).grams == start_grams - n);
    check_sound(stash);
}

}  // namespace

TEST_CASE("killed at random points of 500 cardings: all or nothing, and nothing answered for is lost") {
    const Folder folder;
    const fs::path path = folder / "stash.db";
    const auto marks = three_lots(path);
    std::mt19937 random(7);
    // After so many answers, and then somewhere in the next few cardings; at 0, also while the file is
    // opened.
    std::uniform_int_distribution<std::size_t> answers(0, 12);
    std::uniform_int_distribution<int> microseconds(0, 4'000);
    std::size_t answered = 0;
    int kills = 0;
    for (int round = 0; round < 2000; ++round) {
        int pipe[2];
        REQUIRE(::pipe(pipe) == 0);
        const pid_t child = children::started([&] { return card_all(path, marks, pipe[1]); });
        ::close(pipe[1]);
        answered += bytes_of(pipe[0], answers(random));
        std::this_thread::sleep_for(std::chrono::microseconds(microseconds(random)));
        ::kill(child, SIGKILL);
        const int end = children::ended(child);
        answered += bytes_of(pipe[0], cardings);
        ::close(pipe[0]);
        REQUIRE((end == 0 || end == -SIGKILL));
        if (end == -SIGKILL) ++kills;
        const std::size_t made = got(opened(path).batts()).size();
        CHECK(made >= answered);
        // The one that was on disk when the child died before it could say so.
        CHECK(made <= answered + 1);
        answered = made;
        check_whole(path, marks, made);
        if (end == 0) break;
    }
    CHECK(answered == cardings);
    CHECK(kills > 20);
    MESSAGE("killed " << kills << " times");
}

TEST_CASE("two processes draw on the same lots: exactly what is there is taken") {
    const Folder folder;
    const fs::path path = folder / "stash.db";
    const std::string mark = got(opened(path).add(wool(), 150.0)).mark;
    const auto draw = [&] {
        stash::OpenOptions patient;
        patient.patience_ms = 20'000;
        auto stash = stash::Stash::open(path, patient);
        if (!stash) return 101;
        int taken = 0;
        for (int i = 0; i < 100; ++i) {
            const auto done = stash->card_it(carding({{mark, 0.5}, {mark, 0.5}}));
            if (!done && done.error().short_lines.empty()) return 102;
            taken += done ? 1 : 0;
        }
        return taken;
    };
    const pid_t first = children::started(draw), second = children::started(draw);
    const int taken_first = children::ended(first), taken_second = children::ended(second);
    CHECK(taken_first <= 100);
    CHECK(taken_second <= 100);
    CHECK(taken_first + taken_second == 150);
    const stash::Stash stash = opened(path);
    CHECK(got(stash.lot(mark)).grams == 0.0);
    CHECK(got(stash.batts()).size() == 150);
    check_sound(stash);
}

TEST_CASE("several processes that open a stash nobody has made yet all get the same one") {
    const Folder folder;
    const fs::path path = folder / "new/stash.db";
    std::vector<pid_t> all;
    for (int i = 0; i < 6; ++i)
        all.push_back(children::started([&] {
            auto stash = stash::Stash::open(path);
            return stash && stash->add(wool(), 10.0) ? 0 : 1;
        }));
    for (const pid_t child : all) CHECK(children::ended(child) == 0);
    const stash::Stash stash = opened(path);
    CHECK(got(stash.shelf())->lots.size() == 6);
    check_sound(stash);
}
