// What lies on disk: pipes, what others wrote meanwhile, what may be written over, what a kill leaves.
#include <doctest/doctest.h>
#include <fcntl.h>
#include <sys/file.h>
#include <sys/socket.h>
#include <sys/stat.h>
#include <sys/un.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <csignal>
#include <cstring>
#include <fstream>
#include <thread>

#include "folder.hpp"
#include "measure/beside.hpp"
#include "measure/replace.hpp"
#include "measure/save.hpp"
#include "measure/seen.hpp"

namespace fs = std::filesystem;
namespace measure = battwright::measure;
using battwright::testing::Folder;
using measure::FileKind;
using measure::Replace;

namespace {

void write_file(const fs::path& path, std::string_view bytes) {
    std::ofstream(path, std::ios::binary) << bytes;
}

template <class T>
std::string told(const measure::Expected<T>& result) {
    REQUIRE_FALSE(result.has_value());
    CHECK_FALSE(result.error().mend.empty());
    return measure::to_line(result.error());
}

bool has(const std::string& text, std::string_view part) {
    return text.find(part) != std::string::npos;
}

// Ends the whole program when what it guards hangs: a test that waits for ever would never say so.
struct Alarm {
    explicit Alarm(unsigned seconds) { ::alarm(seconds); }
    ~Alarm() { ::alarm(0); }
};

std::size_t entries_in(const fs::path& folder) {
    return static_cast<std::size_t>(std::distance(fs::directory_iterator(folder), fs::directory_iterator()));
}

}  // namespace

TEST_CASE("a pipe, a socket, a device and a folder are told at once and never waited for") {
    const Alarm alarm(20);
    const Folder folder;
    const fs::path pipe = folder.path / "pipe", quay = folder.path / "quay", link = folder.path / "link";
    REQUIRE(::mkfifo(pipe.c_str(), 0600) == 0);
    fs::create_symlink(pipe, link);
    sockaddr_un address{};
    address.sun_family = AF_UNIX;
    std::strncpy(address.sun_path, quay.c_str(), sizeof address.sun_path - 1);
    const int socket = ::socket(AF_UNIX, SOCK_STREAM, 0);
    REQUIRE(::bind(socket, reinterpret_cast<const sockaddr*>(&address), sizeof address) == 0);
    for (const fs::path& path :
         {pipe, quay, link, fs::path("/dev/null"), fs::path("/dev/tty"), folder.path}) {
        CAPTURE(path.string());
        CHECK(has(told(measure::load_bytes(path, 10)), "cannot be read"));
        CHECK_FALSE(measure::look_at(path).has_value());
    }
    // Nor are they replaced, by any of the ways. (Not tried on the machine's own devices.)
    for (const fs::path& path : {pipe, quay, link, folder.path}) {
        CAPTURE(path.string());
        CHECK_FALSE(measure::save_bytes(path, "x").has_value());
        CHECK_FALSE(measure::save_seen(path, "x").has_value());
        CHECK_FALSE(measure::may_write(path, FileKind::text, Replace::yes).has_value());
        CHECK_FALSE(measure::Beside::make(folder.path / "x")->replace(path).has_value());
    }
    ::close(socket);
    CHECK(fs::is_fifo(pipe));
}

TEST_CASE("what another wrote meanwhile is told from what is merely new on disk") {
    const Folder folder;
    const fs::path path = folder.path / "tide.toml";
    CHECK_FALSE(measure::look_at(path).value().there);
    CHECK(measure::is_still(path, measure::Seen{}).value());
    const measure::Seen saved = measure::save_seen(path, "ebb").value();
    CHECK(saved == measure::look_at(path).value());
    CHECK(measure::is_still(path, saved).value());
    CHECK_FALSE(measure::is_still(path, measure::Seen{}).value());
    // The same bytes as a new file, as a sync tool lays them down; then touched.
    write_file(folder.path / "copy", "ebb");
    fs::rename(folder.path / "copy", path);
    CHECK(measure::is_still(path, saved).value());
    fs::last_write_time(path, fs::file_time_type::clock::now() + std::chrono::hours(1));
    CHECK(measure::is_still(path, saved).value());
    // Other bytes of the same length, with the old time put back.
    const auto before = fs::last_write_time(path);
    const measure::Seen again = measure::look_at(path).value();
    write_file(path, "eBb");
    CHECK_FALSE(measure::is_still(path, again).value());
    fs::last_write_time(path, before);
    write_file(path, "longer");
    CHECK_FALSE(measure::is_still(path, again).value());
    const auto loaded = measure::load_seen(path, 100);
    CHECK(loaded->bytes == "longer");
    CHECK(measure::is_still(path, loaded->seen).value());
    fs::remove(path);
    CHECK_FALSE(measure::is_still(path, loaded->seen).value());
    // FNV-1a of "" and "foobar" by its authors' published test vectors.
    CHECK(measure::hash_of("") == 0xcbf29ce484222325u);
    CHECK(measure::hash_of("foobar") == 0x85944171f73967e8u);
}

