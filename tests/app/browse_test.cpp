// Choosing a file: what fits, what is listed, small pictures, paths as people have them.
#include <doctest/doctest.h>

#include <chrono>
#include <fstream>
#include <thread>

#include "app/browse/browser.hpp"
#include "app/browse/file_path.hpp"
#include "app/browse/words.hpp"
#include "app/settings.hpp"
#include "folder.hpp"
#include "place.hpp"

using namespace battwright;
namespace fs = std::filesystem;
using app::FileKind;
using app::FilePurpose;

namespace {

strip::Image two_halves(int width, int height) {
    strip::Image image{width, height, {}};
    for (int i = 0; i < width * height; ++i)
        for (const int channel : i % width < width / 2 ? std::array{200, 30, 30} : std::array{30, 30, 200})
            image.rgb.push_back(static_cast<std::uint8_t>(channel));
    return image;
}

// A harbour's folder: photos, a recipe, a table, and what fits nothing.
struct Quay : testing::Folder {
    Quay() : Folder("quay") {
        fs::create_directories(path / "boats");
        fs::create_directories(path / ".hidden");
        REQUIRE(strip::save_png(two_halves(64, 32), (path / "kelp.PNG").string()));
        std::ofstream(path / "broken.jpg") << "\xff\xd8\xff no more";
        std::ofstream(path / "lots.csv") << "name\n";
        std::ofstream(path / "tide.txt") << "no recipe";
        fs::copy(fs::path(testing::source_dir()) / "blends" / "dawn-tide.toml", path / "dawn-tide.toml");
    }
};

// As many frames as it takes.
void settle(app::FileBrowser& files) {
    for (int i = 0; i < 2000; ++i) {
        files.follow();
        if (!files.busy()) return;
        std::this_thread::sleep_for(std::chrono::milliseconds(5));
    }
    FAIL("the folder is not read to an end");
}

std::vector<std::string> names_in(const app::FileBrowser& files) {
    std::vector<std::string> names;
    if (files.listing() != nullptr)
        for (const auto& entry : files.listing()->entries) names.push_back(entry.name);
    return names;
}

app::FileRequest asking(FileKind kind, FilePurpose purpose, const fs::path& at = {}) {
    return {"a field", kind, purpose, at, ""};
}

}  // namespace

TEST_CASE("only files that fit are listed, folders first; how many do not is told") {
    const Quay quay;
    using Names = std::vector<std::string>;
    const auto listed = [&](FileKind kind) {
        Names names;
        for (const auto& entry : app::list_folder(quay.path, kind, app::FileOrder::by_name).entries)
            names.push_back(entry.name);
        return names;
    };
    CHECK(listed(FileKind::photo) == Names{"boats", "broken.jpg", "kelp.PNG"});
    CHECK(listed(FileKind::recipe) == Names{"boats", "broken.jpg", "dawn-tide.toml", "kelp.PNG"});
    CHECK(listed(FileKind::table) == Names{"boats", "lots.csv"});
    CHECK(listed(FileKind::folder) == Names{"boats"});
    CHECK(app::list_folder(quay.path, FileKind::table, app::FileOrder::by_name).unfit == 4);
    const auto gone = app::list_folder(quay.path / "nowhere", FileKind::photo, app::FileOrder::by_name);
    CHECK(gone.entries.empty());
    CHECK(gone.trouble.find("cannot be read") != std::string::npos);
    // The newest first: that of a minute ago before that of a year ago.
    fs::last_write_time(quay.path / "kelp.PNG", fs::file_time_type::clock::now());
    fs::last_write_time(quay.path / "broken.jpg",
                        fs::file_time_type::clock::now() - std::chrono::hours(24 * 365));
    const auto newest = app::list_folder(quay.path, FileKind::photo, app::FileOrder::newest_first);
    CHECK(newest.entries[1].name == "kelp.PNG");
    CHECK(newest.entries[2].name == "broken.jpg");
}

TEST_CASE("small pictures are made beside the window's thread; a broken one says why in a line") {
    const Quay quay;
    app::FileBrowser files;
    files.use(fibre::Catalogue::builtin(), {});
    files.open(asking(FileKind::recipe, FilePurpose::open), quay.path);
    CHECK(files.listing() == nullptr);
    settle(files);
    REQUIRE(files.listing() != nullptr);
    CHECK(files.thumbnails()->empty());  // nothing is in sight yet
    files.look_at(0, files.listing()->entries.size());
    settle(files);
    const auto small = [&](const std::string& name) -> const app::Thumbnail& {
        for (const auto& entry : files.listing()->entries)
            if (entry.name == name) {
                const auto* made = files.thumbnail_of(entry);
                REQUIRE(made != nullptr);
                return *made;
            }
        FAIL("not listed: " << name);
        throw 0;
    };
    CHECK(small("kelp.PNG").picture.width == 64);
    CHECK(small("kelp.PNG").about == "64 x 32 pixels");
    CHECK(small("broken.jpg").picture.rgb.empty());
    CHECK(small("broken.jpg").trouble.find("broken.jpg") != std::string::npos);
    CHECK(small("broken.jpg").trouble.find('\n') == std::string::npos);
    CHECK(small("dawn-tide.toml").about.starts_with("Dawn Tide, "));
    double shares = 0.0;
    for (const auto& tint : small("dawn-tide.toml").colours) shares += tint.share_pct;
    CHECK(shares == doctest::Approx(100.0));
    files.name_it("broken.jpg");
    CHECK(app::line_under(files).trouble);
    files.name_it("kelp.PNG");
    CHECK(app::line_under(files).words.starts_with("64 x 32 pixels"));
    files.name_it("");
    CHECK(app::line_under(files).words.find("2 files of other kinds, not shown") != std::string::npos);
    // What comes to the folder meanwhile is seen.
    REQUIRE(strip::save_png(two_halves(8, 8), (quay.path / "late.png").string()));
    for (int i = 0; i < 600 && names_in(files).size() < 5; ++i) {
        files.follow();
        std::this_thread::sleep_for(std::chrono::milliseconds(10));
    }
    CHECK(names_in(files).size() == 5);
    files.leave();
    CHECK_FALSE(files.busy());
}

