// Everything that is on show while the window is open, and what a frame does with it.
#pragma once

#include <array>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "app/derived.hpp"
#include "app/photo/card_reader.hpp"
#include "app/photo_loader.hpp"
#include "app/record/batt_photo_reader.hpp"
#include "app/shelf/palette_reader.hpp"
#include "app/state.hpp"
#include "window/gl/strip_texture.hpp"
#include "window/gl/thumbnails.hpp"
#include "window/kit/letters.hpp"
#include "window/shell/panels.hpp"
#include "window/views/card/card.hpp"
#include "window/views/drum/canvas.hpp"
#include "window/views/find/find.hpp"
#include "window/views/in/in.hpp"
#include "window/views/out/yarn.hpp"
#include "window/views/photo/picks.hpp"
#include "window/views/plans/plans.hpp"
#include "window/views/record/record.hpp"
#include "window/views/shelf/card_it.hpp"
#include "window/views/shelf/shelf.hpp"
#include "window/views/strip/variants.hpp"
#include "window/views/table/table.hpp"
#include "window/views/views.hpp"

namespace battwright::window {

// What a texture of the strip was drawn from.
struct StripInputs {
    std::shared_ptr<const Carded> carded;
    int distance = 0, width = 0, height = 0;
    bool operator==(const StripInputs&) const = default;
};
struct StripDrawn {
    bool hurried = false;  // coarser, since a hand was moving
};

// The letters that what is on show may want, and what was looked through for them.
struct LettersWanted {
    Letters letters;
    unsigned long stash = 0;  // the version of the shelf that was looked through
};

struct Shell {
    State app;
    // What is half typed, half dragged or merely turned to, view by view.
    InState in;
    ShelfState shelf;
    DrumState drum;
    CanvasState canvas;
    YarnState yarn;
    CardState card;
    CardItState card_it;
    RecordState record;
    FindState find;
    TableState table;
    PlansState plans;
    Pointing pointing;
    Typing typing;
    TabStops tabs;
    LettersWanted letters;
    std::size_t guide_step = 0;
    std::unique_ptr<PhotoLoader> photos;
    std::unique_ptr<PaletteReader> palettes;
    std::unique_ptr<CardReader> card_photos;
    std::unique_ptr<BattPhotoReader> batt_photos;
    ThumbnailTextures thumbnails;
    PicksState picks;
    std::vector<FileTaker> takers;  // of the last frame
    int browser_unseen = 0;         // frames since the card of files was on show
    VariantPictures variants;
    StripTexture strip;
    Texture whole;  // of what is seen whole in the strip
    Derived<StripInputs, StripDrawn> strip_of;
    double strip_share = 0.0;           // of the window's height, as it is now
    std::optional<double> share_drawn;  // while its edge is dragged
    std::vector<Command> opening;       // panels to open in the next frame
    std::array<bool, panel_count> panel_open{};
    std::uint64_t gesture = 0;  // one number per press of the button
    std::string close_asked;    // what was half typed when the window was last asked to close
};

// Where everything lies, in window pixels.
struct Layout {
    ImVec2 top, top_size, in, in_size, drum, drum_size, out, out_size, strip, strip_size;
    double strip_share = 0.0;  // the strip's part of the window's height
    float height = 0.0f;       // of all of it: more than the window's, and the bench scrolls
};
// Side by side where there is room for it, else in two columns or in one. `strip_share`: as in Settings.
Layout layout_for(ImVec2 window, float unit, double strip_share = 0.0);
// The pixels per design pixel: as wanted, while one column still fits into the window's width.
float unit_that_fits(ImVec2 window, float wanted);

// Brings the state and the strip's texture of that size up to date.
void refresh(Shell& shell, const StripSize& size);
// Hands a photo, or the palette of one, that has been read meanwhile to whoever asked for it.
void take_photo(Shell& shell);
// A thread has read something that was not taken yet.
bool readers_have_news(const Shell& shell);
// Draws every view and panel.
void draw(Shell& shell, const Ui& ui, const Layout& layout);
// Keys that work everywhere.
void shortcuts(Shell& shell, Requests& ask);
// Does what the views asked for. True when anything changed, so that another frame is due.
bool carry_out(Shell& shell, Requests& ask);
// A file let fall on the window, or pasted: for the field on show that takes such files, else a recipe, the
// photo of a card or one to pick colours from.
void take_file(Shell& shell, const std::filesystem::path& path);
// Tells the probe how things stand.
void report(const Shell& shell, Probe& probe);

}  // namespace battwright::window
