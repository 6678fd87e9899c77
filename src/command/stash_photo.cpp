#include "command/stash_photo.hpp"

#include <algorithm>

#include "recipe/tints.hpp"
#include "strip/photo_file.hpp"

namespace battwright::command {
namespace {

[[noreturn]] void fail_without_area(const std::string& text, const char* option) {
    fail(measure::quoted(text) + " marks nothing in a photo",
         "give left, top, width and height in pixels or percent, as in "
         "\"10%,10%,80%,60%\", or the corners as in \"10,10 90,20 50,80\"",
         option);
}

// The numbers of an area, across and down in turn, in pixels.
std::vector<double> numbers_in(const std::string& text, int width, int height, const char* option) {
    std::vector<double> numbers;
    std::size_t at = 0;
    while ((at = text.find_first_not_of(", ", at)) != std::string::npos) {
        const std::size_t end = std::min(text.find_first_of(", ", at), text.size());
        const auto quantity = measure::parse_quantity(text.substr(at, end - at), "place", "120");
        if (!quantity || (quantity->unit != "" && quantity->unit != "%" && quantity->unit != "px"))
            fail_without_area(text, option);
        const double side = numbers.size() % 2 == 0 ? width : height;
        numbers.push_back(quantity->unit == "%" ? 0.01 * quantity->value * side : quantity->value);
        at = end;
    }
    return numbers;
}

colour::Area parse_white(const std::string& text, const colour::Pixels& photo) {
    const auto numbers = numbers_in(text, photo.width, photo.height, "--white");
    if (numbers.size() != 2) return parse_area(text, photo.width, photo.height, "--white");
    return colour::patch_around({numbers.at(0), numbers.at(1)}, photo);
}

// What the reading of the photo gives; a complaint names the option.
template <class T>
T read_as_asked(Expected<T> read) {
    if (!read) read.error().where = read.error().where == "colours" ? "--shades" : "--" + read.error().where;
    return value_of(std::move(read));
}

}  // namespace

void add_photo_options(Command& app, PhotoOptions& options) {
    app.add_option(
        "--area", options.area,
        "where the fibre lies in the photo: left,top,width,height in pixels or percent, or corners");
    app.add_option("--white", options.white, "something white in the photo: a point or an area");
    app.add_option("--white-reflects", options.white_reflects,
                   "how much light the white thing throws back, as in \"90 %\", to put the exposure right");
    app.add_option("--shades", options.shades, "at most so many colours");
}

const char* photo_option_given(const Common& common) {
    for (const char* option : {"--area", "--white", "--white-reflects", "--shades"})
        if (common.given(option)) return option;
    return nullptr;
}

void fail_without_photo(const char* option) {
    fail("there is no photo to read", "add --photo with the picture's file", option);
}

colour::Area parse_area(const std::string& text, int width, int height, const char* option) {
    const auto numbers = numbers_in(text, width, height, option);
    if (numbers.size() == 4)
        return colour::rectangle(numbers.at(0), numbers.at(1), numbers.at(2), numbers.at(3));
    if (numbers.size() < 6 || numbers.size() % 2 != 0) fail_without_area(text, option);
    colour::Area corners;
    for (std::size_t i = 0; i < numbers.size(); i += 2) corners.push_back({numbers.at(i), numbers.at(i + 1)});
    return corners;
}

colour::Area area_in(const PhotoOptions& options, const colour::Pixels& pixels) {
    if (options.area.empty()) return {};
    return parse_area(options.area, pixels.width, pixels.height, "--area");
}

std::optional<WhiteAsked> white_in(const PhotoOptions& options, const colour::Pixels& pixels) {
    const auto percent = given(options.white_reflects, "--white-reflects", measure::parse_percent);
    if (options.white.empty()) {
        if (percent)
            fail("nothing white was pointed at", "add --white with its place in the photo",
                 "--white-reflects");
        return {};
    }
    WhiteAsked white{parse_white(options.white, pixels), {}};
    if (percent) white.reflects = 0.01 * *percent;
    return white;
}

std::vector<recipe::Tint> palette_from(const PhotoOptions& options) {
    const auto image = value_of(strip::load_photo(options.photo));
    const colour::Pixels pixels{image.rgb, image.width, image.height};
    const colour::Area area = area_in(options, pixels);
    colour::PaletteOptions wish;
    wish.colours = options.shades;
    if (const auto white = white_in(options, pixels))
        wish.balance = read_as_asked(colour::white_from(pixels, white->area, white->reflects));
    return recipe::tints_of(read_as_asked(colour::palette_of(pixels, area, wish)));
}

}  // namespace battwright::command
