// What is done to a stash from outside, bounded in time: moved and replaced files, strangers' schemas and
// rows, flipped bytes, many writers, restores among them, full and read-only disks. All random numbers are
// seeded.
#include <sys/mount.h>
#include <sys/stat.h>

#include <chrono>
#include <cstring>
#include <fstream>
#include <map>
#include <optional>
#include <random>
#include <set>
#include <thread>

#include "children.hpp"
#include "measure/save.hpp"
#include "shelves.hpp"

using namespace shelves;
using stash::Standing;

namespace {

stash::OpenOptions for_reading() {
    stash::OpenOptions how;
    how.create = false;
    how.read_only = true;
    return how;
}

// A small file system in memory; not everybody may mount one.
class SmallDisk {
  public:
    explicit SmallDisk(fs::path at, const char* size) : at_(std::move(at)) {
        fs::create_directories(at_);
        mounted_ = ::mount("none", at_.c_str(), "tmpfs", 0, size) == 0;
        if (!mounted_) MESSAGE("SKIPPED: no small file system can be mounted here: " << std::strerror(errno));
    }
    ~SmallDisk() {
        if (mounted_) ::umount2(at_.c_str(), MNT_DETACH);
    }
    SmallDisk(const SmallDisk&) = delete;
    SmallDisk& operator=(const SmallDisk&) = delete;
    bool mounted() const { return mounted_; }
    void fill() const {
        std::ofstream file(at_ / "ballast", std::ios::binary);
        const std::string block(4096, 'x');
        while (file.write(block.data(), static_cast<std::streamsize>(block.size())).flush()) {
        }
    }
    bool make_read_only() const {
        return ::mount("none", at_.c_str(), "tmpfs", MS_REMOUNT | MS_RDONLY, nullptr) == 0;
    }

  private:
    fs::path at_;
    bool mounted_ = false;
};

std::string file_bytes(const fs::path& path) {
    return got(measure::load_bytes(path, 100'000'000));
}

void lay_down(const fs::path& path, const std::string& bytes) {
    std::ofstream(path, std::ios::binary) << bytes;
}

// A stash with something of everything in it, and its backup; the same every time.
struct Sample {
    Folder folder;
    fs::path path = folder / "stash.db", saved = folder / "safe.db";
    Sample() {
        stash::Stash stash = opened(path);
        const std::string mark = got(stash.add(wool("kelp"), 500.0)).mark;
        got(stash.set_currency("EUR"));
        const auto batt = got(stash.card_it(carding({{mark, 40.0}})));
        got(stash.off_the_drum(batt.id, 39.0));
        stash::Skein skein;
        skein.name = "ebb";
        skein.date = "2024-06-02";
        skein.from = {{batt.id, 100.0}};
        skein.grams = 38.0;
        skein.metres = 80.0;
        const auto spun = got(stash.log(skein));
        got(stash.allocate({0, spun.id, "mitts", 20.0}));
        got(stash.backup(saved));
    }
};

int write_one(const fs::path& path) {
    auto stash = stash::Stash::open(path);
    return stash && stash->add(wool("kelp"), 10.0) ? 0 : 1;
}
// Leaves the log beside the file, as a program that is killed does.
int write_and_die(const fs::path& path) {
    return children::answer_of([&] {
        auto stash = stash::Stash::open(path);
        ::_exit(stash && stash->add(wool("kelp"), 10.0) ? 0 : 1);
        return 2;
    });
}

double seconds_of(const std::function<void()>& work) {
    const auto start = std::chrono::steady_clock::now();
    work();
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
}

}  // namespace

