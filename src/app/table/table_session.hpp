// What lies on the table while its panel is open: what of it is looked at, the picture made of that on a
// thread of its own, and pictures written to files. The view, the pass and the pull are the strip's (see
// look.hpp), so that both agree. No display.
#pragma once

#include <filesystem>
#include <functional>
#include <memory>
#include <optional>
#include <string>

#include "app/bench/carding_worker.hpp"
#include "app/look.hpp"
#include "app/settings.hpp"
#include "jobs/latest.hpp"
#include "strip/table.hpp"

namespace battwright::app {

// What is chosen and typed beside the look.
struct TableChoice {
    double zoom = 1.0, middle_x = 0.5, middle_y = 0.5;  // as in strip::TableSettings
    bool each_pass = false;                             // side by side, else the pass of the look
    strip::TableCanvas canvas;                          // as the panel has room
    std::filesystem::path folder;                       // for pictures that are kept
    std::optional<std::string> name;                    // of the file, once typed
    int width = 3000, height = 2000;                    // of that picture, px
    bool operator==(const TableChoice&) const = default;
};
// What is on the bench, as far as the table needs it.
struct TableSubject {
    std::shared_ptr<const forecast::Forecast> forecast;  // null: nothing to show
    std::shared_ptr<const forecast::Batt> batt;          // null: not carded yet
    Look look;
    std::string winder;  // one turn of it, as typed
    std::string stem;    // of a file name
};

struct TableRequest {
    std::shared_ptr<const forecast::Forecast> forecast;
    std::shared_ptr<const forecast::Batt> batt;
    strip::TableSettings ask;
    strip::TableCanvas canvas;
    std::filesystem::path file;  // empty: for the screen
    bool replace = false;
    bool operator==(const TableRequest&) const = default;
};
struct TableMade {
    TableRequest request;
    strip::TablePicture picture;
    bool coarse = false;  // a first answer of fewer pixels; the full one follows
    // Of a file: what went wrong, or what was written.
    std::optional<measure::Complaint> complaint;
    std::string written;
};
using TableWorker = jobs::Latest<TableRequest, TableMade>;

class TableSession {
  public:
    // Before the panel opens: `folder` is where the recipe lives. `wake` is called on the threads.
    void open(const std::filesystem::path& folder, std::function<void()> wake);
    // Each frame it is open: asks for the picture of what is looked at, and takes what has been made.
    void follow(const TableSubject& subject);
    void change(TableChoice choice);
    // One file of what is on show; the first press that would replace one asks for a second.
    void save(const TableSubject& subject);

    const TableChoice& choice() const { return choice_; }
    const TableWorker::State& shown() const { return shown_; }
    // What is looked at now. The picture on show may still be of something else.
    const strip::TableSettings& asked() const { return asked_.ask; }
    // The frame the table has now: while the picture of it is being made, the last one is moved there.
    strip::TableFrame frame() const;
    bool saving() const { return saved_.busy; }
    // What came of the last press on "save": "" before the first.
    const std::string& saved_words() const { return words_; }
    bool save_failed() const { return failed_; }
    bool has_news() const;
    bool settled() const;

  private:
    strip::TableSettings ask_for(const TableSubject& subject) const;
    void take_saved();

    TableChoice choice_;
    std::unique_ptr<TableWorker> worker_, writer_;
    TableRequest asked_;
    TableWorker::State shown_, saved_;
    unsigned long told_ = 0;  // number of the last file that was told of
    std::string words_;
    bool showing_ = false;  // there is something to show
    bool failed_ = false, replace_asked_ = false;
};
// The file's name: as typed, else made of the recipe's and the view.
std::string file_name(const TableChoice& choice, const TableSubject& subject);
// "3000 x 2000" as a size; the complaint says how to write one.
measure::Expected<std::pair<int, int>> parse_picture_size(const std::string& text);

// Makes the answers to a request, first the coarse one.
void make_table(const TableRequest& request, const TableWorker::Turn& turn);

// What a view may ask for; see action.hpp.
struct ChangeTable {
    TableChoice choice;
};
struct SaveTable {};

}  // namespace battwright::app
