#include "app/record/learning.hpp"

#include <cmath>

namespace battwright::app {
namespace {

bool teaches(const stash::Skein& skein) {
    return skein.counts && skein.metres > 0.0 && nominal_of(skein) > 0.0;
}

bool teaches(const stash::Batt& batt) {
    return batt.off_drum_grams.has_value() && batt.taken_back_on.empty();
}

double to_be_kept(const stash::Batt& batt) {
    return batt.fed_grams * batt.carding.retained_share;
}

Reach reach(const yarn::Calibration& calibration, recipe::Preparation preparation, double nominal_m) {
    const yarn::Belief& belief = calibration.of(preparation);
    const double middle = nominal_m * std::exp(belief.mean);
    const auto range = yarn::range_80_percent(middle, yarn::half_width_80_percent(belief));
    return {range.low, middle, range.high, belief.count};
}

Reach reach(const stash::CardingHabit& habit, recipe::Preparation preparation, double grams) {
    const auto share = habit.share_80_percent(preparation);
    return {grams * share.low, grams * habit.share(preparation), grams * share.high,
            habit.of(preparation).count};
}

}  // namespace

double nominal_of(const stash::Skein& skein) {
    return skein.foretold ? stash::nominal_metres(*skein.foretold, skein.grams) : 0.0;
}

std::optional<Lesson> lesson_of(const stash::Skein& skein, const std::vector<stash::Skein>& skeins) {
    const double nominal = nominal_of(skein);
    if (!(nominal > 0.0)) return std::nullopt;
    yarn::Calibration calibration;
    for (const stash::Skein& other : skeins) {
        if (other.id == skein.id || !teaches(other)) continue;
        // A slip of the pen teaches nothing, here as in the stash.
        static_cast<void>(calibration.update(other.preparation, other.metres, nominal_of(other)));
    }
    Lesson lesson;
    lesson.before = reach(calibration, skein.preparation, nominal);
    if (skein.metres > 0.0) lesson.measured = skein.metres;
    if (!skein.counts)
        lesson.passed_over = "It is not counted.";
    else if (!(skein.metres > 0.0))
        lesson.passed_over = "Nothing is learnt until its length is known.";
    else if (const auto slip = calibration.update(skein.preparation, skein.metres, nominal))
        lesson.passed_over = slip->what + "; " + slip->mend + ".";
    lesson.after = reach(calibration, skein.preparation, nominal);
    return lesson;
}

std::optional<Lesson> lesson_of(const stash::Batt& batt, const std::vector<stash::Batt>& batts) {
    const double grams = to_be_kept(batt);
    if (!batt.taken_back_on.empty() || !(grams > 0.0)) return std::nullopt;
    const auto preparation = batt.carding.preparation;
    stash::CardingHabit habit;
    for (const stash::Batt& other : batts) {
        if (other.id == batt.id || !teaches(other)) continue;
        static_cast<void>(habit.update(other.carding.preparation, *other.off_drum_grams, to_be_kept(other)));
    }
    Lesson lesson;
    lesson.before = reach(habit, preparation, grams);
    lesson.measured = batt.off_drum_grams;
    if (!batt.off_drum_grams)
        lesson.passed_over = "Nothing is learnt until it is weighed off the drum.";
    else if (const auto slip = habit.update(preparation, *batt.off_drum_grams, grams))
        lesson.passed_over = slip->what + "; " + slip->mend + ".";
    lesson.after = reach(habit, preparation, grams);
    return lesson;
}

}  // namespace battwright::app