TEST_CASE("nothing is written into a stash that was deleted, moved or replaced under it") {
    struct Blow {
        const char* name;
        std::function<void(const fs::path&)> strike;
        Standing standing;
    };
    const Blow blows[] = {
        {"deleted", [](const fs::path& path) { fs::remove(path); }, Standing::gone},
        {"moved", [](const fs::path& path) { fs::rename(path, path.string() + ".old"); }, Standing::gone},
        {"replaced",
         [](const fs::path& path) {
             fs::copy_file(path, path.string() + ".new");
             fs::rename(path.string() + ".new", path);
         },
         Standing::replaced},
        {"its folder moved",
         [](const fs::path& path) {
             fs::rename(path.parent_path(), path.parent_path().string() + "-old");
             fs::create_directory(path.parent_path());
             fs::copy_file(path.parent_path().string() + "-old/stash.db", path);
         },
         Standing::replaced}};
    for (const Blow& blow : blows) {
        CAPTURE(blow.name);
        const Folder folder;
        const fs::path path = folder / "shed/stash.db";
        {
            stash::Stash first = opened(path);
            got(first.add(wool("kelp"), 100.0));
        }
        std::optional<stash::Stash> open = opened(path);
        stash::Stash& stash = *open;
        const std::string mark = got(stash.shelf())->lots[0]->lot.mark;
        // In the log only, so far.
        got(stash.add(wool("of late"), 7.0));
        CHECK(stash.standing() == Standing::in_place);
        blow.strike(path);
        CHECK(stash.standing() == blow.standing);
        const std::string there = fs::exists(path) ? file_bytes(path) : "";
        CHECK(holds(line_of(stash.add(wool("lost"), 5.0)), "moved, deleted or replaced"));
        CHECK(holds(line_of(stash.weigh_again(mark, 5.0)), "moved, deleted or replaced"));
        CHECK_FALSE(stash.card_it(carding({{mark, 1.0}})).has_value());
        CHECK(holds(line_of(stash.all_or_nothing([] { return measure::Expected<void>{}; })), "moved"));
        CHECK((fs::exists(path) ? file_bytes(path) : "") == there);
        // What is read is still there, and opening anew finds what lies there now.
        CHECK(got(stash.shelf())->lots.size() == 2);
        got(stash.backup(folder / "rescued.db"));
        CHECK(got(opened(folder / "rescued.db").shelf())->lots.size() == 2);
        open.reset();
        stash::Stash again = opened(path);
        CHECK(got(again.shelf())->lots.size() == (blow.standing == Standing::gone ? 0 : 1));
        for (const fs::path& old : {fs::path(path.string() + ".old"), folder / "shed-old/stash.db"})
            if (fs::exists(old)) CHECK(got(opened(old).shelf())->lots.size() == 2);
        got(again.add(wool("kept"), 5.0));
        check_sound(again);
    }
}

TEST_CASE("replaced in the middle of a piece of work: none of it is acknowledged") {
    const Folder folder;
    const fs::path path = folder / "stash.db";
    {
        stash::Stash stash = opened(path);
        got(stash.add(wool("kelp"), 100.0));
        const auto done = stash.all_or_nothing([&]() -> measure::Expected<void> {
            auto lot = stash.add(wool("lost"), 5.0);
            fs::rename(path, folder / "elsewhere.db");
            return lot ? measure::Expected<void>{} : tl::make_unexpected(lot.error());
        });
        CHECK(holds(line_of(done), "moved, deleted or replaced"));
    }
    CHECK(got(opened(folder / "elsewhere.db").shelf())->lots.size() == 1);
}

