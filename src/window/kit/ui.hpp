// What every view is handed, and what it may ask for. Views draw and ask; they change nothing themselves.
#pragma once

#include <imgui.h>

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "app/bench/sheet.hpp"
#include "app/settings.hpp"
#include "app/shelf/stash_desk.hpp"
#include "fibre/catalogue.hpp"
#include "window/kit/probe.hpp"
#include "window/kit/theme.hpp"

namespace battwright::window {

struct Fonts {
    ImFont* body = nullptr;
    ImFont* bold = nullptr;
    ImFont* small = nullptr;
    ImFont* title = nullptr;
};

enum class Command {
    fresh,
    example,
    open,
    save,
    save_as,
    undo,
    redo,
    add_fibre,
    help,
    guide,
    preferences,
    variants,
    keep_variant,
    card,
    card_it,
    record,
    find,
    close_window
};

// Collected while a frame is drawn, carried out after it.
struct Requests {
    struct Change {
        Sheet sheet;
        std::string what;       // for undo: "move a border"
        bool dragging = false;  // one of many while the button is held: one step together
    };
    std::optional<Change> change;
    std::vector<Command> commands;
    std::optional<std::filesystem::path> open_path, save_path;
    std::optional<std::size_t> variant_back, variant_drop;
    std::optional<Settings> settings;
    std::vector<StashRequest> stash;
    std::optional<ShelfChoice> shelf_choice;
    std::optional<std::string> show_lot;  // the card of the lot with that mark
    std::optional<LotToBench> lot_to_bench;
    std::vector<measure::Complaint> complaints;
    bool another_frame = false;  // something on show is still moving or settling

    void edit(Sheet sheet, std::string what, bool dragging = false) {
        change = Change{std::move(sheet), std::move(what), dragging};
    }
    // A deed for the stash; `from` as in StashRequest.
    void of_stash(StashDeed deed, std::uint64_t from = 0) { stash.push_back({std::move(deed), from}); }
    void command(Command wanted) { commands.push_back(wanted); }
};

// The text field a person is typing into.
struct Typing {
    ImGuiID id = 0;
    std::string text;
};

struct Ui {
    const Theme& theme;
    const Fonts& fonts;
    float unit = 1.0f;  // pixels per design pixel
    const Settings& settings;
    const fibre::Catalogue& catalogue;
    Probe& probe;
    Requests& ask;
    Typing& typing;
    const StashDesk& desk;

    float px(float design_pixels) const { return design_pixels * unit; }
};

}  // namespace battwright::window
