// The record: batts that were carded, skeins that were spun, "what was this?", reports, and files.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "app/derived.hpp"
#include "app/record/batt_photo_reader.hpp"
#include "app/record/learning.hpp"
#include "app/record/skein_form.hpp"
#include "window/gl/photo.hpp"
#include "window/kit/photo_marks.hpp"
#include "window/kit/ui.hpp"
#include "window/kit/widgets.hpp"
#include "window/views/photo/picks.hpp"

namespace battwright::window {

enum class RecordPage { batts, skeins, lookup, reports, files };

// What goes on once the stash has answered.
enum class RecordAfter { nothing, show_skein, new_skein, empty_table };

// A photo of a batt that is being marked.
struct BattPhotoState {
    Photo photo;
    std::string path;
    PhotoMarking marking;
    colour::Taken taken = colour::Taken::face;
    std::string width;
    std::string complaint;
    bool to_read = false;                  // it is to be held against the forecast
    bool reading = false;                  // a thread does so
    std::optional<stash::BattPhoto> read;  // what that gave, to be logged
};

struct RecordState {
    RecordPage page = RecordPage::batts;
    std::string said, complaint;
    std::string at;              // the field the complaint is about: "weight", "batt"; empty: none on show
    std::string at_words;        // the same complaint as the field says it
    bool told_at_field = false;  // in this frame, so that the foot need not
    std::string saying;          // said once the stash has agreed
    RecordAfter after = RecordAfter::nothing;
    std::int64_t batt = 0;  // on show
    bool sure_asked = false;
    std::string more_yarn_asked;  // what was last asked about a skein heavier than its fibre
    std::string let_go_asked;     // what was typed when leaving the form was last asked for
    SkeinForm form;
    // The photo of the batt or skein on show, or why there is none.
    struct ShownPhoto {
        Photo photo;
        std::string trouble;
    };
    ShownPhoto photo;
    std::int64_t batt_photo = 0;  // on show, of that batt's; 0: its last
    std::string batt_photo_path;
    BattPhotoState draft;
    PicksState colours;      // being picked off the skein's photo
    std::string photo_path;  // whose it is; it may still be on its way
    std::string untold;      // why the form's batts have no forecast
    bool foretell = false;   // the form's batts are others: what they foretell is to be filled in
    std::string project, promise;
};

void prepare_record(RecordState& state, const Settings& settings);
// Before it is drawn: works out what is to be shown, and has the photo read.
void follow_record(RecordState& state, const app::State& app, PhotoLoader& photos,
                   BattPhotoReader& batt_photos);
// Of the batt or skein on show.
void take_record_photo(RecordState& state, measure::Expected<Photo> photo, const std::filesystem::path& path);
// Of the batt, to be marked.
void take_batt_photo(RecordState& state, measure::Expected<Photo> photo, const std::filesystem::path& path);
// What that photo shows; dropped when the card it was asked on has been left.
void take_batt_photo_seen(RecordState& state, const BattPhotoSeen& seen);
void view_record(const Ui& ui, const PanelHead& head, RecordState& state);
void report_record(const RecordState& state, const app::State& app, Probe& probe);

// The pages.
void view_record_batts(const Ui& ui, RecordState& state);
// The photos of a batt beside its forecast, and the card where one more is marked and logged.
void view_batt_photos(const Ui& ui, RecordState& state, const stash::Batt& batt);
void view_record_skeins(const Ui& ui, RecordState& state);
// The skein's colours, the forecast's beside them, and the card where they are picked off its photo.
void view_skein_colours(const Ui& ui, RecordState& state);
void view_record_projects(const Ui& ui, RecordState& state, const stash::Skein& skein);
void view_record_lookup(const Ui& ui, RecordState& state);
void view_record_reports(const Ui& ui);
void view_record_files(const Ui& ui, RecordState& state);

// The photo on show, as large as there is room; none without a photo, or where there is too little of it.
void view_shown_photo(const Ui& ui, const RecordState& state, float width, float high);

// Asks the stash; `saying` is said once it has agreed.
void ask_record(const Ui& ui, RecordState& state, StashAction action, std::string saying,
                RecordAfter after = RecordAfter::nothing);
// What is said, and what goes on, once the stash has agreed.
void expect_answer(RecordState& state, std::string saying, RecordAfter after = RecordAfter::nothing);
// Another skein may take the form's place: nothing in it is half typed, or that was said before.
bool may_leave_form(const Ui& ui, RecordState& state);
// A new skein, from a batt when one is given.
void start_skein(const Ui& ui, RecordState& state, std::int64_t batt);
void show_skein(const Ui& ui, RecordState& state, std::int64_t skein);

// Shared pieces: a label with room for the field beside it, and a row of a list: a name, and words below it.
void record_row(const Ui& ui, std::string_view words);
// A complaint about the field just drawn is told there ("weight", or another word for it), and goes once
// something else was typed into it.
void record_trouble(const Ui& ui, RecordState& state, bool typed, std::string_view field,
                    std::string_view or_field = {});
// What is wrong, and where.
void complain_in_record(RecordState& state, const measure::Complaint& complaint);
// Escape, unless it ends typing or shuts a list.
bool record_escape(const Ui& ui);
bool record_entry(const Ui& ui, const std::string& label, std::string_view name, std::string_view words,
                  bool chosen, bool faint = false);
inline constexpr float entry_height = 46.0f;  // design pixels
// A list and two columns of what is chosen in it, in pixels; stacked where the page is too narrow for that.
struct RecordColumns {
    float list = 0.0f, half = 0.0f, between = 0.0f;
    bool stacked = false;
};
RecordColumns record_columns(const Ui& ui);
// As high as a stacked list of so many is, in pixels: three are seen at once.
float stacked_list(const Ui& ui, std::size_t entries);
void view_record_form(const Ui& ui, RecordState& state, const RecordColumns& columns);
// Left the photo's colour, right the forecast's.
void view_two_colours(const Ui& ui, const std::string& label, const SideBySide& pair, ImVec2 size);
// The range of the next one before and after, as two bars over one scale.
void view_lesson(const Ui& ui, const std::string& label, const Lesson& lesson, std::string_view title,
                 const char* noun, const std::function<std::string(double)>& print);

}  // namespace battwright::window
