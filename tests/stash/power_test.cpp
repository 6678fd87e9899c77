// The power goes at every write: what was answered for is there, and of the rest all or nothing.
#include "power_cut.hpp"
#include "shelves.hpp"

using namespace shelves;
using power_cut::Disk;
using power_cut::Step;

namespace {

// What stands in the stash, told by how many batts were carded; -1 for a stash that is not made yet.
std::int64_t batts_in(const fs::path& path) {
    auto stash = stash::Stash::open(path);
    if (!stash) FAIL(measure::to_line(stash.error()));
    check_sound(*stash);
    const auto batts = got(stash->batts());
    for (const auto& batt : batts) CHECK(batt.carding.lines.size() == 2);
    if (got(stash->shelf())->lots.empty()) return -1;
    CHECK(got(stash->shelf())->lots[0]->grams == 500.0 - 3.0 * static_cast<double>(batts.size()));
    return static_cast<std::int64_t>(batts.size());
}

}  // namespace

TEST_CASE("the power goes after each write of a stash: nothing answered for is lost, nothing is half done") {
    const Folder folder;
    std::vector<Step> steps;
    {
        power_cut::Recorder recorder;
        for (int sitting = 0, carded = 0; sitting < 2; ++sitting) {
            stash::Stash stash = opened(folder / "stash.db");
            if (sitting == 0) got(stash.add(wool("kelp"), 500.0));
            const std::string mark = got(stash.shelf())->lots[0]->lot.mark;
            recorder.mark(carded);
            for (int i = 0; i < 4; ++i) {
                got(stash.card_it(carding({{mark, 1.0}, {mark, 2.0}})));
                recorder.mark(++carded);
            }
        }
        steps = recorder.steps();
    }
    CHECK(steps.size() > 80);
    Disk disk;
    std::mt19937 random(3);
    std::int64_t promised = -1;
    int states = 0;
    for (std::size_t i = 0; i < steps.size(); ++i) {
        disk.take(steps[i]);
        if (steps[i].what == Step::What::mark) promised = steps[i].at;
        // The making of the file is long and much the same: every third write of it.
        if (promised < 0 && i % 3 != 0) continue;
        for (const auto lost : {Disk::Lost::nothing, Disk::Lost::everything, Disk::Lost::some}) {
            CAPTURE(i);
            const Folder after;
            disk.lay_down(after.path(), lost, random);
            const std::int64_t found = batts_in(after / "stash.db");
            CHECK(found >= promised);
            CHECK(found <= promised + 1);
            ++states;
        }
    }
    CHECK(states > 200);
    MESSAGE("states reopened: " << states);
}
