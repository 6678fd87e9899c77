// A layer under SQLite (a VFS around the usual one) that writes down every change of a file, and afterwards
// lays down what a disk could hold had the power gone after any of them: what was flushed, and of the rest
// some.
#pragma once

#include <sqlite3.h>

#include <cstring>
#include <filesystem>
#include <fstream>
#include <map>
#include <random>
#include <string>
#include <vector>

namespace power_cut {

struct Step {
    enum class What { write, truncate, flush, remove, mark } what = What::mark;
    std::string file;
    std::int64_t at = 0;  // offset, or new length
    std::string bytes;
};

// What SQLite's callbacks reach; one recording at a time.
struct Recording {
    std::vector<Step> steps;
    sqlite3_vfs* under = nullptr;
};
inline Recording& recording() {
    static Recording one;
    return one;
}

// Our file: SQLite's own behind it, in the same piece of memory.
struct File {
    sqlite3_file base;
    const char* name;
    sqlite3_file* real() { return reinterpret_cast<sqlite3_file*>(this + 1); }
};
inline File* of(sqlite3_file* file) {
    return reinterpret_cast<File*>(file);
}
inline sqlite3_file* real(sqlite3_file* file) {
    return of(file)->real();
}
inline void note(sqlite3_file* file, Step::What what, std::int64_t at = 0, std::string bytes = {}) {
    if (of(file)->name != nullptr) recording().steps.push_back({what, of(file)->name, at, std::move(bytes)});
}

inline const sqlite3_io_methods* methods() {
    static const sqlite3_io_methods all{
        3, [](sqlite3_file* f) { return real(f)->pMethods->xClose(real(f)); },
        [](sqlite3_file* f, void* to, int size, sqlite3_int64 at) {
            return real(f)->pMethods->xRead(real(f), to, size, at);
        },
        [](sqlite3_file* f, const void* from, int size, sqlite3_int64 at) {
            note(f, Step::What::write, at,
                 std::string(static_cast<const char*>(from), static_cast<std::size_t>(size)));
            return real(f)->pMethods->xWrite(real(f), from, size, at);
        },
        [](sqlite3_file* f, sqlite3_int64 size) {
            note(f, Step::What::truncate, size);
            return real(f)->pMethods->xTruncate(real(f), size);
        },
        [](sqlite3_file* f, int flags) {
            note(f, Step::What::flush);
            return real(f)->pMethods->xSync(real(f), flags);
        },
        [](sqlite3_file* f, sqlite3_int64* size) { return real(f)->pMethods->xFileSize(real(f), size); },
        [](sqlite3_file* f, int lock) { return real(f)->pMethods->xLock(real(f), lock); },
        [](sqlite3_file* f, int lock) { return real(f)->pMethods->xUnlock(real(f), lock); },
        [](sqlite3_file* f, int* held) { return real(f)->pMethods->xCheckReservedLock(real(f), held); },
        [](sqlite3_file* f, int op, void* about) {
            return real(f)->pMethods->xFileControl(real(f), op, about);
        },
        [](sqlite3_file* f) { return real(f)->pMethods->xSectorSize(real(f)); },
        // No promise of the disk's is believed.
        [](sqlite3_file*) { return 0; },
        [](sqlite3_file* f, int page, int size, int extend, void volatile** to) {
            return real(f)->pMethods->xShmMap(real(f), page, size, extend, to);
        },
        [](sqlite3_file* f, int at, int count, int flags) {
            return real(f)->pMethods->xShmLock(real(f), at, count, flags);
        },
        [](sqlite3_file* f) { real(f)->pMethods->xShmBarrier(real(f)); },
        [](sqlite3_file* f, int remove) { return real(f)->pMethods->xShmUnmap(real(f), remove); },
        // No mapping: every read and write comes by here.
        [](sqlite3_file*, sqlite3_int64, int, void** to) {
            *to = nullptr;
            return SQLITE_OK;
        },
        [](sqlite3_file*, sqlite3_int64, void*) { return SQLITE_OK; }};
    return &all;
}

// While it lives, every file SQLite opens is written down.
class Recorder {
  public:
    Recorder() {
        Recording& r = recording();
        r.steps.clear();
        r.under = sqlite3_vfs_find(nullptr);
        vfs_ = *r.under;
        vfs_.zName = "power-cut";
        vfs_.szOsFile = static_cast<int>(sizeof(File)) + r.under->szOsFile;
        vfs_.xOpen = [](sqlite3_vfs*, sqlite3_filename name, sqlite3_file* file, int flags, int* out) {
            File* ours = of(file);
            ours->name = name;
            ours->base.pMethods = nullptr;
            std::memset(ours->real(), 0, static_cast<std::size_t>(recording().under->szOsFile));
            const int code = recording().under->xOpen(recording().under, name, ours->real(), flags, out);
            if (code == SQLITE_OK) ours->base.pMethods = methods();
            return code;
        };
        vfs_.xDelete = [](sqlite3_vfs*, const char* name, int flush) {
            recording().steps.push_back({Step::What::remove, name, 0, {}});
            return recording().under->xDelete(recording().under, name, flush);
        };
        sqlite3_vfs_register(&vfs_, 1);
    }
    ~Recorder() {
        sqlite3_vfs_unregister(&vfs_);
        sqlite3_vfs_register(recording().under, 1);
    }
    Recorder(const Recorder&) = delete;
    Recorder& operator=(const Recorder&) = delete;
    // From here on this much was promised.
    void mark(std::int64_t promised) { recording().steps.push_back({Step::What::mark, {}, promised, {}}); }
    std::vector<Step> steps() const { return recording().steps; }

