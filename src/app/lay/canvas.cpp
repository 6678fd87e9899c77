#include "app/lay/canvas.hpp"

#include <algorithm>
#include <cmath>

#include "carding/laid.hpp"

namespace battwright::app {
namespace {

constexpr double along_step_mm = 10.0, across_step_mm = 7.0;

std::size_t steps_in(double mm, double step_mm) {
    return static_cast<std::size_t>(std::clamp(std::round(mm / step_mm), 8.0, 80.0));
}

}  // namespace

bool is_hidden(const Canvas& canvas, const recipe::Laying& laying) {
    return std::ranges::find(canvas.hidden, laying) != canvas.hidden.end();
}

Canvas hidden_or_shown(Canvas canvas, const recipe::Recipe& recipe, const Layings& which) {
    const auto& layings = recipe.carding.layings;
    std::vector<recipe::Laying> meant;
    for (const std::size_t i : which)
        if (i < layings.size()) meant.push_back(layings[i]);
    const bool hide =
        std::ranges::any_of(meant, [&](const auto& laying) { return !is_hidden(canvas, laying); });
    std::erase_if(canvas.hidden, [&](const recipe::Laying& laying) {
        return std::ranges::find(meant, laying) != meant.end();
    });
    if (hide) canvas.hidden.insert(canvas.hidden.end(), meant.begin(), meant.end());
    return canvas;
}

LaidPicture laid_picture(const forecast::Forecast& forecast, int pass,
                         const std::vector<recipe::Laying>& hidden) {
    LaidPicture picture;
    if (forecast.strands.empty()) return picture;
    const recipe::Recipe& recipe = forecast.recipe;
    const Surface surface = surface_of(recipe);
    std::vector<bool> out_of_sight;
    for (const recipe::Laying& laying : recipe.carding.layings)
        out_of_sight.push_back(std::ranges::find(hidden, laying) != hidden.end());
    const carding::Setup setup = carding::setup_of(recipe, forecast.strands, forecast.carder,
                                                   forecast.plan.feed, forecast.plan.batts, forecast.mixing);
    const carding::LaidFace face =
        carding::laid_face(setup, pass, out_of_sight, steps_in(surface.along_mm, along_step_mm),
                           steps_in(surface.across_mm, across_step_mm));
    picture.columns = face.round;
    picture.rows = face.across;
    picture.bare.assign(face.bare.begin(), face.bare.end());
    for (const double g_m2 : face.g_m2) picture.g_cm2.push_back(static_cast<float>(1e-4 * g_m2));
    strip::Field field{static_cast<int>(face.round),
                       static_cast<int>(face.across),
                       static_cast<int>(forecast.strands.size()),
                       {}};
    const auto portions = carding::portions_of(recipe, forecast.strands);  // before any of it is lost
    for (std::size_t place = 0; place < face.bare.size(); ++place) {
        const auto of_portions = std::span(face.shares).subspan(place * face.portions, face.portions);
        const auto shares = carding::strand_shares(portions, forecast.strands, of_portions);
        field.shares.insert(field.shares.end(), shares.begin(), shares.end());
    }
    picture.scene = std::make_shared<const strip::Scene>(strip::scene_of(forecast, field, 1));
    return picture;
}

}  // namespace battwright::app
