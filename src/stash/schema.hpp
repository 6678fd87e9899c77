// Inside this room: the file's layout, and how older layouts are carried over.
#pragma once

#include <cstdint>

#include "fibre/catalogue.hpp"
#include "stash/database.hpp"

namespace battwright::stash {

inline constexpr std::int64_t application_id = 0x42617474;  // "Batt": whose file this is
inline constexpr std::int64_t present_version = 5;

// The present layout's statements, and that of version 2, which never changes.
const char* present_schema();
const char* schema_of_version_2();
const char* plan_schema();
const char* photo_schema();
const char* skein_colour_schema();

// Makes the layout in an empty file, or carries an older one over (after a copy into `path`.version-N). A
// file of another program or of a newer version is a complaint, and so is an older one that is only to be
// read.
void bring_up_to_date(Database& database, bool may_write, const fibre::Catalogue& catalogue);

// The steps of the ladder in migrate.cpp, each to the version after; within a transaction that writes,
// foreign keys off. A step writes in the layout it leads to and uses nothing that follows the present one.
void carry_over_version_1(Database& database, const fibre::Catalogue& catalogue);
void carry_over_version_2(Database& database, const fibre::Catalogue& catalogue);
void carry_over_version_3(Database& database, const fibre::Catalogue& catalogue);
void carry_over_version_4(Database& database, const fibre::Catalogue& catalogue);

}  // namespace battwright::stash
