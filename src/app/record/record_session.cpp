#include "app/record/record_session.hpp"

#include <chrono>
#include <system_error>
#include <utility>

#include "app/record/record_files.hpp"
#include "app/record/skein_form.hpp"
#include "app/shelf/shelf_choice.hpp"
#include "app/yarn/yarn_words.hpp"
#include "colour/spaces.hpp"
#include "stash/date.hpp"
#include "text/words.hpp"

namespace battwright::app {
namespace {

namespace fs = std::filesystem;
constexpr std::size_t most_suspects = 30;

// The clue as typed, or what is wrong with it; nothing to go by is no complaint.
measure::Expected<std::optional<stash::Clue>> clue_of(const LookupChoice& lookup, const Settings& settings) {
    stash::Clue clue;
    if (lookup.by_colour) clue.colour = colour::lab(lookup.colour);
    if (!text::is_blank(lookup.weight)) {
        const auto weight = parse_weight(lookup.weight, settings.mass);
        if (!weight) return tl::make_unexpected(weight.error());
        clue.grams = weight->grams;
    }
    if (!text::is_blank(lookup.length)) {
        const auto metres = parse_yarn_metres(lookup.length, yarn_length_unit(settings));
        if (!metres) return tl::make_unexpected(metres.error());
        clue.metres = *metres;
        if (lookup.before_wash) clue.shrink_pct = shrink_of_unknown();
    }
    if (!text::is_blank(lookup.date)) clue.date = lookup.date;
    if (!clue.colour && !clue.grams && !clue.metres && clue.date.empty()) return std::optional<stash::Clue>();
    return std::optional(clue);
}

Suspects suspects_of(const LookupChoice& lookup, StashSession& stash, const Settings& settings) {
    const auto clue = clue_of(lookup, settings);
    if (!clue) return {{}, {}, measure::to_line(clue.error())};
    if (!*clue) return {};
    const std::string washed =
        (*clue)->shrink_pct ? washed_in_words(*(*clue)->metres, *(*clue)->shrink_pct, settings) : "";
    if (!stash.is_open()) return {{}, washed, {}};
    auto suspects =
        stash.look_up([&](const stash::Stash& file) { return file.look_up(**clue, most_suspects); });
    if (!suspects) return {{}, washed, measure::to_line(suspects.error())};
    return {std::move(*suspects), washed, {}};
}

// The value, or an empty one and a complaint more.
template <class T>
T or_complain(measure::Expected<T> given, std::vector<measure::Complaint>& complaints) {
    if (given) return std::move(*given);
    complaints.push_back(std::move(given.error()));
    return {};
}

}  // namespace

void RecordFiles::say(std::string words, std::string trouble) {
    said = std::move(words);
    complaint = std::move(trouble);
}

void RecordFiles::start_afresh() {
    say({});
    replace_asked = backup_asked = restore_asked = false;
}

void RecordSession::open(const fs::path& folder) {
    if (report.year == 0) {
        const std::chrono::year_month_day day(
            stash::parse_date(stash::today()).value_or(std::chrono::sys_days{}));
        report.year = static_cast<int>(day.year());
    }
    files.start_afresh();
    if (!files.folder.empty()) return;
    files.folder = folder;
    files.backup_path = (folder / "stash-backup.db").string();
    files.restore_path = files.backup_path;
    files.table_path = (folder / "lots.csv").string();
}

const HandsLesson& RecordSession::photo_lesson(const stash::BattPhoto& photo) const {
    return photo_lesson_.of({book_.key(), photo.id}, [&](const OneInputs&, HandsLesson& lesson) {
        lesson = lesson_of(photo, book().photos);
    });
}

const SideBySide& RecordSession::photo_beside(const stash::BattPhoto& photo, colour::Light light) const {
    return photo_beside_.of({book_.key(), photo.id, light}, [&](const OneInputs& of, SideBySide& beside) {
        beside = side_by_side(photo.seen.mean, photo.foretold, of.light);
    });
}

const std::optional<Lesson>& RecordSession::batt_lesson(const stash::Batt& batt) const {
    return batt_lesson_.of({book_.key(), batt.id}, [&](const OneInputs&, std::optional<Lesson>& lesson) {
        lesson = lesson_of(batt, book().batts);
    });
}

const std::optional<Lesson>& RecordSession::skein_lesson(const stash::Skein& skein) const {
    return skein_lesson_.of({book_.key(), skein}, [&](const SkeinInputs&, std::optional<Lesson>& lesson) {
        lesson = lesson_of(skein, book().skeins);
    });
}

void RecordSession::follow(StashSession& stash, const fibre::Catalogue& catalogue, const Settings& settings,
                           std::vector<measure::Complaint>& complaints) {
    const FileInputs file{stash.path(), stash.version()};
    book_.of(file, [&](const FileInputs&, RecordBook& book) {
        files.health.reset();
        book = stash.is_open() ? or_complain(stash.look_up(read_record), complaints) : RecordBook{};
    });
    suspects_.of({file, lookup, settings.mass, settings.length},
                 [&](const LookupInputs& key, Suspects& suspects) {
                     suspects = suspects_of(key.lookup, stash, settings);
                 });
    table_.of({file, report, stash::today(), settings.mass, settings.length}, [&](const ReportInputs& key,
                                                                                  ReportTable& table) {
        table = {};
        if (!stash.is_open()) return;
        table = or_complain(stash.look_up([&](const stash::Stash& from) {
            return read_report(from, key.report.report, key.day, key.report.year, catalogue, settings);
        }),
                            complaints);
    });
}

void RecordSession::write_tables(StashSession& stash) {
    const auto there = tables_there(files.folder);
    if (!there.empty() && !std::exchange(files.replace_asked, true))
        return files.say({}, there.front() + " is there already. Press again to replace.");
    files.replace_asked = false;
    if (!stash.is_open()) return files.say({}, "There is no stash yet.");
    const auto written =
        stash.look_up([&](const stash::Stash& file) { return app::write_tables(file, files.folder); });
    if (!written) return files.say({}, measure::to_line(written.error()));
    files.say(std::to_string(written->size()) + " tables written to " + files.folder.string() + ".");
}

void RecordSession::read_table(const StashSession& stash, const fibre::Catalogue& catalogue) {
    files.start_afresh();
    files.read.reset();
    auto read = app::read_table(files.table_path, catalogue, stash.shelf());
    if (read)
        files.read = std::move(*read);
    else
        files.say({}, measure::to_line(read.error()));
}

void RecordSession::check(StashSession& stash) {
    files.start_afresh();
    files.health.reset();
    if (!stash.is_open()) return files.say({}, "There is no stash yet.");
    auto health = stash.look_up([](const stash::Stash& file) { return file.integrity(); });
    if (health)
        files.health = std::move(*health);
    else
        files.say({}, measure::to_line(health.error()));
}

bool RecordSession::may_back_up() {
    std::error_code error;
    if (fs::exists(files.backup_path, error) && !std::exchange(files.backup_asked, true)) {
        files.say({}, files.backup_path + " is there already. Press again to replace it.");
        return false;
    }
    files.start_afresh();
    return true;
}

bool RecordSession::may_restore() {
    if (!std::exchange(files.restore_asked, true)) {
        files.say({},
                  "All that was written down since that backup goes out of the stash. What it is now is kept "
                  "beside it, in a file that ends in .before. Press again if you are sure.");
        return false;
    }
    files.start_afresh();
    return true;
}

}  // namespace battwright::app
