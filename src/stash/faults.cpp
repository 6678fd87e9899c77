// SQLite's result codes in words, one line each.
#include <sqlite3.h>

#include <cerrno>

#include "stash/database.hpp"

namespace battwright::stash {
namespace {

struct Words {
    const char* what;
    const char* mend;
};

constexpr Words full{"the disk is full", "free some space and try again; nothing was changed"};
constexpr Words read_only{"cannot be written: the file or its folder is read-only",
                          "change the permissions, or name another file with --stash"};

Words words_for_io(int system_error) {
    if (system_error == ENOSPC || system_error == EDQUOT || system_error == EFBIG) return full;
    if (system_error == EROFS || system_error == EACCES || system_error == EPERM) return read_only;
    return {"cannot be read or written: the disk reports an error",
            "look after the disk, then restore the last backup"};
}

Words words_for(int code, int system_error) {
    if (code == SQLITE_READONLY_DBMOVED)
        return {"was moved, deleted or replaced while it was open",
                "open it again, and look what is in it; nothing was written"};
    switch (code & 0xff) {
        case SQLITE_BUSY:
        case SQLITE_LOCKED:
            return {"another program is writing to it just now",
                    "wait a moment and try again, or close the other program; nothing was changed"};
        case SQLITE_FULL:
            return full;
        case SQLITE_READONLY:
        case SQLITE_PERM:
        case SQLITE_AUTH:
            return read_only;
        case SQLITE_IOERR:
            return words_for_io(system_error);
        case SQLITE_CANTOPEN:
            return {"cannot be opened, nor the files SQLite keeps beside it",
                    "check the path, and that the file and its folder are yours to write"};
        case SQLITE_NOTADB:
            return {"is not a stash: it is no database", "name another file with --stash"};
        case SQLITE_CORRUPT:
            return {"is damaged", "restore the last backup; the damaged file is kept beside it"};
        case SQLITE_INTERRUPT:
            return {"is damaged: looking through it takes for ever",
                    "restore the last backup; the damaged file is kept beside it"};
        case SQLITE_NOMEM:
        case SQLITE_TOOBIG:
            return {"does not fit in memory", "close other programs and try again"};
        default:
            return {nullptr, "look over what was entered; nothing was changed"};
    }
}

// Only ENOSPC comes as SQLITE_FULL; of a quota or a limit on the file's size the system's own number tells,
// which each open file keeps: the database, and its journal or log.
int system_error_of(sqlite3* handle) {
    if (handle == nullptr) return 0;
    int error = sqlite3_system_errno(handle);
    if (error == 0) sqlite3_file_control(handle, "main", SQLITE_FCNTL_LAST_ERRNO, &error);
    sqlite3_file* journal = nullptr;
    if (error != 0 ||
        sqlite3_file_control(handle, "main", SQLITE_FCNTL_JOURNAL_POINTER, &journal) != SQLITE_OK)
        return error;
    if (journal != nullptr && journal->pMethods != nullptr)
        journal->pMethods->xFileControl(journal, SQLITE_FCNTL_LAST_ERRNO, &error);
    return error;
}

}  // namespace

void fail_with(int code, sqlite3* handle, const std::filesystem::path& path) {
    const Words words = words_for(code, system_error_of(handle));
    std::string what;
    if (words.what != nullptr) {
        what = words.what;
    } else {
        const bool told = handle != nullptr && sqlite3_errcode(handle) != SQLITE_OK;
        const char* message = told ? sqlite3_errmsg(handle) : sqlite3_errstr(code);
        what = std::string("the stash refused: ") + message;
    }
    throw Failed{{std::move(what), words.mend, path.string()}, code};
}

bool by_damage(const Failed& failed) {
    const int kind = failed.code & 0xff;
    return kind == SQLITE_CORRUPT || kind == SQLITE_NOTADB || kind == SQLITE_INTERRUPT;
}

bool by_want_of_room(const Failed& failed) {
    const int kind = failed.code & 0xff;
    return kind == SQLITE_FULL || kind == SQLITE_IOERR || kind == SQLITE_CANTOPEN || kind == SQLITE_READONLY;
}

}  // namespace battwright::stash
