// What every view is handed, and what it may ask for. Views draw and ask; they change nothing but what is
// half typed or half dragged in them.
#pragma once

#include <imgui.h>

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "app/action.hpp"
#include "window/kit/probe.hpp"
#include "window/kit/tab_stops.hpp"
#include "window/kit/theme.hpp"

namespace battwright::fibre {
class Catalogue;
}
namespace battwright::app {
class CardSession;
class Document;
class FileBrowser;
class FindSession;
class PlansSession;
class RecordSession;
class StashSession;
class TableSession;
enum class FileKind;
struct Change;
struct Look;
struct Settings;
struct Sheet;
struct StashAnswer;
struct State;
struct Variant;
}  // namespace battwright::app

namespace battwright::window {

class ThumbnailTextures;

struct Fonts {
    ImFont* body = nullptr;
    ImFont* bold = nullptr;
    ImFont* small = nullptr;
    ImFont* title = nullptr;
};

// What a key or a button may ask of the window as a whole; see shell/commands.
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
    lay,
    card,
    card_it,
    record,
    find,
    table,
    photo_colours,
    plans,
    close_window
};

// Who asks the stash and reads the answer in the next frame.
enum class Requester : std::uint64_t { nobody, lot_card, lot_words, new_lot, card_it, take_back, record };

// Whose photo is to be read from a file.
enum class PhotoOf { picks, shelf_filter, find_target, new_lot, skein, skein_colours, batt };
struct PhotoRequest {
    PhotoOf of;
    std::string path;
};

// A field that takes a file let fall on the window, or pasted.
struct FileTaker {
    std::string label;
    FileKind kind;
};

// Collected while a frame is drawn, carried out after it.
struct Requests {
    std::vector<Action> actions;  // in the order they were asked for
    std::vector<StashRequest> stash;
    std::vector<Command> commands;
    std::vector<PhotoRequest> photos;
    std::vector<FileTaker> takers;          // on show, the topmost last
    bool browsing = false;                  // the card of files is on show
    std::optional<std::size_t> colour_for;  // the component that colours off a photo begin with
    std::optional<std::string> pasted;      // what was copied, to be taken for the path of a file
    bool lot_palette = false;               // is to be read off the new lot's photo, as it is marked now
    std::optional<std::string> show_lot;    // the card of the lot with that mark
    bool another_frame = false;             // something on show is still moving or settling
    std::uint64_t gesture = 0;              // of the press of the button that lasts

    void act(Action action);
    // Before what was asked for already.
    void act_first(Action action);
    // A change of the recipe; of several in one frame the last one counts. `what`: for undo, "move a border";
    // `dragging`: one of many while the button is held, one step together.
    void edit(Sheet sheet, std::string what, bool dragging = false);
    // The same, where two things that are held may disagree: then the ways out are asked about.
    void edit(Change change, std::string what, bool dragging = false);
    void of_stash(StashAction action, Requester from = Requester::nobody);
    void command(Command wanted);
    void complain(measure::Complaint complaint);
    bool any() const;
};

// The text field a person is typing into, and the one whose text could not be taken: it keeps that text, and
// says why beside it, until it is mended.
struct Typing {
    struct Refused {
        ImGuiID id = 0;
        std::string text, why;
    };
    ImGuiID id = 0;
    std::string text;
    std::string shown;  // what stood there before
    ImGuiID done = 0;   // what was taken last, and what was in it
    std::string done_text;
    Refused refused;
};

struct Ui {
    const Theme& theme;
    const Fonts& fonts;
    float unit = 1.0f;  // pixels per design pixel
    const State& app;
    Probe& probe;
    Requests& ask;
    Typing& typing;
    TabStops& tabs;
    const fibre::Catalogue& catalogue;
    // Parts of `app`: a view sees those whose headers it includes.
    const Settings& settings;
    const Document& document;
    const Look& look;
    const StashSession& stash;
    const RecordSession& record;
    const FindSession& find;
    const CardSession& card;
    const TableSession& table;
    const PlansSession& plans;
    const FileBrowser& files;
    const std::vector<Variant>& variants;
    bool question_stands = false;  // and nothing else is to be opened
    const ThumbnailTextures& thumbnails;

    float px(float design_pixels) const { return design_pixels * unit; }
    const StashAnswer* answer_to(Requester asker) const;
};

}  // namespace battwright::window
