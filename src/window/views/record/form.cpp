// One skein, typed in or looked at: where it is from, its figures, and what it taught.
#include <algorithm>
#include <cmath>
#include <utility>

#include "app/record/record_session.hpp"
#include "app/settings.hpp"
#include "app/shelf/shelf_choice.hpp"
#include "app/shelf/stash_requests.hpp"
#include "app/shelf/stash_session.hpp"
#include "app/yarn/yarn_words.hpp"
#include "text/words.hpp"
#include "window/kit/widgets.hpp"
#include "window/views/files/files.hpp"
#include "window/views/record/record.hpp"
#include "yarn/habit_words.hpp"

namespace battwright::window {
namespace {

constexpr std::size_t most_offered = 300;  // batts to choose from, newest first
constexpr int most_strands = 12;

// `where`: what a complaint about it says.
void typed_line(const Ui& ui, RecordState& state, const char* words, const std::string& label,
                std::string& into, const char* hint, std::string_view where) {
    record_row(ui, words);
    const bool typed = edit_text(ui, label, into, ImGui::GetContentRegionAvail().x, hint);
    record_trouble(ui, state, typed, where);
}

void batt_share(const Ui& ui, RecordState& state, std::size_t index, const stash::Batt* batt) {
    auto& from = state.form.from;
    const float width = ImGui::GetContentRegionAvail().x;
    const float side = ui.px(32.0f), share = from.size() > 1 ? ui.px(70.0f) : 0.0f;
    const ImVec2 at = ImGui::GetCursorPos();
    ImGui::AlignTextToFramePadding();
    const std::string name =
        batt != nullptr ? name_of(*batt) + ", " + batt->carding.date : "a batt that is not there";
    text_within(ui, ui.fonts.body, ui.theme.ink, name, width - side - share - ui.px(16.0f));
    if (from.size() > 1) {
        ImGui::SetCursorPos({at.x + width - side - share - ui.px(8.0f), at.y});
        const std::string shown = measure::print_percent(from[index].share_pct);
        if (const auto typed = field(ui, "share " + std::to_string(index), shown, share)) {
            const auto percent = parse_share(*typed);
            if (percent)
                from = with_batt_share(from, index, *percent);
            else
                refuse(ui, percent.error());
            state.foretell = ui.ask.another_frame = true;
        }
        hover(ui, "How much of the skein's fibre is from this batt");
    }
    ImGui::SetCursorPos({at.x + width - side, at.y});
    if (button(ui, "\u00d7##not from " + std::to_string(index), Tone::plain, side, "Not from this batt")) {
        from = without_batt(from, index);
        state.foretell = ui.ask.another_frame = true;
    }
}

void choose_batt(const Ui& ui, RecordState& state) {
    if (!folds_out(ui, "from batt", state.form.from.empty() ? "choose a batt" : "one more batt",
                   ImGui::GetContentRegionAvail().x))
        return;
    std::size_t offered = 0;
    for (auto batt = ui.record.book().batts.rbegin(); batt != ui.record.book().batts.rend(); ++batt) {
        if (!batt->taken_back_on.empty()) continue;
        if (++offered > most_offered) break;
        if (record_entry(ui, "from batt " + std::to_string(batt->id), name_of(*batt),
                         batt_in_short(*batt, ui.settings), false)) {
            state.form.from = with_batt(state.form.from, batt->id);
            if (state.form.name.empty()) state.form.name = batt->carding.name;
            state.foretell = ui.ask.another_frame = true;
            ImGui::CloseCurrentPopup();
        }
    }
    if (offered == 0) text_in(ui, ui.fonts.body, ui.theme.quiet, "no batt is in the record yet");
    ImGui::EndCombo();
}

void where_from(const Ui& ui, RecordState& state) {
    const auto parts = state.form.from;  // a press changes it
    for (std::size_t i = 0; i < parts.size() && i < state.form.from.size(); ++i) {
        record_row(ui, i == 0 ? "From" : "");
        batt_share(ui, state, i, ui.record.book().batt(parts[i].batt));
    }
    record_row(ui, parts.empty() ? "From" : "");
    choose_batt(ui, state);
    record_trouble(ui, state, parts.size() != state.form.from.size(), "batt");
}

void keep_round(const Ui& ui, const std::string& round) {
    Settings settings = ui.settings;
    settings.winder = round;
    ui.ask.act(ChangeSettings{settings});
}

void wound(const Ui& ui, RecordState& state) {
    SkeinForm& form = state.form;
    record_row(ui, "");
    const float width = 0.5f * (ImGui::GetContentRegionAvail().x - ui.px(70.0f));
    const bool turns = edit_text(ui, "turns", form.turns, width, "turns");
    ImGui::SameLine();
    text_in(ui, ui.fonts.body, ui.theme.quiet, "times");
    ImGui::SameLine();
    const auto round = field(ui, "round", form.round, ImGui::GetContentRegionAvail().x,
                             example_of(ui.settings.length, "e.g. 1.5 m", "e.g. 60 in"));
    if (round) {
        form.round = *round;
        if (parse_round_metres(*round)) keep_round(ui, *round);
    }
    hover(ui, "How far it is once round your winder: 1.5 m, 150 cm, 2 yd. It is remembered.");
    record_trouble(ui, state, turns || round, "turns", "once round");
    record_trouble(ui, state, turns || round, "length");
}

// When the length was measured, and what the wash will leave of it.
void washed_or_not(const Ui& ui, SkeinForm& form) {
    record_row(ui, "Measured");
    const float width = 0.5f * (ImGui::GetContentRegionAvail().x - ui.px(3.0f));
    if (const auto when =
            choices(ui, "measured", {"washed and dry", "before the wash"}, form.before_wash ? 1 : 0, width))
        measure_before_wash(form, *when == 1, ui.record.book(), ui.catalogue);
    hover(ui,
          "A length from before the wash goes into the record as the wash will likely leave it, with what "
          "you measured in the note. It teaches only if you tick so: measure it again once it is dry.");
}

void length(const Ui& ui, RecordState& state) {
    SkeinForm& form = state.form;
    record_row(ui, "Length");
    const float width = 0.5f * (ImGui::GetContentRegionAvail().x - ui.px(3.0f));
    choose(ui, "length by", {"measured", "by turns"}, form.by_turns, width);
    if (form.by_turns) return wound(ui, state);
    typed_line(ui, state, "", "skein length", form.length, form.before_wash ? "as wound" : "washed and dry",
               "length");
}

void spun_how(const Ui& ui, RecordState& state) {
    SkeinForm& form = state.form;
    record_row(ui, "Strands");
    edit_count(ui, "plies", form.plies, 0, most_strands);
    ImGui::SameLine(0.0f, ui.px(12.0f));
    const bool wraps =
        edit_text(ui, "skein wraps", form.wraps, ImGui::GetContentRegionAvail().x, "wraps per inch");
    if (state.complaint.empty()) hover(ui, "Wraps per inch, round a ruler");
    record_trouble(ui, state, wraps, "wraps", "wpi");
    record_row(ui, "Spun");
    // As wide as each other where the longest word has room in a third.
    const float third = (ImGui::GetContentRegionAvail().x - ui.px(6.0f)) / 3.0f;
    const float longest = width_of(ui.fonts.body, "semi-woollen") + 2.0f * ImGui::GetStyle().FramePadding.x;
    const float width = longest <= third ? third : 0.0f;
    choose(ui, "spun", measure::words_of(recipe::preparations), form.preparation, width);
    hover(ui, "Skeins of each way are learnt from by themselves");
    record_row(ui, "");
    edit_tick(ui, "counts", "learn from this skein", form.counts);
}

// The photo that the path names, as large as there is room.
void photo(const Ui& ui, const RecordState& state, bool stacked) {
    if (!state.photo.trouble.empty()) paragraph(ui, state.photo.trouble, ui.theme.warning);
    const ImVec2 room = ImGui::GetContentRegionAvail();
    view_shown_photo(ui, state, room.x, stacked ? ui.px(160.0f) : room.y);
}

void words(const Ui& ui, RecordState& state) {
    SkeinForm& form = state.form;
    record_row(ui, "Photo");
    const auto path = file_field(ui, "skein photo", form.photo, ImGui::GetContentRegionAvail().x,
                                 {.hint = "a picture's file"});
    if (path) form.photo = *path;
    record_trouble(ui, state, path.has_value(), "photo");
    view_skein_colours(ui, state);
    typed_line(ui, state, "Became", "skein became", form.became, "what was made of it", "became");
    record_row(ui, "Note");
    const ImVec2 size{ImGui::GetContentRegionAvail().x, ui.px(56.0f)};
    if (const auto typed = text_box(ui, "skein note", form.note, size)) form.note = *typed;
}

// Reads the form; a complaint is only shown once she wants to save it.
void lesson(const Ui& ui, RecordState& state, const measure::Expected<stash::Skein>& skein) {
    if (!state.untold.empty()) paragraph(ui, state.untold, ui.theme.warning);
    if (!skein || !skein->foretold) {
        if (state.form.from.empty())
            paragraph(ui,
                      "Say which batt it was spun from, and its forecast is kept with it and learnt from.",
                      ui.theme.quiet);
        return;
    }
    paragraph(ui, "Foretold for its weight: " + foretold_in_words(*skein, ui.settings), ui.theme.ink);
    if (const auto& lesson = ui.record.skein_lesson(*skein))
        view_lesson(ui, "yarn lesson", *lesson, "The next skein like this one", "skein",
                    [&](double metres) { return print_metres(metres, ui.settings); });
}

// What the skein on show raises, once: two buttons, and it is not asked again.
void question(const Ui& ui, RecordState& state) {
    const auto* asked = state.form.id == 0 ? nullptr : ui.record.book().question(state.form.id);
    const auto* skein = ui.record.book().skein(state.form.id);
    if (asked == nullptr || skein == nullptr) return;
    const std::string words = text::capitalised(yarn::question_words(asked->question, asked->lesson));
    if (words.empty()) return;
    paragraph(ui, words + ".", ui.theme.warning);
    mark(ui, "skein question");
    const bool mind = asked->question == yarn::Question::changed_her_mind;
    const bool yes = button(ui, mind ? "Yes, I meant it##skein yes" : "Yes, they are right##skein yes");
    ImGui::SameLine();
    const bool no = button(ui, mind ? "No, the plan stood##skein no" : "No##skein no");
    if (no && !mind) {
        complain_in_record(state, {});
        state.said = "Put its figures right and save the changes.";
    } else if (yes || no) {
        ask_record(ui, state, ChangeSkein{answered(*skein, asked->question, yes)}, "Thank you.",
                   RecordAfter::show_skein);
    }
    gap(ui, 2.0f);
}

// What all her skeins of this way of spinning have taught.
void habits(const Ui& ui, const measure::Expected<stash::Skein>& skein) {
    if (!skein) return;
    const double wanted = skein->foretold ? skein->foretold->wanted_wpi : 0.0;
    for (const std::string& line : habits_in_words(ui.stash.calibration(), skein->preparation, wanted))
        paragraph(ui, line, ui.theme.ink);
}

void log_button(const Ui& ui, RecordState& state, const measure::Expected<stash::Skein>& skein) {
    const bool fresh = state.form.id == 0;
    if (!button(ui, fresh ? "Log it##log skein" : "Save the changes##log skein", Tone::accent)) return;
    if (!skein) {
        complain_in_record(state, skein.error());
        return;
    }
    const std::string more = more_yarn_in_words(*skein, ui.record.book(), ui.settings);
    if (std::exchange(state.more_yarn_asked, more) != more) {
        state.said.clear();
        complain_in_record(state, {});
        state.complaint = "Log it once more if so: " + more;
        return;
    }
    if (fresh)
        ask_record(ui, state, LogSkein{*skein}, "Logged.", RecordAfter::show_skein);
    else
        ask_record(ui, state, ChangeSkein{*skein}, "Saved.", RecordAfter::show_skein);
}

void remove_button(const Ui& ui, RecordState& state) {
    if (state.form.id == 0) return;
    ImGui::SameLine();
    if (!button(ui, state.sure_asked ? "Press again to remove it##remove skein" : "Remove##remove skein",
                Tone::plain, 0.0f, "Takes it and its promises out of the record; the batt stays"))
        return;
    if (state.sure_asked)
        ask_record(ui, state, RemoveSkein{state.form.id}, "Removed.", RecordAfter::new_skein);
    state.sure_asked = !state.sure_asked;
}

void cost(const Ui& ui, const RecordState& state) {
    const auto found = ui.record.book().skein_costs.find(state.form.id);
    if (found == ui.record.book().skein_costs.end()) return;
    record_row(ui, "Cost");
    text_within(ui, ui.fonts.body, ui.theme.ink, cost_in_words(found->second, ui.settings),
                ImGui::GetContentRegionAvail().x);
}

}  // namespace

void view_record_form(const Ui& ui, RecordState& state, const RecordColumns& columns) {
    SkeinForm& form = state.form;
    begin_column("skein figures", {columns.half, 0.0f}, columns.stacked);
    text_within(ui, ui.fonts.title, ui.theme.ink, form.id == 0 ? "A new skein" : form.name,
                ImGui::GetContentRegionAvail().x);
    typed_line(ui, state, "Name", "skein name", form.name, "what you call it", "name");
    where_from(ui, state);
    typed_line(ui, state, "Spun on", "skein date", form.date, "e.g. 2024-05-17", "date");
    typed_line(ui, state, "Weight", "skein weight", form.weight, "washed and dry", "weight");
    length(ui, state);
    washed_or_not(ui, form);
    const auto skein = skein_of(form, ui.settings);
    record_row(ui, "");
    text_within(ui, ui.fonts.small, ui.theme.quiet,
                skein ? length_in_words(*skein, form, ui.settings) : std::string(),
                ImGui::GetContentRegionAvail().x);
    if (form.before_wash) mark(ui, "skein washed");
    spun_how(ui, state);
    photo(ui, state, columns.stacked);
    end_column(columns.stacked);
    next_column(ui, columns.between, columns.stacked);
    begin_column("skein words", {0.0f, 0.0f}, columns.stacked);
    question(ui, state);
    words(ui, state);
    cost(ui, state);
    gap(ui, 2.0f);
    // Above what comes and goes with the figures, so that it stays where it is.
    log_button(ui, state, skein);
    remove_button(ui, state);
    gap(ui, 2.0f);
    lesson(ui, state, skein);
    habits(ui, skein);
    if (const auto* logged = form.id == 0 ? nullptr : ui.record.book().skein(form.id)) {
        gap(ui, 2.0f);
        view_record_projects(ui, state, *logged);
    }
    end_column(columns.stacked);
}

}  // namespace battwright::window