  private:
    sqlite3_vfs vfs_{};
};

// A disk that is given the steps one by one. Each file has what is surely on it and what is under way.
class Disk {
  public:
    void take(const Step& step) {
        if (step.what == Step::What::mark) return;
        One& file = files_[step.file];
        if (step.what == Step::What::remove) {
            files_.erase(step.file);
        } else if (step.what == Step::What::flush) {
            for (const Step& waiting : file.under_way) apply(file.sure, waiting);
            file.under_way.clear();
        } else {
            file.under_way.push_back(step);
        }
    }
    enum class Lost { nothing, everything, some };
    // Lays down in `folder` what is left. `some`: each piece of 512 bytes under way is there or not.
    void lay_down(const std::filesystem::path& folder, Lost lost, std::mt19937& random) const {
        for (const auto& [name, file] : files_) {
            std::string bytes = file.sure;
            for (const Step& step : file.under_way) {
                if (lost == Lost::nothing) apply(bytes, step);
                if (lost == Lost::some) apply_some(bytes, step, random);
            }
            std::ofstream(folder / std::filesystem::path(name).filename(), std::ios::binary) << bytes;
        }
    }

  private:
    struct One {
        std::string sure;
        std::vector<Step> under_way;
    };
    static void apply(std::string& bytes, const Step& step) {
        const auto at = static_cast<std::size_t>(step.at);
        if (step.what == Step::What::truncate) return bytes.resize(at);
        if (bytes.size() < at + step.bytes.size()) bytes.resize(at + step.bytes.size());
        bytes.replace(at, step.bytes.size(), step.bytes);
    }
    static void apply_some(std::string& bytes, const Step& step, std::mt19937& random) {
        constexpr std::size_t sector = 512;
        if (step.what == Step::What::truncate) {
            if (random() % 2 == 0) apply(bytes, step);
            return;
        }
        for (std::size_t from = 0; from < step.bytes.size(); from += sector)
            if (random() % 2 == 0)
                apply(bytes, {Step::What::write,
                              {},
                              step.at + static_cast<std::int64_t>(from),
                              step.bytes.substr(from, sector)});
    }
    std::map<std::string, One> files_;
};

}  // namespace power_cut
