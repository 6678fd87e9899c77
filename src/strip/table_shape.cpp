#include "strip/table_shape.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace battwright::strip {
namespace {

constexpr double pi = std::numbers::pi;
constexpr float pi_f = std::numbers::pi_v<float>;
// How much darker the edge of what is round is than its middle, as in the yarn picture.
constexpr float round_shade = 0.5f;
// A strip of roving keeps a little apart from the turn beside it.
constexpr double coil_pitch = 1.06;
constexpr double loop_inside_mm = 60.0;

// Light on a cylinder at `v`, -1 .. 1 of its half thickness; 1 on average over what is seen.
float light_on_round(float v) {
    const float facing = std::sqrt(std::max(0.0f, 1.0f - v * v));
    return (1.0f - round_shade + round_shade * facing) / (1.0f - round_shade + round_shade * 0.25f * pi_f);
}

bool spot_flat(const Shape& shape, float x, float y, Spot& spot) {
    spot.at = {static_cast<float>(shape.from) + x, y};
    if (shape.length <= 0.0) return true;
    return std::floor(y / shape.row) * shape.along + x < shape.length;
}

bool spot_on_roll(const Shape& shape, float x, float y, Spot& spot) {
    const float radius = static_cast<float>(0.5 * shape.tall);
    const float v = std::clamp((y - radius) / radius, -1.0f, 1.0f);
    spot.at = {radius * (std::asin(v) + 0.5f * pi_f), x};
    spot.light = light_on_round(v);
    return true;
}

// Archimedes' spiral of that pitch: to a turn's middle at radius r it is pi (r^2 - pitch^2 / 4) / pitch long.
bool spot_in_spiral(const Shape& shape, float x, float y, float pitch, Spot& spot) {
    const float radius = static_cast<float>(0.5 * shape.wide);
    const float right = x - radius, down = y - radius;
    const float from_middle = std::sqrt(right * right + down * down);
    const float turn = std::atan2(down, right) / (2.0f * pi_f) + 0.5f;
    const float turns = from_middle / pitch - turn;
    if (turns < 0.0f) return false;  // the hollow it is rolled round
    const float whole = std::floor(turns), part = turns - whole;
    const float middle = (whole + turn + 0.5f) * pitch;
    const float along = pi_f * (middle * middle - 0.25f * pitch * pitch) / pitch;
    if (along > static_cast<float>(shape.along)) return false;
    // The face is outside: depth runs inwards from it.
    spot.at = {along, (1.0f - part) * pitch};
    return true;
}

bool spot_in_coil(const Shape& shape, float x, float y, Spot& spot) {
    const float pitch = static_cast<float>(coil_pitch * shape.across);
    if (!spot_in_spiral(shape, x, y, pitch, spot)) return false;
    const float thick = static_cast<float>(shape.across);
    const float v = 2.0f * (spot.at.y - 0.5f * pitch) / thick;
    if (std::abs(v) > 1.0f) return false;
    spot.at.y = 0.5f * thick * (v + 1.0f);
    spot.light = light_on_round(v);
    return true;
}

bool spot_in_loop(const Shape& shape, float x, float y, Spot& spot) {
    const float outer = static_cast<float>(0.5 * shape.tall), inner = static_cast<float>(shape.inner);
    const float straight = static_cast<float>(shape.wide) - 2.0f * outer;
    const float half = 0.5f * static_cast<float>(shape.along) - straight;
    const float past = x - outer;
    const float down = y - outer;
    float away = std::abs(down), along = down < 0.0f ? past : straight + half + (straight - past);
    if (past < 0.0f || past > straight) {
        const float right = past < 0.0f ? past : past - straight;
        away = std::sqrt(right * right + down * down);
        // From the top clockwise on the right, from the bottom on the left.
        const float angle = past < 0.0f ? std::atan2(-right, down) : std::atan2(right, -down);
        along = half * angle / pi_f + straight + (past < 0.0f ? half + straight : 0.0f);
    }
    if (away < inner || away >= outer) return false;
    spot.at = {along, away - inner};
    return std::floor(spot.at.y / static_cast<float>(shape.row)) * static_cast<float>(shape.along) + along <
           static_cast<float>(shape.length);
}

}  // namespace

bool spot_in(const Shape& shape, float x, float y, Spot& spot) {
    spot.light = 1.0f;
    if (x < 0.0f || y < 0.0f || x >= static_cast<float>(shape.wide) || y >= static_cast<float>(shape.tall))
        return false;
    switch (shape.form) {
        case Form::flat:
            return spot_flat(shape, x, y, spot);
        case Form::roll:
            return spot_on_roll(shape, x, y, spot);
        case Form::roll_end:
            return spot_in_spiral(shape, x, y, static_cast<float>(shape.across), spot);
        case Form::coil:
            return spot_in_coil(shape, x, y, spot);
        case Form::loop:
            return spot_in_loop(shape, x, y, spot);
    }
    return false;
}

Shape flat(double wide, double tall, double from) {
    Shape shape;
    shape.wide = shape.along = wide;
    shape.tall = shape.across = tall;
    shape.from = from;
    return shape;
}

Shape roll(double length, double width, double thickness) {
    Shape shape = roll_end(length, thickness);
    shape.form = Form::roll;
    shape.along = std::min(length, 0.5 * pi * shape.tall);
    shape.wide = shape.across = width;
    return shape;
}

Shape roll_end(double length, double thickness) {
    Shape shape;
    shape.form = Form::roll_end;
    shape.along = length;
    shape.across = thickness;
    // A spiral's end stands out by half its thickness.
    shape.wide = shape.tall =
        2.0 * std::sqrt(length * thickness / pi + 0.25 * thickness * thickness) + thickness;
    return shape;
}

Shape coil(double length, double diameter) {
    Shape shape = roll_end(length, coil_pitch * diameter);
    shape.form = Form::coil;
    shape.across = diameter;
    return shape;
}

Shape loop(double turn, double turns, double pitch) {
    Shape shape;
    shape.form = Form::loop;
    shape.inner = std::min(loop_inside_mm, turn / (4.0 * pi));
    shape.along = turn;
    shape.across = std::ceil(turns) * pitch;
    shape.tall = 2.0 * (shape.inner + shape.across);
    shape.wide = 0.5 * turn - pi * shape.inner + shape.tall;
    shape.length = turns * turn;
    shape.row = pitch;
    return shape;
}

}  // namespace battwright::strip
