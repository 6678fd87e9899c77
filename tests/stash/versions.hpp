// Stashes of every version that was ever written, as its program wrote them: tests/stash/versions/N.sql.
#pragma once

#include "measure/save.hpp"
#include "place.hpp"
#include "shelves.hpp"

namespace shelves {

inline void write_version(std::int64_t version, const fs::path& path) {
    const fs::path kept = fs::path(battwright::testing::source_dir()) / "tests" / "stash" / "versions" /
                          (std::to_string(version) + ".sql");
    Raw raw(path);
    REQUIRE_MESSAGE(raw.run(got(measure::load_bytes(kept, 1'000'000))) == SQLITE_OK, raw.message());
    REQUIRE(raw.value("PRAGMA user_version") == std::to_string(version));
}

}  // namespace shelves
