// What the record teaches, made anew from it each time: it is a few sums, and so a changed skein or batt
// never leaves a trace.
#include "stash/core.hpp"
#include "stash/date.hpp"
#include "stash/makings.hpp"
#include "stash/millionths.hpp"

namespace battwright::stash {
namespace {

// Of the batts carded up to that day.
CardingHabit habit_until(Database& database, const std::string& last) {
    CardingHabit habit;
    for (const Batt& batt : read_batts(database)) {
        if (!batt.off_drum_grams || !batt.taken_back_on.empty() || batt.carding.date > last) continue;
        static_cast<void>(habit.update(batt.carding.preparation, *batt.off_drum_grams,
                                       batt.fed_grams * batt.carding.retained_share));
    }
    return habit;
}

}  // namespace

std::string last_day(std::string_view until) {
    if (until.empty()) return "9999-12-31";
    value_of(parse_date(until));
    return std::string(until);
}

double nominal_metres(const Foretold& foretold, double grams) {
    const bool by_weight = foretold.grams > 0.0 && grams > 0.0;
    return by_weight ? foretold.nominal_length_m * grams / foretold.grams : foretold.nominal_length_m;
}

yarn::Lesson lesson_of(const Skein& skein) {
    yarn::Lesson lesson;
    lesson.preparation = skein.preparation;
    lesson.metres = skein.metres;
    lesson.grams = skein.grams;
    lesson.got_wpi = skein.wpi;
    lesson.changed_plan = skein.changed_plan;
    lesson.confirmed = skein.confirmed;
    lesson.plies = skein.plies > 0 ? skein.plies : lesson.plies;
    if (!skein.foretold || skein.foretold->law != yarn::law_number) return lesson;
    lesson.nominal_m = nominal_metres(*skein.foretold, skein.grams);
    lesson.wanted_wpi = skein.foretold->wanted_wpi;
    lesson.by_wraps = lesson.wanted_wpi > 0.0;
    if (skein.plies <= 0 && skein.foretold->strands > 0) lesson.plies = skein.foretold->strands;
    return lesson;
}

Expected<yarn::Calibration> Stash::calibration(std::string_view until) const {
    return reading(core_->database, [&] {
        const std::string last = last_day(until);
        yarn::Calibration calibration;
        for (const Skein& skein : read_skeins(core_->database)) {
            if (!skein.counts || !(skein.metres > 0.0) || skein.date > last) continue;
            // A slip of the pen teaches nothing; the skein's own page shows it beside its forecast.
            static_cast<void>(calibration.learn(lesson_of(skein)));
        }
        const CardingHabit habit = habit_until(core_->database, last);
        for (const auto& row : recipe::preparations)
            if (habit.of(row.value).count > 0)
                calibration.set_carded_share(row.value, habit.share(row.value));
        return calibration;
    });
}

Expected<std::vector<AskedSkein>> Stash::questions() const {
    return reading(core_->database, [&] {
        std::vector<AskedSkein> asked;
        yarn::Calibration calibration;
        for (const Skein& skein : read_skeins(core_->database)) {
            if (!skein.counts || !(skein.metres > 0.0)) continue;
            const yarn::Lesson lesson = lesson_of(skein);
            const yarn::Question question = calibration.question_about(lesson);
            if (question != yarn::Question::none) asked.push_back({skein.id, skein.name, question, lesson});
            static_cast<void>(calibration.learn(lesson));
        }
        return asked;
    });
}

Expected<CardingHabit> Stash::carding_habit(std::string_view until) const {
    return reading(core_->database, [&] { return habit_until(core_->database, last_day(until)); });
}

}  // namespace battwright::stash
