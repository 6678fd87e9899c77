// The drum as a canvas: what the next stroke is, what is chosen and looked at, and what lies there to be
// seen. None of it is part of the recipe.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "app/lay/laying_edits.hpp"
#include "forecast/forecast.hpp"
#include "strip/picture.hpp"

namespace battwright::app {

struct Canvas {
    bool open = false;
    Brush brush;
    std::vector<recipe::Laying>
        hidden;        // for looking only; by value, so they stay so wherever they are moved
    Layings chosen;    // of the step that is being edited
    std::string line;  // what was said of the last thing done
    bool operator==(const Canvas&) const = default;
};
bool is_hidden(const Canvas& canvas, const recipe::Laying& laying);
// All of them out of sight, or back when they were.
Canvas hidden_or_shown(Canvas canvas, const recipe::Recipe& recipe, const Layings& which);

// The sheet as a list, and what of each fibre is left to place.
struct Listed {
    Sheet sheet;
    std::vector<Tile> tiles;
};

// What lies on the surface after the strokes of one pass, before the card has worked on it.
struct LaidPicture {
    std::shared_ptr<const strip::Scene> scene;  // none: there is nothing
    std::size_t columns = 0, rows = 0;          // along and across
    std::vector<float> bare;                    // row by row: how much of the cloth shows through, 0..1
    std::vector<float> g_cm2;                   // row by row: fibre that lies there
};
LaidPicture laid_picture(const forecast::Forecast& forecast, int pass,
                         const std::vector<recipe::Laying>& hidden);

// How the drum is laid by hand: the brush, what is chosen and hidden.
struct ChangeCanvas {
    Canvas canvas;
};

}  // namespace battwright::app