TEST_CASE("a schema that is not ours is told by the check, refused as a backup, and never run") {
    // A view under one of our names that never ends.
    const std::string endless =
        "ALTER TABLE tint RENAME TO hidden; CREATE VIEW tint AS WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL "
        "SELECT i + 1 FROM n) SELECT i AS lot, 0 AS position, 0.5 AS r, 0.5 AS g, 0.5 AS b, 1.0 AS share_pct "
        "FROM n";
    // And whether it opens for reading; the check says the rest.
    std::vector<std::pair<std::string, bool>> changes{
        {endless, false},
        {"CREATE TRIGGER tide AFTER INSERT ON lot BEGIN DELETE FROM skein; END", true},
        {"DROP TRIGGER movement_is_summed", true},
        {"DROP TRIGGER movement_is_not_edited", true},
        {"ALTER TABLE lot DROP COLUMN notes", false},
        {"ALTER TABLE lot RENAME COLUMN notes TO gulls", false},
        {"PRAGMA writable_schema = ON; UPDATE sqlite_schema SET sql = replace(sql, 'STRICT', '') WHERE name "
         "= "
         "'lot'",
         false}};
    for (const char* table : {"setting", "content", "tint", "off_drum", "skein_from", "lot", "movement",
                              "batt", "batt_line", "skein", "allocation", "on_hand"})
        changes.emplace_back("PRAGMA foreign_keys = OFF; DROP TABLE " + std::string(table), false);
    const Sample sample;
    const std::string whole = file_bytes(sample.saved);
    for (const auto& [sql, opens] : changes) {
        CAPTURE(sql);
        const fs::path broken = sample.folder / "broken.db";
        lay_down(broken, whole);
        REQUIRE(Raw(broken).run(sql) == SQLITE_OK);
        const double seconds = seconds_of([&, &sql = sql, &opens = opens] {
            auto stash = stash::Stash::open(broken, for_reading());
            CHECK(stash.has_value() == opens);
            if (!stash) {
                CHECK(holds(line_of(stash), "is damaged: "));
            } else {
                CHECK_FALSE(got(stash->integrity()).problems.empty());
                static_cast<void>(stash->shelf());
            }
            CHECK(holds(line_of(stash::Stash::open(broken)), "is damaged: "));
            CHECK(holds(line_of(stash::restore(broken, sample.path)), "broken.db: is damaged"));
        });
        CHECK(seconds < 10.0);
        // And the damaged one is put aside for a good one.
        const fs::path kept = got(stash::restore(sample.saved, broken));
        CHECK(file_bytes(kept).size() >= whole.size() / 2);
        check_sound(opened(broken));
        fs::remove(kept);
    }
    check_sound(opened(sample.path));
}

TEST_CASE("what does no harm is remarked upon, and the stash can be used") {
    const Sample sample;
    REQUIRE(Raw(sample.saved)
                .run("CREATE TABLE gulls (n); CREATE VIEW seen AS SELECT * FROM gulls; CREATE "
                     "TRIGGER cry AFTER INSERT ON gulls BEGIN DELETE FROM gulls; END; DROP INDEX "
                     "movement_of_lot; UPDATE content SET fibre = 'kelp-of-legend'") == SQLITE_OK);
    const auto health = got(opened(sample.saved).integrity());
    CHECK(health.problems.empty());
    CHECK(health.remarks.size() == 5);
    got(stash::restore(sample.saved, sample.path));
    CHECK(got(opened(sample.path).shelf())->lots.size() == 1);
}

