// Saving: there is the old file or the new one, never half, and nothing is left lying about.
#include "measure/save.hpp"

#include <doctest/doctest.h>
#include <sys/mount.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <csignal>
#include <cstring>
#include <fstream>
#include <iterator>

#include "measure/save_in_pieces.hpp"

namespace fs = std::filesystem;
namespace measure = battwright::measure;

namespace {

// A folder of its own for each test, gone afterwards.
class SaveFolder {
  public:
    SaveFolder() {
        std::string name = (fs::temp_directory_path() / "battwright-save-XXXXXX").string();
        REQUIRE(::mkdtemp(name.data()) != nullptr);
        path_ = name;
    }
    ~SaveFolder() { fs::remove_all(path_); }
    SaveFolder(const SaveFolder&) = delete;
    SaveFolder& operator=(const SaveFolder&) = delete;
    fs::path operator/(const std::string& name) const { return path_ / name; }
    const fs::path& path() const { return path_; }
    std::size_t entries() const {
        return static_cast<std::size_t>(
            std::distance(fs::directory_iterator(path_), fs::directory_iterator()));
    }

  private:
    fs::path path_;
};

// A tiny file system in memory, when we may mount one.
class TinyDisk {
  public:
    explicit TinyDisk(const fs::path& at) : at_(at) {
        mounted_ = ::mount("none", at.c_str(), "tmpfs", 0, "size=32k") == 0;
        if (!mounted_) error_ = errno;
    }
    ~TinyDisk() {
        if (mounted_) ::umount2(at_.c_str(), MNT_DETACH);
    }
    TinyDisk(const TinyDisk&) = delete;
    TinyDisk& operator=(const TinyDisk&) = delete;
    bool mounted() const { return mounted_; }
    std::string why_not() const { return std::strerror(error_); }

  private:
    fs::path at_;
    bool mounted_ = false;
    int error_ = 0;
};

// No file may grow past `bytes` while this lives; the kernel answers EFBIG instead of killing us.
class SizeLimit {
  public:
    explicit SizeLimit(rlim_t bytes) : signal_(std::signal(SIGXFSZ, SIG_IGN)) {
        ::getrlimit(RLIMIT_FSIZE, &before_);
        rlimit limit = before_;
        limit.rlim_cur = bytes;
        set_ = ::setrlimit(RLIMIT_FSIZE, &limit) == 0;
    }
    ~SizeLimit() {
        ::setrlimit(RLIMIT_FSIZE, &before_);
        std::signal(SIGXFSZ, signal_);
    }
    SizeLimit(const SizeLimit&) = delete;
    SizeLimit& operator=(const SizeLimit&) = delete;
    bool set() const { return set_; }

