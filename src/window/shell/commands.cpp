#include "window/shell/commands.hpp"

#include <GLFW/glfw3.h>

#include <algorithm>
#include <filesystem>
#include <utility>

#include "app/bench/bench_actions.hpp"
#include "app/browse/browser.hpp"
#include "app/browse/file_kinds.hpp"
#include "app/browse/file_path.hpp"
#include "app/look.hpp"
#include "app/settings.hpp"
#include "app/shelf/stash_requests.hpp"
#include "window/shell/half_typed.hpp"
#include "window/shell/shell.hpp"
#include "window/views/in/in.hpp"

namespace battwright::window {
namespace {

constexpr std::array<Shortcut, shortcut_count> all_shortcuts{{
    {"Ctrl+N", "an empty bench", Command::fresh, GLFW_KEY_N},
    {"Ctrl+O", "open a recipe", Command::open, GLFW_KEY_O},
    {"Ctrl+S", "save", Command::save, GLFW_KEY_S},
    {"Ctrl+Shift+S", "save under another name", Command::save_as, GLFW_KEY_S, true},
    {"Ctrl+Z", "undo"},
    {"Ctrl+Shift+Z or Ctrl+Y", "redo"},
    {"Ctrl+F", "add a fibre by typing", Command::add_fibre, GLFW_KEY_F},
    {"Ctrl+K", "compare variants", Command::variants, GLFW_KEY_K},
    {"Ctrl+Shift+K", "keep this as a variant", Command::keep_variant, GLFW_KEY_K, true},
    {"Ctrl+D", "lay the batt by hand, on the drum unrolled", Command::lay, GLFW_KEY_D},
    {"Ctrl+P", "recipe card, tag and label", Command::card, GLFW_KEY_P},
    {"Ctrl+R", "the record: batts, skeins, reports", Command::record, GLFW_KEY_R},
    {"Ctrl+B", "find blends: use up bits, match a colour", Command::find, GLFW_KEY_B},
    {"Ctrl+M", "a sample first, or a series in steps", Command::plans, GLFW_KEY_M},
    {"Ctrl+T", "the batt on the table: large, to scale, every view", Command::table, GLFW_KEY_T},
    {"1 to 9", "on the table: the views"},
    {"+, -, Home", "on the table: nearer, further away, all of it"},
    {"Shift+Arrows", "on the table: move it"},
    {"Ctrl+Up, Ctrl+Down", "a higher or lower strip"},
    {"Ctrl+G", "colours from a photo", Command::photo_colours, GLFW_KEY_G},
    {"Ctrl+V", "open or take the file that was copied"},
    {"Ctrl+1, 2, 3", "daylight, lamp, shop light"},
    {"Ctrl+L", "light or dark theme"},
    {"Ctrl+Plus, Ctrl+Minus", "everything larger or smaller"},
    {"Tab, Shift+Tab", "the next thing, the one before: through every panel"},
    {"Arrows", "from thing to thing within a panel"},
    {"Enter or Space", "press it; Enter takes what is typed"},
    {"Esc", "one step back"},
    {"Alt+Up, Alt+Down", "on a handle, or a step laid by hand: feed sooner or later"},
    {"Arrows, Shift+Arrows", "on the drum unrolled: move the stroke, make it larger or smaller"},
    {"Enter", "on the drum unrolled: lay the stroke there"},
    {"D, M, E, H, Delete", "the chosen step: double, mirror, spread evenly, hide, take off"},
    {"Left, Right", "on a border of the shares: a gram to the other side, with Shift a tenth"},
    {"Left, Right", "on the yarn's curve or its colours: finer or thicker, further along"},
    {"Arrows, Enter", "on a photo: to a colour and pick it, or to two corners of the fibre"},
    {"Ctrl+Enter", "on a lot of the shelf: put it on the bench"},
    {"F1", "this page"},
    {"Ctrl+Q", "leave", Command::close_window, GLFW_KEY_Q},
}};

bool pressed(int key) {
    return ImGui::IsKeyPressed(key, false);
}

// The command of a key, shifted or not; a key with one row means the same with Shift.
const Shortcut* shortcut_of(int key, bool shift) {
    const Shortcut* found = nullptr;
    for (const Shortcut& row : all_shortcuts) {
        if (row.command && row.key == key && (found == nullptr || row.shift == shift)) found = &row;
    }
    return found;
}

void keys_of_commands(Requests& ask, bool typing, bool shift) {
    for (const Shortcut& row : all_shortcuts) {
        if (!row.command || !pressed(row.key) || shortcut_of(row.key, shift) != &row) continue;
        if (typing) ImGui::SetWindowFocus(nullptr);
        ask.command(*row.command);
    }
}

void keys_of_look(const Shell& shell, Requests& ask) {
    Settings settings = shell.app.settings;
    if (pressed(GLFW_KEY_L)) settings.shade = settings.shade == Shade::light ? Shade::dark : Shade::light;
    if (pressed(GLFW_KEY_EQUAL) || pressed(GLFW_KEY_KP_ADD))
        settings.scale = std::min(2.0, settings.scale * 1.1);
    if (pressed(GLFW_KEY_MINUS) || pressed(GLFW_KEY_KP_SUBTRACT))
        settings.scale = std::max(0.75, settings.scale / 1.1);
    const double step = pressed(GLFW_KEY_UP) ? 0.04 : pressed(GLFW_KEY_DOWN) ? -0.04 : 0.0;
    if (step != 0.0)
        settings.strip_share = std::clamp(shell.strip_share + step, least_strip_share, most_strip_share);
    if (!(settings == shell.app.settings)) ask.act(ChangeSettings{settings});
    Look look = shell.app.look;
    for (const auto& row : colour::all_lights)
        if (pressed(GLFW_KEY_1 + static_cast<int>(row.value))) look.light = row.value;
    if (!(look == shell.app.look)) ask.act(LookAt{look});
}

void show_lot(Shell& shell, const std::string& mark) {
    shell.shelf.card = mark;
    shell.shelf.open_card = true;
    shell.shelf.bench_weight.clear();
    shell.shelf.draft = MovementDraft{};
    shell.shelf.complaint.reset();
    shell.shelf.fields = LotFieldsState{};
    shell.shelf.let_go_asked.clear();
    act(shell, WatchLot{mark});
}

void load_photo(Shell& shell, const PhotoRequest& request) {
    shell.photos->load(request.path, static_cast<std::uint64_t>(request.of));
}

void read_lot_palette(Shell& shell) {
    const LotPhotoState& state = shell.shelf.photo;
    if (!state.photo.empty()) shell.palettes->read(state.photo.read(), state.marking.marks);
}

void put_photo(Shell& shell, PhotoOf of, measure::Expected<Photo> photo, const std::filesystem::path& path) {
    const bool sound = photo.has_value();
    switch (of) {
        case PhotoOf::picks:
            return take_picks_photo(shell.picks, std::move(photo), path);
        case PhotoOf::shelf_filter:
            return take_picks_photo(shell.shelf.picks, std::move(photo), path);
        case PhotoOf::find_target:
            return take_picks_photo(shell.find.picks, std::move(photo), path);
        case PhotoOf::new_lot:
            take_lot_photo(shell.shelf.photo, std::move(photo), path);
            if (sound) read_lot_palette(shell);
            return;
        case PhotoOf::skein:
            return take_record_photo(shell.record, std::move(photo), path);
        case PhotoOf::skein_colours:
            return take_picks_photo(shell.record.colours, std::move(photo), path);
        case PhotoOf::batt:
            return take_batt_photo(shell.record, std::move(photo), path);
    }
}

}  // namespace

const std::array<Shortcut, shortcut_count>& shortcuts_shown() {
    return all_shortcuts;
}

void shortcuts(Shell& shell, Requests& ask) {
    const ImGuiIO& io = ImGui::GetIO();
    // A press of the button, or of an arrow key until it is let go.
    if (ImGui::IsMouseClicked(ImGuiMouseButton_Left) || pressed(GLFW_KEY_LEFT) || pressed(GLFW_KEY_RIGHT))
        ++shell.gesture;
    ask.gesture = shell.gesture;
    // Into a field being typed it goes as text.
    if (io.KeyCtrl && !io.WantTextInput && pressed(GLFW_KEY_V)) {
        const char* copied = ImGui::GetClipboardText();
        ask.pasted = copied != nullptr ? copied : "";
    }
    if (ImGui::IsPopupOpen(nullptr, ImGuiPopupFlags_AnyPopupId | ImGuiPopupFlags_AnyPopupLevel)) return;
    if (pressed(GLFW_KEY_F1)) ask.command(Command::help);
    if (!io.KeyCtrl) return;
    // A field being typed into keeps its own undo, and is taken as done before anything is saved.
    const bool typing = io.WantTextInput;
    if (!typing && pressed(GLFW_KEY_Z)) ask.command(io.KeyShift ? Command::redo : Command::undo);
    if (!typing && pressed(GLFW_KEY_Y)) ask.command(Command::redo);
    keys_of_commands(ask, typing, io.KeyShift);
    keys_of_look(shell, ask);
}

void act(Shell& shell, const Action& action) {
    const Effects effects = apply(shell.app, action);
    if (effects.card_photo) shell.card_photos->ask({*effects.card_photo, false});
    if (effects.ask_for_file) open_panel(shell, Command::save_as);
    if (!effects.new_document) return;
    shell.in = InState{};
    shell.typing = Typing{};
}

void do_command(Shell& shell, Command command) {
    switch (command) {
        case Command::fresh:
            return act(shell, NewBatt{});
        case Command::example:
            return act(shell, StartExample{});
        case Command::close_window:
            return close_window(shell);
        case Command::save:
            return act(shell, Save{});
        case Command::undo:
            return act(shell, Undo{});
        case Command::redo:
            return act(shell, Redo{});
        case Command::keep_variant:
            return act(shell, KeepVariant{});
        case Command::add_fibre:
            shell.in.open_search = true;
            return;
        case Command::open:
        case Command::save_as:
        case Command::help:
        case Command::guide:
        case Command::preferences:
        case Command::variants:
        case Command::lay:
        case Command::card:
        case Command::card_it:
        case Command::record:
        case Command::find:
        case Command::table:
        case Command::photo_colours:
        case Command::plans:
            return open_panel(shell, command);
    }
}

namespace {

void take_pasted(Shell& shell, const std::string& copied) {
    const auto path = pasted_path(copied);
    if (path)
        take_file(shell, *path);
    else
        act(shell, Complain{path.error()});
}

// It may have gone with what it stood on.
void forget_browser(Shell& shell, bool on_show) {
    constexpr int frames_to_open = 3;
    shell.browser_unseen = on_show ? 0 : shell.browser_unseen + 1;
    if (shell.app.files.is_open() && shell.browser_unseen > frames_to_open) act(shell, LeaveFiles{});
}

void take_card(Shell& shell, const CardRead& read) {
    if (read.recipe) return act(shell, OpenCard{read.photo.path, *read.recipe});
    if (!read.photo.perhaps) return act(shell, Complain{read.recipe.error()});
    load_photo(shell, {PhotoOf::picks, read.photo.path.string()});
    if (!panel_is_open(shell, Command::photo_colours)) open_panel(shell, Command::photo_colours);
}

}  // namespace

bool readers_have_news(const Shell& shell) {
    return shell.photos->has_news() || shell.palettes->has_news() || shell.card_photos->has_news() ||
           shell.batt_photos->has_news() || shell.app.files.has_news();
}

bool carry_out(Shell& shell, Requests& ask) {
    const bool anything = ask.any();
    // First the stash, and each frame: the answers of the frame before are old.
    act(shell, AskStash{std::move(ask.stash)});
    for (const Action& action : ask.actions) act(shell, action);
    if (ask.show_lot) show_lot(shell, *ask.show_lot);
    for (const PhotoRequest& photo : ask.photos) load_photo(shell, photo);
    if (ask.lot_palette) read_lot_palette(shell);
    shell.takers = std::move(ask.takers);
    if (ask.pasted) take_pasted(shell, *ask.pasted);
    if (std::ranges::count(ask.commands, Command::photo_colours) > 0)
        shell.picks.first = ask.colour_for.value_or(0);
    forget_browser(shell, ask.browsing);
    for (const Command command : ask.commands) do_command(shell, command);
    return anything;
}

void take_photo(Shell& shell) {
    if (const auto palette = shell.palettes->take())
        take_lot_palette(shell.shelf.photo, *palette, shell.palettes->busy());
    if (const auto card = shell.card_photos->take()) take_card(shell, *card);
    if (const auto seen = shell.batt_photos->take()) take_batt_photo_seen(shell.record, *seen);
    auto read = shell.photos->take();
    if (!read) return;
    const auto path = read->path;
    const auto of = static_cast<PhotoOf>(read->wanted_by);
    put_photo(shell, of, Photo::of(std::move(read)), path);
}

void take_file(Shell& shell, const std::filesystem::path& path) {
    const std::string name = path.filename().string();
    if (shell.app.files.is_open()) {
        act(shell, NameFile{path.string()});
        if (shell.app.files.ask().purpose != FilePurpose::save) act(shell, FinishFile{});
        return;
    }
    for (auto taker = shell.takers.rbegin(); taker != shell.takers.rend(); ++taker)
        if (fits(taker->kind, name)) return act(shell, GiveFile{taker->label, path});
    if (looks_like_photo(name))
        shell.card_photos->ask({path, true});
    else
        act(shell, OpenRecipe{path});
}

}  // namespace battwright::window