TEST_CASE("rows that could not have been entered are told, and no control character comes out") {
    const char* changes[] = {"UPDATE lot SET mean_l = 9e999",
                             "UPDATE lot SET staple_mm = -9e999",
                             "UPDATE lot SET staple_mm = -4",
                             "UPDATE tint SET r = 9e999",
                             "UPDATE tint SET share_pct = 12",
                             "UPDATE content SET share_pct = 250",
                             "UPDATE content SET fibre = char(27) || '[31m'",
                             "UPDATE content SET fibre = 'No Such Kind'",
                             "UPDATE lot SET form = 'barrel'",
                             "UPDATE lot SET form = 'TOP'",
                             "UPDATE lot SET mark = 'aeiou!'",
                             "UPDATE lot SET mark = '333333'",
                             "UPDATE lot SET mark = lower(mark)",
                             "UPDATE lot SET name = ''",
                             "UPDATE lot SET name = 'fog' || char(27) || '[2J'",
                             "UPDATE lot SET name = 'fog' || char(10) || 'all is well'",
                             "UPDATE lot SET place = char(155) || '31m'",
                             "UPDATE lot SET maker = char(8238) || 'gnp.exe'",
                             "UPDATE lot SET notes = CAST(x'ff41' AS TEXT)",
                             "UPDATE lot SET got_on = 'yesterday'",
                             "UPDATE lot SET yield_pct = 50",
                             "UPDATE batt SET preparation = 'boiled'",
                             "UPDATE batt SET retained_share = 0",
                             "UPDATE batt SET l = 9e999, a = 0, b = 0",
                             "UPDATE batt SET made_on = '2024-02-31'",
                             "UPDATE off_drum SET made_on = 'soon'",
                             "UPDATE skein SET wpi = 9e999",
                             "UPDATE skein SET plies = -2",
                             "UPDATE skein SET preparation = ''",
                             "UPDATE skein_from SET share_pct = 9",
                             "UPDATE allocation SET micrometres = 9000000000000000000",
                             "UPDATE setting SET key = 'tide'",
                             "UPDATE on_hand SET micrograms = 1",
                             "PRAGMA ignore_check_constraints = ON; DROP TRIGGER movement_is_not_edited; "
                             "UPDATE movement SET reason = "
                             "'eaten'; CREATE TRIGGER movement_is_not_edited BEFORE UPDATE ON movement BEGIN "
                             "SELECT RAISE(ABORT, 'a "
                             "movement is never edited'); END"};
    const Sample sample;
    const std::string whole = file_bytes(sample.saved);
    for (const char* sql : changes) {
        CAPTURE(sql);
        const fs::path broken = sample.folder / "broken.db";
        lay_down(broken, whole);
        REQUIRE(Raw(broken).run(sql) == SQLITE_OK);
        const auto stash = stash::Stash::open(broken, for_reading());
        if (!stash) continue;
        CHECK_FALSE(got(stash->integrity()).problems.empty());
        CHECK(holds(line_of(stash::restore(broken, sample.path)), "broken.db: is damaged"));
        const auto shelf = got(stash->shelf());
        for (const auto& lot : shelf->lots)
            for (const std::string* text :
                 {&lot->lot.name, &lot->lot.place, &lot->lot.maker, &lot->lot.notes})
                CHECK(text->find_first_of("\x1b\x9b") == std::string::npos);
    }
    check_sound(opened(sample.path));
}

TEST_CASE("flipped bytes are told or do no harm, whatever is asked of the file") {
    const Sample sample;
    const std::string whole = file_bytes(sample.saved);
    std::mt19937 random(23);
    int told = 0;
    for (int round = 0; round < 150; ++round) {
        CAPTURE(round);
        std::string bytes = whole;
        for (int flips = 1 + static_cast<int>(random() % 8); flips > 0; --flips) {
            // A third in the schema's page.
            const std::size_t within = random() % 3 == 0 ? 4096 : bytes.size();
            bytes[random() % within] = static_cast<char>(random());
        }
        const fs::path broken = sample.folder / "broken.db";
        lay_down(broken, bytes);
        const auto stash = stash::Stash::open(broken, for_reading());
        if (!stash) {
            CHECK_FALSE(stash.error().mend.empty());
            ++told;
            continue;
        }
        static_cast<void>(stash->shelf());
        static_cast<void>(stash->batts());
        static_cast<void>(stash->skeins());
        static_cast<void>(stash->calibration());
        const auto health = stash->integrity();
        told += !health || !health->problems.empty() ? 1 : 0;
    }
    CHECK(told > 20);
}

TEST_CASE("twenty writers at once: what each was told is written is there") {
    constexpr int writers = 20, lots = 10;
    const Folder folder;
    const fs::path path = folder / "stash.db";
    std::vector<pid_t> all;
    for (int writer = 0; writer < writers; ++writer)
        all.push_back(children::started([&, writer] {
            stash::OpenOptions patient;
            patient.patience_ms = 30'000;
            auto stash = stash::Stash::open(path, patient);
            if (!stash) return 1;
            for (int i = 0; i < lots; ++i)
                if (!stash->add(wool(("of " + std::to_string(writer)).c_str()), 10.0)) return 2;
            return 0;
        }));
    for (const pid_t child : all) CHECK(children::ended(child) == 0);
    const stash::Stash stash = opened(path);
    std::map<std::string, int> by_writer;
    const auto shelf = got(stash.shelf());
    for (const auto& lot : shelf->lots) ++by_writer[lot->lot.name];
    CHECK(by_writer.size() == writers);
    for (const auto& [name, count] : by_writer) CHECK(count == lots);
    check_sound(stash);
}

