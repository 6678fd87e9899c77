#include "card/strip_picture.hpp"

#include <memory>

#include "colour/spaces.hpp"
#include "strip/simulated.hpp"

namespace battwright::card {

Picture strip_picture(const forecast::Forecast& forecast) {
    constexpr int width_px = 1200, height_px = 120;
    const auto draw = [of = std::make_shared<const forecast::Forecast>(forecast)] {
        const auto scene = strip::carded_scene(*of, of->recipe.carding.passes, strip::suited_view(*of));
        return strip::draw(scene, width_px, height_px);
    };
    return {width_px, height_px, draw, "Blended colour " + colour::hex(forecast.colour.srgb)};
}

}  // namespace battwright::card
