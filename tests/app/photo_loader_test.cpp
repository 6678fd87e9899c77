// Photos decoded beside the window's thread.
#include "app/photo_loader.hpp"

#include <doctest/doctest.h>

#include <atomic>
#include <chrono>
#include <fstream>
#include <thread>

#include "folder.hpp"
#include "strip/picture.hpp"

using namespace battwright;

namespace {

std::shared_ptr<const app::PhotoRead> wait_for_photo(app::PhotoLoader& loader) {
    for (int i = 0; i < 3000; ++i) {
        if (auto read = loader.take()) return read;
        std::this_thread::sleep_for(std::chrono::milliseconds(10));
    }
    return nullptr;
}

strip::Image grey_square(int side, std::uint8_t value) {
    return {side, side, std::vector<std::uint8_t>(static_cast<std::size_t>(side * side) * 3, value)};
}

}  // namespace

TEST_CASE("a photo comes once, to whoever asked, and asking waits for nothing") {
    const testing::Folder folder("photos");
    const auto path = folder.path / "kelp.png";
    REQUIRE(strip::save_png(grey_square(16, 90), path.string()));
    std::atomic<int> woken = 0;
    app::PhotoLoader loader([&woken] { ++woken; });
    CHECK_FALSE(loader.busy());
    CHECK_FALSE(loader.take());
    loader.load(path, 7);
    CHECK(loader.busy());
    const auto read = wait_for_photo(loader);
    REQUIRE(read);
    CHECK(read->wanted_by == 7);
    CHECK(read->path == path);
    REQUIRE(read->image);
    CHECK(read->image->width == 16);
    CHECK(woken > 0);
    CHECK_FALSE(loader.take());
    CHECK_FALSE(loader.busy());
    CHECK_FALSE(loader.has_news());
}

TEST_CASE("what is no photo is a complaint that names the file") {
    const testing::Folder folder("no-photos");
    const auto path = folder.path / "list.png";
    std::ofstream(path) << "no picture at all";
    app::PhotoLoader loader;
    loader.load(path, 1);
    const auto read = wait_for_photo(loader);
    REQUIRE(read);
    REQUIRE_FALSE(read->image);
    CHECK(measure::to_line(read->image.error()).find(path.string()) != std::string::npos);
}

TEST_CASE("of many asked for at once the last one comes, and only that is still waited for") {
    const testing::Folder folder("many-photos");
    app::PhotoLoader loader;
    for (int i = 1; i <= 20; ++i) {
        const auto path = folder.path / (std::to_string(i) + ".png");
        REQUIRE(strip::save_png(grey_square(i, 40), path.string()));
        loader.load(path, static_cast<std::uint64_t>(i));
    }
    std::uint64_t last = 0;
    for (int i = 0; i < 3000 && loader.busy(); ++i) {
        if (const auto read = loader.take()) {
            CHECK(read->wanted_by > last);
            last = read->wanted_by;
            REQUIRE(read->image);
            CHECK(read->image->width == static_cast<int>(last));
        }
        std::this_thread::sleep_for(std::chrono::milliseconds(5));
    }
    CHECK(last == 20);
}
