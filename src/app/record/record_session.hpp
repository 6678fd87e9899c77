// The record while the window is open: what is asked of it, and what was read from the file for that. No
// display.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "app/derived.hpp"
#include "app/record/batt_photo.hpp"
#include "app/record/learning.hpp"
#include "app/record/record_book.hpp"
#include "app/shelf/stash_session.hpp"

namespace battwright::app {

// What can still be told of a thing without a tag, as typed.
struct LookupChoice {
    bool by_colour = false;
    colour::Srgb colour{0.35, 0.5, 0.45};
    std::string weight, length, date;
    bool before_wash = false;  // the length was measured then
    bool operator==(const LookupChoice&) const = default;
};
struct Suspects {
    std::vector<stash::Suspect> all;
    std::string washed;  // what a length from before the wash comes to, in words
    std::string complaint;
};

struct ReportChoice {
    Report report = Report::kinds;
    int year = 0;  // of what was used
    bool operator==(const ReportChoice&) const = default;
};

// Tables, backup and check: what was typed, what was asked once and waits for a second press, what came of
// it.
struct RecordFiles {
    std::filesystem::path folder;
    std::string table_path, backup_path, restore_path;
    bool replace_asked = false, backup_asked = false, restore_asked = false;
    std::optional<stash::LotsRead> read;  // of a table, to be put on the shelf
    std::optional<stash::Health> health;
    std::string said, complaint;

    void say(std::string words, std::string trouble = {});
    // Nothing is said and no second press is waited for.
    void start_afresh();
};

class RecordSession {
  public:
    // Before the panel opens: the year is this one unless another was chosen, the files lie in that folder.
    void open(const std::filesystem::path& folder);
    // Each frame the panel is open: reads what has changed. Complaints go to the list.
    void follow(StashSession& stash, const fibre::Catalogue& catalogue, const Settings& settings,
                std::vector<measure::Complaint>& complaints);

    LookupChoice lookup;
    ReportChoice report;
    RecordFiles files;

    const RecordBook& book() const { return book_.value(); }
    // What that photo of the book taught; made anew for another photo or a changed file.
    const HandsLesson& photo_lesson(const stash::BattPhoto& photo) const;
    // Its colour beside the forecast's under that light, likewise.
    const SideBySide& photo_beside(const stash::BattPhoto& photo, colour::Light light) const;
    // What that batt of the book taught of the loss in carding, likewise.
    const std::optional<Lesson>& batt_lesson(const stash::Batt& batt) const;
    // What that skein, logged or as it is in the form, teaches of yardage, likewise.
    const std::optional<Lesson>& skein_lesson(const stash::Skein& skein) const;
    const Suspects& suspects() const { return suspects_.value(); }
    const ReportTable& table() const { return table_.value(); }

    // Presses on the page of files. The first one that would replace something asks for a second.
    void write_tables(StashSession& stash);
    void read_table(const StashSession& stash, const fibre::Catalogue& catalogue);
    void check(StashSession& stash);
    // True when the backup may be written: nothing is there, or it was asked before.
    bool may_back_up();
    bool may_restore();

  private:
    // The file as it was read, whichever stash it is.
    struct FileInputs {
        std::filesystem::path path;
        unsigned long version = 0;
        bool operator==(const FileInputs&) const = default;
    };
    // A batt or a photo of the book, by its number.
    struct OneInputs {
        std::optional<FileInputs> file;
        std::int64_t id = 0;
        colour::Light light = colour::Light::d65;
        bool operator==(const OneInputs&) const = default;
    };
    struct SkeinInputs {
        std::optional<FileInputs> file;
        stash::Skein skein;
        bool operator==(const SkeinInputs&) const = default;
    };
    struct LookupInputs {
        FileInputs file;
        LookupChoice lookup;
        measure::MassUnit mass;
        measure::LengthUnit length;
        bool operator==(const LookupInputs&) const = default;
    };
    struct ReportInputs {
        FileInputs file;
        ReportChoice report;
        std::string day;
        measure::MassUnit mass;
        measure::LengthUnit length;
        bool operator==(const ReportInputs&) const = default;
    };
    Derived<FileInputs, RecordBook> book_;
    // Asked for in each frame, of the one on show.
    mutable Derived<OneInputs, HandsLesson> photo_lesson_;
    mutable Derived<OneInputs, SideBySide> photo_beside_;
    mutable Derived<OneInputs, std::optional<Lesson>> batt_lesson_;
    mutable Derived<SkeinInputs, std::optional<Lesson>> skein_lesson_;
    Derived<LookupInputs, Suspects> suspects_;
    Derived<ReportInputs, ReportTable> table_;
};

// What a view may ask for; see action.hpp.
struct LookUp {
    LookupChoice lookup;
};
struct ShowReport {
    ReportChoice report;
};
struct ChangeRecordFiles {
    std::string folder;
    std::string table_path, backup_path, restore_path;
};
struct WriteTables {};
struct ReadTable {};
struct ForgetTable {};
struct CheckStash {};
struct BackUp {
    std::uint64_t from = 0;  // as in StashRequest
};
struct Restore {
    std::uint64_t from = 0;
};

}  // namespace battwright::app
