#include "window/shell/panels.hpp"

#include <algorithm>
#include <filesystem>
#include <utility>

#include "app/browse/browser.hpp"
#include "app/browse/file_kinds.hpp"
#include "app/lay/canvas.hpp"
#include "app/settings.hpp"
#include "window/gl/backend.hpp"
#include "window/shell/commands.hpp"
#include "window/shell/shell.hpp"
#include "window/views/files/files.hpp"

namespace battwright::window {
namespace {

void prepare_files(Shell& shell, FilePurpose purpose) {
    const auto& recent = shell.app.settings.recent;
    const auto& path = shell.app.document.path();
    FileRequest ask{recipe_asks, FileKind::recipe, purpose, {}, {}};
    if (path) ask.at = std::filesystem::absolute(*path);
    if (purpose == FilePurpose::save) ask.suggested = suggested_file_name(shell.app.document);
    shell.app.files.open(std::move(ask), recent.empty() ? home_folder() : recent.front().parent_path());
}

FindSubject find_subject(const Shell& shell) {
    return {shell.app.document.sheet(), shell.app.outcome()};
}

constexpr std::array<Panel, panel_count> all_panels{{
    {.command = Command::open,
     .head = {"files", "Open a recipe"},
     .prepare = [](Shell& shell) { prepare_files(shell, FilePurpose::open); },
     .draw = [](const Ui& ui, Shell&, const PanelHead& head) { view_browser(ui, head); },
     .report = [](const Shell& shell, bool, Probe& probe) { report_browser(shell.app.files, probe); }},
    {.command = Command::save_as,
     .head = {"files to save", "Save the recipe"},
     .prepare = [](Shell& shell) { prepare_files(shell, FilePurpose::save); },
     .draw = [](const Ui& ui, Shell&, const PanelHead& head) { view_browser(ui, head); }},
    {.command = Command::help,
     .head = {"help", "Keys and trade words"},
     .draw = [](const Ui& ui, Shell&, const PanelHead& head) { view_help(ui, head); }},
    {.command = Command::guide,
     .head = {"guide", ""},
     .prepare = [](Shell& shell) { shell.guide_step = 0; },
     .draw = [](const Ui& ui, Shell& shell,
                const PanelHead& head) { view_guide(ui, head, shell.guide_step); }},
    {.command = Command::preferences,
     .head = {"preferences", "Settings: theme, size and units"},
     .draw = [](const Ui& ui, Shell&, const PanelHead& head) { view_preferences(ui, head); }},
    {.command = Command::variants,
     .head = {"variants", "Variants side by side"},
     .follow =
         [](Shell& shell) {
             follow_variants(shell.app);
             if (auto trouble = shell.variants.follow(shell.app.variant_scenes.value()))
                 shell.app.messages.push_back(std::move(*trouble));
         },
     .draw = [](const Ui& ui, Shell& shell,
                const PanelHead& head) { view_variants(ui, head, shell.variants); }},
    {.command = Command::lay,
     .head = {"lay by hand", "Laid by hand"},
     .prepare = [](Shell& shell) { act(shell, ChangeCanvas{opened_canvas(shell.app)}); },
     .follow =
         [](Shell& shell) {
             const bool hand_moves = ImGui::IsMouseDown(ImGuiMouseButton_Left);
             if (auto trouble = shell.canvas.pictures.follow(shell.app, hand_moves))
                 shell.app.messages.push_back(std::move(*trouble));
         },
     .draw = [](const Ui& ui, Shell& shell, const PanelHead& head) { view_canvas(ui, head, shell.canvas); },
     .shut =
         [](Shell& shell) {
             Canvas canvas = shell.app.canvas;
             canvas.open = false;
             act(shell, ChangeCanvas{std::move(canvas)});
         },
     .report = [](const Shell& shell, bool open,
                  Probe& probe) { report_canvas(shell.canvas, shell.app, open, probe); }},
    {.command = Command::card,
     .head = {"card", "Cards, tags and labels"},
     .prepare =
         [](Shell& shell) {
             shell.app.card.open(recipe_folder(shell.app), Backend::wake);
             shell.card.side = 0;
         },
     .follow =
         [](Shell& shell) {
             shell.app.card.follow(card_subject(shell.app));
             follow_card(shell.card, shell.app.card);
         },
     .draw = [](const Ui& ui, Shell& shell,
                const PanelHead& head) { view_card(ui, head, shell.card, card_subject(shell.app)); },
     .has_news = [](const Shell& shell) { return shell.app.card.has_news(); },
     .report = [](const Shell& shell, bool, Probe& probe) { report_card(shell.app.card, probe); }},
    {.command = Command::card_it,
     .head = {"card it", "Card from the shelf"},
     .prepare = [](Shell& shell) { prepare_card_it(shell.card_it, shell.app.outcome()); },
     .draw = [](const Ui& ui, Shell& shell,
                const PanelHead& head) { view_card_it(ui, head, shell.card_it, shell.app.outcome()); },
     .report = [](const Shell& shell, bool, Probe& probe) { report_card_it(shell.card_it, probe); }},
    {.command = Command::record,
     .head = {"record", "The record"},
     .prepare =
         [](Shell& shell) {
             shell.app.record.open(recipe_folder(shell.app));
             prepare_record(shell.record, shell.app.settings);
         },
     .follow =
         [](Shell& shell) {
             shell.app.record.follow(shell.app.stash, *shell.app.catalogue, shell.app.settings,
                                     shell.app.messages);
             follow_record(shell.record, shell.app, *shell.photos, *shell.batt_photos);
         },
     .draw = [](const Ui& ui, Shell& shell, const PanelHead& head) { view_record(ui, head, shell.record); },
     .report = [](const Shell& shell, bool, Probe& probe) { report_record(shell.record, shell.app, probe); }},
    {.command = Command::find,
     .head = {"find", "Find a blend"},
     .prepare =
         [](Shell& shell) {
             shell.app.find.open(shell.app.document.sheet(), shell.app.outcome(),
                                 shell.app.stash.shelf().lots.empty(), Backend::wake);
         },
     .follow =
         [](Shell& shell) {
             shell.find.pricing = shell.app.find.follow(shell.app.document.sheet(), shell.app.stash,
                                                        *shell.app.catalogue, shell.app.settings);
             follow_find(shell.find, shell.app.find);
         },
     .draw = [](const Ui& ui, Shell& shell,
                const PanelHead& head) { view_find(ui, head, shell.find, find_subject(shell)); },
     .shut = [](Shell& shell) { shell.app.find.close(); },
     .has_news = [](const Shell& shell) { return shell.app.find.has_news(); },
     .report = [](const Shell& shell, bool open, Probe& probe) { report_find(shell.app.find, open, probe); }},
    {.command = Command::table,
     .head = {"on the table", ""},
     .prepare = [](Shell& shell) { shell.app.table.open(recipe_folder(shell.app), Backend::wake); },
     .follow =
         [](Shell& shell) {
             shell.app.table.follow(table_subject(shell.app));
             follow_table(shell.table, shell.app.table);
         },
     .draw = [](const Ui& ui, Shell& shell,
                const PanelHead& head) { view_table(ui, head, shell.table, table_subject(shell.app)); },
     .has_news = [](const Shell& shell) { return shell.app.table.has_news(); },
     .report = [](const Shell& shell, bool open,
                  Probe& probe) { report_table(shell.app.table, open, probe); }},
    {.command = Command::plans,
     .head = {"plans", "Before the whole: a sample, a series"},
     .prepare = [](Shell& shell) { shell.app.plans.open(Backend::wake); },
     .follow = [](Shell& shell) { shell.app.plans.follow(plans_subject(shell.app), shell.app.settings); },
     .draw = [](const Ui& ui, Shell& shell,
                const PanelHead& head) { view_plans(ui, head, shell.plans, shell.app.document.sheet()); },
     .has_news = [](const Shell& shell) { return shell.app.plans.has_news(); },
     .report = [](const Shell& shell, bool open,
                  Probe& probe) { report_plans(shell.plans, shell.app.plans, open, probe); }},
    {.command = Command::photo_colours,
     .head = {"photo colours", "Colours from a photo"},
     .draw = [](const Ui& ui, Shell& shell, const PanelHead& head) { view_picks(ui, head, shell.picks); },
     .report = [](const Shell& shell, bool, Probe& probe) { report_picks(shell.picks, probe); }},
}};

const Panel* panel_of(Command command) {
    const auto found = std::ranges::find(all_panels, command, &Panel::command);
    return found == all_panels.end() ? nullptr : &*found;
}

}  // namespace

const std::array<Panel, panel_count>& panels() {
    return all_panels;
}

void open_panel(Shell& shell, Command command) {
    const Panel* panel = panel_of(command);
    if (panel == nullptr) return;
    if (panel->prepare != nullptr) panel->prepare(shell);
    shell.opening.push_back(command);
}

bool panel_is_open(const Shell& shell, Command command) {
    const Panel* panel = panel_of(command);
    return panel != nullptr && shell.panel_open[static_cast<std::size_t>(panel - all_panels.data())];
}

void draw_panels(Shell& shell, const Ui& ui) {
    for (const Command command : std::exchange(shell.opening, {}))
        ImGui::OpenPopup(panel_of(command)->head.id);
    for (std::size_t i = 0; i < panel_count; ++i) {
        const Panel& panel = all_panels[i];
        const bool open = ImGui::IsPopupOpen(panel.head.id);
        if (open && panel.follow != nullptr) panel.follow(shell);
        if (open || shell.panel_open[i]) panel.draw(ui, shell, panel.head);
        if (!open && shell.panel_open[i] && panel.shut != nullptr) panel.shut(shell);
        shell.panel_open[i] = open;
    }
}

bool panels_have_news(const Shell& shell) {
    for (std::size_t i = 0; i < panel_count; ++i) {
        const Panel& panel = all_panels[i];
        if (shell.panel_open[i] && panel.has_news != nullptr && panel.has_news(shell)) return true;
    }
    return false;
}

void report_panels(const Shell& shell, Probe& probe) {
    for (std::size_t i = 0; i < panel_count; ++i) {
        const Panel& panel = all_panels[i];
        probe.state[panel.head.id] = shell.panel_open[i] ? "open" : "shut";
        if (panel.report != nullptr) panel.report(shell, shell.panel_open[i], probe);
    }
}

}  // namespace battwright::window
