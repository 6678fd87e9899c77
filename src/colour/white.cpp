// White balance by pointing at something white.
#include <algorithm>
#include <array>

#include "colour/palette.hpp"
#include "colour/sampling.hpp"
#include "colour/spaces.hpp"
#include "measure/units.hpp"

namespace battwright::colour {
namespace {

using measure::Complaint;

constexpr std::size_t most_white_samples = 20'000;
constexpr double cut_off_at = 254.0 / 255.0;
// Of the brightest channel. A candle, at about 1,900 K the reddest light anyone sorts fibre by, leaves blue
// a tenth of this much or more in a camera set to daylight (from memory), so less is no white thing.
constexpr double least_channel = 0.01;

tl::unexpected<Complaint> refuse(std::string what, std::string mend) {
    return tl::make_unexpected(Complaint{std::move(what), std::move(mend), "white"});
}

bool is_cut_off(const Srgb& c) {
    return std::max({c.r, c.g, c.b}) >= cut_off_at;
}

LinearRgb mean_light(const std::vector<Srgb>& colours) {
    LinearRgb sum;
    const auto count = static_cast<double>(colours.size());
    for (const Srgb& colour : colours) {
        const LinearRgb light = linear(colour);
        sum = {sum.r + light.r / count, sum.g + light.g / count, sum.b + light.b / count};
    }
    return sum;
}

}  // namespace

Area patch_around(const Point& point, const Pixels& photo) {
    const double side = std::max(5.0, 0.02 * std::min(photo.width, photo.height));
    return rectangle(point.x - 0.5 * side, point.y - 0.5 * side, side, side);
}

WhiteBalance::WhiteBalance() : white(srgb_white()) {}

measure::Expected<WhiteBalance> white_from(const Pixels& photo, const Area& patch,
                                           std::optional<double> reflectance) {
    if (auto fault = fault_in(photo, patch)) return tl::make_unexpected(*fault);
    if (reflectance && !(*reflectance > 0.0 && *reflectance <= 1.0))
        return refuse(
            "the white thing throws back " + measure::write_number(*reflectance * 100.0) + " % of the light",
            "give more than 0 and at most 100 %, such as 90 % for paper");
    const std::vector<Srgb> colours = sampled(photo, patch, most_white_samples);
    if (colours.empty()) return refuse("the patch holds no pixel of the photo", "point inside the picture");
    const auto cut_off = static_cast<double>(std::count_if(colours.begin(), colours.end(), is_cut_off));
    if (cut_off > most_cut_off_share * static_cast<double>(colours.size()))
        return refuse("the patch is overexposed, so its colour is cut off",
                      "point at a white that is a little in the shade, or take a darker photo");
    const LinearRgb mean = mean_light(colours);
    const Xyz light = xyz_from(mean);
    if (light.y < least_white_y)
        return refuse("the patch is too dark to tell the light by", "point at something white");
    if (std::min({mean.r, mean.g, mean.b}) < least_channel * std::max({mean.r, mean.g, mean.b}))
        return refuse("the patch has a strong colour of its own", "point at something white or grey");
    WhiteBalance balance;
    balance.white = {100.0 * light.x / light.y, 100.0, 100.0 * light.z / light.y};
    if (reflectance) balance.gain = 100.0 * *reflectance / light.y;
    return balance;
}

Srgb balanced(const Srgb& colour, const WhiteBalance& balance) {
    const Xyz light = adapted(xyz_from(linear(colour)), balance.white, srgb_white());
    return encoded(linear_from({light.x * balance.gain, light.y * balance.gain, light.z * balance.gain}));
}

}  // namespace battwright::colour
