// The record: batts that were carded, skeins that were spun, "what was this?", reports, and files.
#pragma once

#include <filesystem>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "app/record/learning.hpp"
#include "app/record/record_book.hpp"
#include "app/record/record_files.hpp"
#include "app/record/skein_form.hpp"
#include "window/gl/photo.hpp"
#include "window/kit/ui.hpp"

namespace battwright::window {

// Who of these views asks the stash.
enum class RecordAsker : std::uint64_t { card_it = 0x7ec0d1, take_back, record };

enum class RecordPage { batts, skeins, lookup, reports, files };

// What goes on once the stash has answered.
enum class RecordAfter { nothing, show_skein, new_skein, empty_table };

struct LookupState {
    bool by_colour = false;
    colour::Srgb colour{0.35, 0.5, 0.45};
    std::string weight, length, date;
    bool stale = true;  // the clue or the file has changed
    std::vector<stash::Suspect> suspects;
    std::string complaint;
};

struct ReportState {
    Report report = Report::kinds;
    int year = 0;
    ReportTable table;
    bool stale = true;
};

struct RecordFilesState {
    std::filesystem::path folder;
    bool replace_asked = false;
    std::string table_path;
    std::optional<stash::LotsRead> read;  // of a table, to be put on the shelf
    std::string backup_path, restore_path;
    bool backup_asked = false, restore_asked = false;
    std::optional<stash::Health> health;
    std::string said, complaint;
};

struct RecordState {
    bool open = false;
    RecordPage page = RecordPage::batts;
    RecordBook book;
    unsigned long version = 0;  // of the desk, when the book was read
    std::string said, complaint;
    std::string saying;  // said once the stash has agreed
    RecordAfter after = RecordAfter::nothing;
    std::int64_t batt = 0;  // on show
    bool sure_asked = false;
    SkeinForm form;
    Photo photo;  // of the skein on show
    std::string photo_path, photo_trouble;
    std::string untold;  // why the form's batts have no forecast
    std::string project, promise;
    LookupState lookup;
    ReportState report;
    RecordFilesState files;
};

void prepare_record(RecordState& state, const Settings& settings, const std::filesystem::path& folder);
void view_record(const Ui& ui, RecordState& state);
void report_record(const RecordState& state, Probe& probe);

// The pages.
void view_record_batts(const Ui& ui, RecordState& state);
void view_record_skeins(const Ui& ui, RecordState& state);
void view_record_form(const Ui& ui, RecordState& state);
void view_record_projects(const Ui& ui, RecordState& state, const stash::Skein& skein);
void view_record_lookup(const Ui& ui, RecordState& state);
void view_record_reports(const Ui& ui, RecordState& state);
void view_record_files(const Ui& ui, RecordState& state);

// Asks the stash; `saying` is said once it has agreed.
void ask_record(const Ui& ui, RecordState& state, RecordDeed deed, std::string saying,
                RecordAfter after = RecordAfter::nothing);
// A new skein, from a batt when one is given.
void start_skein(const Ui& ui, RecordState& state, std::int64_t batt);
void show_skein(const Ui& ui, RecordState& state, std::int64_t skein);
// Fills in what the form's batts foretell now.
void foretell(const Ui& ui, RecordState& state);

// Shared pieces: a label with room for the field beside it, and a row of a list: a name, and words below it.
void record_row(const Ui& ui, std::string_view words);
// Escape, unless it ends typing or shuts a list.
bool record_escape(const Ui& ui);
bool record_entry(const Ui& ui, const std::string& label, std::string_view name, std::string_view words,
                  bool chosen, bool faint = false);
inline constexpr float entry_height = 46.0f;  // design pixels
// The range of the next one before and after, as two bars over one scale.
void view_lesson(const Ui& ui, const std::string& label, const Lesson& lesson, std::string_view title,
                 const char* noun, const std::function<std::string(double)>& print);

}  // namespace battwright::window
