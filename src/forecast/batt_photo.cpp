#include "forecast/batt_photo.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "carding/photo.hpp"
#include "forecast/carded.hpp"
#include "forecast/colour_doubt.hpp"

namespace battwright::forecast {
namespace {

constexpr double m_step = 0.3, mixing_step = 0.4;
constexpr int m_steps = 4, mixing_steps = 3;  // each way
constexpr double least_variation = 1e-3;
// A standard deviation of ln(figure) above this says nothing.
constexpr double says_nothing_sd = 3.0;

const colour::OpticsModel usual;

Forecast by_day(const Forecast& f, double m, double mixing) {
    Forecast other = f;
    other.light = colour::Light::d65;
    other.optics.optics = colour::Optics::stearns_noechel;
    other.optics.m = m;
    other.mixing = mixing;
    return other;
}

carding::Side side_of(Taken taken) {
    return taken == Taken::edge ? carding::Side::edge : carding::Side::face;
}

// The batt after its last pass.
struct Carded {
    std::vector<carding::Portion> portions;
    std::vector<carding::Pass> passes;
};

Carded carded_coarse(const Forecast& f) {
    const carding::Setup setup = setup_for(f, {.coarse = true});
    return {setup.portions, carding::simulate(setup)};
}

carding::Photographed shot(const Forecast& f, const Carded& batt, Taken taken) {
    if (taken != Taken::sample && !batt.passes.empty())
        return carding::photographed(batt.passes.back(), eye_of(f, batt.portions), side_of(taken));
    return {colour::lab_under(blend_of(f, f.optics), f.light), 0.0, {}, 0.0};
}

PhotoPoint point_of(double log_factor, const carding::Photographed& photo) {
    return {log_factor, photo.mean, std::log(std::max(photo.variation_de00, least_variation))};
}

// Weights of the three points next to x: Lagrange's parabola.
struct Parabola {
    std::size_t first = 0;
    double weights[3]{};
};
Parabola parabola_at(const std::vector<PhotoPoint>& points, double x) {
    const double step = points[1].log_factor - points[0].log_factor;
    const double at = (x - points.front().log_factor) / step;
    const double middle = std::clamp(std::round(at), 1.0, static_cast<double>(points.size()) - 2.0);
    const double t = at - middle;
    return {static_cast<std::size_t>(middle) - 1, {0.5 * t * (t - 1.0), 1.0 - t * t, 0.5 * t * (t + 1.0)}};
}

colour::Lab scaled(const colour::Lab& c, double by) {
    return {c.l * by, c.a * by, c.b * by};
}

void add_input_errors(const Forecast& day, PhotoForecast& told) {
    const auto shares = 1.0 / std::sqrt(static_cast<double>(ways_to_move));
    const colour::Lab own = colour::lab_under(blend_of(day, day.optics), day.light);
    for (const colour::Spectrum& blend : moved_blends(day, day.optics))
        told.errors.push_back(scaled(colour::minus(colour::lab_under(blend, day.light), own), shares));
}

// What the white brings: level and tint.
void add_white_errors(const colour::Lab& seen, std::vector<colour::Lab>& errors) {
    const colour::Xyz light = colour::xyz_from(seen, colour::srgb_white());
    const double level = 1.0 + white_level_sd;
    for (const colour::Xyz& other : {colour::Xyz{light.x * level, light.y * level, light.z * level},
                                     colour::Xyz{light.x * (1.0 + white_x_sd), light.y, light.z},
                                     colour::Xyz{light.x, light.y, light.z * (1.0 + white_z_sd)}})
        errors.push_back(colour::minus(colour::lab(other, colour::srgb_white()), seen));
}

void add_doubt(const colour::Lab& at, double de00, std::vector<colour::Lab>& errors) {
    const auto more = colour::errors_of(at, de00);
    errors.insert(errors.end(), more.begin(), more.end());
}

double with_texture(double log_variation) {
    return 0.5 * std::log(std::exp(2.0 * log_variation) + texture_de00 * texture_de00);
}

colour::Sighting m_seen(const PhotoForecast& foretold, const colour::BattReading& reading) {
    std::vector<colour::Lab> errors = foretold.errors;
    add_white_errors(reading.mean, errors);
    add_doubt(reading.mean, camera_doubt_de00, errors);
    if (foretold.variation_de00 && reading.patches > 0)
        add_doubt(reading.mean, *foretold.variation_de00 / std::sqrt(static_cast<double>(reading.patches)),
                  errors);
    if (!foretold.by_mixing.empty())
        errors.push_back(colour::minus(mean_at(foretold.by_mixing, mixing_prior_log_sd),
                                       mean_at(foretold.by_mixing, 0.0)));
    auto seen = colour::sighting_of(reading.mean, [&](double x) { return mean_at(foretold.by_m, x); }, errors,
                                    {0.0, usual.m_log_sd});
    seen.at += std::log(usual.m);
    return seen;
}

std::optional<colour::CurvedSighting> mixing_seen(const PhotoForecast& foretold,
                                                  const colour::BattReading& reading) {
    if (!reading.variation_de00 || foretold.by_mixing.empty()) return std::nullopt;
    const double by_patches = 1.0 / std::sqrt(2.0 * (static_cast<double>(reading.patches) - 1.0));
    std::vector<double> at, values;
    for (const PhotoPoint& point : foretold.by_mixing) {
        at.push_back(point.log_factor);
        values.push_back(with_texture(point.log_variation));
    }
    colour::CurvedSighting curve = colour::curved_through(at, values);
    curve.seen = std::log(std::max(*reading.variation_de00, least_variation));
    curve.sd = std::hypot(std::hypot(variation_log_sd, by_patches), foretold.log_variation_sd);
    curve.by_other = (with_texture(log_variation_at(foretold.by_m, usual.m_log_sd)) -
                      with_texture(log_variation_at(foretold.by_m, -usual.m_log_sd))) /
                     (2.0 * usual.m_log_sd);
    if (curve.slope * says_nothing_sd < curve.sd) return std::nullopt;
    return curve;
}

colour::Sighting or_nothing(const colour::Sighting& sighting) {
    return sighting.sd <= says_nothing_sd
               ? sighting
               : colour::Sighting{0.0, std::numeric_limits<double>::infinity(), sighting.misfit};
}

}  // namespace

colour::Lab mean_at(const std::vector<PhotoPoint>& points, double log_factor) {
    const Parabola p = parabola_at(points, log_factor);
    colour::Lab sum;
    for (std::size_t i = 0; i < 3; ++i) {
        const colour::Lab& c = points[p.first + i].mean;
        sum = {sum.l + p.weights[i] * c.l, sum.a + p.weights[i] * c.a, sum.b + p.weights[i] * c.b};
    }
    return sum;
}

double log_variation_at(const std::vector<PhotoPoint>& points, double log_factor) {
    const Parabola p = parabola_at(points, log_factor);
    double sum = 0.0;
    for (std::size_t i = 0; i < 3; ++i) sum += p.weights[i] * points[p.first + i].log_variation;
    return sum;
}

PhotoForecast photo_forecast(const Forecast& forecast, Taken taken) {
    PhotoForecast told;
    told.taken = taken;
    const bool drum = taken != Taken::sample;
    Forecast day = by_day(forecast, usual.m, 1.0);
    const Carded most = drum ? carded_coarse(day) : Carded{};
    const carding::Photographed most_shot = shot(day, most, taken);
    add_input_errors(day, told);
    add_doubt(most_shot.mean, model_doubt_de00, told.errors);
    if (drum) told.errors.push_back(most_shot.face_off);
    told.log_variation_sd = most_shot.face_off_log;
    for (int i = -m_steps; i <= m_steps; ++i) {
        day.optics.m = usual.m * std::exp(m_step * i);
        told.by_m.push_back(point_of(m_step * i, shot(day, most, taken)));
    }
    day.optics.m = usual.m;
    for (int i = -mixing_steps; drum && i <= mixing_steps; ++i) {
        day.mixing = std::exp(mixing_step * i);
        told.by_mixing.push_back(
            point_of(mixing_step * i, i == 0 ? most_shot : shot(day, carded_coarse(day), taken)));
    }
    const Forecast own = by_day(forecast, forecast.optics.m, forecast.mixing);
    const carding::Photographed own_shot = shot(own, drum ? carded_coarse(own) : Carded{}, taken);
    told.mean = own_shot.mean;
    if (drum) told.variation_de00 = own_shot.variation_de00;
    return told;
}

PhotoLesson photo_lesson(const PhotoForecast& foretold, const colour::BattReading& reading) {
    return {or_nothing(m_seen(foretold, reading)), mixing_seen(foretold, reading)};
}

colour::PhotoScale photo_scale(Taken taken, double mm_per_pixel, double fibre_high_mm, bool turned) {
    const carding::PhotoPatch patch = carding::photo_patch();
    colour::PhotoScale scale{mm_per_pixel, patch.wide_mm, patch.high_mm};
    if (taken == Taken::edge) scale.patch_high_mm = std::max(patch.high_share * fibre_high_mm, 0.5);
    if (turned) std::swap(scale.patch_wide_mm, scale.patch_high_mm);
    return scale;
}

}  // namespace battwright::forecast
