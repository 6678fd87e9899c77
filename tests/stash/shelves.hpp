// What the stash's tests share: a folder that goes away, lots of the harbour's own, raw SQL behind its back.
#pragma once

#include <doctest/doctest.h>
#include <sqlite3.h>
#include <unistd.h>

#include <filesystem>
#include <string>

#include "stash/stash.hpp"

namespace shelves {

using namespace battwright;
namespace fs = std::filesystem;

class Folder {
  public:
    Folder() {
        std::string pattern = (fs::temp_directory_path() / "battwright-stash-XXXXXX").string();
        REQUIRE(::mkdtemp(pattern.data()) != nullptr);
        path_ = pattern;
    }
    ~Folder() {
        std::error_code error;
        fs::permissions(path_, fs::perms::owner_all, error);
        fs::remove_all(path_, error);
    }
    Folder(const Folder&) = delete;
    Folder& operator=(const Folder&) = delete;
    fs::path operator/(const char* name) const { return path_ / name; }
    const fs::path& path() const { return path_; }

  private:
    fs::path path_;
};

inline stash::Stash opened(const fs::path& path, const stash::OpenOptions& how = {}) {
    auto stash = stash::Stash::open(path, how);
    if (!stash) FAIL(measure::to_line(stash.error()));
    return std::move(*stash);
}

template <class T, class E>
T got(tl::expected<T, E> expected) {
    if constexpr (std::is_same_v<E, measure::Complaint>) {
        if (!expected) FAIL(measure::to_line(expected.error()));
    } else {
        if (!expected) FAIL(measure::to_line(expected.error().complaint));
    }
    if constexpr (!std::is_void_v<T>) return std::move(*expected);
}

// The one line a person would read; checks that there is one, and that it says how to mend it.
template <class T>
std::string line_of(const measure::Expected<T>& expected) {
    REQUIRE_FALSE(expected.has_value());
    CHECK_FALSE(expected.error().mend.empty());
    return measure::to_line(expected.error());
}

inline bool holds(const std::string& text, const char* part) {
    return text.find(part) != std::string::npos;
}

inline stash::Lot wool(const char* name = "Harbour fog") {
    stash::Lot lot;
    lot.name = name;
    lot.content = {{"merino-fine", 100.0}};
    lot.palette = {{{0.55, 0.6, 0.65}, 100.0}};
    lot.form = stash::Form::top;
    lot.got_on = "2024-05-17";
    return lot;
}

inline stash::Carding carding(std::vector<stash::Line> lines, const char* date = "2024-06-01") {
    stash::Carding carding;
    carding.name = "Kelp and Brass";
    carding.date = date;
    carding.recipe = "format = 1\n";
    carding.lines = std::move(lines);
    return carding;
}

// SQLite without our code between.
class Raw {
  public:
    explicit Raw(const fs::path& path) { REQUIRE(sqlite3_open(path.c_str(), &handle_) == SQLITE_OK); }
    ~Raw() { sqlite3_close_v2(handle_); }
    Raw(const Raw&) = delete;
    Raw& operator=(const Raw&) = delete;
    int run(const std::string& sql) { return sqlite3_exec(handle_, sql.c_str(), nullptr, nullptr, nullptr); }
    std::string message() const { return sqlite3_errmsg(handle_); }
    std::string value(const std::string& sql) {
        sqlite3_stmt* statement = nullptr;
        REQUIRE(sqlite3_prepare_v2(handle_, sql.c_str(), -1, &statement, nullptr) == SQLITE_OK);
        std::string text;
        if (sqlite3_step(statement) == SQLITE_ROW && sqlite3_column_text(statement, 0) != nullptr)
            text = reinterpret_cast<const char*>(sqlite3_column_text(statement, 0));
        sqlite3_finalize(statement);
        return text;
    }

  private:
    sqlite3* handle_ = nullptr;
};

// Sound by SQLite's checks and by ours.
inline void check_sound(const stash::Stash& stash) {
    const auto health = got(stash.integrity());
    for (const std::string& problem : health.problems) CAPTURE(problem);
    CHECK(health.problems.empty());
}

}  // namespace shelves
