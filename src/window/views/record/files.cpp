// Tables out and in, backup and restore, and a check of the whole.
#include <filesystem>
#include <utility>

#include "app/browse/file_kinds.hpp"
#include "app/record/record_session.hpp"
#include "app/shelf/stash_requests.hpp"
#include "app/shelf/stash_session.hpp"
#include "window/kit/widgets.hpp"
#include "window/views/files/files.hpp"
#include "window/views/record/record.hpp"

namespace battwright::window {
namespace {

constexpr std::size_t most_shown = 200;  // bad rows drawn

void path_field(const Ui& ui, const char* words, const std::string& label, const std::string& shown,
                std::string ChangeRecordFiles::*into, FileField wanted) {
    record_row(ui, words);
    if (wanted.purpose == FilePurpose::save)
        wanted.suggested = std::filesystem::path(shown).filename().string();
    const auto typed = file_field(ui, label, shown, ImGui::GetContentRegionAvail().x, wanted);
    if (!typed) return;
    const RecordFiles& files = ui.record.files;
    ChangeRecordFiles change{files.folder.string(), files.table_path, files.backup_path, files.restore_path};
    change.*into = *typed;
    ui.ask.act(std::move(change));
}

void tables_out(const Ui& ui, const RecordFiles& files) {
    text_in(ui, ui.fonts.bold, ui.theme.ink, "Tables out");
    hover(ui, "lots.csv, movements.csv, batts.csv and skeins.csv, for a spreadsheet");
    path_field(ui, "Folder", "tables folder", files.folder.string(), &ChangeRecordFiles::folder,
               {.kind = FileKind::folder, .purpose = FilePurpose::folder});
    record_row(ui, "");
    if (button(ui,
               files.replace_asked ? "Press again to replace##tables out" : "Write the tables##tables out",
               Tone::plain))
        ui.ask.act(WriteTables{});
}

void offer_rows(const Ui& ui, RecordState& state, bool stacked) {
    const RecordFiles& files = ui.record.files;
    if (!files.read) return;
    const std::size_t good = files.read->good.size(), bad = files.read->complaints.size();
    record_row(ui, "");
    ImGui::BeginDisabled(good == 0);
    const std::string count = std::to_string(good) + (good == 1 ? " lot" : " lots");
    if (button(ui, "Put " + count + " on the shelf##take in", Tone::accent, 0.0f,
               bad == 0 ? "All of them, or none"
                        : "Only the good rows; mend the others in the table and read it again")) {
        ask_record(ui, state, TakeInRows{files.read->good}, count + " put on the shelf.",
                   RecordAfter::empty_table);
    }
    ImGui::EndDisabled();
    if (bad == 0) return;
    text_in(ui, ui.fonts.bold, ui.theme.spoils,
            std::to_string(bad) + (bad == 1 ? " row has" : " rows have") + " something wrong:");
    begin_column("bad rows", {0.0f, 0.0f}, stacked);
    for (std::size_t i = 0; i < bad && i < most_shown; ++i)
        paragraph(ui, measure::to_line(files.read->complaints[i]), ui.theme.ink);
    if (bad > most_shown)
        text_in(ui, ui.fonts.body, ui.theme.quiet, "and " + std::to_string(bad - most_shown) + " more");
    end_column(stacked);
}

void table_in(const Ui& ui, RecordState& state, bool stacked) {
    text_in(ui, ui.fonts.bold, ui.theme.ink, "A table of lots in");
    hover(ui,
          "CSV with a header row: name, fibre and weight_g must be there; nothing is taken in before you "
          "have seen what is wrong with it");
    path_field(ui, "File", "table file", ui.record.files.table_path, &ChangeRecordFiles::table_path,
               {.kind = FileKind::table});
    record_row(ui, "");
    if (button(ui, "Read it##table in", Tone::plain)) ui.ask.act(ReadTable{});
    offer_rows(ui, state, stacked);
}

void backup(const Ui& ui, RecordState& state) {
    const RecordFiles& files = ui.record.files;
    text_in(ui, ui.fonts.bold, ui.theme.ink, "Backup");
    path_field(ui, "To", "backup file", files.backup_path, &ChangeRecordFiles::backup_path,
               {.kind = FileKind::backup, .purpose = FilePurpose::save});
    record_row(ui, "");
    if (!button(ui, files.backup_asked ? "Press again to replace##backup" : "Back up##backup", Tone::plain,
                0.0f, "A copy of the whole stash in one file"))
        return;
    expect_answer(state, "Backed up to " + files.backup_path + ".");
    ui.ask.act(BackUp{static_cast<std::uint64_t>(Requester::record)});
}

void restore(const Ui& ui, RecordState& state) {
    const RecordFiles& files = ui.record.files;
    text_in(ui, ui.fonts.bold, ui.theme.ink, "Restore");
    path_field(ui, "From", "restore file", files.restore_path, &ChangeRecordFiles::restore_path,
               {.kind = FileKind::backup});
    record_row(ui, "");
    if (!button(ui, files.restore_asked ? "Yes, put it in place of the stash##restore" : "Restore##restore",
                Tone::plain, 0.0f,
                "The stash becomes what is in the backup; what it is now is kept beside it"))
        return;
    expect_answer(state, "Restored from " + files.restore_path + ".");
    ui.ask.act(Restore{static_cast<std::uint64_t>(Requester::record)});
}

void check(const Ui& ui, const RecordFiles& files) {
    text_in(ui, ui.fonts.bold, ui.theme.ink, "Check");
    record_row(ui, "Stash");
    text_within(ui, ui.fonts.body, ui.theme.ink, ui.stash.path().string(), ImGui::GetContentRegionAvail().x);
    record_row(ui, "");
    if (button(ui, "Check the file##check", Tone::plain, 0.0f, "Every page, every sum against its movements"))
        ui.ask.act(CheckStash{});
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
    const RecordFiles& files = ui.record.files;
    const float between = ui.px(26.0f), half = 0.5f * (ImGui::GetContentRegionAvail().x - between);
    const bool stacked = !has_room(ui, 680.0f);
    begin_column("files left", {half, 0.0f}, stacked);
    tables_out(ui, files);
    gap(ui, 6.0f);
    table_in(ui, state, stacked);
    end_column(stacked);
    next_column(ui, between, stacked);
    begin_column("files right", {0.0f, 0.0f}, stacked);
    backup(ui, state);
    gap(ui, 6.0f);
    restore(ui, state);
    gap(ui, 6.0f);
    check(ui, files);
    gap(ui, 6.0f);
    if (!files.complaint.empty()) paragraph(ui, files.complaint, ui.theme.spoils);
    if (!files.said.empty()) paragraph(ui, files.said, ui.theme.ink);
    end_column(stacked);
}

}  // namespace battwright::window
