#include "app/shelf/lot_photo.hpp"

#include <algorithm>

#include "recipe/tints.hpp"

namespace battwright::app {
namespace {

bool lies_in(const PhotoMarks::Patch& patch, const colour::Point& point) {
    return point.x >= patch.x && point.y >= patch.y && point.x < patch.x + patch.width &&
           point.y < patch.y + patch.height;
}

}  // namespace

PhotoMarks::Patch patch_between(colour::Point first, colour::Point second, int width, int height) {
    const auto within = [](double value, int most) {
        return std::clamp(value, 0.0, static_cast<double>(most));
    };
    const double left = within(std::min(first.x, second.x), width);
    const double right = within(std::max(first.x, second.x), width);
    const double top = within(std::min(first.y, second.y), height);
    const double bottom = within(std::max(first.y, second.y), height);
    return {left, top, right - left, bottom - top};
}

measure::Expected<std::optional<colour::WhiteBalance>> white_of(const colour::Pixels& photo,
                                                                const PhotoMarks& marks) {
    if (!marks.white) return std::optional<colour::WhiteBalance>{};
    auto balance =
        colour::white_from(photo, colour::patch_around(*marks.white, photo), colour::paper_reflects);
    if (!balance) return tl::make_unexpected(std::move(balance.error()));
    return std::optional(*balance);
}

measure::Expected<std::vector<recipe::Tint>> read_palette(const colour::Pixels& photo,
                                                          const PhotoMarks& marks) {
    colour::PaletteOptions request;
    request.colours = marks.colours;
    if (marks.white && marks.fibre && lies_in(*marks.fibre, *marks.white))
        return tl::make_unexpected(measure::Complaint{"the white lies within the frame of the fibre",
                                                      "drag the frame over the fibre and nothing else",
                                                      "area"});
    const auto white = white_of(photo, marks);
    if (!white) return tl::make_unexpected(white.error());
    request.balance = white->value_or(colour::WhiteBalance{});
    colour::Area area;
    if (marks.fibre)
        area = colour::rectangle(marks.fibre->x, marks.fibre->y, marks.fibre->width, marks.fibre->height);
    const auto palette = colour::palette_of(photo, area, request);
    if (!palette) return tl::make_unexpected(palette.error());
    return recipe::tints_of(*palette);
}

}  // namespace battwright::app
