#include "app/shelf/stash_session.hpp"

#include <algorithm>
#include <functional>
#include <utility>

#include "app/expected.hpp"

namespace battwright::app {
namespace {

bool there(const std::filesystem::path& path) {
    std::error_code error;
    return std::filesystem::exists(path, error);
}

// "stash.db.kept", then ".kept-2" and so on.
std::filesystem::path kept_beside(const std::filesystem::path& path, int n = 1) {
    return path.string() + (n == 1 ? ".kept" : ".kept-" + std::to_string(n));
}

constexpr int many_copies = 5;

// Nobody but she knows which of them can go, so she is told once there are many.
std::string many_kept(const std::filesystem::path& path) {
    int n = 0;
    while (there(kept_beside(path, n + 1))) ++n;
    if (n < many_copies) return {};
    return "; " + std::to_string(n) + " such copies lie beside it by now, so put away those you do not need";
}

measure::Complaint out_of_place(bool gone, const measure::Expected<std::filesystem::path>& copied,
                                const std::filesystem::path& path) {
    std::string what = gone ? "was deleted or moved away, and nothing more is written"
                            : "was replaced by another file, which is shown from now on";
    if (copied)
        return {
            what + "; all that was in it is in " + copied->string(),
            (gone ? "put the file back, or restore that copy" : "restore that copy if it is the newer one") +
                many_kept(path),
            path.string()};
    return {what + "; what was in it could not be copied: " + copied.error().what,
            gone ? "back it up to another place from the record before you leave"
                 : "look whether the other program has kept it",
            path.string()};
}

}  // namespace

StashSession::StashSession(std::filesystem::path path, const fibre::Catalogue* catalogue)
    : path_(std::move(path)), catalogue_(catalogue) {}

measure::Complaint StashSession::no_file() const {
    return {"there is no stash yet", "put something on the shelf first", path_.string()};
}

measure::Expected<void> StashSession::open(Make make) {
    if (stash_) return {};
    if (path_.empty())
        return tl::make_unexpected(
            measure::Complaint{"there is no stash here", "start the window with a file for it"});
    stash::OpenOptions how;
    how.create = make == Make::yes;
    how.catalogue = catalogue_;
    auto opened = stash::Stash::open(path_, how);
    if (!opened) return tl::make_unexpected(std::move(opened.error()));
    stash_.emplace(std::move(*opened));
    return {};
}

measure::Expected<void> StashSession::read() {
    auto shelf = stash_->shelf();
    if (!shelf) return tl::make_unexpected(std::move(shelf.error()));
    if (*shelf == shelf_) return {};
    if (auto taken = take(stash_->calibration(), calibration_); !taken) return taken;
    if (auto taken = take(stash_->carding_habit(), habit_); !taken) return taken;
    if (auto taken = take(stash_->hands(), hands_); !taken) return taken;
    if (auto taken = take(stash_->currency(), currency_); !taken) return taken;
    shelf_ = std::move(*shelf);
    ++version_;
    movements_ = movements_of(watched_);
    filter();
    return {};
}

// The complaint when the file that is open has lost its place since the last look.
std::optional<measure::Complaint> StashSession::look_after_file() {
    const auto now = stash_->standing();
    const bool told = now == standing_;
    standing_ = now;
    if (now == stash::Standing::in_place) copied_.reset();
    if (told || now == stash::Standing::in_place) return std::nullopt;
    if (!copied_) copied_ = stash_->keep_copy(kept_beside(path_));
    const auto copied = *copied_;
    const bool gone = now == stash::Standing::gone;
    // Before the new one is opened: a log left at the path would be taken for the new file's.
    if (!gone) let_go();
    return out_of_place(gone, copied, path_);
}

void StashSession::let_go() {
    stash_.reset();
    standing_ = stash::Standing::in_place;
    copied_.reset();
}

measure::Expected<void> StashSession::restore_anew(const std::filesystem::path& from) {
    stash::OpenOptions how;
    how.catalogue = catalogue_;
    if (auto done = stash::restore(from, path_, how); !done) return without_value(done);
    let_go();
    return open(Make::no);
}

std::optional<measure::Complaint> StashSession::refresh() {
    if (stash_) {
        if (auto moved = look_after_file()) return moved;
        if (standing_ != stash::Standing::in_place) return std::nullopt;
    }
    if (broken_ || path_.empty() || (!stash_ && !there(path_))) return std::nullopt;
    auto done = open(Make::no);
    if (done) done = read();
    if (done) return std::nullopt;
    broken_ = true;
    return done.error();
}

bool StashSession::has_news() {
    if (stash_ && stash_->standing() != standing_) return true;
    if (broken_ || path_.empty() || standing_ != stash::Standing::in_place) return false;
    if (!stash_) return there(path_);
    const auto shelf = stash_->shelf();
    return !shelf || *shelf != shelf_;
}

void StashSession::choose(ShelfChoice choice) {
    choice_ = std::move(choice);
    filter();
}

void StashSession::filter() {
    whole_ = stash::filtered(*shelf_, choice_.filter, choice_.order);
    scraps_.clear();
    shown_grams_ = 0.0;
    for (const auto& lot : whole_) shown_grams_ += lot->grams;
    away_.clear();
    if (const auto& near = choice_.filter.near)
        for (const auto& lot : whole_)
            if (const auto away = stash::distance(*lot, *near)) away_[lot.get()] = *away;
    const auto is_scrap = [this](const ShelvedPtr& lot) {
        return stash::is_scrap(*lot, choice_.filter.scrap_grams);
    };
    const auto first_scrap = std::stable_partition(whole_.begin(), whole_.end(), std::not_fn(is_scrap));
    scraps_.assign(first_scrap, whole_.end());
    whole_.erase(first_scrap, whole_.end());
}

std::optional<double> StashSession::away(const stash::Shelved& shelved) const {
    const auto found = away_.find(&shelved);
    return found == away_.end() ? std::nullopt : std::optional(found->second);
}

void StashSession::watch(const std::string& mark) {
    if (mark == watched_) return;
    watched_ = mark;
    movements_ = movements_of(mark);
}

std::vector<stash::Movement> StashSession::movements_of(const std::string& mark) {
    if (!stash_ || mark.empty()) return {};
    return stash_->movements(mark).value_or(std::vector<stash::Movement>{});
}

StashAnswer StashSession::answer(const StashRequest& request) {
    StashAnswer answer;
    answer.from = request.from;
    const auto* backup = request.action.get_if<RestoreFrom>();
    measure::Expected<void> done;
    const bool lost = standing_ == stash::Standing::gone && copied_ && *copied_;
    if (backup == nullptr || !lost) done = open(Make::yes);
    // The one action that mends a file which is lost or does not open.
    if (backup != nullptr && (lost || (!done && !path_.empty())))
        done = restore_anew(backup->path);
    else if (done)
        done = app::perform(*stash_, request.action, answer);
    if (done) done = read();
    if (done)
        broken_ = false;
    else
        answer.complaint = measure::in_units(done.error(), units_);
    return answer;
}

std::optional<measure::Complaint> StashSession::perform(const StashRequest& request) {
    auto given = answer(request);
    std::optional<measure::Complaint> unheard;
    if (request.from == 0) unheard = given.complaint;
    answers_.push_back(std::move(given));
    return unheard;
}

std::vector<measure::Complaint> StashSession::carry_out(const std::vector<StashRequest>& requests) {
    answers_.clear();
    std::vector<measure::Complaint> complaints;
    for (const auto& request : requests) {
        if (auto complaint = perform(request)) complaints.push_back(std::move(*complaint));
    }
    return complaints;
}

const StashAnswer* StashSession::answer_to(std::uint64_t from) const {
    const auto found = std::find_if(answers_.begin(), answers_.end(),
                                    [from](const StashAnswer& answer) { return answer.from == from; });
    return from == 0 || found == answers_.end() ? nullptr : &*found;
}

}  // namespace battwright::app
