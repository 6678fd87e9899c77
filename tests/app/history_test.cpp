// Undo to the start and redo to the end: the same bytes.
#include "app/bench/history.hpp"

#include <doctest/doctest.h>
#include <sys/resource.h>
#include <unistd.h>

#include <cstdlib>
#include <fstream>

#include "app/bench/edits.hpp"
#include "recipe/file.hpp"

using namespace battwright;

namespace {

app::Sheet start() {
    recipe::Recipe recipe;
    recipe.name = "Ebb";
    recipe.total = measure::Mass{120.0, measure::MassUnit::gram};
    for (int i = 0; i < 12; ++i) {
        recipe::Component component;
        component.content = {{"corriedale", 100.0}};
        component.name = "lot " + std::to_string(i);
        component.palette = {{{0.1, 0.2, 0.3}, 100.0}};
        component.amount = recipe::Parts{1.0 + i};
        recipe.components.push_back(component);
    }
    return app::sheet_of(recipe);
}

std::string bytes(const app::Sheet& sheet) {
    return recipe::write_text(sheet.recipe);
}

double resident_megabytes() {
    std::ifstream file("/proc/self/statm");
    double pages = 0.0, resident = 0.0;
    file >> pages >> resident;
    return resident * static_cast<double>(::sysconf(_SC_PAGESIZE)) / 1048576.0;
}

}  // namespace

TEST_CASE("every state comes back on the way down and on the way up") {
    app::Sheet now = start();
    app::History history(now);
    std::vector<std::string> states{bytes(now)};
    for (std::size_t i = 0; i < 40; ++i) {
        switch (i % 5) {
            case 0:
                now = app::set_percent(now, i % now.marks.size(), 3.0 + static_cast<double>(i)).sheet;
                break;
            case 1:
                now = app::duplicate(now, i % now.marks.size());
                break;
            case 2:
                now = app::reorder(now, 0, now.marks.size() - 1);
                break;
            case 3:
                now = app::remove(now, i % now.marks.size()).sheet;
                break;
            default:
                now.recipe.notes = "note " + std::to_string(i);
        }
        history.push(now, "step");
        states.push_back(bytes(now));
    }
    CHECK(history.steps_back() == 40);
    for (std::size_t i = states.size() - 1; i-- > 0;) CHECK(bytes(history.undo()) == states[i]);
    CHECK_FALSE(history.can_undo());
    for (std::size_t i = 1; i < states.size(); ++i) CHECK(bytes(history.redo()) == states[i]);
    CHECK_FALSE(history.can_redo());
}

TEST_CASE("locks are undone too") {
    const auto first = start();
    app::History history(first);
    history.push(app::toggle_lock(first, 3), "lock");
    CHECK_FALSE(history.undo().recipe.components[3].locked);
    CHECK(history.redo().recipe.components[3].locked);
}

TEST_CASE("a drag is one step, two drags are two, a change that changes nothing is none") {
    app::Sheet now = start();
    app::History history(now);
    for (const std::uint64_t gesture : {7u, 8u}) {
        for (int k = 1; k <= 30; ++k) {
            now = app::move_border(now, 0, 0.1);
            history.push(now, "move a border", gesture);
        }
    }
    CHECK(history.steps_back() == 2);
    history.push(now, "nothing");
    CHECK(history.steps_back() == 2);
    CHECK(history.undo_name() == "move a border");
}

TEST_CASE("a change after undo drops what was undone") {
    app::Sheet now = start();
    app::History history(now);
    history.push(app::remove(now, 0).sheet, "remove");
    now = history.undo();
    history.push(app::remove(now, 1).sheet, "remove another");
    CHECK_FALSE(history.can_redo());
    CHECK(history.steps_back() == 1);
}

TEST_CASE("memory stays flat over 100,000 edits") {
    app::Sheet now = start();
    app::History history(now);
    const auto edit = [&](int k) {
        now = app::set_weight(now, static_cast<std::size_t>(k % 12),
                              {1.0 + static_cast<double>(k % 89) / 10.0, measure::MassUnit::gram})
                  .sheet;
        history.push(now, "weigh");
    };
    int k = 0;
    for (; k < 30000; ++k) edit(k);
    const double before = resident_megabytes();
    for (; k < 100000; ++k) edit(k);
    const double grown = resident_megabytes() - before;
    MESSAGE("resident: ", before, " MB, grown by ", grown, " MB over the last 70,000 edits");
    CHECK(history.steps_back() == app::History::most_steps);
    // The sanitisers keep freed memory in quarantine (256 MB by default), so there it may grow by that.
    const bool sanitised = std::getenv("BATTWRIGHT_SANITISED") != nullptr;
    CHECK(grown < (sanitised ? 300.0 : 8.0));
}
