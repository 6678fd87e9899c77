#include "app/record/batt_photo.hpp"

#include <algorithm>
#include <cmath>

#include "colour/reflectance.hpp"
#include "colour/spaces.hpp"
#include "forecast/batt_photo.hpp"

namespace battwright::app {
namespace {

measure::Expected<double> width_mm(const BattPhotoForm& form) {
    const bool bare = form.width.find_first_not_of("0123456789.,") == std::string::npos;
    const auto length = measure::parse_length(
        bare ? form.width + " " + std::string(measure::word_for(form.unit)) : form.width);
    if (!length) return tl::make_unexpected(length.error());
    if (length->millimetres > 0.0) return length->millimetres;
    return tl::make_unexpected(measure::Complaint{"the width is none", "say how wide the marked fibre is"});
}

Reach reach_of(const stash::LogBelief& belief) {
    const yarn::Range range = belief.range_80_percent();
    return {range.low, belief.factor(), range.high, belief.count()};
}

std::string tenth(double value) {
    return measure::write_number(std::round(10.0 * value) / 10.0);
}

colour::Spectrum spectrum_of(const colour::Lab& by_day) {
    return colour::reflectance_of(colour::clipped(colour::srgb_from(by_day)));
}

}  // namespace

measure::Expected<stash::BattPhoto> batt_photo_of(const colour::Pixels& photo, const BattPhotoForm& form,
                                                  std::int64_t batt, const std::filesystem::path& path) {
    const auto wide = width_mm(form);
    if (!wide) return tl::make_unexpected(wide.error());
    const PhotoMarks::Patch fibre = form.marks.fibre.value_or(
        PhotoMarks::Patch{0.0, 0.0, static_cast<double>(photo.width), static_cast<double>(photo.height)});
    stash::BattPhoto seen;
    seen.batt = batt;
    seen.photo = path.string();
    seen.taken = form.taken;
    seen.mm_per_pixel = *wide / fibre.width;
    const auto scale = forecast::photo_scale(form.taken, seen.mm_per_pixel, fibre.height * seen.mm_per_pixel);
    std::optional<colour::WhiteReference> white;
    if (form.marks.white) white = colour::WhiteReference{colour::patch_around(*form.marks.white, photo)};
    auto reading = colour::read_batt_beside(
        photo, colour::rectangle(fibre.x, fibre.y, fibre.width, fibre.height), white, scale);
    if (!reading) return tl::make_unexpected(std::move(reading.error()));
    seen.seen = *reading;
    return seen;
}

SideBySide side_by_side(const colour::Lab& photo, const colour::Lab& forecast, colour::Light light) {
    const colour::Spectrum seen = spectrum_of(photo), told = spectrum_of(forecast);
    return {colour::clipped(colour::srgb_under(seen, light)),
            colour::clipped(colour::srgb_under(told, light)),
            colour::ciede2000(colour::lab_under(seen, light), colour::lab_under(told, light))};
}

std::string places_in_words(const stash::BattPhoto& photo, measure::LengthUnit unit) {
    std::string words;
    if (photo.seen.variation_de00) words += "places differ by " + tenth(*photo.seen.variation_de00);
    if (photo.seen.variation_de00 && photo.foretold_variation_de00)
        words += ", foretold " + tenth(*photo.foretold_variation_de00);
    if (photo.seen.streak_mm)
        words += std::string(words.empty() ? "" : "; ") + "streaks of " +
                 measure::print_length(*photo.seen.streak_mm, unit);
    return words;
}

HandsLesson lesson_of(const stash::BattPhoto& photo, const std::vector<stash::BattPhoto>& photos) {
    std::vector<stash::BattPhoto> others = photos;
    std::erase_if(others, [&](const stash::BattPhoto& other) { return other.id == photo.id; });
    const stash::Hands before = stash::hands_from(others).hands, after = stash::hands_from(photos).hands;
    HandsLesson lesson;
    lesson.m.before = reach_of(before.m);
    lesson.m.after = reach_of(after.m);
    lesson.mixing.before = reach_of(before.mixing);
    lesson.mixing.after = reach_of(after.mixing);
    return lesson;
}

}  // namespace battwright::app
