// Inside this room: copies of a stash laid beside it under names that are free.
#pragma once

#include <filesystem>

#include "measure/beside.hpp"
#include "stash/database.hpp"

namespace battwright::stash {

// `first` itself for 1, "NAME-2" for 2 and so on.
std::filesystem::path numbered(const std::filesystem::path& first, int n);
inline constexpr int most_numbered = 100'000;

// A copy in one file that needs no helpers beside it. What is at `to` is written into: for new files.
void copy_whole(const Database& from, const std::filesystem::path& to);
// Such a copy as the part that is to take the place of `to`, which a failure names.
void copy_whole_for(const Database& from, const measure::Beside& part, const std::filesystem::path& to);
// The same under the first of the numbered names that is free, in one piece or not at all; gives that name.
// When the last copy laid there holds the same bytes, it stands for this one.
std::filesystem::path keep_copy(const Database& from, const std::filesystem::path& first);

}  // namespace battwright::stash