TEST_CASE("restores among writers lose nothing that was acknowledged") {
    constexpr int writers = 4, restores = 6;
    const Folder folder;
    const fs::path path = folder / "stash.db", saved = folder / "safe.db";
    {
        stash::Stash stash = opened(path);
        got(stash.add(wool("first"), 100.0));
        got(stash.backup(saved));
    }
    int pipe[2];
    REQUIRE(::pipe(pipe) == 0);
    const auto write_on = [&](int writer) {
        ::close(pipe[0]);
        stash::OpenOptions patient;
        patient.patience_ms = 30'000;
        auto stash = stash::Stash::open(path, patient);
        if (!stash) return 1;
        for (int i = 0;; ++i) {
            stash::Lot lot = wool("tide");
            lot.notes = std::to_string(writer) + "/" + std::to_string(i);
            if (!stash->add(lot, 10.0)) return 2;
            // One write: whole, since it is shorter than PIPE_BUF.
            const std::string told = lot.notes + "\n";
            if (::write(pipe[1], told.data(), told.size()) < 0) return 0;
        }
    };
    std::vector<pid_t> all;
    for (int writer = 0; writer < writers; ++writer)
        all.push_back(children::started([&, writer] { return write_on(writer); }));
    ::close(pipe[1]);
    std::string acknowledged;
    std::thread listener([&] {
        char bytes[4096];
        while (true) {
            const ssize_t count = ::read(pipe[0], bytes, sizeof bytes);
            if (count <= 0) return;
            acknowledged.append(bytes, static_cast<std::size_t>(count));
        }
    });
    std::set<std::string> kept;
    stash::OpenOptions patient;
    patient.patience_ms = 30'000;
    for (int i = 0; i < restores; ++i) {
        std::this_thread::sleep_for(std::chrono::milliseconds(60));
        kept.insert(got(stash::restore(saved, path, patient)).string());
    }
    std::this_thread::sleep_for(std::chrono::milliseconds(60));
    for (const pid_t child : all) ::kill(child, SIGKILL);
    for (const pid_t child : all) children::ended(child);
    listener.join();
    ::close(pipe[0]);
    CHECK(kept.size() == restores);  // each into a file of its own
    std::set<std::string> found;
    const auto gather = [&](const fs::path& file) {
        const auto shelf = got(opened(file).shelf());
        for (const auto& lot : shelf->lots) found.insert(lot->lot.notes);
    };
    for (const std::string& file : kept) gather(file);
    gather(path);
    std::size_t told = 0, lost = 0;
    for (std::size_t at = 0; at < acknowledged.size(); ++told) {
        const std::size_t end = acknowledged.find('\n', at);
        if (end == std::string::npos) break;
        lost += found.contains(acknowledged.substr(at, end - at)) ? 0u : 1u;
        at = end + 1;
    }
    CHECK(told > 10);
    CHECK(lost == 0);
    MESSAGE("acknowledged " << told << ", lost " << lost);
    check_sound(opened(path));
}

