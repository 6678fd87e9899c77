// Cards, tags and labels while the window is open: what is to be printed, the page made of it, the files
// written. No display.
#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "app/bench/outcome.hpp"
#include "app/card/card_writer.hpp"
#include "jobs/latest.hpp"

namespace battwright::app {

// As chosen and typed.
struct CardDraft {
    CardChoice choice;
    std::filesystem::path folder;      // for the files written
    std::filesystem::path batch_from;  // the folder whose recipes are printed
    bool sheets = false;               // several on a sheet, to be cut apart
    std::optional<std::string> name;   // of the file, once typed; else made from the recipe's
    std::string ending = ".pdf";
    int width = 0, height = 0;  // pixels a side of the page may take
    bool operator==(const CardDraft&) const = default;
};

// What lies on the bench.
struct CardSubject {
    std::shared_ptr<const forecast::Forecast> forecast;  // null: nothing to print yet
    unsigned long version = 0;                           // of the outcome
    forecast::Bench bench;                               // for the batch
    std::string stem;                                    // of a file name
    bool outdated = false;  // the sheet has changed to something that has no forecast
};

struct PreviewRequest {
    std::shared_ptr<const forecast::Forecast> forecast;
    unsigned long version = 0;  // of the forecast
    CardChoice choice;
    int width = 0, height = 0;  // pixels a side of the page may take
    bool operator==(const PreviewRequest&) const = default;
};

struct PagePreview {
    unsigned long version = 0;
    std::vector<strip::Image> sides;
    std::string text;               // of a content label, for who cannot see it
    std::vector<std::string> said;  // beside a tag: what was refused of its content, and notes
    int missing_glyphs = 0;         // see card::Laid
    bool code_left_out = false;
};

// The answer to a request, made here and now; and a thread that makes it, whose last answer stays until there
// is a newer one.
PagePreview preview_of(const PreviewRequest& request);
using PreviewWorker = jobs::Latest<PreviewRequest, PagePreview>;
void make_preview(const PreviewRequest& request, const PreviewWorker::Turn& turn);

class CardSession {
  public:
    // Before the panel opens: `folder` is where the recipe lives. `wake` is called on the threads.
    void open(const std::filesystem::path& folder, std::function<void()> wake);
    // Each frame it is open: asks for the page as it is now to be seen, and takes what has been made.
    void follow(const CardSubject& subject);
    // Another draft; what waited for a second press waits no more when the files are others.
    void change(CardDraft draft);
    // One file of this batt; one for every recipe of the folder. The first press that would replace a file
    // asks for a second.
    void write(const CardSubject& subject);
    void write_folder(const CardSubject& subject);

    const CardDraft& draft() const { return draft_; }
    const PreviewWorker::State& shown() const { return shown_; }
    const Writing& writing() const { return writing_; }
    // The writing on show is of this opening, not old news.
    bool has_result() const { return !writing_.busy && writing_.stage > old_stage_; }
    const std::string& complaint() const { return complaint_; }
    bool has_news() const;
    // The preview is of the last request and nothing is being written.
    bool settled() const { return (asked_ || !has_page_) && !shown_.busy && !writing_.busy && !has_news(); }

  private:
    void start_afresh();
    bool folder_stands(const std::filesystem::path& folder);

    CardDraft draft_;
    bool has_page_ = false;                   // there is something to print
    std::unique_ptr<PreviewWorker> preview_;  // both made when the panel first opens
    std::unique_ptr<CardWriter> writer_;
    std::optional<PreviewRequest> asked_;
    PreviewWorker::State shown_;
    Writing writing_;
    unsigned long old_stage_ = 0;
    std::string complaint_;
    bool replace_asked_ = false, replace_all_asked_ = false;
};

// The file's name: as typed, else made of the recipe's and the kind of page.
std::string file_name(const CardDraft& draft, const std::string& stem);

// What a view may ask for; see action.hpp.
struct ChangeCard {
    CardDraft draft;
};
struct WriteCard {};
struct WriteAllCards {};

}  // namespace battwright::app
