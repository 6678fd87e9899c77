// A photo of a batt as it is marked in the window, held beside its forecast. No display.
#pragma once

#include <cstdint>
#include <filesystem>
#include <string>
#include <vector>

#include "app/record/learning.hpp"
#include "app/shelf/lot_photo.hpp"
#include "measure/units.hpp"
#include "stash/stash.hpp"

namespace battwright::app {

// What is said of the photo: where its fibre and its white lie, what it shows, how wide the marked fibre is
// in truth (as typed; a bare number is in `unit`).
struct BattPhotoForm {
    PhotoMarks marks;
    colour::Taken taken = colour::Taken::face;
    std::string width;
    measure::LengthUnit unit = measure::LengthUnit::millimetre;
};
// What the photo shows of that batt, not yet held against the forecast. A complaint for a width that is none,
// or for a white that lies on the fibre or off the photo.
measure::Expected<stash::BattPhoto> batt_photo_of(const colour::Pixels& photo, const BattPhotoForm& form,
                                                  std::int64_t batt, const std::filesystem::path& path);

// The two colours as a screen shows them under one light, and how far apart they are there (CIEDE2000). The
// photo's is known by daylight alone: a spectrum is laid to it as to any colour picked on a screen.
struct SideBySide {
    colour::Srgb photo, forecast;
    double apart_de00 = 0.0;
};
SideBySide side_by_side(const colour::Lab& photo, const colour::Lab& forecast, colour::Light light);
// "places differ by 2.1, foretold 1.8; streaks of 3.4 mm"
std::string places_in_words(const stash::BattPhoto& photo, measure::LengthUnit unit);

// What this photo taught: m and mixing without it and with it.
struct HandsLesson {
    Lesson m, mixing;
};
HandsLesson lesson_of(const stash::BattPhoto& photo, const std::vector<stash::BattPhoto>& photos);

}  // namespace battwright::app