TEST_CASE("a restore over another page size, twice, and where nothing is") {
    const Sample sample;
    REQUIRE(Raw(sample.saved).run("PRAGMA page_size = 1024; VACUUM") == SQLITE_OK);
    stash::Stash stash = opened(sample.path);
    got(stash.add(wool("later"), 5.0));
    CHECK(got(stash.restore(sample.saved)) == sample.path.string() + ".before");
    CHECK(got(stash.shelf())->lots.size() == 1);
    CHECK(got(stash.restore(sample.saved)) == sample.path.string() + ".before-2");
    CHECK(got(opened(sample.path.string() + ".before").shelf())->lots.size() == 2);
    CHECK(got(opened(sample.path.string() + ".before-2").shelf())->lots.size() == 1);
    CHECK(got(stash::restore(sample.saved, sample.folder / "new.db")).empty());
    // A log beside a file that is gone is not taken for the new one's.
    fs::remove(sample.folder / "new.db");
    lay_down(sample.folder / "new.db-wal", "of another");
    CHECK_FALSE(got(stash::restore(sample.saved, sample.folder / "new.db")).empty());
    CHECK_FALSE(fs::exists(sample.folder / "new.db-wal"));
    check_sound(opened(sample.folder / "new.db"));
}

TEST_CASE("a backup goes over a stash only when asked to, and over nothing else at all") {
    const Sample sample;
    const stash::Stash stash = opened(sample.path);
    const auto line_for = [&](const char* name, const std::string& bytes, measure::Replace replace) {
        lay_down(sample.folder / name, bytes);
        const auto done = stash.backup(sample.folder / name, replace);
        if (!done) CHECK(file_bytes(sample.folder / name) == bytes);
        return done ? std::string() : measure::to_line(done.error());
    };
    CHECK(holds(line_for("precious.toml", "format = 1\n", measure::Replace::yes), "a recipe"));
    CHECK(holds(line_for("letter.txt", "dear gull", measure::Replace::yes), "a text"));
    CHECK(holds(line_for("old.db", file_bytes(sample.saved), measure::Replace::no), "--replace"));
    CHECK(line_for("old.db", file_bytes(sample.saved), measure::Replace::yes).empty());
    CHECK(line_for("empty.db", "", measure::Replace::no).empty());
    fs::create_hard_link(sample.path, sample.folder / "hard.db");
    fs::create_symlink(sample.path, sample.folder / "soft.db");
    for (const char* name : {"hard.db", "soft.db"})
        CHECK(holds(line_of(stash.backup(sample.folder / name, measure::Replace::yes)), "itself"));
    check_sound(stash);
}

TEST_CASE("a pipe or a device is no stash, and is not waited for") {
    const Sample sample;
    REQUIRE(::mkfifo((sample.folder / "pipe").c_str(), 0600) == 0);
    ::alarm(30);
    for (const fs::path& path : {sample.folder / "pipe", fs::path("/dev/null"), fs::path("/dev/zero")}) {
        CHECK(holds(line_of(stash::Stash::open(path, for_reading())), "a pipe or a device"));
        CHECK(holds(line_of(stash::restore(path, sample.path)), "a pipe or a device"));
    }
    // Not tried on the machine's own devices.
    CHECK(holds(line_of(opened(sample.path).backup(sample.folder / "pipe", measure::Replace::yes)),
                "ordinary"));
    CHECK_FALSE(stash::restore(sample.saved, sample.folder / "pipe").has_value());
    CHECK(fs::is_fifo(sample.folder / "pipe"));
    ::alarm(0);
}

TEST_CASE("on a full disk the stash can be read, and backed up to another disk") {
    const Folder folder;
    const SmallDisk disk(folder / "disk", "size=400k");
    if (!disk.mounted()) return;
    const fs::path path = folder / "disk/stash.db";
    for (const bool log_waiting : {false, true}) {
        CAPTURE(log_waiting);
        fs::remove(folder / "disk/ballast");
        CHECK((log_waiting ? write_and_die(path) : write_one(path)) == 0);
        if (log_waiting) {
            CHECK(fs::file_size(path.string() + "-wal") > 0);
            fs::remove(path.string() + "-shm");
        }
        disk.fill();
        const auto stash = opened(path, for_reading());
        CHECK(got(stash.shelf())->lots.size() == (log_waiting ? 2 : 1));
        check_sound(stash);
        got(stash.backup(folder / "safe.db", measure::Replace::yes));
        CHECK(got(opened(folder / "safe.db").shelf())->lots.size() == (log_waiting ? 2 : 1));
        CHECK(line_of(stash.backup(folder / "disk/safe.db")).find("pace") != std::string::npos);
        const auto refused = stash::Stash::open(path).and_then(
            [](stash::Stash writing) { return writing.add(wool("too much"), 5.0).map([](auto&&) {}); });
        CHECK_FALSE(refused.has_value());
    }
    fs::remove(folder / "disk/ballast");
    check_sound(opened(path));
}

