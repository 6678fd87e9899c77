#include "app/card/card_session.hpp"

#include <system_error>
#include <utility>

#include "stash/date.hpp"

namespace battwright::app {

namespace fs = std::filesystem;

PagePreview preview_of(const PreviewRequest& request) {
    PagePreview made;
    made.version = request.version;
    const card::Page page = page_of(*request.forecast, request.choice);
    if (request.choice.kind == PageKind::label) made.text = card::text_of(page);
    // The label's own page has its notes.
    if (request.choice.kind == PageKind::tag) made.said = said_with(*request.forecast, request.choice);
    const card::Paper paper = request.choice.paper();
    const card::Laid laid = card::lay_out(page, paper);
    const double dpi = dpi_to_fit(paper, request.width, request.height);
    for (std::size_t side = 0; side < laid.sides.size(); ++side)
        made.sides.push_back(card::raster(laid, side, dpi));
    made.missing_glyphs = laid.missing_glyphs;
    made.code_left_out = laid.code_left_out;
    return made;
}

void make_preview(const PreviewRequest& request, const PreviewWorker::Turn& turn) {
    turn.publish(std::make_shared<const PagePreview>(preview_of(request)), jobs::Late::shown);
}

void CardSession::open(const fs::path& folder, std::function<void()> wake) {
    if (!preview_) preview_ = std::make_unique<PreviewWorker>(make_preview, wake);
    if (!writer_) writer_ = std::make_unique<CardWriter>(std::move(wake));
    // A folder that was chosen stays; one that came with the last recipe goes.
    if (draft_.folder.empty() || draft_.folder == draft_.batch_from) draft_.folder = folder;
    draft_.batch_from = folder;
    draft_.choice.date = stash::today();
    draft_.name.reset();
    writing_ = writer_->state();
    start_afresh();
}

void CardSession::follow(const CardSubject& subject) {
    writing_ = writer_->state();
    has_page_ = subject.forecast != nullptr;
    if (has_page_ && draft_.width > 0 && draft_.height > 0) {
        PreviewRequest request{subject.forecast, subject.version, draft_.choice, draft_.width, draft_.height};
        if (asked_ != request) {
            asked_ = request;
            preview_->ask(std::move(request));
        }
    }
    shown_ = preview_->state();
}

void CardSession::change(CardDraft draft) {
    const bool same_files = draft.folder == draft_.folder && draft.batch_from == draft_.batch_from &&
                            draft.name == draft_.name && draft.ending == draft_.ending;
    if (!same_files) start_afresh();
    draft_ = std::move(draft);
}

// Anything that makes an earlier "press again to replace" stale.
void CardSession::start_afresh() {
    complaint_.clear();
    old_stage_ = writing_.stage;
    replace_asked_ = replace_all_asked_ = false;
}

// True when the folder is there; else says so.
bool CardSession::folder_stands(const fs::path& folder) {
    std::error_code error;
    if (fs::is_directory(folder, error)) return true;
    complaint_ = folder.string() + " is no folder. Type one that is there.";
    return false;
}

void CardSession::write(const CardSubject& subject) {
    const fs::path path = draft_.folder / file_name(draft_, subject.stem);
    if (!folder_stands(path.parent_path())) return;
    std::error_code error;
    if (fs::exists(path, error) && !std::exchange(replace_asked_, true)) {
        complaint_ = path.filename().string() + " is there already. Press the button again to replace it.";
        return;
    }
    start_afresh();
    writer_->write(subject.forecast, draft_.choice, path);
}

void CardSession::write_folder(const CardSubject& subject) {
    if (!folder_stands(draft_.batch_from) || !folder_stands(draft_.folder)) return;
    const Batch batch{draft_.batch_from, draft_.folder, draft_.ending,
                      draft_.choice,     subject.bench, draft_.sheets};
    if (recipes_in(batch.from).empty()) {
        complaint_ = "There are no recipes in " + batch.from.string() + ".";
        return;
    }
    const std::size_t there = already_there(batch);
    if (there > 0 && !std::exchange(replace_all_asked_, true)) {
        complaint_ = std::to_string(there) + " of the files are there already. Press again to replace them.";
        return;
    }
    start_afresh();
    writer_->write_all(batch);
}

bool CardSession::has_news() const {
    if (writer_ && writer_->state().stage != writing_.stage) return true;
    if (!preview_) return false;
    const auto now = preview_->state();
    return now.latest != shown_.latest || now.busy != shown_.busy;
}

std::string file_name(const CardDraft& draft, const std::string& stem) {
    return draft.name.value_or(stem + "-" + word_for(draft.choice.kind) + draft.ending);
}

}  // namespace battwright::app
