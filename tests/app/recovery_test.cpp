// What is left after a process dies without a word.
#include "app/bench/recovery.hpp"

#include <doctest/doctest.h>
#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <fstream>
#include <thread>

#include "app/bench/document.hpp"
#include "app/settings.hpp"
#include "recipe/file.hpp"

using namespace battwright;
namespace fs = std::filesystem;

namespace {

struct RecoveryFolder {
    fs::path path;
    RecoveryFolder()
        : path(fs::temp_directory_path() / ("battwright-recovery-" + std::to_string(::getpid()))) {
        fs::remove_all(path);
        fs::create_directories(path);
    }
    ~RecoveryFolder() { fs::remove_all(path); }
};

// A process that works, one change every 20 ms, and is killed in the middle of it. Each change is noted in a
// plain file right away, so that we know what it had done.
pid_t start_worker(const fs::path& folder) {
    const pid_t child = ::fork();
    if (child != 0) return child;
    app::Recovery recovery(folder / "state");
    std::ofstream log(folder / "log");
    for (int k = 0;; ++k) {
        const auto now = app::Recovery::Clock::now();
        recovery.touched(now);
        log << k << ' ' << now.time_since_epoch().count() << std::endl;
        if (recovery.seconds_until_due(now).value_or(1.0) <= 0.0)
            (void)recovery.write("format = 1\nname = \"change " + std::to_string(k) + "\"\n",
                                 folder / "where.toml");
        std::this_thread::sleep_for(std::chrono::milliseconds(20));
    }
}

}  // namespace

TEST_CASE("kill -9 loses at most two seconds of work") {
    const RecoveryFolder folder;
    const pid_t child = start_worker(folder.path);
    std::this_thread::sleep_for(std::chrono::milliseconds(3300));
    ::kill(child, SIGKILL);
    ::waitpid(child, nullptr, 0);
    std::vector<long long> when;
    std::ifstream log(folder.path / "log");
    for (long long k = 0, at = 0; log >> k >> at;) when.push_back(at);
    REQUIRE(when.size() > 50);
    const auto left = app::Recovery::left_behind(folder.path / "state");
    REQUIRE(left.size() == 1);
    CHECK(left[0].original == folder.path / "where.toml");
    const auto at = left[0].text.find("change ");
    REQUIRE(at != std::string::npos);
    const auto kept = static_cast<std::size_t>(std::stoul(left[0].text.substr(at + 7)));
    const double lost_seconds = static_cast<double>(when.back() - when.at(kept)) * 1e-9;
    MESSAGE("lost ", lost_seconds, " s of work");
    CHECK(lost_seconds <= 2.0);
    app::Recovery::discard(left[0]);
    CHECK(app::Recovery::left_behind(folder.path / "state").empty());
}

TEST_CASE("a living run's copy is not offered, and a clean end leaves nothing") {
    const RecoveryFolder folder;
    {
        app::Recovery recovery(folder.path);
        REQUIRE(recovery.write("format = 1\n", std::nullopt));
        CHECK(app::Recovery::left_behind(folder.path).empty());
        recovery.clear();
    }
    CHECK(app::Recovery::left_behind(folder.path).empty());
    CHECK(fs::is_empty(folder.path));
}

TEST_CASE("locks that dead runs left are swept away, those of living runs are not") {
    const RecoveryFolder folder;
    for (const char* name : {"unsaved-1-0.lock", "unsaved-7-3.lock", "another.lock"})
        std::ofstream(folder.path / name) << "";
    const app::Recovery living(folder.path);
    CHECK(app::Recovery::left_behind(folder.path).empty());
    std::size_t locks = 0;
    for (const auto& entry : fs::directory_iterator(folder.path))
        locks += entry.path().extension() == ".lock" ? 1u : 0u;
    CHECK(locks == 2);  // the living run's, and one that is none of ours
    CHECK(fs::exists(folder.path / "another.lock"));
    CHECK_FALSE(fs::exists(folder.path / "unsaved-7-3.lock"));
}

TEST_CASE("nothing is due until something changed, then within two seconds") {
    const RecoveryFolder folder;
    app::Recovery recovery(folder.path);
    const auto now = app::Recovery::Clock::now();
    CHECK_FALSE(recovery.seconds_until_due(now));
    recovery.touched(now);
    recovery.touched(now + std::chrono::milliseconds(900));  // goes on working: the first change counts
    CHECK(*recovery.seconds_until_due(now + std::chrono::milliseconds(900)) < 0.2);
    CHECK(*recovery.seconds_until_due(now) <= 2.0);
}

TEST_CASE("settings come back as they were; a broken file is a fresh start") {
    const RecoveryFolder folder;
    app::Settings settings;
    settings.shade = app::Shade::dark;
    settings.scale = 1.15;
    settings.mass = measure::MassUnit::ounce;
    settings.length = measure::LengthUnit::inch;
    settings.guide_seen = true;
    app::remember(settings, "/harbour/one.toml");
    app::remember(settings, "/harbour/two \"quoted\".toml");
    app::remember(settings, "/harbour/one.toml");
    REQUIRE(app::save_settings(settings, folder.path));
    const auto back = app::load_settings(folder.path);
    CHECK(back.shade == settings.shade);
    CHECK(back.scale == doctest::Approx(1.15));
    CHECK(back.mass == settings.mass);
    CHECK(back.length == settings.length);
    CHECK(back.guide_seen);
    CHECK(back.recent == std::vector<fs::path>{"/harbour/one.toml", "/harbour/two \"quoted\".toml"});
    std::ofstream(folder.path / "window.toml") << "theme = [";
    CHECK(app::load_settings(folder.path).shade == app::Shade::light);
}

TEST_CASE("a document knows whether its file holds it, and warns of comments") {
    const RecoveryFolder folder;
    const auto path = folder.path / "pier.toml";
    std::ofstream(path)
        << "# from the drawer\nformat = 1\nname = \"Pier\"\n[[component]]\nfibre = \"corriedale\"\n"
           "weight = \"20 g\"\n";
    const auto& catalogue = fibre::Catalogue::builtin();
    auto document = app::Document::open(path, catalogue);
    REQUIRE(document);
    CHECK_FALSE(document->unsaved());
    CHECK(document->would_lose_comments());
    auto sheet = document->sheet();
    sheet.recipe.notes = "damp";
    document->change(sheet, "note");
    CHECK(document->unsaved());
    CHECK(document->undo());
    CHECK_FALSE(document->unsaved());
    CHECK(document->redo());
    REQUIRE(document->save(path, catalogue));
    CHECK_FALSE(document->unsaved());
    CHECK_FALSE(document->would_lose_comments());
    const auto again = recipe::read_file(path, catalogue);
    REQUIRE(again);
    CHECK(recipe::write_text(*again) == recipe::write_text(document->sheet().recipe));
    CHECK_FALSE(app::Document::open(folder.path / "missing.toml", catalogue));
}
