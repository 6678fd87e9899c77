// What the record teaches, made anew from it each time: it is a few sums, and so a changed skein or batt
// never leaves a trace.
#include "stash/core.hpp"
#include "stash/date.hpp"
#include "stash/makings.hpp"
#include "stash/millionths.hpp"

namespace battwright::stash {
namespace {

// ISO dates sort as text, and this comes after all of them.
std::string last_day(std::string_view until) {
    if (until.empty()) return "9999-12-31";
    value_of(parse_date(until));
    return std::string(until);
}

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

double nominal_metres(const Foretold& foretold, double grams) {
    const bool by_weight = foretold.grams > 0.0 && grams > 0.0;
    return by_weight ? foretold.nominal_length_m * grams / foretold.grams : foretold.nominal_length_m;
}

Expected<yarn::Calibration> Stash::calibration(std::string_view until) const {
    return reading(core_->database, [&] {
        Statement rows = core_->database.prepare(
            "SELECT preparation, micrometres, micrograms, nominal_m, foretold_g FROM skein "
            "WHERE counts AND micrometres > 0 AND nominal_m > 0 AND made_on <= ? ORDER BY made_on, id");
        rows.bind(last_day(until));
        yarn::Calibration calibration;
        while (rows.step()) {
            Foretold foretold;
            foretold.nominal_length_m = rows.real(3);
            foretold.grams = rows.real(4);
            const double nominal = nominal_metres(foretold, from_millionths(rows.whole(2)));
            // A slip of the pen teaches nothing; the skein's own page shows it beside its forecast.
            static_cast<void>(
                calibration.update(preparation_of(rows.text(0)), from_millionths(rows.whole(1)), nominal));
        }
        const CardingHabit habit = habit_until(core_->database, last_day(until));
        for (const auto way : {recipe::Preparation::woollen, recipe::Preparation::semi_woollen,
                               recipe::Preparation::worsted}) {
            if (habit.of(way).count > 0) calibration.set_carded_share(way, habit.share(way));
        }
        return calibration;
    });
}

Expected<CardingHabit> Stash::carding_habit(std::string_view until) const {
    return reading(core_->database, [&] { return habit_until(core_->database, last_day(until)); });
}

}  // namespace battwright::stash
