#include "stash/kept_copy.hpp"

#include "measure/seen.hpp"

namespace battwright::stash {
namespace {

namespace fs = std::filesystem;

bool hold_the_same(const fs::path& first, const fs::path& second) {
    const auto one = measure::look_at(first), other = measure::look_at(second);
    return one && other && one->there && other->there && one->bytes == other->bytes &&
           one->hash == other->hash;
}

}  // namespace

fs::path numbered(const fs::path& first, int n) {
    return n == 1 ? first : fs::path(first.string() + "-" + std::to_string(n));
}

void copy_whole(const Database& from, const fs::path& to) {
    Database copy(to, Access::create, 0);
    copy.copy_from(from);
    copy.script("PRAGMA journal_mode = DELETE");
}

void copy_whole_for(const Database& from, const measure::Beside& part, const fs::path& to) {
    try {
        copy_whole(from, part.path());
    } catch (Failed& failed) {
        if (failed.complaint.where == part.path().string()) failed.complaint.where = to.string();
        throw;
    }
}

fs::path keep_copy(const Database& from, const fs::path& first) {
    auto part = value_of(measure::Beside::make(first));
    copy_whole_for(from, part, first);
    for (int n = 1; n < most_numbered; ++n) {
        if (n > 1 && !fs::exists(numbered(first, n)) && hold_the_same(part.path(), numbered(first, n - 1)))
            return numbered(first, n - 1);
        if (value_of(part.place(numbered(first, n)))) return numbered(first, n);
    }
    fail("there is no free name for a copy", "put older copies away", first.string());
}

}  // namespace battwright::stash
