#include "window/views/table/table.hpp"

#include <imgui_internal.h>

#include <GLFW/glfw3.h>
#include <algorithm>
#include <cmath>
#include <filesystem>
#include <tuple>

#include "app/look.hpp"
#include "app/settings.hpp"
#include "app/table/table_session.hpp"
#include "window/views/views.hpp"

namespace battwright::window {
namespace {

constexpr float between_groups = 14.0f;
constexpr float run_tall = 34.0f;  // design pixels: all of the yarn, above the picture
constexpr std::size_t batt_views = 5;

float choices_width(const Ui& ui, const std::vector<std::string>& names) {
    float wide = 3.0f * ui.px(static_cast<float>(names.size()));
    for (const std::string& name : names)
        wide += ImGui::CalcTextSize(name.c_str()).x + 2.0f * ImGui::GetStyle().FramePadding.x;
    return wide;
}

// The batt and what is made of it, then the yarn.
void choose_table_view(const Ui& ui, const recipe::Carding& carding, Look& look) {
    std::vector<std::string> batt, yarn;
    for (const auto& row : strip::table_views)
        (is_yarn(row.value) ? yarn : batt).push_back(strip::view_words(row.value, carding).button);
    const auto now = static_cast<std::size_t>(look.view);
    if (const auto view = choices(ui, "table", batt, now)) look.view = static_cast<StripView>(*view);
    hover(ui, strip::view_words(look.view, carding).help);
    beside_or_below(ui, between_groups, choices_width(ui, yarn));
    if (const auto view = choices(ui, "table", yarn, is_yarn(look.view) ? now - batt_views : yarn.size()))
        look.view = static_cast<StripView>(*view + batt_views);
    hover(ui, strip::view_words(look.view, carding).help);
}

void choose_table_passes(const Ui& ui, TableChoice& choice, const recipe::Recipe& recipe, Look& look) {
    const int own = std::max(1, recipe.carding.passes);
    const int most = std::max(usual_passes, own);
    const char* each = "side by side";
    beside_or_below(ui, between_groups,
                    width_of(ui.fonts.body, "after pass") + width_of(ui.fonts.body, each) + ui.px(150.0f));
    ImGui::AlignTextToFramePadding();
    text_in(ui, ui.fonts.body, ui.theme.quiet, "after pass");
    ImGui::SameLine();
    const int shown = pass_shown(recipe, look);
    if (const auto pass = stepper(ui, "table pass", shown, 1, most)) {
        look.passes = *pass == own ? std::nullopt : std::optional(*pass);
        choice.each_pass = false;
    }
    ImGui::SameLine(0.0f, ui.px(10.0f));
    if (const auto on = tick(ui, "table each pass", each, choice.each_pass)) choice.each_pass = *on;
    hover(ui, "The batt after each pass, side by side");
}

void choose_table_pull(const Ui& ui, Look& look) {
    const std::vector<std::string> names{"long strip", "torn lengthwise", "torn across"};
    beside_or_below(ui, between_groups, choices_width(ui, names));
    if (const auto pull = choices(ui, "table pull", names, static_cast<std::size_t>(look.pull)))
        look.pull = static_cast<carding::Pull>(*pull);
    hover(ui, "How the batt is taken to the wheel.");
}

// Larger and smaller about the picture's middle.
void zoom_by(const Ui& ui, TableChoice& choice, double times) {
    const auto& latest = ui.table.shown().latest;
    if (!latest) return;
    const strip::TableFrame frame = ui.table.frame();
    strip::TableSettings ask = ui.table.asked();
    ask.zoom = choice.zoom;
    ask = strip::zoomed(ask, latest->picture.size, frame, times, 0.5 * frame.width, 0.5 * frame.height);
    choice.zoom = ask.zoom;
    choice.middle_x = ask.middle_x;
    choice.middle_y = ask.middle_y;
}

void choose_zoom(const Ui& ui, TableChoice& choice) {
    beside_or_below(ui, between_groups, ui.px(190.0f));
    if (button(ui, "Nearer##table nearer", Tone::plain, 0.0f, "Larger (+, or the wheel)"))
        zoom_by(ui, choice, 1.5);
    ImGui::SameLine(0.0f, ui.px(3.0f));
    if (button(ui, "Further##table further", Tone::plain, 0.0f, "Smaller (-, or the wheel)"))
        zoom_by(ui, choice, 1.0 / 1.5);
    ImGui::SameLine(0.0f, ui.px(3.0f));
    if (button(ui, "All of it##table all", Tone::plain, 0.0f, "As much as there is (Home)")) {
        choice.zoom = 1.0;
        choice.middle_x = choice.middle_y = 0.5;
    }
}

bool table_key(int key, bool repeat = false) {
    return ImGui::IsKeyPressed(key, repeat);
}

float button_width(const char* words) {
    return ImGui::CalcTextSize(words).x + 2.0f * ImGui::GetStyle().FramePadding.x;
}

// What lies there, and what came of the picture that was kept.
void say_below(const Ui& ui, float room) {
    const TableSession& table = ui.table;
    const std::string kept = table.saving() ? "Being drawn\u2026" : table.saved_words();
    const float kept_wide = kept.empty() ? 0.0f : std::min(width_of(ui.fonts.body, kept), 0.6f * room);
    const auto& latest = table.shown().latest;
    text_within(ui, ui.fonts.body, ui.theme.ink,
                !latest                          ? "It is being drawn\u2026"
                : latest->picture.remark.empty() ? latest->picture.caption
                                                 : latest->picture.remark,
                room - kept_wide - ui.px(16.0f));
    mark(ui, "table caption");
    if (kept.empty()) return;
    ImGui::SameLine(0.0f, ui.px(16.0f));
    text_within(ui, ui.fonts.body, table.save_failed() ? ui.theme.spoils : ui.theme.ink, kept, kept_wide);
    mark(ui, "table said");
}

// One row; what stands at its right end takes `beside`.
void keep_picture(const Ui& ui, TableChoice& choice, const TableSubject& subject, float beside) {
    const float between = ui.px(6.0f), size_wide = ui.px(110.0f);
    const float rest = ImGui::GetContentRegionAvail().x - beside - button_width("Save picture") - size_wide -
                       width_of(ui.fonts.body, "Save as") - 5.0f * ui.px(8.0f);
    ImGui::AlignTextToFramePadding();
    text_in(ui, ui.fonts.body, ui.theme.quiet, "Save as");
    ImGui::SameLine(0.0f, ui.px(8.0f));
    const std::string name = file_name(choice, subject);
    if (const auto typed = field(ui, "table file", name, std::clamp(rest, ui.px(60.0f), ui.px(360.0f)))) {
        const std::filesystem::path whole(*typed);
        choice.name = typed->empty() ? std::nullopt : std::optional(whole.filename().string());
        if (whole.has_parent_path()) choice.folder = whole.parent_path();
    }
    hover(ui, "In " + choice.folder.string() + "; type a folder before the name for another.");
    ImGui::SameLine(0.0f, between);
    const std::string size = std::to_string(choice.width) + " x " + std::to_string(choice.height);
    if (const auto typed = field(ui, "table size", size, size_wide)) {
        if (const auto parsed = parse_picture_size(*typed))
            std::tie(choice.width, choice.height) = *parsed;
        else
            refuse(ui, parsed.error());
    }
    hover(ui, "Pixels of the picture that is kept; it has a scale bar, and states its scale.");
    ImGui::SameLine(0.0f, between);
    ImGui::BeginDisabled(ui.table.saving() || !subject.batt);
    if (button(ui, "Save picture##table save")) ui.ask.act(SaveTable{});
    ImGui::EndDisabled();
}

void keys_of_table(const Ui& ui, TableChoice& choice, Look& look) {
    const ImGuiIO& io = ImGui::GetIO();
    if (ui.typing.id != 0 || ui.tabs.on_field || io.WantTextInput || io.KeyCtrl || io.KeyAlt) return;
    for (std::size_t i = 0; i < strip::table_views.size(); ++i)
        if (table_key(GLFW_KEY_1 + static_cast<int>(i))) look.view = static_cast<StripView>(i);
    if (table_key(GLFW_KEY_EQUAL, true) || table_key(GLFW_KEY_KP_ADD, true)) zoom_by(ui, choice, 1.25);
    if (table_key(GLFW_KEY_MINUS, true) || table_key(GLFW_KEY_KP_SUBTRACT, true)) zoom_by(ui, choice, 0.8);
    if (table_key(GLFW_KEY_HOME)) {
        choice.zoom = 1.0;
        choice.middle_x = choice.middle_y = 0.5;
    }
    const auto& latest = ui.table.shown().latest;
    if (!io.KeyShift || !latest) return;
    const double right = table_key(GLFW_KEY_RIGHT, true) - table_key(GLFW_KEY_LEFT, true);
    const double down = table_key(GLFW_KEY_DOWN, true) - table_key(GLFW_KEY_UP, true);
    if (right == 0.0 && down == 0.0) return;
    // What has the keys keeps them.
    ImGui::NavMoveRequestCancel();
    const strip::TableFrame frame = ui.table.frame();
    const strip::TableSettings ask = strip::moved(ui.table.asked(), latest->picture.size, frame,
                                                  -0.1 * right * frame.width, -0.1 * down * frame.height);
    choice.middle_x = ask.middle_x;
    choice.middle_y = ask.middle_y;
}

}  // namespace

void follow_table(TableState& state, const TableSession& session) {
    const auto& latest = session.shown().latest;
    if (!latest) return;
    state.page_of.of(latest, [&](const auto& made, bool&) { state.page.keep(made->picture.image); });
}

void view_table(const Ui& ui, const PanelHead& head, TableState& state, const TableSubject& subject) {
    if (!begin_card(ui, head, card_size(ui, ImGui::GetIO().DisplaySize, {}))) return;
    state.choice = ui.table.choice();
    TableChoice& choice = state.choice;
    Look look = ui.look;
    choose_table_view(ui, subject.forecast ? subject.forecast->recipe.carding : recipe::Carding{}, look);
    if (subject.forecast) choose_table_passes(ui, choice, subject.forecast->recipe, look);
    if (is_yarn(look.view)) choose_table_pull(ui, look);
    choose_zoom(ui, choice);
    const float foot = ImGui::GetTextLineHeightWithSpacing() + ImGui::GetFrameHeight() + ui.px(8.0f);
    const ImVec2 at = ImGui::GetCursorScreenPos(), room = ImGui::GetContentRegionAvail();
    const float run = is_yarn(look.view) ? ui.px(run_tall + 8.0f) : 0.0f;
    const ImVec2 low{at.x, at.y + run},
        high{at.x + room.x, at.y + std::max(ui.px(80.0f) + run, room.y - foot)};
    choice.canvas.width = std::max(1, static_cast<int>(high.x - low.x));
    choice.canvas.height = std::max(1, static_cast<int>(high.y - low.y));
    choice.canvas.ground = ui.theme.ground;
    choice.canvas.unit = ui.settings.length;
    choice.canvas.mass = ui.settings.mass;
    choice.canvas.label_px = double{ui.px(26.0f)};
    view_table_picture(ui, state, low, high);
    ImGui::SetCursorScreenPos({at.x, high.y + ui.px(6.0f)});
    say_below(ui, room.x);
    const float leave = button_width("Back to the bench");
    keep_picture(ui, choice, subject, leave + ui.px(12.0f));
    ImGui::SameLine(ImGui::GetContentRegionMax().x - leave);
    if (button(ui, "Back to the bench##table done") || escape_leaves(ui)) ImGui::CloseCurrentPopup();
    keys_of_table(ui, choice, look);
    end_card();
    if (!(look == ui.look)) {
        // Another thing is seen whole first.
        if (look.view != ui.look.view) {
            choice.zoom = 1.0;
            choice.middle_x = choice.middle_y = 0.5;
            choice.name.reset();
        }
        ui.ask.act(LookAt{look});
    }
    if (!(choice == ui.table.choice())) ui.ask.act_first(ChangeTable{choice});
}

void report_table(const TableSession& session, bool open, Probe& probe) {
    auto& facts = probe.state;
    const auto& latest = session.shown().latest;
    facts["table settled"] = session.settled() ? "yes" : "no";
    facts["table said"] = session.saved_words();
    if (!open || !latest) return;
    facts["table caption"] = latest->picture.caption;
    facts["table zoom"] = measure::write_number(session.choice().zoom);
    facts["table middle"] = measure::write_number(session.choice().middle_x) + " " +
                            measure::write_number(session.choice().middle_y);
    facts["table labels"] = std::to_string(latest->picture.labels.size());
    facts["table size"] =
        std::to_string(latest->picture.image.width) + " x " + std::to_string(latest->picture.image.height);
    facts["table run"] =
        measure::write_number(latest->picture.run.from) + " " + measure::write_number(latest->picture.run.to);
}

}  // namespace battwright::window