TEST_CASE("on a read-only disk the stash can be read, a log waiting beside it or not") {
    for (const bool log_waiting : {false, true}) {
        CAPTURE(log_waiting);
        const Folder folder;
        const SmallDisk disk(folder / "disk", "size=4m");
        if (!disk.mounted()) return;
        const fs::path path = folder / "disk/stash.db";
        CHECK((log_waiting ? write_and_die(path) : write_one(path)) == 0);
        if (log_waiting) fs::remove(path.string() + "-shm");
        REQUIRE(disk.make_read_only());
        const auto stash = opened(path, for_reading());
        CHECK(got(stash.shelf())->lots.size() == 1);
        got(stash.backup(folder / "safe.db"));
        CHECK(got(opened(folder / "safe.db").shelf())->lots.size() == 1);
        CHECK_FALSE(stash::Stash::open(path).has_value());
    }
}

TEST_CASE("a skein whose weight and length do not go together is not taken in silence") {
    const Folder folder;
    stash::Stash stash = opened(folder / "stash.db");
    stash::Skein skein;
    skein.name = "gossamer";
    const auto logged = [&](double grams, double metres) {
        skein.grams = grams;
        skein.metres = metres;
        return stash.log(skein);
    };
    CHECK(holds(line_of(logged(5.0, 50'000.0)), "5 g is not the weight of"));
    CHECK_FALSE(logged(500.0, 1.0).has_value());
    // 2 tex, finer than any handspun yarn, and a rope.
    CHECK(logged(10.0, 5000.0).has_value());
    CHECK(logged(900.0, 10.0).has_value());
    CHECK(logged(5.0, 0.0).has_value());
}

TEST_CASE(
    "the limit on steps leaves room for a shelf of ten thousand lots and a hundred thousand movements") {
    constexpr int lots = 10'000, movements_a_lot = 10;
    const Folder folder;
    const fs::path path = folder / "stash.db";
    opened(path);
    {
        Raw raw(path);
        std::string sql = "BEGIN;";
        for (int i = 1; i <= lots; ++i) {
            std::string mark = "CCCCCC";
            for (std::size_t place = 0, left = static_cast<std::size_t>(i); place < 5; ++place, left /= 21)
                mark[place] = stash::mark_alphabet[left % 21];
            const std::string id = std::to_string(i);
            sql +=
                "INSERT INTO lot (id, mark, name, form, raw, yield_pct, currency, maker, got_on, place, "
                "photo, notes) "
                "VALUES (" +
                id + ", '" + mark +
                "', 'tide', 'top', 0, 100, '', '', '2024-05-17', '', '', '');"
                "INSERT INTO content VALUES (" +
                id + ", 0, 'merino-fine', 100);";
        }
        for (int n = 0; n < movements_a_lot; ++n)
            sql +=
                "INSERT INTO movement (lot, reason, micrograms, made_on, note) "
                "SELECT id, 'bought', 1000000, '2024-05-17', '' FROM lot;";
        REQUIRE(raw.run(sql + "COMMIT") == SQLITE_OK);
    }
    const stash::Stash stash = opened(path, for_reading());
    const auto health = got(stash.integrity());
    CHECK(health.problems.empty());
    CHECK(health.lots == lots);
    CHECK(health.movements == lots * movements_a_lot);
    CHECK(got(stash.shelf())->lots.size() == lots);
    got(stash.by_kind());
    got(stash.backup(folder / "safe.db"));
}
