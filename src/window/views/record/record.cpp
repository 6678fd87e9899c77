#include "window/views/record/record.hpp"

#include <algorithm>
#include <array>
#include <utility>

#include "stash/date.hpp"
#include "window/kit/widgets.hpp"

namespace battwright::window {
namespace {

constexpr std::array<const char*, 5> pages{"Batts", "Skeins", "What was this?", "Reports", "Files"};

void read_book(const Ui& ui, RecordState& state) {
    if (state.version == ui.desk.version()) return;
    state.version = ui.desk.version();
    state.lookup.stale = state.report.stale = true;
    state.files.health.reset();
    if (ui.desk.file() == nullptr) {
        state.book = {};
        return;
    }
    auto book = read_record(*ui.desk.file());
    if (book)
        state.book = std::move(*book);
    else
        ui.ask.complaints.push_back(std::move(book.error()));
}

void go_on(const Ui& ui, RecordState& state, RecordAfter after, std::int64_t id) {
    if (after == RecordAfter::new_skein) start_skein(ui, state, 0);
    if (after == RecordAfter::show_skein) show_skein(ui, state, id != 0 ? id : state.form.id);
    if (after == RecordAfter::empty_table) state.files.read.reset();
}

void take_answer(const Ui& ui, RecordState& state) {
    const auto* answer = ui.desk.answer_to(static_cast<std::uint64_t>(RecordAsker::record));
    if (answer == nullptr) return;
    state.sure_asked = false;
    state.complaint = answer->complaint ? measure::to_line(*answer->complaint) : "";
    state.said = answer->complaint ? "" : state.saying;
    const RecordAfter after = std::exchange(state.after, RecordAfter::nothing);
    if (!answer->complaint) go_on(ui, state, after, answer->id);
}

void foot(const Ui& ui, RecordState& state, bool escape) {
    if (button(ui, "Back to the bench##record done") || escape) ImGui::CloseCurrentPopup();
    const bool failed = !state.complaint.empty();
    if (!failed && state.said.empty()) return;
    ImGui::SameLine(0.0f, ui.px(18.0f));
    ImGui::AlignTextToFramePadding();
    text_within(ui, ui.fonts.body, failed ? ui.theme.spoils : ui.theme.ink,
                failed ? state.complaint : state.said, ImGui::GetContentRegionAvail().x);
}

void page(const Ui& ui, RecordState& state) {
    switch (state.page) {
        case RecordPage::batts:
            return view_record_batts(ui, state);
        case RecordPage::skeins:
            return view_record_skeins(ui, state);
        case RecordPage::lookup:
            return view_record_lookup(ui, state);
        case RecordPage::reports:
            return view_record_reports(ui, state);
        case RecordPage::files:
            return view_record_files(ui, state);
    }
}

}  // namespace

void prepare_record(RecordState& state, const Settings& settings, const std::filesystem::path& folder) {
    state.said.clear();
    state.complaint.clear();
    state.sure_asked = false;
    if (state.form.id == 0 && state.form.from.empty()) state.form = new_skein_form(settings);
    if (state.report.year == 0) {
        const std::chrono::year_month_day day(
            stash::parse_date(stash::today()).value_or(std::chrono::sys_days{}));
        state.report.year = static_cast<int>(day.year());
    }
    state.report.stale = state.lookup.stale = true;
    auto& files = state.files;
    files.said.clear();
    files.complaint.clear();
    files.backup_asked = files.restore_asked = files.replace_asked = false;
    if (!files.folder.empty()) return;
    files.folder = folder;
    files.backup_path = (folder / "stash-backup.db").string();
    files.restore_path = files.backup_path;
    files.table_path = (folder / "lots.csv").string();
}

void view_record(const Ui& ui, RecordState& state) {
    const ImVec2 whole = ImGui::GetIO().DisplaySize;
    state.open = begin_card(ui, "record", "The record",
                            {std::min(whole.x - ui.px(40.0f), ui.px(1360.0f)), whole.y - ui.px(40.0f)});
    if (!state.open) return;
    read_book(ui, state);
    take_answer(ui, state);
    const bool escape = record_escape(ui);
    const auto chosen =
        choices(ui, "record page", {pages.begin(), pages.end()}, static_cast<std::size_t>(state.page));
    if (chosen) {
        state.page = static_cast<RecordPage>(*chosen);
        state.said.clear();
        state.complaint.clear();
        state.sure_asked = false;
    }
    gap(ui, 2.0f);
    ImGui::BeginChild("record page", {0.0f, -(ImGui::GetFrameHeight() + ui.px(10.0f))});
    page(ui, state);
    ImGui::EndChild();
    foot(ui, state, escape);
    end_card();
}

void ask_record(const Ui& ui, RecordState& state, RecordDeed deed, std::string saying, RecordAfter after) {
    state.saying = std::move(saying);
    state.after = after;
    ui.ask.of_stash(std::move(deed), static_cast<std::uint64_t>(RecordAsker::record));
}

void report_record(const RecordState& state, Probe& probe) {
    auto& told = probe.state;
    told["record"] = state.open ? "open" : "shut";
    told["record page"] = pages[static_cast<std::size_t>(state.page)];
    told["record complaint"] = state.complaint.empty() ? state.files.complaint : state.complaint;
    told["record said"] = state.said.empty() ? state.files.said : state.said;
    told["record batts"] = std::to_string(state.book.batts.size());
    told["record skeins"] = std::to_string(state.book.skeins.size());
    told["record suspects"] = std::to_string(state.lookup.suspects.size());
    told["record report rows"] = std::to_string(state.report.table.rows.size());
    if (!state.lookup.suspects.empty()) told["record first suspect"] = state.lookup.suspects.front().name;
    if (!state.book.batts.empty()) told["last batt"] = std::to_string(state.book.batts.back().id);
    if (!state.book.skeins.empty()) told["last skein"] = std::to_string(state.book.skeins.back().id);
}

bool record_escape(const Ui& ui) {
    return ImGui::IsKeyPressed(ImGui::GetKeyIndex(ImGuiKey_Escape), false) && ui.typing.id == 0 &&
           !ImGui::IsPopupOpen("", ImGuiPopupFlags_AnyPopupId);
}

void record_row(const Ui& ui, std::string_view words) {
    ImGui::AlignTextToFramePadding();
    text_in(ui, ui.fonts.body, ui.theme.quiet, words);
    ImGui::SameLine(ui.px(96.0f));
}

bool record_entry(const Ui& ui, const std::string& label, std::string_view name, std::string_view words,
                  bool chosen, bool faint) {
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const float width = ImGui::GetContentRegionAvail().x, height = ui.px(entry_height);
    ImGui::PushID(label.c_str());
    const bool pressed = ImGui::Selectable("##entry", chosen, 0, {0.0f, height - ui.px(4.0f)});
    mark(ui, label);
    ImGui::PopID();
    ImDrawList& list = *ImGui::GetWindowDrawList();
    const float inside = width - ui.px(12.0f);
    const auto put = [&](ImFont* font, const colour::Srgb& colour, std::string_view text, float down) {
        ImGui::PushFont(font);
        const std::string cut = cut_to(text, inside);
        ImGui::PopFont();
        list.AddText(font, font->FontSize, {at.x + ui.px(6.0f), at.y + ui.px(down)}, u32(colour),
                     cut.c_str());
    };
    put(ui.fonts.bold, faint ? ui.theme.quiet : ui.theme.ink, name, 2.0f);
    put(ui.fonts.small, ui.theme.quiet, words, 22.0f);
    return pressed;
}

}  // namespace battwright::window
