// Everything on and around the bench while the window is open, and what a frame does with it.
#pragma once

#include <memory>

#include "app/bench/recovery.hpp"
#include "app/shelf/stash_desk.hpp"
#include "window/gl/strip_texture.hpp"
#include "window/shell/window.hpp"
#include "window/views/card/card.hpp"
#include "window/views/find/find.hpp"
#include "window/views/out/yarn.hpp"
#include "window/views/record/record.hpp"
#include "window/views/shelf/card_it.hpp"
#include "window/views/views.hpp"

namespace battwright::window {

// What waits for an answer before it goes on.
struct Waiting {
    enum class Deed { none, fresh, example, open, close } deed = Deed::none;
    std::filesystem::path path;  // for open
};

struct Workbench {
    const fibre::Catalogue* catalogue = nullptr;
    std::filesystem::path config_folder;  // empty: settings are not kept
    Settings settings;
    Document document;
    StashDesk desk;
    Outcome outcome;
    LookState look;
    InState in;
    ShelfState shelf;
    FilesState files;
    CardState card;
    CardItState card_it;
    RecordState record;
    FindState find;
    YarnState yarn;
    Typing typing;
    std::vector<measure::Complaint> messages;
    std::vector<Variant> variants;
    std::vector<StripTexture> variant_strips;
    std::vector<LeftBehind> left_behind;  // to be offered
    std::unique_ptr<Recovery> recovery;
    Waiting unsaved_question;                               // asked while deed is not none
    Waiting after_save;                                     // goes on once the recipe is saved
    std::optional<std::filesystem::path> comment_question;  // saving there would drop comments
    std::size_t guide_step = 0;
    std::vector<Command> opening;  // cards to open in the next frame
    std::uint64_t gesture = 0;     // one number per press of the button
    bool leave = false;
    // What the forecast and the strip on show were made of.
    unsigned long forecast_of = 0;
    unsigned long calibration_of = 0;
    colour::Light forecast_light = colour::Light::d65;
    struct StripOf {
        std::shared_ptr<const Carded> carded;
        int distance = 0, width = 0, height = 0;
        bool hurried = false;
        bool operator==(const StripOf&) const = default;
    } strip_of;
    StripTexture strip;
    CardingWish asked;  // of the worker, last
    CardedShown shown;
    std::unique_ptr<CardingWorker> worker;
};

// Where everything lies, in window pixels.
struct Layout {
    ImVec2 top, top_size, in, in_size, drum, drum_size, out, out_size, strip, strip_size;
};
Layout layout_for(ImVec2 window, float unit);
// The pixels per design pixel that fit everything into the window, at most `wanted`.
float unit_that_fits(ImVec2 window, float wanted);

// Brings forecast and strip up to date with the sheet, the light and the strip's size.
void refresh(Workbench& bench, const StripSize& size);
// Draws every view and card.
void draw(Workbench& bench, const Ui& ui, const Layout& layout);
// Keys that work everywhere.
void shortcuts(Workbench& bench, Requests& ask);
// Does what the views asked for. True when anything changed, so that another frame is due.
bool carry_out(Workbench& bench, Requests& ask);
// Opens a file, asking first when there is unsaved work.
void open_file(Workbench& bench, const std::filesystem::path& path);
// A file let fall on the window: a photo to pick colours from, else a recipe.
void take_file(Workbench& bench, const std::filesystem::path& path);
// Tells the probe how things stand.
void report(const Workbench& bench, Probe& probe);

// The recipe of "start from an example".
const char* example_text();

}  // namespace battwright::window