TEST_CASE("a choice is made by name, entered, and asked about before it replaces") {
    const Quay quay;
    app::FileBrowser files;
    files.use(fibre::Catalogue::builtin(), {});
    auto saving = asking(FileKind::recipe, FilePurpose::save);
    saving.suggested = "new-batt.batt.toml";
    files.open(saving, quay.path);
    CHECK(files.name() == "new-batt.batt.toml");
    CHECK(files.finish() == quay.path / "new-batt.batt.toml");
    std::ofstream(quay.path / "tide.batt.toml") << "";
    files.name_it("tide");
    CHECK_FALSE(files.finish());
    CHECK(files.complaint().find("there already") != std::string::npos);
    CHECK(files.finish() == quay.path / "tide.batt.toml");
    files.name_it("boats");
    CHECK_FALSE(files.finish());
    CHECK(files.folder().filename() == "boats");
    files.name_it("");
    CHECK_FALSE(files.finish());
    settle(files);
    CHECK(names_in(files).empty());

    files.open(asking(FileKind::photo, FilePurpose::open), quay.path);
    files.name_it("none.png");
    CHECK_FALSE(files.finish());
    CHECK(files.complaint().find("none.png") != std::string::npos);
    files.name_it("kelp.PNG");
    CHECK(files.finish() == quay.path / "kelp.PNG");
    // Its field has it in one frame, the next, and no other field ever.
    files.follow();
    CHECK(files.chosen_for("a field") == quay.path / "kelp.PNG");
    CHECK_FALSE(files.chosen_for("another").has_value());
    files.follow();
    CHECK_FALSE(files.chosen_for("a field").has_value());
    // The next photo is looked for where the last one was, a file in a field beside itself.
    files.open(asking(FileKind::photo, FilePurpose::open), "/");
    CHECK(files.folder() == quay.path);
    files.open(asking(FileKind::photo, FilePurpose::open, quay.path / "boats" / "hull.jpg"), "/");
    CHECK(files.folder() == quay.path / "boats");

    files.open(asking(FileKind::folder, FilePurpose::folder, quay.path), "/");
    CHECK(files.finish() == quay.path);
    files.enter(quay.path / "nowhere");
    CHECK_FALSE(files.finish());
}

TEST_CASE("paths as they are typed, pasted and dropped") {
    const fs::path here = "/quay";
    CHECK(app::typed_path("  boats/hull.png ", here) == "/quay/boats/hull.png");
    CHECK(app::typed_path("../hull.png", here) == "/hull.png");
    CHECK(app::typed_path("'/tide/a b.png'", here) == "/tide/a b.png");
    CHECK(app::typed_path("~/kelp.png", here) == app::home_folder() / "kelp.png");
    CHECK(app::typed_path("", here).empty());
    // RFC 8089: an empty host or localhost is this machine; RFC 3986: percent and two hexadecimal digits.
    CHECK(app::typed_path("file:///tide/a%20b%C3%A4.png", here) == "/tide/a b\u00e4.png");
    CHECK(app::typed_path("file://localhost/tide/100%25.png", here) == "/tide/100%.png");
    CHECK(app::pasted_path("/tide/kelp.png\n") == fs::path("/tide/kelp.png"));
    // RFC 2483: lines that begin with # are remarks, lines end with CR LF.
    CHECK(app::pasted_path("# copied\r\nfile:///tide/kelp.png\r\nfile:///tide/foam.png\r\n") ==
          fs::path("/tide/kelp.png"));
    CHECK(app::pasted_path("copy\nfile:///tide/kelp.png") == fs::path("/tide/kelp.png"));
    for (const char* none : {"", "  \n", "kelp and foam", "https://tide/kelp.png", "file://other/kelp.png"}) {
        CAPTURE(none);
        const auto path = app::pasted_path(none);
        REQUIRE_FALSE(path.has_value());
        CHECK(path.error().mend.find("save a copied picture as a file") != std::string::npos);
    }
}

TEST_CASE("sizes of files in decimal units, as the SI has them") {
    CHECK(app::print_bytes(0) == "0 bytes");
    CHECK(app::print_bytes(999) == "999 bytes");
    CHECK(app::print_bytes(1500) == "1.5 kB");
    CHECK(app::print_bytes(999'600) == "1 MB");
    CHECK(app::print_bytes(3'440'000) == "3.4 MB");
    CHECK(app::print_bytes(52'000'000'000) == "52 GB");
}
