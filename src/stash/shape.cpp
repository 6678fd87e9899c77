#include "stash/shape.hpp"

#include <sqlite3.h>

#include <cctype>
#include <map>

#include "stash/schema.hpp"

namespace battwright::stash {
namespace {

// What a schema is made of: names, and everything about each in a form that compares.
struct Parts {
    std::map<std::string, std::string> tables, columns, triggers, indexes, views;
    std::map<std::string, std::string> table_of;  // of a trigger
};

// Blanks do not count, nor how a statement was laid out.
std::string without_blanks(const std::string& sql) {
    std::string result;
    for (const char c : sql)
        if (std::isspace(static_cast<unsigned char>(c)) == 0) result += c;
    return result;
}

void read_tables(const Database& database, Parts& parts) {
    Statement rows = database.prepare(
        "SELECT name, type, wr, strict FROM pragma_table_list WHERE schema = 'main' "
        "AND name NOT LIKE 'sqlite\\_%' ESCAPE '\\'");
    while (rows.step()) {
        if (rows.bytes("type") == "view") {
            parts.views[rows.bytes("name")] = "view";
            continue;
        }
        parts.tables[rows.bytes("name")] =
            rows.bytes("type") + " " + rows.bytes("wr") + " " + rows.bytes("strict");
    }
}

void read_columns(const Database& database, Parts& parts) {
    Statement rows =
        database.prepare("SELECT name, type, \"notnull\", pk, hidden FROM pragma_table_xinfo(?)");
    for (const auto& [table, about] : parts.tables) {
        // Looking at a virtual table runs its code.
        if (!about.starts_with("table ")) continue;
        rows.bind(table);
        while (rows.step())
            parts.columns[table + "." + rows.bytes("name")] = rows.bytes("type") + " " +
                                                              rows.bytes("notnull") + " " + rows.bytes("pk") +
                                                              " " + rows.bytes("hidden");
        rows.reset();
    }
}

void read_others(const Database& database, Parts& parts) {
    Statement rows = database.prepare(
        "SELECT type, name, tbl_name, sql FROM sqlite_schema WHERE type IN ('trigger', 'index') AND sql IS "
        "NOT "
        "NULL");
    while (rows.step()) {
        const std::string name = rows.bytes("name"), sql = without_blanks(rows.bytes("sql"));
        if (rows.bytes("type") == "index") {
            parts.indexes[name] = sql;
            continue;
        }
        parts.triggers[name] = sql;
        parts.table_of[name] = rows.bytes("tbl_name");
    }
}

Parts parts_of(const Database& database) {
    Parts parts;
    read_tables(database, parts);
    read_columns(database, parts);
    read_others(database, parts);
    return parts;
}

// The present layout, made anew in memory.
Parts made_here() {
    Database made("", Access::create, 0);
    made.script(present_schema());
    return parts_of(made);
}

const Parts& our_parts() {
    static const Parts parts = made_here();
    return parts;
}

std::string named(const char* noun, const std::string& name) {
    return std::string("its ") + noun + " " + measure::quoted(name);
}

using Named = std::map<std::string, std::string>;

// Of `ours`, what is missing there or is another.
void hold_against(const Named& ours, const Named& theirs, const char* noun, std::vector<std::string>& told) {
    for (const auto& [name, about] : ours) {
        const auto found = theirs.find(name);
        if (found == theirs.end())
            told.push_back(named(noun, name) + " is missing");
        else if (found->second != about)
            told.push_back(named(noun, name) + " is not as this program makes it");
    }
}

void find_foreign(const Parts& ours, const Parts& theirs, Shape& shape) {
    for (const auto& [name, about] : theirs.triggers) {
        if (ours.triggers.contains(name)) continue;
        const bool on_ours = ours.tables.contains(theirs.table_of.at(name));
        (on_ours ? shape.unsafe : shape.odd).push_back(named("trigger", name) + " is not this program's");
    }
    const auto odd = [&](const Named& of_ours, const Named& of_theirs, const char* noun) {
        for (const auto& [name, about] : of_theirs)
            if (!of_ours.contains(name)) shape.odd.push_back(named(noun, name) + " is not this program's");
    };
    odd(ours.tables, theirs.tables, "table");
    for (const auto& [name, about] : theirs.columns)
        if (ours.tables.contains(name.substr(0, name.find('.'))) && !ours.columns.contains(name))
            shape.odd.push_back(named("column", name) + " is not this program's");
    odd(ours.indexes, theirs.indexes, "index");
    odd(ours.views, theirs.views, "view");
}

}  // namespace

Shape shape_of(const Database& database) {
    const Parts& ours = our_parts();
    const Parts theirs = parts_of(database);
    Shape shape;
    hold_against(ours.tables, theirs.tables, "table", shape.broken);
    // Columns of tables that are not there at all are not told one by one.
    if (shape.broken.empty()) hold_against(ours.columns, theirs.columns, "column", shape.broken);
    hold_against(ours.triggers, theirs.triggers, "trigger", shape.unsafe);
    hold_against(ours.indexes, theirs.indexes, "index", shape.odd);
    find_foreign(ours, theirs, shape);
    return shape;
}

void check_shape(const Database& database, bool for_writing) {
    const Shape shape = shape_of(database);
    const auto refuse = [&](const std::string& problem) {
        throw Failed{{"is damaged: " + problem, "restore the last backup; the damaged file is kept beside it",
                      database.path().string()},
                     SQLITE_CORRUPT};
    };
    if (!shape.broken.empty()) refuse(shape.broken.front());
    if (for_writing && !shape.unsafe.empty()) refuse(shape.unsafe.front());
}

const std::vector<Column>& our_columns() {
    static const std::vector<Column> columns = [] {
        std::vector<Column> all;
        for (const auto& [name, about] : our_parts().columns) {
            const std::size_t dot = name.find('.');
            all.push_back({name.substr(0, dot), name.substr(dot + 1), about.substr(0, about.find(' '))});
        }
        return all;
    }();
    return columns;
}

}  // namespace battwright::stash
