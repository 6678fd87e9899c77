// Inside this room: is a file's schema what our own statements make?
#pragma once

#include <string>
#include <vector>

#include "stash/database.hpp"

namespace battwright::stash {

// What is different from the present layout.
struct Shape {
    // A table or column of ours that is not there, or is something else: nothing can be read.
    std::vector<std::string> broken;
    // A trigger of somebody else's on a table of ours, or one of ours that is not there or says something
    // else: what is written would go wrong.
    std::vector<std::string> unsafe;
    // Whatever does no harm: tables of another name, indexes.
    std::vector<std::string> odd;
};
Shape shape_of(const Database& database);

// Does not return when the file cannot be trusted for what is wanted. Reading needs the tables; writing the
// triggers too.
void check_shape(const Database& database, bool for_writing);

// Every column of our tables, as the present layout has them.
struct Column {
    std::string table, name, type;  // type: TEXT, INTEGER or REAL
};
const std::vector<Column>& our_columns();

}  // namespace battwright::stash
