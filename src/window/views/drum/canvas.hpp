// The drum as a canvas: fibre laid by hand on the cloth unrolled, its steps beside it, and below what each
// pass makes of it.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "app/lay/canvas.hpp"
#include "app/state.hpp"
#include "window/gl/strip_texture.hpp"
#include "window/kit/ui.hpp"
#include "window/kit/widgets.hpp"

namespace battwright::window {

// A picture and what it was last drawn from.
struct PictureSize {
    int width = 0, height = 0;
    bool operator==(const PictureSize&) const = default;
};
class CanvasPictures {
  public:
    // Draws what is new, at the sizes of the last frame. The complaint is the driver's.
    std::optional<measure::Complaint> follow(const State& state, bool hand_moves);
    ImTextureID surface() const { return surface_scene_ ? surface_.id() : nullptr; }
    std::size_t passes() const { return passes_of_ ? passes_of_->faces.size() : 0; }
    ImTextureID pass(std::size_t index) const { return passes_[index].id(); }
    PictureSize surface_wanted, pass_wanted;  // in pixels; the view sets them

  private:
    StripTexture surface_;
    std::shared_ptr<const strip::Scene> surface_scene_;
    PictureSize surface_size_;
    bool surface_hurried_ = false;
    std::vector<StripTexture> passes_;
    std::shared_ptr<const Carded> passes_of_;
    PictureSize pass_size_;
};

// A small blend that is being thought up, tile by tile.
struct BlendDraft {
    std::string name, complaint;
    std::vector<std::string> weights;  // as typed
    int passes = 3;
    bool open = false;
};

struct CanvasState {
    // A stroke that is being drawn: where it began, in mm across and along, and the sheet without it.
    bool drawing = false, moved = false;
    double across_mm = 0.0, along_mm = 0.0;
    Sheet start;
    Layings in_sight;                // the chosen step, once the list was scrolled to it
    std::optional<Layings> dragged;  // the step that is being moved to another place in the order
    CanvasPictures pictures;
    BlendDraft blend;
};

// What a piece of the canvas is handed. What it does is asked for at once; what it turns to is in `canvas`.
struct OnCanvas {
    const Ui& ui;
    const Listed& listed;
    CanvasState& state;
    Canvas canvas;  // as it is asked for at the end
    Surface surface;
    std::size_t batts = 1;
    std::optional<double> here_g_cm2{};  // fibre under the pointer

    const Sheet& sheet() const { return listed.sheet; }
    // Asks for what an edit led to, and keeps what it said. `what`: for undo.
    void take(Laid laid, const std::string& what, bool dragging = false);
};

Canvas opened_canvas(const State& state);
void view_canvas(const Ui& ui, const PanelHead& head, CanvasState& state);
// Pieces of it.
void view_tiles(OnCanvas& on, float width);
// The colour first, since a narrow tile cuts the end off.
std::string tile_name(const OnCanvas& on, const Tile& tile);
void view_brush(OnCanvas& on);
// The button that opens it, and what takes one apart again.
void view_blend_maker(OnCanvas& on);
void view_surface(OnCanvas& on, float width, float height);
// Of its rulers, in pixels: at its left and below.
ImVec2 surface_margins(const Ui& ui);
void view_laid_steps(OnCanvas& on, const Outcome& outcome, ImVec2 size);
void view_step_editor(OnCanvas& on, float height);
// As high as all of it is.
float editor_height(const OnCanvas& on);
void view_pass_pictures(OnCanvas& on, const CardedShown& shown, float width, float height);
void report_canvas(const CanvasState& canvas, const State& app, bool open, Probe& probe);

// A place typed: in words or a range; a range without a unit is in the user's own.
measure::Expected<recipe::Stretch> typed_place(const std::string& text, bool across,
                                               const Settings& settings);
// How far an edge runs out or lies over its neighbour; a bare number is in the user's own unit.
measure::Expected<recipe::Extent> typed_extent(const std::string& text, const Settings& settings);
// A length likewise.
measure::Expected<measure::Length> typed_length(const std::string& text, const Settings& settings);

}  // namespace battwright::window