  private:
    void (*signal_)(int);
    rlimit before_{};
    bool set_ = false;
};

std::string content(const fs::path& path) {
    std::ifstream file(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(file), {}};
}

std::string complaint(const measure::Expected<void>& result) {
    REQUIRE_FALSE(result.has_value());
    return measure::to_line(result.error());
}

bool holds(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("a file written as its bytes come is there when it is whole, and not before") {
    const SaveFolder folder;
    const fs::path path = folder / "cards.pdf";
    {
        auto save = measure::SaveInPieces::begin(path);
        REQUIRE(save.has_value());
        CHECK(save->add("kelp ").has_value());
        CHECK_FALSE(fs::exists(path));
    }
    CHECK(folder.entries() == 0);
    auto save = measure::SaveInPieces::begin(path);
    REQUIRE(save.has_value());
    CHECK(save->add("kelp ").has_value());
    CHECK(save->add("and brass").has_value());
    CHECK(save->finish().has_value());
    CHECK(measure::load_bytes(path, 100).value() == "kelp and brass");
    CHECK(folder.entries() == 1);
    CHECK_FALSE(measure::SaveInPieces::begin(folder / "no" / "where").has_value());
}

TEST_CASE("a new file and a replaced one") {
    const SaveFolder folder;
    const fs::path path = folder / "tide.toml";
    REQUIRE(measure::save_bytes(path, "one").has_value());
    CHECK(content(path) == "one");
    REQUIRE(measure::save_bytes(path, std::string("t\0wo", 4)).has_value());
    CHECK(content(path) == std::string("t\0wo", 4));
    CHECK(folder.entries() == 1);
    CHECK(measure::load_bytes(path, 100).value() == std::string("t\0wo", 4));
}

TEST_CASE("permissions and links survive a save") {
    const SaveFolder folder;
    const fs::path path = folder / "tide.toml";
    REQUIRE(measure::save_bytes(path, "one").has_value());
    fs::permissions(path, fs::perms::owner_read | fs::perms::owner_write | fs::perms::group_read);
    fs::create_symlink(path, folder / "link.toml");
    REQUIRE(measure::save_bytes(folder / "link.toml", "two").has_value());
    CHECK(fs::is_symlink(folder / "link.toml"));
    CHECK(content(path) == "two");
    CHECK(fs::status(path).permissions() ==
          (fs::perms::owner_read | fs::perms::owner_write | fs::perms::group_read));
    CHECK(folder.entries() == 2);
}

TEST_CASE("a name of the greatest length can be saved") {
    const SaveFolder folder;
    const fs::path path = folder / (std::string(250, 'k') + ".toml");
    REQUIRE(measure::save_bytes(path, "one").has_value());
    CHECK(content(path) == "one");
}

TEST_CASE("places that cannot be saved to") {
    const SaveFolder folder;
    fs::create_directory(folder / "quay");
    const std::string at = folder.path().string();
    CHECK(complaint(measure::save_bytes(folder / "quay", "x")) ==
          at + "/quay: cannot be saved: it is a folder; give a file name");
    CHECK(holds(complaint(measure::save_bytes(folder / "no" / "such" / "a.toml", "x")),
                "No such file or directory"));
    CHECK(holds(complaint(measure::save_bytes("/dev/null", "x")),
                "/dev/null: cannot be saved: it is not an ordinary"));
    CHECK(holds(complaint(measure::save_bytes("", "x")), "give a file name"));
    CHECK(holds(complaint(measure::save_bytes(folder.path() / "", "x")), "give a file name"));
    REQUIRE(measure::save_bytes(folder / "file", "x").has_value());
    CHECK(holds(complaint(measure::save_bytes(folder / "file" / "a.toml", "x")), "Not a directory"));
    CHECK(fs::is_character_file("/dev/null"));
    CHECK(folder.entries() == 2);
}

TEST_CASE("a folder or file without permission") {
    const SaveFolder folder;
    const fs::path path = folder / "tide.toml";
    REQUIRE(measure::save_bytes(path, "old").has_value());
    if (::geteuid() == 0) {
        // Root may write anywhere, so ask the kernel as somebody else for a while.
        REQUIRE(::seteuid(65534) == 0);
        const auto saved = measure::save_bytes(path, "new");
        const auto loaded = measure::load_bytes(path, 100);
        REQUIRE(::seteuid(0) == 0);
        MESSAGE("as root: tried as user 65534");
        CHECK(holds(complaint(saved), "Permission denied"));
        REQUIRE_FALSE(loaded.has_value());
        CHECK(holds(measure::to_line(loaded.error()), "Permission denied"));
    } else {
        MESSAGE("not root: tried a folder and a file without permissions");
        fs::permissions(path, fs::perms::none);
        CHECK(holds(measure::to_line(measure::load_bytes(path, 100).error()), "Permission denied"));
        CHECK(holds(complaint(measure::save_bytes(path, "new")), "Permission denied"));
        fs::permissions(path, fs::perms::owner_read | fs::perms::owner_write);
        fs::permissions(folder.path(), fs::perms::owner_read | fs::perms::owner_exec);
        CHECK(holds(complaint(measure::save_bytes(path, "new")), "Permission denied"));
        fs::permissions(folder.path(), fs::perms::owner_all);
    }
    CHECK(content(path) == "old");
    CHECK(folder.entries() == 1);
}

TEST_CASE("a full disk leaves the old file") {
    const SaveFolder folder;
    const std::string large(200000, 'x');
    const fs::path path = folder / "tide.toml";
    const TinyDisk disk(folder.path());
    if (disk.mounted()) {
        MESSAGE("full disk: a tmpfs of 32 KiB");
        REQUIRE(measure::save_bytes(path, "old").has_value());
        CHECK(holds(complaint(measure::save_bytes(path, large)), "cannot be saved: No space left on device"));
    } else {
        MESSAGE("full disk: no tmpfs (" << disk.why_not() << "), so RLIMIT_FSIZE with SIGXFSZ ignored");
        REQUIRE(measure::save_bytes(path, "old").has_value());
        measure::Expected<void> result;
        {
            const SizeLimit limit(4096);
            REQUIRE(limit.set());
            result = measure::save_bytes(path, large);
        }
        CHECK(holds(complaint(result), "cannot be saved: File too large"));
    }
    CHECK(content(path) == "old");
    CHECK(folder.entries() == 1);
}

TEST_CASE("a limit on file size leaves the old file") {
    const SaveFolder folder;
    const fs::path path = folder / "tide.toml";
    REQUIRE(measure::save_bytes(path, "old").has_value());
    measure::Expected<void> result;
    {
        const SizeLimit limit(4096);
        REQUIRE(limit.set());
        result = measure::save_bytes(path, std::string(200000, 'x'));
    }
    CHECK(holds(complaint(result), "free some space or save elsewhere; the old file is as it was"));
    CHECK(content(path) == "old");
    CHECK(folder.entries() == 1);
}

TEST_CASE("files that cannot be read") {
    const SaveFolder folder;
    const auto line = [](const measure::Expected<std::string>& result) {
        REQUIRE_FALSE(result.has_value());
        return measure::to_line(result.error());
    };
    CHECK(holds(line(measure::load_bytes(folder / "none.toml", 10)), "No such file or directory"));
    CHECK(holds(line(measure::load_bytes(folder.path(), 10)), "it is a folder"));
    REQUIRE(measure::save_bytes(folder / "a", "0123456789").has_value());
    CHECK(measure::load_bytes(folder / "a", 10).value() == "0123456789");
    CHECK(holds(line(measure::load_bytes(folder / "a", 9)), "longer than 9 bytes"));
    CHECK(holds(line(measure::load_bytes("/dev/zero", 1000)), "it is a pipe or a device"));
}
