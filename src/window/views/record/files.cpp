// Tables out and in, backup and restore, and a check of the whole.
#include <system_error>
#include <utility>

#include "window/kit/widgets.hpp"
#include "window/views/record/record.hpp"

namespace battwright::window {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t most_shown = 200;  // bad rows drawn

void say(RecordFilesState& files, std::string said, std::string complaint = {}) {
    files.said = std::move(said);
    files.complaint = std::move(complaint);
}

void start_afresh(RecordFilesState& files) {
    say(files, {});
    files.replace_asked = files.backup_asked = files.restore_asked = false;
}

bool is_there(const std::string& path) {
    std::error_code error;
    return fs::exists(path, error);
}

void path_field(const Ui& ui, RecordFilesState& files, const char* words, const std::string& label,
                std::string& into) {
    record_row(ui, words);
    const auto typed = field(ui, label, into, ImGui::GetContentRegionAvail().x);
    if (!typed) return;
    into = *typed;
    start_afresh(files);
}

void tables_out(const Ui& ui, RecordFilesState& files) {
    text_in(ui, ui.fonts.bold, ui.theme.ink, "Tables out");
    hover(ui, "lots.csv, movements.csv, batts.csv and skeins.csv, for a spreadsheet");
    std::string folder = files.folder.string();
    path_field(ui, files, "Folder", "tables folder", folder);
    files.folder = folder;
    record_row(ui, "");
    if (!button(ui,
                files.replace_asked ? "Press again to replace##tables out" : "Write the tables##tables out",
                Tone::plain))
        return;
    const auto there = tables_there(files.folder);
    if (!there.empty() && !std::exchange(files.replace_asked, true))
        return say(files, {}, there.front() + " is there already. Press again to replace.");
    files.replace_asked = false;
    if (ui.desk.file() == nullptr) return say(files, {}, "There is no stash yet.");
    const auto written = write_tables(*ui.desk.file(), files.folder);
    if (!written) return say(files, {}, measure::to_line(written.error()));
    say(files, std::to_string(written->size()) + " tables written to " + files.folder.string() + ".");
}

void offer_rows(const Ui& ui, RecordState& state) {
    RecordFilesState& files = state.files;
    if (!files.read) return;
    const std::size_t good = files.read->good.size(), bad = files.read->complaints.size();
    record_row(ui, "");
    ImGui::BeginDisabled(good == 0);
    const std::string count = std::to_string(good) + (good == 1 ? " lot" : " lots");
    if (button(ui, "Put " + count + " on the shelf##take in", Tone::accent, 0.0f,
               bad == 0 ? "All of them, or none"
                        : "Only the good rows; mend the others in the table and read it again")) {
        start_afresh(files);
        ask_record(ui, state, RecordDeed{TakeInRows{files.read->good}}, count + " put on the shelf.",
                   RecordAfter::empty_table);
    }
    ImGui::EndDisabled();
    if (bad == 0) return;
    text_in(ui, ui.fonts.bold, ui.theme.spoils,
            std::to_string(bad) + (bad == 1 ? " row has" : " rows have") + " something wrong:");
    ImGui::BeginChild("bad rows", {0.0f, 0.0f});
    for (std::size_t i = 0; i < bad && i < most_shown; ++i)
        paragraph(ui, measure::to_line(files.read->complaints[i]), ui.theme.ink);
    if (bad > most_shown)
        text_in(ui, ui.fonts.body, ui.theme.quiet, "and " + std::to_string(bad - most_shown) + " more");
    ImGui::EndChild();
}

void table_in(const Ui& ui, RecordState& state) {
    RecordFilesState& files = state.files;
    text_in(ui, ui.fonts.bold, ui.theme.ink, "A table of lots in");
    hover(ui,
          "CSV with a header row: name, fibre and weight_g must be there; nothing is taken in before you "
          "have seen what is wrong with it");
    path_field(ui, files, "File", "table file", files.table_path);
    record_row(ui, "");
    if (button(ui, "Read it##table in", Tone::plain)) {
        start_afresh(files);
        files.read.reset();
        auto read = read_table(files.table_path, ui.catalogue, ui.desk.shelf());
        if (read)
            files.read = std::move(*read);
        else
            say(files, {}, measure::to_line(read.error()));
    }
    offer_rows(ui, state);
}

void backup(const Ui& ui, RecordState& state) {
    RecordFilesState& files = state.files;
    text_in(ui, ui.fonts.bold, ui.theme.ink, "Backup");
    path_field(ui, files, "To", "backup file", files.backup_path);
    record_row(ui, "");
    if (!button(ui, files.backup_asked ? "Press again to replace##backup" : "Back up##backup", Tone::plain,
                0.0f, "A copy of the whole stash in one file"))
        return;
    if (is_there(files.backup_path) && !std::exchange(files.backup_asked, true))
        return say(files, {}, files.backup_path + " is there already. Press again to replace it.");
    start_afresh(files);
    ask_record(ui, state, RecordDeed{BackupTo{files.backup_path}}, "Backed up to " + files.backup_path + ".");
}

void restore(const Ui& ui, RecordState& state) {
    RecordFilesState& files = state.files;
    text_in(ui, ui.fonts.bold, ui.theme.ink, "Restore");
    path_field(ui, files, "From", "restore file", files.restore_path);
    record_row(ui, "");
    if (!button(ui, files.restore_asked ? "Yes, put it in place of the stash##restore" : "Restore##restore",
                Tone::plain, 0.0f,
                "The stash becomes what is in the backup; what it is now is kept beside it"))
        return;
    if (!std::exchange(files.restore_asked, true))
        return say(
            files, {},
            "All that was written down since that backup goes out of the stash. What it is now is kept "
            "beside it, in a file that ends in .before. Press again if you are sure.");
    start_afresh(files);
    ask_record(ui, state, RecordDeed{RestoreFrom{files.restore_path}},
               "Restored from " + files.restore_path + ".");
}

void check(const Ui& ui, RecordFilesState& files) {
    text_in(ui, ui.fonts.bold, ui.theme.ink, "Check");
    record_row(ui, "Stash");
    text_within(ui, ui.fonts.body, ui.theme.ink, ui.desk.path().string(), ImGui::GetContentRegionAvail().x);
    record_row(ui, "");
    if (button(ui, "Check the file##check", Tone::plain, 0.0f,
               "Every page, every sum against its movements")) {
        start_afresh(files);
        files.health.reset();
        if (ui.desk.file() == nullptr) return say(files, {}, "There is no stash yet.");
        auto health = ui.desk.file()->integrity();
        if (health)
            files.health = std::move(*health);
        else
            say(files, {}, measure::to_line(health.error()));
    }
    if (!files.health) return;
    const auto& health = *files.health;
    for (const auto& problem : health.problems) paragraph(ui, problem, ui.theme.spoils);
    if (!health.problems.empty()) return;
    paragraph(ui,
              "All is well: " + std::to_string(health.lots) + " lots, " + std::to_string(health.movements) +
                  " movements, " + std::to_string(health.batts) + " batts, " + std::to_string(health.skeins) +
                  " skeins.",
              ui.theme.ink);
    mark(ui, "all is well");
}

}  // namespace

void view_record_files(const Ui& ui, RecordState& state) {
    RecordFilesState& files = state.files;
    const float between = ui.px(26.0f), half = 0.5f * (ImGui::GetContentRegionAvail().x - between);
    ImGui::BeginChild("files left", {half, 0.0f});
    tables_out(ui, files);
    gap(ui, 6.0f);
    table_in(ui, state);
    ImGui::EndChild();
    ImGui::SameLine(0.0f, between);
    ImGui::BeginChild("files right", {0.0f, 0.0f});
    backup(ui, state);
    gap(ui, 6.0f);
    restore(ui, state);
    gap(ui, 6.0f);
    check(ui, files);
    gap(ui, 6.0f);
    if (!files.complaint.empty()) paragraph(ui, files.complaint, ui.theme.spoils);
    if (!files.said.empty()) paragraph(ui, files.said, ui.theme.ink);
    ImGui::EndChild();
}

}  // namespace battwright::window