TEST_CASE("one file by other names is the same file") {
    const Folder folder;
    const fs::path path = folder.path / "a";
    write_file(path, "x");
    write_file(folder.path / "b", "x");
    fs::create_hard_link(path, folder.path / "hard");
    fs::create_symlink(path, folder.path / "soft");
    for (const char* name : {"hard", "soft", "./a"}) CHECK(measure::is_same_file(path, folder.path / name));
    CHECK_FALSE(measure::is_same_file(path, folder.path / "b"));
    CHECK_FALSE(measure::is_same_file(folder.path / "none", folder.path / "none"));
}

TEST_CASE("what a person made is not written over unless she says so, and one kind never over another") {
    const Folder folder;
    const auto at = [&](const char* name, std::string_view bytes) {
        write_file(folder.path / name, bytes);
        return folder.path / name;
    };
    const std::string png = "\x89PNG\r\n\x1a\n";
    const fs::path none = folder.path / "none", empty = at("empty", "");
    const fs::path recipe = at("k.toml", "# tide\n  format = 1\nname = \"Kelp\"\n");
    const fs::path text = at("k.md", "# Kelp\nthe format is A6\n");
    const fs::path stash = at("s.db", std::string_view("SQLite format 3\0....", 20));
    const fs::path theirs = at("t.png", png + "....IHDR....IDAT");
    const fs::path ours = at("o.png", png + "....tEXtSoftware" + std::string(1, '\0') + "Battwright....");
    const fs::path pdf = at("o.pdf", "%PDF-1.5\n<< /Creator (Battwright) >>\n");
    const fs::path theirs_pdf = at("t.pdf", "%PDF-1.5\n<< /Creator (Writer) >>\n");
    const fs::path odd = at("odd", std::string_view("\0\1\2", 3));
    const auto may = [](const fs::path& to, FileKind as, Replace replace = Replace::no) {
        return measure::may_write(to, as, replace);
    };
    for (const FileKind as :
         {FileKind::png, FileKind::pdf, FileKind::recipe, FileKind::text, FileKind::database}) {
        CHECK(may(none, as).has_value());
        CHECK(may(empty, as).has_value());
        CHECK_FALSE(may(odd, as, Replace::yes).has_value());
        for (const auto& [path, kind] : {std::pair(recipe, FileKind::recipe),
                                         {text, FileKind::text},
                                         {stash, FileKind::database},
                                         {theirs, FileKind::png},
                                         {theirs_pdf, FileKind::pdf}}) {
            CAPTURE(path.string());
            CHECK(has(told(may(path, as)), "is not replaced"));
            CHECK(may(path, as, Replace::yes).has_value() == (as == kind));
        }
        CHECK(may(ours, as).has_value() == (as == FileKind::png));
        CHECK(may(pdf, as).has_value() == (as == FileKind::pdf));
    }
    fs::create_symlink(ours, folder.path / "soft.png");
    const fs::path inputs[] = {folder.path / "soft.png"};
    CHECK(
        has(told(measure::may_write(ours, FileKind::png, Replace::yes, inputs)), "it is read for this too"));
    CHECK(measure::may_write(ours, FileKind::png, Replace::no, {}).has_value());
}

TEST_CASE(
    "what a killed program left beside a file goes with the next save, and what is being written stays") {
    const Folder folder;
    const fs::path path = folder.path / "tide.toml";
    const pid_t child = ::fork();
    REQUIRE(child >= 0);
    if (child == 0) {
        const auto beside = measure::Beside::make(path);
        std::raise(SIGKILL);
        ::_exit(beside ? 0 : 1);
    }
    int status = 0;
    REQUIRE(::waitpid(child, &status, 0) == child);
    REQUIRE(WIFSIGNALED(status));
    REQUIRE(entries_in(folder.path) == 1);
    const auto busy = measure::Beside::make(path);
    REQUIRE(busy.has_value());
    write_file(busy->path().string() + "-journal", "of SQLite's");
    CHECK(entries_in(folder.path) == 2);  // the left one is gone
    REQUIRE(measure::save_bytes(path, "new").has_value());
    CHECK(fs::exists(busy->path()));
    CHECK(entries_in(folder.path) == 3);
    // Where something is by now, nothing is put; where nothing is, it is, in one piece.
    auto other = measure::Beside::make(path);
    CHECK_FALSE(other->place(path).value());
    CHECK(measure::load_bytes(path, 10).value() == "new");
    CHECK(other->place(folder.path / "free.toml").value());
    other = measure::Beside::make(path);
    CHECK(fs::exists(folder.path / "free.toml"));
}
