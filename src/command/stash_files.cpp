// Tables out and in, backups, and the check of the whole file.
#include <ostream>

#include "command/layout.hpp"
#include "command/saving.hpp"
#include "command/stash_common.hpp"
#include "command/stash_json.hpp"
#include "command/stash_parts.hpp"
#include "measure/nearest.hpp"
#include "measure/replace.hpp"
#include "measure/save.hpp"
#include "stash/csv.hpp"
#include "text/words.hpp"

namespace battwright::command {
namespace {

constexpr std::size_t longest_table = 64u << 20;

struct TableOptions : Common {
    std::string table = "lots", output;
    bool empties = false, replace = false;
};
struct ImportOptions : Common {
    std::string table;
    bool write = false, skip_bad = false;
};
struct BackupOptions : Common {
    std::string path;
    bool replace = false;
};

std::string table_of(const TableOptions& o, const Context& context) {
    std::vector<std::string> words;
    for (const auto& table : stash::csv_tables()) {
        words.emplace_back(table.name);
        if (o.table != table.name) continue;
        const auto stash = open_stash(o, context, Opening::reading);
        stash::Filter filter;
        filter.empties = o.empties;
        return value_of(table.text(stash, value_of(stash.shelf(filter))));
    }
    const std::string question = measure::did_you_mean(o.table, words);
    fail("no table " + measure::quoted(o.table),
         question.empty() ? "ask for " + text::listed(words, "or") : question, "--table");
}

Answer export_table(const Context& context, const TableOptions& o) {
    const auto table = table_of(o, context);
    if (o.output.empty()) return Answer{o.json ? printed({{"table", o.table}, {"csv", table}}) : table};
    value_of(measure::save_as(measure::FileKind::text, o.output, table,
                              saving_of(o.replace, {stash_path(o).string()})));
    if (o.json) return Answer{printed({{"table", o.table}, {"file", o.output}})};
    return Answer{"the " + o.table + " are in " + o.output + "\n"};
}

// Read with the marks of the shelf, if there is one, kept free.
stash::LotsRead read_table(const ImportOptions& o, const Context& context) {
    const auto text = value_of(measure::load_bytes(o.table, longest_table));
    std::shared_ptr<const stash::Shelf> shelf;
    std::error_code ignored;
    if (std::filesystem::exists(stash_path(o), ignored))
        shelf = value_of(open_stash(o, context, Opening::reading).shelf());
    return value_of(stash::read_lots(text, o.table, context.catalogue, shelf.get()));
}

Json import_json(const stash::LotsRead& read, const std::vector<stash::Lot>& written) {
    return {{"good", list_json(read.good,
                               [](const stash::LotRow& row) {
                                   stash::Shelved shelved;
                                   shelved.lot = row.lot;
                                   shelved.grams = row.grams;
                                   auto json = lot_json(shelved);
                                   json.set("line", row.line);
                                   return json;
                               })},
            {"complaints", list_json(read.complaints,
                                     [](const Complaint& complaint) {
                                         return Json{{"line", complaint.line},
                                                     {"column", complaint.column},
                                                     {"text", measure::to_line(complaint)}};
                                     })},
            {"written", list_json(written, [](const stash::Lot& lot) { return lot.mark; })}};
}

std::string import_text(const stash::LotsRead& read, const ImportOptions& o,
                        const std::vector<stash::Lot>& written) {
    if (!written.empty())
        return counted(static_cast<std::int64_t>(written.size()), "lot is", "lots are") +
               " on the shelf now\n";
    std::string text;
    for (const stash::LotRow& row : read.good)
        text += right(std::to_string(row.line), 6) + "  " + right(o.mass(row.grams), 10) + "  " +
                row.lot.name + "\n";
    text += counted(static_cast<std::int64_t>(read.good.size()), "row is", "rows are") + " good, " +
            std::to_string(read.complaints.size()) + " not; nothing is written";
    if (read.good.empty()) return text + "\n";
    if (read.complaints.empty()) return text + (o.write ? "\n" : " yet: add --write\n");
    return text + ": mend the others, or add --write --skip-bad to take the good ones\n";
}

Answer import_table(const Context& context, const ImportOptions& o) {
    const auto read = read_table(o, context);
    for (const Complaint& complaint : read.complaints) *context.s.err << measure::to_line(complaint) << "\n";
    std::vector<stash::Lot> written;
    if (o.write && !read.good.empty() && (read.complaints.empty() || o.skip_bad)) {
        auto stash = open_stash(o, context, Opening::creating);
        written = value_of(stash::take_in(stash, read.good));
    }
    return Answer{o.json ? printed(import_json(read, written)) : import_text(read, o, written),
                  read.complaints.empty() ? exit_well : exit_bad_input};
}

Answer backup(const Context& context, const BackupOptions& o) {
    const auto stash = open_stash(o, context, Opening::reading);
    value_of(stash.backup(o.path, saving_of(o.replace, {}).replace));
    if (o.json) return Answer{printed({{"backup", o.path}})};
    return Answer{"the whole stash is in " + o.path + "\n"};
}

stash::Health health_of(const Common& o, const Context& context) {
    return value_of(open_stash(o, context, Opening::reading).integrity());
}

Json health_json(const stash::Health& health) {
    return {{"problems", health.problems},   {"remarks", health.remarks}, {"lots", health.lots},
            {"movements", health.movements}, {"batts", health.batts},     {"skeins", health.skeins}};
}

std::string counts_text(const stash::Health& health) {
    return counted(health.lots, "lot", "lots") + ", " + counted(health.movements, "movement", "movements") +
           ", " + counted(health.batts, "carding", "cardings") + ", " +
           counted(health.skeins, "skein", "skeins") + "\n";
}

Answer restore(const Context& context, const BackupOptions& o) {
    stash::OpenOptions how;
    how.catalogue = &context.catalogue;
    const auto kept = value_of(stash::restore(o.path, stash_path(o), how));
    const auto health = health_of(o, context);
    if (o.json) {
        Json json = health_json(health);
        json.set("kept", kept.string());
        return Answer{printed(json)};
    }
    return Answer{"the stash is as it was in " + o.path + ": " + counts_text(health) +
                  (kept.empty() ? "" : "What it was before is in " + kept.string() + "\n")};
}

Answer check(const Context& context, const Common& o) {
    const auto health = health_of(o, context);
    const bool well = health.problems.empty() && health.remarks.empty();
    const int code = well ? exit_well : exit_spoils;
    if (o.json) return Answer{printed(health_json(health)), code};
    if (well) return Answer{"all is well: " + counts_text(health)};
    std::string text;
    for (const std::string& problem : health.problems) text += problem + "\n";
    for (const std::string& remark : health.remarks) text += "harmless: " + remark + "\n";
    if (health.problems.empty()) return Answer{text + counts_text(health), code};
    return Answer{text + "Restore the last backup: battwright stash restore FILE\n", code};
}

}  // namespace

void add_file_verbs(StashCommands& commands) {
    add_verb<TableOptions>(
        commands, "export", "a table for a spreadsheet (CSV)",
        [](Command& app, TableOptions& o) {
            app.add_option("-o,--output", o.output, "the file to write; shown here unless given");
            add_replace_option(app, o.replace);
            app.add_option("--table", o.table, "lots, movements, batts or skeins");
            app.add_flag("--empty", o.empties, "bags with nothing left in them too");
        },
        export_table);
    add_verb<ImportOptions>(
        commands, "import", "lots from a table (CSV); shows what it found, and writes it with --write",
        [](Command& app, ImportOptions& o) {
            app.add_option("FILE", o.table, "with a header row as stash export writes it").required();
            app.add_flag("--write", o.write, "put the lots on the shelf, all in one go");
            app.add_flag("--skip-bad", o.skip_bad, "the good rows even when others are not");
        },
        import_table);
    add_verb<BackupOptions>(
        commands, "backup", "a copy of the whole stash in one file",
        [](Command& app, BackupOptions& o) {
            app.add_option("FILE", o.path, "where to").required();
            add_replace_option(app, o.replace);
        },
        backup);
    add_verb<BackupOptions>(
        commands, "restore", "everything as it is in a backup; what was there before is kept beside it",
        [](Command& app, BackupOptions& o) { app.add_option("FILE", o.path, "the backup").required(); },
        restore);
    add_verb<Common>(
        commands, "check", "is the file sound, and do the sums hold? exit 1 when not",
        [](Command&, Common&) {}, check);
}

}  // namespace battwright::command
